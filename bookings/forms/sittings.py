"""A new sitting as one form. Belongs here: what is asked and in which order, what the kind fills in, and where a refusal
is shown. Not here: booking (`bookings.actions.sittings`)."""

from __future__ import annotations

import json
from functools import cached_property
from typing import Any

from crispy_forms.layout import HTML, Div, Fieldset, Layout
from django import forms
from django.forms.utils import ErrorDict
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bookings import find, questions, wording
from bookings.actions import sittings
from bookings.forms.moments import MomentForm, leave_long_text_to_the_sentence
from bookings.forms.people import LINE, PeopleFormSet
from bookings.models import Client, Kind, Sitting
from bookings.models.sitters import MOST_IN_A_SITTING
from bookings.refusals import Objected, Refusal
from studio.forms.versioned import helper
from studio.models import Member, Role, Room
from studio.models.kit import plain_label

TIMES = ("minutes", "setup_minutes", "strike_minutes")
OF_CLIENT = ("new_name", "new_phone", "new_email", "new_is_company")
BOOKED = ("kind", *TIMES, "room", "photographer", "assistant", "purpose", "print_width_cm", "starts_at")


def kind_says(kind: Kind) -> str:
    """What choosing that kind fills in, but for its fee, which depends on the day."""
    parts = [
        gettext("%(minutes)d minutes, set-up %(setup)d, strike %(strike)d.")
        % {"minutes": kind.minutes, "setup": kind.setup_minutes, "strike": kind.strike_minutes}
    ]
    if kind.terms is not None:
        parts.append(gettext("Terms: %(name)s.") % {"name": kind.terms.name})
    asked = questions.worth_asking(kind)
    if asked:
        parts.append(gettext("Ask: %(questions)s.") % {"questions": "; ".join(asked)})
    return " ".join(parts)


class _KindSelect(forms.Select):
    """Each kind carries its times, its fees and what to ask, so that the page's script can write them down."""

    currency = ""

    def create_option(self, name: str, value: Any, *args: Any, **kwargs: Any) -> dict[str, Any]:
        option = super().create_option(name, value, *args, **kwargs)
        kind = getattr(value, "instance", None)
        if kind is not None:
            fees = [
                [price.from_day.isoformat(), gettext("Fee: %(fee)s.") % {"fee": wording.money(price.amount, self.currency)}]
                for price in kind.prices.all()
            ]
            option["attrs"] |= {f"data-{field}": getattr(kind, field) for field in TIMES}
            option["attrs"] |= {"data-says": kind_says(kind), "data-fees": json.dumps(fees)}
        return option


class SittingForm(MomentForm):
    """`keep()` books; where it is refused, the sentence stands beside its field and `offer` may hold a start that
    would do."""

    client = forms.ModelChoiceField(Client.objects.all(), label=_("Client"), required=False)
    new_name = forms.CharField(
        label=_("Client"),
        max_length=120,
        required=False,
        validators=[plain_label],
        help_text=_("Name, telephone, e-mail or sitting number finds those who are known; another name is a new one."),
    )
    new_phone = forms.CharField(label=_("Telephone"), max_length=40, required=False, widget=forms.TextInput)
    new_email = forms.EmailField(label=_("E-mail"), required=False)
    new_is_company = forms.BooleanField(label=_("a company"), required=False)
    people_line = forms.CharField(
        label=_("All of them in one line"),
        max_length=2000,
        required=False,
        help_text=_("Ottoline 66, Bertram 70, Wilf 2 on a lap; or: 9 people."),
    )

    class Meta:
        model = Sitting
        fields = ("kind", *TIMES, "room", "photographer", "assistant", "purpose", "print_width_cm")
        widgets = {"kind": _KindSelect}  # noqa: RUF012  (Django's own shape)

    def __init__(
        self,
        data: Any = None,
        *,
        initial: dict[str, Any] | None = None,
        currency: str = "",
        looking: bool = False,
    ) -> None:
        """`looking`: somebody asked who is meant by the name, so that those who fit it are shown."""
        super().__init__(data, initial=initial)
        self.people = PeopleFormSet(data, prefix="people")
        self.looking = looking
        self._offer_what_is_there(currency)
        for name in TIMES:
            self.fields[name].required = False
            self.fields[name].initial = None
            self.fields[name].help_text = _("Empty: as the kind has it.")
        self.fields["purpose"].label = _("What the pictures are for, and where they will hang")
        self.fields["purpose"].help_text = _("A wall over the sideboard, a company's web page, a gift.")
        self.fields["print_width_cm"].label = _("Width of the print, cm")
        leave_long_text_to_the_sentence(self)
        self.fields["new_phone"].widget.attrs |= {"inputmode": "tel", "autocomplete": "off"}
        for name in ("new_name", "new_email", LINE, "purpose"):
            self.fields[name].widget.attrs["autocomplete"] = "off"
        self.helper = helper()
        self.helper.layout = Layout(
            HTML("{% include 'bookings/_who_books.html' %}"),
            Fieldset(_("What"), "kind", HTML("{% include 'bookings/_kind_says.html' %}")),
            HTML("{% include 'bookings/_people.html' %}"),
            Fieldset(_("What for"), "purpose", "print_width_cm", css_class="grid"),
            Fieldset(_("When and where"), "day", "time", "room", "photographer", "assistant", css_class="grid"),
            Div(*TIMES, template="bookings/_times.html"),
        )

    def _offer_what_is_there(self, currency: str) -> None:
        """The lists to choose from; where there is one choice alone, it is made."""
        self.fields["kind"].queryset = Kind.objects.filter(active=True).select_related("terms").prefetch_related("prices")
        self.fields["kind"].widget.currency = currency
        self.fields["room"].queryset = Room.objects.filter(active=True)
        self.fields["photographer"].queryset = Member.objects.active().in_role(Role.PHOTOGRAPHER)
        self.fields["assistant"].queryset = Member.objects.active().in_role(Role.ASSISTANT)
        self.fields["assistant"].empty_label = _("nobody")
        for name in ("kind", "room", "photographer"):
            if not self.is_bound and name not in self.initial:
                choices = list(self.fields[name].queryset[:2])
                if len(choices) == 1:
                    self.initial[name] = choices[0].pk
