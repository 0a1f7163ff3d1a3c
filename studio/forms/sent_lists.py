"""A list sent in as a file, as a form. Belongs here: the file and how long it may be. Not here: reading it
(`studio.csv_in`)."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _


class SendListForm(forms.Form):
    """Each list says how long it may be, and what to do with a longer one."""

    most_bytes: int
    most_lines: int
    too_long: Any  # with a place for the most lines

    file = forms.FileField(
        label=_("The list, as CSV"),
        widget=forms.FileInput({"accept": ".csv,.txt,.tsv,text/csv,text/plain"}),
        help_text=_("Its first line names its columns. Nothing is written before you have seen what it would do."),
        error_messages={"required": _("Choose a file."), "empty": _("This file is empty.")},
    )

    def clean_file(self) -> Any:
        file = self.cleaned_data["file"]
        words = self.too_long % {"most": self.most_lines}
        if file.size > self.most_bytes:
            raise forms.ValidationError(words)
        self.content: bytes = file.read()
        if self.content.count(b"\n") > self.most_lines:
            raise forms.ValidationError(words)
        return file
