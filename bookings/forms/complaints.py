"""A complaint, its end, and a re-shoot as forms. Belongs here: what each asks and in which order. Not here: keeping it
(`bookings.actions.complaints`)."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.db.models import Q
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from bookings.actions import complaints
from bookings.forms.steps import VERSION, note_field
from bookings.models import Cause, Complaint, Sitting
from bookings.models.complaints import KEEPERS
from bookings.models.sittings import OFF
from bookings.refusals import Refusal
from studio import clock
from studio.forms.days import DayField
from studio.forms.versioned import VersionedForm
from studio.models import Member

SETTLED_WITHIN = timedelta(days=7)  # common practice, no source


class ComplaintForm(VersionedForm):
    """The card, in the order of the telephone: listen, repeat back, ask, offer, write down what was agreed."""

    class Meta:
        model = Complaint
        fields = ("sitting", "said", "wanted", "offered", "agreed", "cause", "keeper", "due_on")
        field_classes = {"due_on": DayField}  # noqa: RUF012  (Django's own shape)
        widgets = {  # noqa: RUF012  (Django's own shape)
            "said": forms.Textarea({"rows": 3, "dir": "auto"}),
            "wanted": forms.Textarea({"rows": 2, "dir": "auto"}),
            "offered": forms.Textarea({"rows": 2, "dir": "auto"}),
            "agreed": forms.Textarea({"rows": 2, "dir": "auto"}),
        }
        help_texts = {  # noqa: RUF012
            "said": _("In their own words; read it back to them. Nothing about health or looks here."),
            "wanted": _("Ask them."),
            "agreed": _("As both of you would say it."),
        }

    def __init__(self, data: Any = None, *, by: Member, instance: Complaint, initial: Any = None) -> None:
        started = {"keeper": by.pk, "due_on": clock.today() + SETTLED_WITHIN} | (initial or {})
        super().__init__(data, instance=instance, initial=started if instance._state.adding else None)
        self.by = by
        sittings = Sitting.objects.filter(client=instance.client).select_related("client", "kind").reverse()
        self.fields["sitting"].queryset = sittings
        self.fields["sitting"].label_from_instance = sitting_words
        self.fields["sitting"].empty_label = _("no one sitting")
        keepers = Q(active=True, role_rows__role__in=KEEPERS) | Q(pk=instance.keeper_id)  # whose role changed since
        self.fields["keeper"].queryset = Member.objects.filter(keepers).distinct()
        for name in ("said", "wanted", "offered", "agreed"):
            self.fields[name].widget.attrs.pop("maxlength", None)  # the form says how long, and nothing is cut
        self.helper.layout = Layout(
            "version", "said", "wanted", "offered", "agreed",
            Fieldset(_("Whose it is"), "sitting", "cause", "keeper", "due_on", css_class="grid"),
        )  # fmt: skip

    def keep(self) -> bool:
        try:
            return super().keep()
        except Refusal as refusal:
            self.add_error(None, str(refusal))
            return False

    def write(self) -> None:
        complaints.keep(by=self.by, complaint=self.instance, seen=self.cleaned_data["version"])


class CloseForm(forms.Form):
    remedy = forms.CharField(
        label=_("Remedy"),
        max_length=2000,
        required=False,
        widget=forms.Textarea({"rows": 2, "dir": "auto"}),
        help_text=_("What was done about it; with it the card is closed."),
    )
    seen = forms.IntegerField(widget=forms.HiddenInput, **VERSION)


class OpenAgainForm(forms.Form):
    again_note = note_field()
    seen = forms.IntegerField(widget=forms.HiddenInput, **VERSION)


class ReshootForm(forms.Form):
    """Which earlier sitting this one takes again, and why."""

    first = forms.ModelChoiceField(Sitting.objects.none(), label=_("Instead of"), required=False)
    cause = forms.ChoiceField(label=_("Cause"), choices=Cause.choices)
    reshoot_note = note_field()

    def __init__(self, sitting: Sitting, data: Any = None) -> None:
        kept = getattr(sitting, "reshoot", None)
        initial = {"first": kept.first_id, "cause": kept.cause, "reshoot_note": kept.note} if kept else None
        super().__init__(data, initial=initial)
        earlier = Sitting.objects.filter(client=sitting.client_id, starts_at__lt=sitting.starts_at)
        self.fields["first"].queryset = earlier.exclude(stage__in=OFF).select_related("client", "kind").reverse()
        self.fields["first"].label_from_instance = sitting_words
        self.fields["first"].empty_label = _("it is no re-shoot")


def sitting_words(sitting: Sitting) -> str:
    """As one line to choose from."""
    return f"{sitting.number}, {date_format(timezone.localtime(sitting.starts_at), 'j F Y')}, {sitting.kind}"
