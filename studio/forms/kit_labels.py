"""Labels of the kit as a form. Belongs here: which pieces, on which stickers, from which place on. Not here: where
stickers lie (`studio.paper.stickers`)."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from studio.forms.kit_filter import KitFilter
from studio.models import KitItem
from studio.paper.stickers import GRIDS

MOST = 1_000
MOST_A_SHEET = max(grid.count for grid in GRIDS.values())
PAPERS = {"a4": _("A4"), "letter": _("Letter")}


def _called(key: str) -> str:
    """A grid by its numbers: "A4, 24 to a sheet, 70 by 37 mm"."""
    grid, paper = GRIDS[key], PAPERS[key.split("-")[0]]
    words = {"paper": paper, "n": grid.count, "width": f"{grid.width:.4g}", "height": f"{grid.height:.4g}"}
    return gettext("%(paper)s, %(n)d to a sheet, %(width)s by %(height)s mm") % words


class LabelsForm(KitFilter):
    codes = forms.CharField(
        label=_("Or just these codes"), required=False, max_length=2_000,
        help_text=_("With blanks or commas between them; a code said twice gives two labels."),
    )  # fmt: skip
    grid = forms.ChoiceField(
        label=_("Stickers"), required=False, error_messages={"invalid_choice": _("Choose one of the list.")}
    )
    start = forms.IntegerField(
        label=_("First sticker"), required=False, min_value=1, max_value=MOST_A_SHEET, initial=1,
        help_text=_("Counted along the rows: a sheet that was begun is used up."),
        error_messages={"invalid": _("Give a number, 1 for a whole sheet.")},
    )  # fmt: skip

    def __init__(self, *args: Any, paper: str = "a4", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        keys = sorted(GRIDS, key=lambda key: not key.startswith(paper))  # the house's own paper first
        self.fields["grid"].choices = [(key, _called(key)) for key in keys]
        self.fields["grid"].initial = keys[0]
        which = ("words", "section", "state", "case", "codes")
        self.helper.layout = Layout(
            Fieldset(_("Which pieces"), *which, css_class="grid"),
            Fieldset(_("On which stickers"), "grid", "start", css_class="grid"),
        )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for name in ("grid", "start"):  # left out, it is what the page proposes
            if name not in self.errors:
                cleaned[name] = cleaned.get(name) or self.fields[name].initial
        grid = GRIDS.get(cleaned.get("grid", ""))
        if grid and cleaned.get("start", 1) > grid.count:
            self.add_error("start", gettext("This sheet has %(n)d stickers.") % {"n": grid.count})
        if cleaned.get("codes"):
            self._read_codes(cleaned)
        return cleaned

    def _read_codes(self, cleaned: dict[str, Any]) -> None:
        codes = cleaned["codes"].replace(",", " ").split()
        found = {row.code.casefold(): row for row in KitItem.objects.filter(code__in=codes)}
        unknown = [code for code in codes if code.casefold() not in found]
        if unknown:
            self.add_error("codes", gettext("No piece has the code “%(code)s”.") % {"code": unknown[0][:60]})
        self.named = [found[code.casefold()] for code in codes if code.casefold() in found]

    def labelled(self) -> list[KitItem]:
        """The pieces to make labels of, one more than are made where they are too many."""
        rows: QuerySet[KitItem] | list[KitItem] = self.named if self.cleaned_data["codes"] else self.pieces()
        return list(rows[: MOST + 1])
