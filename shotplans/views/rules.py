"""The studio's rules: all of them to read, one to change."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from shotplans import rulebook
from shotplans.forms.rules import RuleForm
from shotplans.models import RuleEdit
from shotplans.planner.rules import RULES
from studio.access import allow, on_screen


@allow("owner", "photographer")
def rules(request: HttpRequest) -> HttpResponse:
    """Every rule with its reason, and the studio's own numbers beside the first ones."""
    may_edit = request.member.has_role("owner")  # type: ignore[attr-defined]
    return render(request, "shotplans/rules.html", {"book": rulebook.read(), "may_edit": may_edit})


@allow("owner")
def rule(request: HttpRequest, code: str) -> HttpResponse:
    """The numbers of one rule to set, and their history."""
    if code not in RULES:
        raise Http404
    units = on_screen(request).units
    if "first" in request.POST:
        return _page(request, RuleForm.with_first(rulebook.entry(code), request.POST, request.POST["first"], units))
    form = RuleForm(rulebook.entry(code), request.POST if request.method == "POST" else None, units)
    if request.method == "POST" and form.is_valid() and form.keep(request.member):  # type: ignore[attr-defined]
        messages.success(request, _("Saved. Plans made from now on follow it; those made before say what to do."))
        return redirect("rule", code)
    return _page(request, form, status=422 if form.is_bound else 200)


def _page(request: HttpRequest, form: RuleForm, *, status: int = 200) -> HttpResponse:
    history = RuleEdit.objects.filter(rule=form.entry.code).select_related("by")
    return render(
        request, "shotplans/rule.html", {"entry": form.entry, "form": form, "history": history}, status=status
    )
