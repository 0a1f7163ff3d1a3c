"""What of the kit is asked for. Belongs here: the fields of the question and the rows that answer it. Not here: how
they are shown (`views.kit`)."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.db.models import Case, Count, IntegerField, Q, QuerySet, Value, When
from django.utils.translation import gettext_lazy as _

from studio.forms.versioned import helper
from studio.models import KIT, KitItem

FOUND_IN = ("label", "code", "case", "serial", "note")
NO_CASE = "-"  # a case is a word that can be read: a dash alone names none
_NONE_OF_THE_LIST = {"invalid_choice": _("Choose one of the list.")}


class KitFilter(forms.Form):
    """All of it, unless something is said. Words must each stand somewhere in name, code, case, serial number or
    note."""

    words = forms.CharField(label=_("Words or code"), required=False, max_length=80)
    section = forms.ChoiceField(label=_("Section"), required=False, error_messages=_NONE_OF_THE_LIST)
    state = forms.ChoiceField(label=_("State"), required=False, error_messages=_NONE_OF_THE_LIST)
    case = forms.ChoiceField(label=_("Case"), required=False, error_messages=_NONE_OF_THE_LIST)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        cases = KitItem.objects.exclude(case="").order_by("case").values_list("case", flat=True).distinct()
        self.fields["section"].choices = [("", _("all")), *((name, KitItem.Section(name).label) for name in KIT)]
        self.fields["state"].choices = [("", _("any")), *KitItem.State.choices]
        self.fields["case"].choices = [("", _("any")), (NO_CASE, _("in none")), *((case, case) for case in cases)]
        self.helper = helper()
        self.helper.layout = Layout(Fieldset("", *self.fields, css_class="grid short"))

    def pieces(self) -> QuerySet[KitItem]:
        """Those asked for, by section in the order of the brief, then by code."""
        return self._found().order_by(_in_order(), "code")

    def counts(self) -> list[tuple[KitItem.Section, int]]:
        """How many of them are in each section of the kit, were no section asked for."""
        found = self._found(without="section").order_by().values("section").annotate(n=Count("pk"))
        held = {row["section"]: row["n"] for row in found}
        return [(KitItem.Section(name), held.get(name, 0)) for name in KIT]

    def _found(self, without: str = "") -> QuerySet[KitItem]:
        said = self.cleaned_data if self.is_valid() else {}
        rows: QuerySet[KitItem] = KitItem.objects.all()
        for name in ("section", "state", "case"):
            if said.get(name) and name != without:
                rows = rows.filter(**{name: "" if (name, said[name]) == ("case", NO_CASE) else said[name]})
        for word in said.get("words", "").split():
            asked = Q()
            for name in FOUND_IN:
                asked |= Q(**{f"{name}__icontains": word})
            rows = rows.filter(asked)
        return rows


def _in_order() -> Case:
    at = [When(section=name, then=Value(n)) for n, name in enumerate(KIT)]
    return Case(*at, default=Value(len(KIT)), output_field=IntegerField())
