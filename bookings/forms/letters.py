"""Letters, answers and wordings as forms. Belongs here: what is asked and what is said of a wrong field."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings import blanks, correspondence
from bookings.models import Answer, Sitting


class SendAgainForm(forms.Form):
    """A letter that has not gone out, to the same address or another."""

    to = forms.EmailField(label=gettext_lazy("To"), max_length=254)


class AnswerForm(forms.Form):
    """What a client said, on the telephone or by the link."""

    what = forms.ChoiceField(label=gettext_lazy("Answer"), choices=Answer.What.choices)
    note = forms.CharField(
        label=gettext_lazy("In their words"), max_length=400, required=False,
        help_text=gettext_lazy("Nothing about health or looks here."),
    )  # fmt: skip


class WordingForm(forms.Form):
    """A wording with its blanks looked through; `seen` is the version it was opened at."""

    subject = forms.CharField(label=gettext_lazy("Subject"), max_length=200)
    body = forms.CharField(
        label=gettext_lazy("Letter"), max_length=10_000, strip=False, widget=forms.Textarea(attrs={"rows": 24})
    )
    sitting = forms.CharField(
        label=gettext_lazy("Preview with sitting number"), max_length=12, required=False,
        help_text=gettext_lazy("For the preview alone; left empty, the sitting booked last."),
    )  # fmt: skip
    seen = forms.IntegerField(widget=forms.HiddenInput, min_value=0)

    def clean_subject(self) -> str:
        return self._looked_through("subject")

    def clean_body(self) -> str:
        self.cleaned_data["body"] = self.cleaned_data["body"].replace("\r\n", "\n")
        return self._looked_through("body")

    def clean_sitting(self) -> Sitting | None:
        number = self.cleaned_data["sitting"].strip().upper()
        rows = Sitting.objects.with_people()
        found = rows.filter(number=number).first() if number else rows.order_by("-pk").first()
        if number and found is None:
            raise forms.ValidationError(_("There is no sitting %(number)s.") % {"number": number})
        return found

    def _looked_through(self, name: str) -> str:
        text: str = self.cleaned_data[name]
        wrong: list[Any] = [
            forms.ValidationError(correspondence.fault_words(fault))
            for fault in blanks.faults(text, correspondence.BLANKS)
        ]
        if wrong:
            raise forms.ValidationError(wrong)
        return text
