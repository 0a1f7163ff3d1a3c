"""A sitting's shot list as a form of rows, and a pose card as a form."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from shotplans.actions import shots
from shotplans.forms.briefs import printable
from shotplans.models import OwnPoseCard
from shotplans.planner.words.poses import NAMES
from studio.forms.versioned import VersionedForm
from studio.models import Member
from studio.sent import whole

MOST_ROWS = 120


class ShotRow(forms.Form):
    """One picture of the list."""

    keep = forms.BooleanField(label=_("In the list"), required=False)
    words = forms.CharField(label=_("Picture"), max_length=200, required=False, validators=[printable])
    who = forms.MultipleChoiceField(
        label=_("Who"), required=False, widget=forms.CheckboxSelectMultiple,
        help_text=_("Nobody ticked: everybody of the set-up."),
    )  # fmt: skip
    must = forms.BooleanField(label=_("Must have"), required=False)
    setup = forms.ChoiceField(label=_("Set-up"), required=False)
    card = forms.ChoiceField(label=_("Pose card"), required=False)

    def __init__(self, *args: Any, people: Iterable[tuple[str, str]], setups: Iterable[str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["who"].choices = list(people)  # type: ignore[attr-defined]
        self.fields["setup"].choices = [(s, s) for s in setups]  # type: ignore[attr-defined]
        self.fields["card"].choices = [("", _("by who is in it")), *((k, _(name)) for k, name in NAMES.items())]  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        found = super().clean() or self.cleaned_data
        says = found.get("words", "").strip() or found.get("who") or "words" in self.errors
        if found.get("keep") and not says:
            self.add_error("words", _("Say what the picture is, or tick who is in it."))
        return found


class ShotListForm:
    """The rows in the order they were sent in; `number` is a row's own, whatever its place."""

    def __init__(self, people: list[tuple[str, str]], setups: list[str], sent: QueryDict | None = None,
                 first: Iterable[Mapping[str, Any]] = ()) -> None:  # fmt: skip
        self.people, self.setups, self.rows = people, setups, []
        if sent is None:
            self.rows = [self._row(n, initial=one) for n, one in enumerate(first)]
            return
        numbers = [whole(text, digits=3) for text in sent.getlist("row")[:MOST_ROWS]]
        self.rows = [self._row(n, data=sent) for n in dict.fromkeys(numbers) if n is not None]

    def _row(self, number: int, **kwargs: Any) -> ShotRow:
        row = ShotRow(prefix=f"row-{number}", people=self.people, setups=self.setups, **kwargs)
        row.number = number  # type: ignore[attr-defined]
        return row

    def is_valid(self) -> bool:
        judged = [row.is_valid() for row in self.rows]  # each is asked: all sentences at once
        return all(judged)

    def add(self) -> None:
        number = max((row.number for row in self.rows), default=-1) + 1  # type: ignore[attr-defined]
        if len(self.rows) < MOST_ROWS:
            self.rows.append(self._row(number, initial={"keep": True, "setup": self.setups[0] if self.setups else ""}))

    def move(self, number: int, by: int) -> None:
        """One row up (-1) or down (1), as far as there is room."""
        at = next((n for n, row in enumerate(self.rows) if row.number == number), None)  # type: ignore[attr-defined]
        if at is not None and 0 <= at + by < len(self.rows):
            self.rows[at], self.rows[at + by] = self.rows[at + by], self.rows[at]

    def kept(self) -> list[dict[str, Any]]:
        """The rows that stay, as values."""
        found = [row.cleaned_data for row in self.rows]
        return [
            {"words": d["words"].strip(), "who": [int(pk) for pk in d["who"]], "must": d["must"],
             "setup": d["setup"] or None, "card": d["card"] or None}
            for d in found if d["keep"]
        ]  # fmt: skip


class PoseCardForm(VersionedForm):
    """A card of the studio's own; who set it is kept with what it said before."""

    class Meta:
        model = OwnPoseCard
        fields = ("name", "base", "weight", "turn", "hands", "chin", "eyes", "seat", "caution", "in_use")

    def __init__(self, *args: Any, by: Member, before: dict[str, Any], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.by, self.before = by, before

    def write(self) -> None:
        super().write()
        shots.note_card(by=self.by, card=self.instance, before=self.before)
