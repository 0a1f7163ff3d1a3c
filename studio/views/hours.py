"""Pages of hours. Belongs here: when the house is open, who works when, and days off."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from studio import clock
from studio.access import allow
from studio.actions import hours as actions
from studio.forms.hours import DaysOffForm, WeekForm
from studio.models import DaysOff, Member, Week, Weekday
from studio.models.hours import USUAL


@allow("owner")
def hours(request: HttpRequest) -> HttpResponse:
    """The week of the house, of everybody, and the days off to come."""
    weeks = {week.member_id: week for week in Week.objects.with_days()}
    house = weeks[None].hours if None in weeks else USUAL
    people = [
        (member, _lines(weeks[member.pk].hours) if member.pk in weeks else None)
        for member in Member.objects.active()
    ]
    off = DaysOff.objects.filter(last_day__gte=clock.today()).select_related("member")
    return render(request, "studio/hours.html", {"house": _lines(house), "people": people, "days_off": off})


@allow("owner")
def house_week(request: HttpRequest) -> HttpResponse:
    return _week(request, None)


@allow("owner")
def member_week(request: HttpRequest, pk: int) -> HttpResponse:
    return _week(request, get_object_or_404(Member, pk=pk))


def _week(request: HttpRequest, member: Member | None) -> HttpResponse:
    weeks = Week.objects.with_days()
    house = weeks.filter(member=None).first()
    week = (house if member is None else weeks.filter(member=member).first()) or Week(member=member)
    form = WeekForm(week, house, request.POST or None, by=request.member)  # type: ignore[attr-defined]
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("The hours are saved."))
        return redirect("hours")
    return render(request, "studio/week.html", {"form": form, "week": week, "of": member})


@allow("owner")
@require_POST
def as_the_house(request: HttpRequest, pk: int) -> HttpResponse:
    """Somebody works whenever the house is open again."""
    member = get_object_or_404(Member, pk=pk)
    if actions.as_the_house(by=request.member, member=member):  # type: ignore[attr-defined]
        messages.success(request, _("%(name)s works whenever the house is open.") % {"name": member.name})
    return redirect("hours")


@allow("owner")
def new_days_off(request: HttpRequest) -> HttpResponse:
    return _days_off(request, DaysOff())


@allow("owner")
def days_off(request: HttpRequest, pk: int) -> HttpResponse:
    return _days_off(request, get_object_or_404(DaysOff, pk=pk))


def _days_off(request: HttpRequest, row: DaysOff) -> HttpResponse:
    form = DaysOffForm(request.POST or None, instance=row, by=request.member)  # type: ignore[attr-defined]
    if request.method == "POST" and "remove" in request.POST and row.pk:
        if form.remove():
            messages.success(request, _("Those days off are taken out."))
            return redirect("hours")
    elif request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("The days off are saved."))
        return redirect("hours")
    return render(request, "studio/days_off.html", {"form": form, "row": row})


def _lines(week: dict[int, tuple[object, object]]) -> list[tuple[str, tuple[object, object] | None]]:
    return [(str(weekday.label), week.get(weekday)) for weekday in Weekday]
