"""A client and a kind of sitting as forms. Belongs here: order, grouping and explanation of their fields."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django.utils.translation import gettext_lazy as _

from bookings.models import Client, Kind
from studio.forms.versioned import VersionedForm


class ClientForm(VersionedForm):
    class Meta:
        model = Client
        fields = ("name", "is_company", "email", "phone", "note")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper.layout = Layout("version", *self.Meta.fields)


class KindForm(VersionedForm):
    class Meta:
        model = Kind
        fields = (
            "name",
            "minutes",
            "setup_minutes",
            "strike_minutes",
            "intent",
            "framing",
            "background_tone",
            "view",
            "orientation",
            "active",
        )
        help_texts = {  # noqa: RUF012  (Django's own shape)
            "minutes": _("How long the sitter is there."),
            "active": _("Kinds that are not offered stay on the sittings they were booked as."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper.layout = Layout(
            "version",
            "name",
            Fieldset(_("Time"), "minutes", "setup_minutes", "strike_minutes", css_class="grid"),
            Fieldset(
                _("How its brief begins"),
                "intent",
                "framing",
                "background_tone",
                "view",
                "orientation",
                css_class="grid",
            ),
            Fieldset(_("Use"), "active"),
        )
