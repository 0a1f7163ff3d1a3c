"""What a member sets for themselves, as a form. Belongs here: units of their screens. Not here: what the owner keeps of
members (`members`)."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from studio.forms.versioned import VersionedForm
from studio.models import Member


class MineForm(VersionedForm):
    class Meta:
        model = Member
        fields = ("units",)
        help_texts = {  # noqa: RUF012  (Django's own shape)
            "units": _("On your screens, and in what you type there. Paper is printed as the house measures."),
        }
