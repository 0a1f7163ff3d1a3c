"""A new sitting as one form. Belongs here: what is asked and in which order, and where a refusal is shown. Not here:
what the kind fills in (`kind_choice`), the people (`people`), booking (`bookings.actions.sittings`)."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import HTML, Div, Fieldset, Layout
from django import forms
from django.forms.utils import ErrorDict
from django.utils.functional import cached_property
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bookings import find, wording
from bookings.actions import sittings
from bookings.forms.kind_choice import TIMES, KindSelect, kind_says
from bookings.forms.moments import MomentForm, leave_long_text_to_the_sentence
from bookings.forms.occasions import OccasionField
from bookings.forms.people import LINE, PeopleFormSet, words
from bookings.models import Client, Kind, Sitting
from bookings.models.sitters import MOST_IN_A_SITTING, Posture
from bookings.refusals import Refusal
from studio.forms.versioned import helper
from studio.models import Member, Role, Room
from studio.models.kit import plain_label

FIELDS = ("kind", *TIMES, "room", "photographer", "assistant", "purpose", "hangs", "print_width_cm", "occasion_on")
BOOKED = (*FIELDS, "starts_at")

NOT_YET = {
    "kind": _("No kind of sitting yet: the owner enters the first."),
    "room": _("No room yet: the owner enters the first."),
    "photographer": _("Nobody photographs yet: the owner gives somebody the role."),
}


class SittingForm(MomentForm):
    """`keep()` books; where it is refused, the sentence stands beside its field and `offer` may hold a start that
    would do."""

    client = forms.ModelChoiceField(Client.objects.all(), label=_("Client"), required=False)
    new_name = forms.CharField(
        label=_("Client"),
        max_length=120,
        required=False,
        validators=[plain_label],
        widget=forms.TextInput({"aria-describedby": "who-hint"}),
    )
    new_phone = forms.CharField(label=_("Telephone"), max_length=40, required=False)
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
        fields = FIELDS
        field_classes = {"occasion_on": OccasionField}  # noqa: RUF012  (Django's own shape)
        widgets = {"kind": KindSelect}  # noqa: RUF012  (Django's own shape)

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
        self.fields["purpose"].label = _("What for")
        self.fields["purpose"].help_text = _("A ruby wedding, a company's web page, a gift.")
        self.fields["hangs"].help_text = _("Over the sideboard, north wall, seen from 3 m.")
        self.fields["print_width_cm"].label = _("Width of the print, cm")
        self.fields["occasion_on"].help_text = _("A wedding day, a birthday: they are asked back when it comes round.")
        leave_long_text_to_the_sentence(self)
        self._begin_where_nothing_is_filled_in()
        self.fields["new_phone"].widget.attrs |= {"inputmode": "tel", "autocomplete": "off"}
        for name in ("new_name", "new_email", LINE, "purpose", "hangs"):
            self.fields[name].widget.attrs["autocomplete"] = "off"
        self.helper = helper()
        self.helper.layout = Layout(
            HTML("{% include 'bookings/_who_books.html' %}"),
            Fieldset(
                _("What"),
                "kind",
                HTML("{% include 'bookings/_kind_says.html' %}"),
                Div("purpose", "hangs", "print_width_cm", css_class="grid"),
            ),
            HTML("{% include 'bookings/_people.html' %}"),
            Fieldset(_("When and where"), "day", "time", "room", "photographer", "assistant", css_class="grid"),
            HTML("{% include 'bookings/_which.html' %}"),
            HTML("{% include 'bookings/_times.html' %}"),
            Div("occasion_on", css_class="grid"),  # asked last: few have one
        )

    def _offer_what_is_there(self, currency: str) -> None:
        """The lists to choose from; where there is one room or photographer alone, it is that one, and where there is
        none yet, whose move that is."""
        kinds = Kind.objects.filter(active=True).select_related("terms").prefetch_related("prices")
        self.fields["kind"].queryset = kinds
        self.fields["kind"].widget.currency = currency
        self.fields["room"].queryset = Room.objects.filter(active=True)
        self.fields["photographer"].queryset = Member.objects.active().in_role(Role.PHOTOGRAPHER)
        self.fields["assistant"].queryset = Member.objects.active().in_role(Role.ASSISTANT)
        self.fields["assistant"].empty_label = _("nobody")
        if self.is_bound:
            return
        if not self.fields["kind"].queryset:  # read whole: the list is drawn of the same rows
            self.fields["kind"].help_text = NOT_YET["kind"]
        for name in ("room", "photographer"):
            choices = list(self.fields[name].queryset[:2])
            if not choices:
                self.fields[name].help_text = NOT_YET[name]
            elif len(choices) == 1 and name not in self.initial:
                self.initial[name] = choices[0].pk

    def _begin_where_nothing_is_filled_in(self) -> None:
        begun = [name for name in ("new_name", "kind", LINE) if not self.is_bound and not self.initial.get(name)]
        if begun:
            self.fields[begun[0]].widget.attrs["autofocus"] = True

    @cached_property
    def known(self) -> list[find.Found]:
        """Clients to choose from beside somebody new: the one chosen, and those who are meant by what was typed."""
        chosen = find.chosen(self.chosen_client)
        if self.looking:
            there = {one.client.pk for one in chosen}
            name = self.data.get("new_name", "")
            return [*chosen, *[one for one in find.clients(name).found if one.client.pk not in there]]
        if chosen or not self.is_bound:
            return chosen
        typed = {name: self.data.get(f"new_{name}", "") for name in ("name", "email", "phone")}
        return find.alike(**typed)

    @cached_property
    def chosen_kind(self) -> Kind | None:
        """The kind as chosen, to say what it fills in."""
        value = str(self["kind"].value() or "")
        return next((kind for kind in self.fields["kind"].queryset if str(kind.pk) == value), None)

    @property
    def kind_says(self) -> str:
        return kind_says(self.chosen_kind) if self.chosen_kind else ""

    @property
    def words_not_kept(self) -> str:
        """What the line of people may say about how somebody moves: as little a browser's to keep as the notes."""
        return "|".join(words().postures[Posture.WHEELCHAIR])

    @property
    def chosen_client(self) -> str:
        return str(self["client"].value() or "")

    @property
    def own_times(self) -> bool:
        """Whether other times than the kind's were typed, or are wrong: then they are shown open."""
        kind = self.chosen_kind
        usual = {name: str(getattr(kind, name, "")) for name in TIMES}
        return any(str(self[name].value() or "") not in ("", usual[name]) for name in TIMES)

    @property
    def asked_for(self) -> str:
        """Day, time and room that a click elsewhere has filled in already, for they stand at the end of the page."""
        if self.is_bound or "day" not in self.initial:
            return ""
        room = next((row.name for row in self.fields["room"].queryset if row.pk == self.initial.get("room")), "")
        parts = [wording.date(self.initial["day"]), self.initial.get("time", ""), room]
        return gettext("For %(when)s.") % {"when": ", ".join(part for part in parts if part)}

    def leave_unjudged(self) -> None:
        """Show what was typed without a word about it: somebody only asked for another row, or for a client."""
        self._errors = ErrorDict()
        self.people.leave_unjudged()
        if self.is_bound and self.data.get(LINE, "").strip():
            self._errors[LINE] = self.error_class([self._too_many()])  # else pressing the button would do nothing

    @staticmethod
    def _too_many() -> str:
        words = {"most": MOST_IN_A_SITTING}
        return gettext("One sitting takes %(most)d people at most: this line holds too many.") % words

    def is_valid(self) -> bool:
        people = self.people.is_valid()  # asked even where the rest is wrong: all sentences at once
        return super().is_valid() and people

    def clean_people_line(self) -> str:
        """Its people are in rows by now (`people.with_the_line`), unless they are too many."""
        if self.cleaned_data[LINE]:
            raise forms.ValidationError(self._too_many())
        return ""

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        named = cleaned.get("new_name") or "new_name" in self.errors
        if not cleaned.get("client") and not named and "client" not in self.errors:
            self.add_error("new_name", _("Name the client, or choose one who is known."))
        kind = cleaned.get("kind")
        for name in TIMES:
            if kind and cleaned.get(name) is None and name not in self.errors:
                cleaned[name] = getattr(kind, name)
        return cleaned

    def keep(self, by: Member, *, behind: Sitting | None = None) -> Sitting | None:
        """The sitting, booked; None when it was refused."""
        cleaned = self.cleaned_data
        client = cleaned["client"] or Client(
            name=cleaned["new_name"],
            is_company=cleaned["new_is_company"],
            email=cleaned["new_email"],
            phone=cleaned["new_phone"],
        )
        try:
            return sittings.book(
                by=by,
                client=client,
                sitters=self.people.people(),
                behind=behind,
                acknowledged=self.acknowledged,
                **{name: cleaned[name] for name in BOOKED},
            )
        except Refusal as refusal:
            self.refuse(refusal)
            return None
