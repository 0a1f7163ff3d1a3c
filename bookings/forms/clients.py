"""A client and a kind of sitting as forms. Belongs here: order, grouping and explanation of their fields."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bookings.forms.priced import PricedForm, price_rows
from bookings.models import Client, Kind, Price
from bookings.models.kinds import PROMISED
from studio.forms.versioned import VersionedForm
from studio.models import KitItem

REMINDS = ("remind_clothes", "remind_coming", "remind_tomorrow")


class ClientForm(VersionedForm):
    class Meta:
        model = Client
        fields = ("name", "is_company", "email", "phone", "tax_exempt", "note", "not_again")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper.layout = Layout("version", *self.Meta.fields)


class KindForm(PricedForm):
    price_rows = price_rows(Kind, Price, _("Fee"))

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
            "terms",
            "kit",
            "delivery_days",
            "ask_back",
            *PROMISED,
            *REMINDS,
            "active",
        )
        widgets = {"included": forms.Textarea(attrs={"rows": 3})}  # noqa: RUF012  (Django's own shape)
        help_texts = {  # noqa: RUF012  (Django's own shape)
            "included": _("As a confirmation says it: one large print, a private viewing."),
            "retouching": _("As a confirmation says it: blemishes only; as agreed at the viewing."),
            "use": _("As a confirmation says it: private use; the company's own pages for two years."),
            "who_sees": _("Left empty: the client and the studio, nobody else without a release."),
            "balance_days": _("Days before the sitting; 0: on the day itself."),
            "minutes": _("How long the sitter is there."),
            "terms": _("What is agreed with a booking of this kind; bookings made before keep theirs."),
            "kit": _("A piece of kit that a booking of this kind holds from set-up to the end of strike."),
            "delivery_days": _("Open days while it is the studio's move; sittings booked before keep theirs."),
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
            Fieldset(_("Afterwards"), "delivery_days", "ask_back", css_class="grid"),
            Fieldset(_("What a confirmation promises"), *PROMISED, css_class="grid"),
            Fieldset(_("Reminders before it"), *REMINDS, css_class="grid"),
            Fieldset(_("Use"), "terms", "kit", "active", css_class="grid"),
        )
        self.fields["terms"].empty_label = _("none")
        self.fields["kit"].empty_label = _("nothing by name")
        there = ~Q(state=KitItem.State.LOST) | Q(pk=self.instance.kit_id)
        self.fields["kit"].queryset = KitItem.objects.filter(there).order_by("label", "code")
