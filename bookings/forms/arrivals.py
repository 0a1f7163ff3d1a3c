"""Release, guardian, consents and waivers as forms. Belongs here: how they are asked of all the people of a sitting at
once. Not here: keeping them (`actions.arrivals`)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.actions.arrivals import Signature
from bookings.models import Consent, Guardian, How, Release
from bookings.permissions import Permission
from studio import clock
from studio.forms.days import DayInput
from studio.models.kit import plain_label

NOT_YET = [("", _("not yet"))]
ANSWERS = [("", _("not asked")), (Consent.Answer.YES, Consent.Answer.YES.label), (Consent.Answer.NO, _("no"))]


def _text(model: Any, name: str, **kwargs: Any) -> forms.CharField:
    """A line as long as the row keeps it."""
    kept = model._meta.get_field(name).max_length
    return forms.CharField(max_length=kept, required=False, validators=[plain_label], **kwargs)


class PeopleForm(forms.Form):
    """Some of the people of a sitting, to be ticked."""

    people = forms.TypedMultipleChoiceField(
        label=_("Whom it is about"),
        coerce=int,
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": _("Choose whom it is about.")},
    )

    def __init__(
        self, rows: Sequence[Permission], ticked: Sequence[Permission], data: Any = None, **kwargs: Any
    ) -> None:
        super().__init__(data, **kwargs)
        self.fields["people"].choices = [(row.sitter.pk, row.sitter.label) for row in rows]
        self.fields["people"].initial = [row.sitter.pk for row in ticked]


class ReleaseForm(PeopleForm):
    """Who signed for whom; not signed yet, the guardian alone is named."""

    how = forms.ChoiceField(label=_("Signed"), choices=[*How.by_hand(), *NOT_YET], required=False)
    signed_on = forms.DateField(label=_("on"), widget=DayInput)
    signed_by = _text(Release, "signed_by", label=_("Signed by"), help_text=_("Empty: each adult for themselves."))
    relation = _text(
        Guardian, "relation", label=_("Relation to them"), help_text=_("Mother, grandfather, guardian: for a minor.")
    )
    phone = _text(
        Guardian, "phone", label=_("Guardian's telephone"), widget=forms.TextInput({"inputmode": "tel"})
    )
    limits = _text(
        Release, "limits", label=_("Limits of use"), help_text=_("As on the release: no first name, not for posters.")
    )

    def __init__(self, rows: Sequence[Permission], data: Any = None) -> None:
        open_adults = [row for row in rows if not row.is_signed and not row.waived and not row.is_minor]
        open_minors = [row for row in rows if not row.is_signed and not row.waived and row.is_minor]
        ticked = open_adults or open_minors
        named = next((row.guardian for row in ticked if row.guardian and row.is_minor), None)
        kept = {"signed_by": named.name, "relation": named.relation, "phone": named.phone} if named else {}
        super().__init__(rows, ticked, data, initial={"how": How.PAPER, "signed_on": clock.today()} | kept)
        self.of_minor = bool(ticked) and ticked[0].is_minor

    @property
    def signature(self) -> Signature:
        said = self.cleaned_data
        return Signature(said["signed_by"], said["relation"], said["phone"], said["limits"])


class WaiveForm(PeopleForm):
    """Whose release is let go, and why."""

    waive_note = forms.CharField(label=_("Why"), max_length=400, required=False, validators=[plain_label])

    def __init__(self, rows: Sequence[Permission], data: Any = None) -> None:
        still = [row for row in rows if not row.is_signed and not row.waived]
        super().__init__(still, [row for row in still if row.waiver_asked] or still, data, auto_id="id_waive_%s")


class TakeBackForm(PeopleForm):
    """Whose release, or waiver, counts no more, and why."""

    taken_note = forms.CharField(label=_("Why"), max_length=400, required=False, validators=[plain_label])

    def __init__(self, rows: Sequence[Permission], data: Any = None) -> None:
        super().__init__([row for row in rows if row.release or row.waiver], [], data, auto_id="id_taken_%s")


class ConsentsForm(forms.Form):
    """Three questions to each person, each with the answer the page showed beside it."""

    consents_how = forms.ChoiceField(label=_("Answered"), choices=How.by_hand(), initial=How.DESK)

    def __init__(self, rows: Sequence[Permission], data: Any = None) -> None:
        super().__init__(data)
        self.rows = rows
        for row in rows:
            for what in Consent.What:
                name, now = f"{what}-{row.sitter.pk}", row.answer_to(what)
                choices = ANSWERS if now != Consent.Answer.WITHDRAWN else [*ANSWERS, (now, _("withdrawn"))]
                self.fields[name] = forms.ChoiceField(label=what.label, choices=choices, required=False, initial=now)
                self.fields[f"was-{name}"] = forms.CharField(required=False, widget=forms.HiddenInput, initial=now)

    def people(self) -> Iterator[tuple[Permission, list[tuple[Any, Any]]]]:
        for row in self.rows:
            names = [f"{what}-{row.sitter.pk}" for what in Consent.What]
            yield row, [(self[name], self[f"was-{name}"]) for name in names]

    @property
    def answers(self) -> dict[tuple[int, str], tuple[str, str]]:
        said = self.cleaned_data
        return {
            (row.sitter.pk, what): (said[f"{what}-{row.sitter.pk}"], said[f"was-{what}-{row.sitter.pk}"])
            for row in self.rows
            for what in Consent.What
        }
