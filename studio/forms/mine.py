"""What a member sets for themselves, as a form. Belongs here: units and language of their screens. Not here: what the
owner keeps of members (`members`)."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext_lazy as _

from studio import languages
from studio.forms.versioned import VersionedForm
from studio.models import Member


class MineForm(VersionedForm):
    class Meta:
        model = Member
        fields = ("units", "language")
        help_texts = {  # noqa: RUF012  (Django's own shape)
            "units": _("On your screens, and in what you type there. Paper is printed as the house measures."),
            "language": _("Of your screens. Paper and letters are in the house's."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        languages.ask(self, or_house=True)
