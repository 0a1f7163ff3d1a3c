"""Bringing in a list of clients as forms. Belongs here: the file, and what each of its columns is. Not here: reading it
(`bookings.client_list`), bringing it in (`actions.client_lists`)."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bookings.actions.client_lists import ADD, MERGE, SKIP
from bookings.client_list import NAMES
from studio.csv_in import Head, Shape
from studio.forms.sent_lists import SendListForm

LEAVE_OUT = ("", _("leave out"))
FIELDS = {
    "name": _("name"),
    "first_name": _("first name"),
    "last_name": _("last name"),
    "email": _("e-mail"),
    "phone": _("telephone"),
    "note": _("note"),
}
ALIKE = ((SKIP, _("leave their line out")), (MERGE, _("fill in what is missing")), (ADD, _("add them all the same")))


class SendForm(SendListForm):
    # Each is looked for among the clients: a page cannot take longer than a person waits.
    most_bytes, most_lines = 2_000_000, 5_000
    too_long = _(
        "This list is too long for a page: %(most)d lines or 2 MB at most. Part it, or have it brought in on the "
        "machine itself with import_clients."
    )


class ColumnsForm(forms.Form):
    """What each column is, by our guess unless it was said otherwise; `shape` of what was cleaned reads the list."""

    def __init__(self, head: Head, data: Any = None) -> None:
        super().__init__(data)
        self.head = head
        taken: set[str] = set()
        for number, heading in enumerate(head.headings):
            guess = head.guess.get(number, "")
            example = head.examples[number] if number < len(head.examples) else ""
            self.fields[f"column_{number}"] = forms.ChoiceField(
                choices=[LEAVE_OUT, *FIELDS.items()],
                required=False,
                initial="" if guess in taken else guess,
                label=heading or gettext("column %(n)d") % {"n": number + 1},
                help_text=gettext("for example “%(what)s”") % {"what": example[:60]} if example else "",
            )
            taken.add(guess)
        self.fields["alike"] = forms.ChoiceField(
            choices=ALIKE, initial=SKIP, label=_("Whoever may be a client already")
        )
        self.fields["leave_out_faults"] = forms.BooleanField(
            required=False, label=_("Bring in the right lines though some are wrong")
        )

    @property
    def guessed(self) -> dict[str, Any]:
        """The form as it would be sent without a change."""
        return {name: field.initial for name, field in self.fields.items() if field.initial}

    @property
    def columns(self) -> list[Any]:
        return [self[f"column_{number}"] for number in range(len(self.head.headings))]

    @property
    def shape(self) -> Shape:
        chosen = {n: self.cleaned_data[f"column_{n}"] for n in range(len(self.head.headings))}
        return self.head.shape(chosen)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        seen: dict[str, str] = {}
        for number in range(len(self.head.headings)):
            name = f"column_{number}"
            field = cleaned.get(name)
            if field and field in seen:
                other = self.fields[seen[field]].label
                self.add_error(
                    name, gettext("“%(other)s” is the %(field)s already.") % {"other": other, "field": FIELDS[field]}
                )
            elif field:
                seen[field] = name
        if not self.errors and not seen.keys() & NAMES:
            self.add_error(None, _("Say which column is the name."))
        return cleaned
