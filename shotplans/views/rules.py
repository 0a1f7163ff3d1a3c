"""The studio's rules: all of them to read, one to change."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from shotplans import rulebook
from shotplans.forms.rules import RuleForm
from shotplans.models import RuleEdit
from shotplans.planner.rules import RULES
from studio.access import allow


@allow("owner", "photographer")
def rules(request: HttpRequest) -> HttpResponse:
    """Every rule with its reason, and the studio's own numbers beside the first ones."""
    return render(request, "shotplans/rules.html", {"book": rulebook.read()})


@allow("owner", "photographer")
def rule(request: HttpRequest, code: str) -> HttpResponse:
    """One rule with its history: the photographer reads it, the owner sets its numbers."""
    if code not in RULES:
        raise Http404
    may_edit = request.member.has_role("owner")  # type: ignore[attr-defined]
    if request.method != "POST":
        return _page(request, RuleForm(rulebook.entry(code)), may_edit=may_edit)
    if not may_edit:
        raise PermissionDenied
    if "first" in request.POST:
        return _page(request, RuleForm.with_first(rulebook.entry(code), request.POST, request.POST["first"]))
    form = RuleForm(rulebook.entry(code), request.POST)
    if form.is_valid() and form.keep(request.member):  # type: ignore[attr-defined]
        messages.success(request, _("Saved. Plans made from now on follow it; those made before say what to do."))
        return redirect("rule", code)
    return _page(request, form, status=422)


def _page(request: HttpRequest, form: RuleForm, *, may_edit: bool = True, status: int = 200) -> HttpResponse:
    history = RuleEdit.objects.filter(rule=form.entry.code).select_related("by")
    shown = {"entry": form.entry, "form": form, "may_edit": may_edit, "history": history}
    return render(request, "shotplans/rule.html", shown, status=status)
