"""A new sitting as one form. Belongs here: what is asked, what the kind fills in, and where a refusal is shown. Not
here: booking (`bookings.actions.sittings`)."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.forms.utils import ErrorDict
from django.utils.translation import gettext_lazy as _

from bookings.actions import sittings
from bookings.forms.moments import MomentForm
from bookings.forms.people import PeopleFormSet
from bookings.models import Client, Kind, Sitting, Stage
from bookings.refusals import Refusal
from studio.forms.versioned import helper
from studio.models import Member, Role, Room
from studio.models.kit import plain_label

TIMES = ("minutes", "setup_minutes", "strike_minutes")


class _KindSelect(forms.Select):
    """Each kind carries its times, so that the page's script can write them into the form."""

    def create_option(self, name: str, value: Any, *args: Any, **kwargs: Any) -> dict[str, Any]:
        option = super().create_option(name, value, *args, **kwargs)
        kind = getattr(value, "instance", None)
        if kind is not None:
            option["attrs"] |= {f"data-{field}": getattr(kind, field) for field in TIMES}
        return option


class SittingForm(MomentForm):
    """`keep()` books; where it is refused, the sentence stands beside its field and `offer` may hold a start that
    would do."""

    client = forms.ModelChoiceField(Client.objects.all(), label=_("Client"), required=False, empty_label=_("a new one"))
    new_name = forms.CharField(
        label=_("Name of a new client"), max_length=120, required=False, validators=[plain_label]
    )
    new_is_company = forms.BooleanField(label=_("a company"), required=False)
    new_email = forms.EmailField(label=_("E-mail"), required=False)
    new_phone = forms.CharField(label=_("Telephone"), max_length=40, required=False)

    class Meta:
        model = Sitting
        fields = ("kind", *TIMES, "room", "photographer", "assistant", "purpose", "print_width_cm")
        widgets = {"kind": _KindSelect}  # noqa: RUF012  (Django's own shape)

    def __init__(self, data: Any = None, *, initial: dict[str, Any] | None = None) -> None:
        super().__init__(data, initial=initial)
        self.people = PeopleFormSet(data, prefix="people")
        self.fields["kind"].queryset = Kind.objects.filter(active=True)
        self.fields["room"].queryset = Room.objects.filter(active=True)
        self.fields["photographer"].queryset = Member.objects.active().in_role(Role.PHOTOGRAPHER)
        self.fields["assistant"].queryset = Member.objects.active().in_role(Role.ASSISTANT)
        self.fields["assistant"].empty_label = _("nobody")
        for name in TIMES:
            self.fields[name].required = False
            self.fields[name].initial = None
            self.fields[name].help_text = _("Empty: as the kind has it.")
        self.fields["purpose"].help_text = _("A wall over the sideboard, a company's web page, a gift.")
        self.helper = helper()
        self.helper.layout = Layout(
            Fieldset(
                _("Who books"), "client", "new_name", "new_is_company", "new_email", "new_phone", css_class="grid"
            ),
            Fieldset(_("What and when"), "kind", "day", "time", *TIMES, "purpose", "print_width_cm", css_class="grid"),
            Fieldset(_("Where and with whom"), "room", "photographer", "assistant", css_class="grid"),
        )

    def leave_unjudged(self) -> None:
        """Show what was typed without a word about it: somebody only asked for another row."""
        self._errors = ErrorDict()
        self.people.leave_unjudged()

    def is_valid(self) -> bool:
        people = self.people.is_valid()  # asked even where the rest is wrong: all sentences at once
        return super().is_valid() and people

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("client") and cleaned.get("new_name"):
            self.add_error("new_name", _("Choose a client or name a new one, not both."))
        if not cleaned.get("client") and not cleaned.get("new_name") and "new_name" not in self.errors:
            self.add_error("client", _("Choose a client, or name a new one."))
        kind = cleaned.get("kind")
        for name in TIMES:
            if kind and cleaned.get(name) is None and name not in self.errors:
                cleaned[name] = getattr(kind, name)
        return cleaned

    def keep(self, by: Member) -> Sitting | None:
        """The sitting, booked; None when it was refused."""
        cleaned = self.cleaned_data
        client = cleaned["client"] or Client(
            name=cleaned["new_name"],
            is_company=cleaned["new_is_company"],
            email=cleaned["new_email"],
            phone=cleaned["new_phone"],
        )
        names = ("kind", *TIMES, "room", "photographer", "assistant", "purpose", "print_width_cm", "starts_at")
        try:
            return sittings.book(
                by=by, client=client, sitters=self.people.people(), **{name: cleaned[name] for name in names}
            )
        except Refusal as refusal:
            self.refuse(refusal)
            return None


class StageForm(forms.Form):
    """A step of a sitting, as the page shows it; `seen` is the version it was shown at."""

    to = forms.ChoiceField(choices=Stage.choices)
    seen = forms.IntegerField(min_value=0, max_value=2**31)
    note = forms.CharField(max_length=400, required=False)
