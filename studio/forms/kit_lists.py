"""Bringing in a list of kit as a form. Belongs here: how long it may be. Not here: reading it (`studio.csv_in`),
bringing it in (`actions.kit_lists`)."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext_lazy as _

from studio.forms.sent_lists import SendListForm
from studio.forms.versioned import helper


class SendKitForm(SendListForm):
    most_bytes, most_lines = 5_000_000, 12_000
    too_long = _("This list is too long: %(most)d lines or 5 MB at most. Part it.")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = helper()
