"""The set moved by hand: asked while it moves, kept as a new version when a reason is given.

Asking keeps nothing. A script gets the answer as layers and words; a plain form gets it as a page.
"""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings.refusals import Refusal
from shotplans import live_page
from shotplans.actions import by_hand, plans
from shotplans.forms import live as sent
from shotplans.live_page import Answer, Moving, Ready
from shotplans.models import Plan
from shotplans.planner import words
from shotplans.planner.forecast import Change, Refused
from shotplans.sheets import measures
from studio.access import allow, on_screen


@allow("photographer")
@require_POST
def ask(request: HttpRequest, number: str, version: int, setup: int) -> HttpResponse:
    """What follows from what a hand did to one set-up."""
    plan, ready = _found(request, number, version, setup)
    answer, refused = _answered(request, ready)
    if request.headers.get("X-Fragment") == "live":
        return _parts(request, answer, refused)
    return _page(request, plan, setup, answer, refused)


@allow("photographer")
@require_POST
def keep(request: HttpRequest, number: str, version: int, setup: int) -> HttpResponse:
    """Keep the set as it stands as a new version of the plan."""
    plan, ready = _found(request, number, version, setup)
    answer, refused = _answered(request, ready)
    why = "".join(letter for letter in request.POST.get("why", "") if letter.isprintable())[:200]
    if refused:
        return _page(request, plan, setup, answer, refused, why=why)
    try:
        made = by_hand.keep(
            by=request.member, plan=plan, setup=ready.base.entry["name"],  # type: ignore[attr-defined]
            changes=answer.taken, why=why,
        )  # fmt: skip
    except by_hand.NoReason as error:
        return _page(request, plan, setup, answer, [], why_missing=str(error))
    except (plans.Refused, Refusal) as error:
        return _page(request, plan, setup, answer, [str(error)], why=why)
    said = _("Saved as plan %(n)s. Plan %(was)s is superseded.") % {"n": made.number, "was": version}
    messages.success(request, said)
    return redirect("plan", number=number, version=made.number)


def _found(request: HttpRequest, number: str, version: int, setup: int) -> tuple[Plan, Ready]:
    """The plan, what it is made of left in the database unless it is asked for: a hand is waiting."""
    known = Plan.objects.filter(sitting__number=number, number=version)
    plan = known.only("number", "made_at", "fingerprint", "blanked_at").first()
    ready = live_page.ready(plan, setup, on_screen(request).units) if plan else None
    if plan is None or ready is None:
        raise Http404
    return plan, ready


def _answered(request: HttpRequest, ready: Ready) -> tuple[Answer, list[str]]:
    """The set after all that was sent; what cannot be set is left as it stood, each with its sentence."""
    profile, refused = on_screen(request), list[str]()
    ways, settled = measures.of(profile.units), request.POST.get("moving") != "1"

    def after(changes: tuple[Change, ...], gesture: Change | None, label: str = "") -> Answer | None:
        try:
            return live_page.answer(ready, changes, gesture, profile, settled=settled)
        except Refused as error:
            said = ways.said(words.refusal(error.code, error.values))
            refused.append(f"{label}: {said}" if label else said)
            return None

    def read() -> tuple[tuple[Change, ...], Change | None]:
        try:
            return sent.state(request.POST), sent.gesture(request.POST)
        except sent.Unreadable as error:
            refused.append(str(error))
            return ready.own, None

    changes, gesture = ((), None) if request.POST.get("back") else read()
    answer = after(changes, gesture) or after(changes, None) or live_page.answer(ready, ready.own, None, profile)
    if gesture is None and not request.POST.get("back"):
        for change, label in sent.typed(request.POST, answer.cells.values(), profile.units):
            answer = after(answer.taken, change, label) or answer
    return answer, refused


def _parts(request: HttpRequest, answer: Answer, refused: list[str]) -> HttpResponse:
    layers, moved = answer.layers, request.POST.get("other_room") == "1" or not answer.own_room
    words_of = {"answer": answer, "units": on_screen(request).units}
    return JsonResponse(
        {
            "changes": answer.changes, "ruler": answer.ruler, "set": layers.set, "ghost": layers.ghost,
            "room": layers.room if moved else None, "box": live_page.box(layers), "own_room": answer.own_room,
            "grips": {grip.key: [round(grip.x, 2), round(grip.y, 2)] for grip in layers.grips},
            "cells": {name: [cell.value, _beside(cell.suggested), cell.options] for name, cell in answer.cells.items()},
            "drawn": layers.says, "says": answer.says, "refused": " ".join(refused),
            "answer": render_to_string("shotplans/_live_answer.html", words_of),
        }
    )  # fmt: skip


def _beside(suggested: str) -> str:
    return _("suggested %(was)s") % {"was": suggested} if suggested else ""


def _page(
    request: HttpRequest, plan: Plan, setup: int, answer: Answer, refused: list[str], **more: Any
) -> HttpResponse:
    name = plan.setups[setup - 1]["name"]
    profile = on_screen(request)
    context = {
        "plan": plan, "sitting": plan.sitting, "name": name, "refused": refused,
        "imperial": profile.units == "imperial",
        "live": Moving(setup, answer, live_page.drawn(setup, name, answer.layers)), **more,
    }  # fmt: skip
    status = 422 if refused or more.get("why_missing") else 200
    return render(request, "shotplans/live.html", context, status=status)
