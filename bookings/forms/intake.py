"""Intake as forms. Belongs here: the questions to one sitter, or about the sitting, always opened empty; consents and
the signature. Not here: which questions (`bookings.intake_questions`), keeping them (`actions.intake`)."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.actions.arrivals import Signature
from bookings.intake_questions import AGE, NOTE, WIDTH, WORDS, Question, Text, heading
from bookings.models import Consent, IntakeAnswer, Notes, Sitter
from bookings.models.intake import wording_in_force
from bookings.permissions import ADULT_YEARS, Permission
from studio.models.kit import plain_label

_DRAWN = re.compile(r"(\d{1,3},\d{1,3}( \d{1,3},\d{1,3})*)(; \d{1,3},\d{1,3}( \d{1,3},\d{1,3})*)*")
BOUNDS = {AGE: (0, 130), WIDTH: (1, 1000)}
MOST_DRAWN = 20_000
BACK = "-"  # chosen: no answer, an earlier one is taken back
CONSENTS = (
    (Consent.What.PHOTOGRAPH, _("May we photograph {name}?")),
    (Consent.What.PUBLISH, _("May we show pictures of {name} to others?")),
    (Consent.What.KEEP_NOTES, _("May we keep what you told us above for {name}'s comfort?")),
)


class AnswersForm(forms.Form):
    """Questions of one sitter, or of the sitting where there is none. What was answered before is not shown again."""

    def __init__(
        self, questions: Sequence[Question], asked: dict[str, str], sitter: Sitter | None,
        answered: dict[str, IntakeAnswer], data: Any = None,
    ) -> None:  # fmt: skip
        self.sitter, self.questions, self.answered = sitter, questions, answered
        super().__init__(data, prefix=f"p{sitter.pk}" if sitter else "all")
        for question in questions:
            label = asked.get(question.code, str(question.asks))
            if question.is_number:
                low, high = BOUNDS.get(question.kind) or self._bounds(question)
                self.fields[question.code] = forms.FloatField(
                    label=label, required=False, min_value=low, max_value=high,
                    widget=forms.NumberInput({"inputmode": "decimal", "step": "any"}),
                )  # fmt: skip
            elif question.choices:
                self.fields[question.code] = forms.ChoiceField(
                    label=label, required=False, choices=[*question.choices, (BACK, _("no answer"))],
                    widget=forms.RadioSelect,
                )  # fmt: skip
            if question.words:
                self.fields[f"{question.code}-words"] = forms.CharField(
                    label=label if question.kind == WORDS else _("in your own words"), required=False, max_length=400,
                    validators=[plain_label],
                )  # fmt: skip
            if question.code in answered and not question.choices:
                label = _("Take my answer back")
                self.fields[f"{question.code}-back"] = forms.BooleanField(label=label, required=False)

    @staticmethod
    def _bounds(question: Question) -> tuple[float, float]:
        field: Any = Notes._meta.get_field(question.at)
        assert question.kind == NOTE
        return field.low, field.high

    def rows(self) -> Iterator[dict[str, Any]]:
        """Each question with its heading where that begins, its choice, its own words and the answer that is there."""
        under: Text = ""
        for question in self.questions:
            head = heading(question.code)
            names = {"choice": question.code, "words": f"{question.code}-words", "back": f"{question.code}-back"}
            fields = {part: self[name] if name in self.fields else None for part, name in names.items()}
            yield fields | {
                "question": question, "head": head if head != under else "", "answer": self.answered.get(question.code),
            }  # fmt: skip
            under = head

    @property
    def said(self) -> dict[str, tuple[str, str]]:
        found = {}
        for question in self.questions:
            value = self.cleaned_data.get(question.code)
            words = self.cleaned_data.get(f"{question.code}-words") or ""
            value = "" if value == BACK else value
            found[question.code] = (f"{value:g}" if isinstance(value, float) else value or "", words)
        return found

    @property
    def back(self) -> set[str]:
        """What is taken back: `code` for the choice or number, `code-words` for the own words. A blank field alone is
        none of it, since the page opens blank; a field that was emptied under the hand says so in `emptied`."""
        emptied = set(self.data.getlist("emptied")) if hasattr(self.data, "getlist") else set()
        found = {name for name in self.fields if self.add_prefix(name) in emptied and not self.cleaned_data.get(name)}
        for code in (question.code for question in self.questions):
            words = f"{code}-words"
            if self.cleaned_data.get(f"{code}-back") or self.cleaned_data.get(code) == BACK:
                found |= {code} | ({words} if not self.cleaned_data.get(words) else set())
        return found


class ClientConsentsForm(forms.Form):
    """Three questions about one sitter, each with the answer the page showed."""

    def __init__(self, row: Permission, data: Any = None) -> None:
        super().__init__(data, prefix=f"c{row.sitter.pk}")
        self.row = row
        for what, asks in CONSENTS:
            now = row.answer_to(what)
            shown = Consent.Answer.NO if now == Consent.Answer.WITHDRAWN else now
            self.fields[what] = forms.ChoiceField(
                label=str(asks).format(name=row.sitter.label), required=False, initial=shown,
                choices=[(Consent.Answer.YES, _("yes")), (Consent.Answer.NO, _("no"))], widget=forms.RadioSelect,
            )  # fmt: skip

    @property
    def answers(self) -> dict[tuple[int, str], tuple[str, str]]:
        """What was changed, and what stood; a no to what was withdrawn changes nothing."""
        found = {}
        for what, _asks in CONSENTS:
            said, now = self.cleaned_data[what], self.row.answer_to(what)
            if said and not (said == Consent.Answer.NO and now == Consent.Answer.WITHDRAWN):
                found[(self.row.sitter.pk, str(what))] = (said, now)
        return found


class SignForm(forms.Form):
    """The release of one sitter, signed on the page: typed, and drawn by whoever likes to."""

    signed_by = forms.CharField(max_length=120, validators=[plain_label], required=False)
    relation = forms.CharField(
        label=_("What you are to them: mother, grandfather, guardian"), max_length=60, validators=[plain_label],
        required=False,
    )  # fmt: skip
    phone = forms.CharField(
        label=_("Your telephone"), max_length=40, validators=[plain_label], required=False,
        widget=forms.TextInput({"inputmode": "tel", "autocomplete": "tel"}),
    )  # fmt: skip
    drawn = forms.CharField(required=False, max_length=MOST_DRAWN, widget=forms.HiddenInput)
    version = forms.IntegerField(widget=forms.HiddenInput)
    agree = forms.BooleanField(label=_("I have read it and agree"), required=False)

    def __init__(self, row: Permission, data: Any = None) -> None:
        self.row = row
        self.number, self.words = wording_in_force()
        super().__init__(data, prefix=f"s{row.sitter.pk}", initial={"version": self.number})
        name = row.sitter.label
        label = _("Your name, as guardian of %(name)s") if row.is_minor else _("Full name of %(name)s, as a signature")
        self.fields["signed_by"].label = label % {"name": name}
        if not row.is_minor:
            del self.fields["relation"], self.fields["phone"]

    def clean_drawn(self) -> str:
        drawn: str = self.cleaned_data["drawn"]
        if drawn and not _DRAWN.fullmatch(drawn):
            raise forms.ValidationError(_("The drawing could not be read. Clear it and draw again, or leave it out."))
        return drawn

    def clean(self) -> dict[str, Any]:
        said = super().clean() or self.cleaned_data
        if not said.get("signed_by") and "signed_by" not in self.errors:
            self.add_error("signed_by", _("Type the full name: it is the signature."))
        name = str(said.get("signed_by", "")).strip().casefold()
        if self.row.is_minor and name == self.row.sitter.label.strip().casefold():
            words = _("A guardian signs for somebody under %(years)d: their own name is no signature.")
            self.add_error("signed_by", words % {"years": ADULT_YEARS})
        if not said.get("agree"):
            self.add_error("agree", _("Tick this if you agree; otherwise leave the release unsigned."))
        if said.get("version") != self.number:
            self.add_error(None, _("The wording has changed since you opened the page. Read it once more, then sign."))
        return said

    @property
    def signature(self) -> Signature:
        said = self.cleaned_data
        return Signature(
            said["signed_by"], said.get("relation", ""), said.get("phone", ""), "", self.words, self.number,
            said["drawn"],
        )  # fmt: skip


class WordingForm(forms.Form):
    """New words for the release."""

    words = forms.CharField(label=_("Words of the release"), max_length=4000, widget=forms.Textarea({"rows": 12}))
