"""Bringing in a list of kit as a form. Belongs here: the file. Not here: reading it (`studio.csv_in`), bringing it in
(`actions.kit_lists`)."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from studio.forms.versioned import helper

MOST_BYTES = 5_000_000
MOST_LINES = 12_000


class SendKitForm(forms.Form):
    file = forms.FileField(
        label=_("The list, as CSV"),
        widget=forms.FileInput({"accept": ".csv,.txt,.tsv,text/csv,text/plain"}),
        help_text=_("Its first line names its columns. Nothing is written before you have seen what it would do."),
        error_messages={"required": _("Choose a file."), "empty": _("This file is empty.")},
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = helper()

    def clean_file(self) -> Any:
        file = self.cleaned_data["file"]
        words = gettext("This list is too long: %(most)d lines or 5 MB at most. Part it.") % {"most": MOST_LINES}
        if file.size > MOST_BYTES:
            raise forms.ValidationError(words)
        self.content: bytes = file.read()
        if self.content.count(b"\n") > MOST_LINES:
            raise forms.ValidationError(words)
        return file
