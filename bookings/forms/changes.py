"""A booked sitting as a form. Belongs here: what may be changed afterwards, the people with their rows, and what a
stale form shows. Not here: changing it (`bookings.actions.changes`)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from crispy_forms.layout import HTML, Fieldset, Layout
from django import forms
from django.forms.utils import ErrorDict, ErrorList
from django.utils import timezone
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from bookings import accounts, prices, wording
from bookings.actions import changes
from bookings.actions.changes import KeptPerson
from bookings.actions.sittings import SitterInput
from bookings.forms.moments import MomentForm, is_twice, offer_places
from bookings.forms.people import leave_posture_open
from bookings.forms.steps import MoneyField
from bookings.models import Sitter, Sitting
from bookings.models.sitters import MOST_IN_A_SITTING
from bookings.refusals import FeeNeedsNote, FeeToAgree, Objected, Refusal, StillNeeded, WrongAmount
from studio import clock
from studio.forms.versioned import Difference, VersionedForm
from studio.models import Member
from studio.models.kit import plain_label
from studio.models.quantities import plain
from studio.models.versions import Stale

OWN = ("minutes", "setup_minutes", "strike_minutes", "room", "photographer", "assistant", "purpose", "hangs",
       "print_width_cm")  # fmt: skip
PLACE = ("room", "photographer", "assistant")  # what an address may name beside a time: where it is moved to


class KeptPersonForm(forms.ModelForm):  # type: ignore[type-arg]
    """One person of a booked sitting; `sitter` is the key of who is there already, empty for somebody new."""

    sitter = forms.IntegerField(widget=forms.HiddenInput, required=False)

    class Meta:
        model = Sitter
        fields = ("label", *changes.DETAILS)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["label"].error_messages["required"] = _("Give this person a short name.")
        leave_posture_open(self)

    def person(self) -> KeptPerson:
        own = {name: self.cleaned_data[name] for name in self.Meta.fields}
        return KeptPerson(self.cleaned_data["sitter"], SitterInput(**own))


class _KeptPeople(forms.BaseFormSet):  # type: ignore[type-arg]
    def add_fields(self, form: forms.Form, index: int | None) -> None:
        super().add_fields(form, index)
        if "DELETE" in form.fields:
            form.fields["DELETE"].label = _("Take out of the sitting")
            form.fields["DELETE"].help_text = _("What is known of this person goes too.")

    def clean(self) -> None:
        """Names differ, and whoever is to be kept beside somebody finds them; a new name is followed."""
        staying = self.staying
        renamed = {form.initial.get("label"): form.cleaned_data.get("label") for form in staying if form.initial}
        labels = [form.cleaned_data.get("label") for form in staying]
        for number, form in enumerate(staying):
            label, beside = labels[number], form.cleaned_data.get("keep_with")
            if label and label in labels[:number]:
                form.add_error("label", _("Somebody else in this sitting is called that. Add a letter."))
            if beside and beside not in labels:
                beside = form.cleaned_data["keep_with"] = renamed.get(beside) or beside
            if beside and (beside not in labels or beside == label):
                form.add_error("keep_with", _("Nobody else in this sitting is called that."))
        if not staying:
            raise forms.ValidationError(_("Name at least one person who sits."))

    @property
    def staying(self) -> list[Any]:
        """The rows of those who are to be in the sitting."""
        rows = [form for form in self.forms if form.has_changed() or not form.empty_permitted]
        return [form for form in rows if not form.cleaned_data.get("DELETE")]

    @property
    def is_wrong(self) -> bool:
        return self.is_bound and self.total_error_count() > 0

    @property
    def going(self) -> list[Any]:
        """The rows of those who are to be taken out."""
        return [form for form in self.forms if form.cleaned_data.get("DELETE")]

    @property
    def taken_out(self) -> list[int]:
        return [form.cleaned_data["sitter"] for form in self.going if form.cleaned_data.get("sitter")]

    def people(self) -> list[KeptPerson]:
        return [form.person() for form in self.staying]

    def row_of(self, label: str) -> Any:
        """The row of somebody who was to be taken out."""
        return next((form for form in self.going if form.initial.get("label") == label), None)

    def leave_unjudged(self) -> None:
        self._errors, self._non_form_errors = [], ErrorList()
        for form in self.forms:
            form._errors = ErrorDict()


KeptPeopleFormSet = forms.formset_factory(
    KeptPersonForm,
    formset=_KeptPeople,
    extra=0,
    can_delete=True,
    can_delete_extra=False,
    max_num=MOST_IN_A_SITTING,
    absolute_max=MOST_IN_A_SITTING + 1,
    validate_max=True,
)


class ChangeForm(MomentForm, VersionedForm):
    """`keep()` changes the sitting; where it is refused, the sentence stands beside its field."""

    note = forms.CharField(
        label=_("Why"),
        max_length=400,
        required=False,
        validators=[plain_label],
        help_text=_("May stay empty; kept in the history."),
    )

    class Meta:
        model = Sitting
        fields = OWN

    def __init__(self, sitting: Sitting, data: Any = None, *, to: dict[str, Any] | None = None) -> None:
        """`to`: a time and place that was chosen in another page and is to be saved."""
        super().__init__(data, instance=sitting, initial=_as_typed(sitting) | (to or {}))
        self.changed = 0
        self.twice = is_twice(sitting.starts_at)  # then the page says which, and it can be changed
        self.sitters = {sitter.pk: sitter for sitter in sitting.sitters.all()}
        rows = [_row(sitter) for sitter in self.sitters.values()]
        self.people = KeptPeopleFormSet(data, initial=rows, prefix="people")
        offer_places(self, sitting)
        self.fields["assistant"].empty_label = _("nobody")
        fee = accounts.fee_to_move(sitting, clock.now())
        if fee:
            self.fields["agreed_fee"] = MoneyField(
                label=_("Fee agreed for another time"),
                required=False,
                initial=str(prices.rounded(fee, sitting.currency)),
                help_text=_("By the terms of this booking %(fee)s now; another fee needs a note. Else nothing is due.")
                % {"fee": wording.money(fee, sitting.currency)},
            )
        when = [name for name in ("day", "time", *OWN[:3], "agreed_fee") if name in self.fields]
        self.helper.layout = Layout(
            "version",
            Fieldset(_("When"), *when, css_class="grid"),
            HTML("{% include 'bookings/_which.html' %}"),
            Fieldset(_("Where and with whom"), *OWN[3:6], css_class="grid"),
            Fieldset(_("What for"), *OWN[6:], css_class="grid"),
        )

    def leave_unjudged(self) -> None:
        """Show what was typed without a word about it: somebody only asked for another row."""
        self._errors = ErrorDict()
        self.people.leave_unjudged()

    def is_valid(self) -> bool:
        people = self.people.is_valid()  # asked even where the rest is wrong: all sentences at once
        return super().is_valid() and people

    def keep_by(self, member: Member) -> bool:
        """Change the sitting; false when it was refused or somebody else was faster. The action keeps all or nothing
        by itself: a lapsed hold it met is let go even where the change is refused."""
        self.by = member
        try:
            self.write()
            return True
        except Stale as stale:
            self._tell(stale.current)
            return False
        except Refusal as refusal:
            row = self.people.row_of(refusal.label) if isinstance(refusal, StillNeeded) else None
            if row is not None:
                row.add_error("DELETE", str(refusal))
            else:
                self.refuse(refusal)
            return False

    def write(self) -> None:
        cleaned = self.cleaned_data
        rows = changes.change(
            by=self.by,
            sitting=self.instance,
            seen=cleaned["version"],
            people=self.people.people(),
            taken_out=self.people.taken_out,
            starts_at=cleaned["starts_at"],
            note=cleaned["note"],
            agreed_fee=cleaned.get("agreed_fee"),
            acknowledged=self.acknowledged,
            **{name: cleaned[name] for name in OWN},
        )
        self.changed = len(rows)

    def refuse(self, refusal: Refusal) -> None:
        super().refuse(refusal)
        if isinstance(refusal, Objected):
            self.add_error(None, _("Something speaks against that: tick what you accept, or choose another time."))

    def _field_of(self, refusal: Refusal) -> str | None:
        if isinstance(refusal, FeeToAgree | FeeNeedsNote | WrongAmount) and "agreed_fee" in self.fields:
            return "agreed_fee"
        return super()._field_of(refusal)

    def kept_values(self, row: Any) -> dict[str, Any]:
        return super().kept_values(row) | _as_typed(row)

    def _tell(self, current: Any) -> None:
        super()._tell(current)
        if current is not None:
            self.differences += self._differing({sitter.pk: sitter for sitter in current.sitters.all()})

    def _differing(self, kept: dict[int, Sitter]) -> Iterator[Difference]:
        """Where the rows differ from the people as they are kept now."""
        who = capfirst(_("who sits"))
        typed = {form["sitter"].value(): form for form in self.people.forms}
        for pk, sitter in kept.items():
            form = typed.pop(str(pk), None)
            if form is None:
                yield Difference(who, sitter.label, "-")
                continue
            for name, value in _row(sitter).items():
                field, here = form.fields[name], form[name].value()
                if name != "sitter" and field.has_changed(value, here):
                    label = f"{sitter.label}: {field.label}"
                    yield Difference(label, self._words(field, value), self._words(field, here))
        for form in typed.values():
            if form["label"].value():
                yield Difference(who, "-", form["label"].value())


def _as_typed(sitting: Sitting) -> dict[str, Any]:
    """What stands in a field otherwise than in its row: day and time in the zone in force, a width without a zero."""
    start, width = timezone.localtime(sitting.starts_at), sitting.print_width_cm
    return {
        "day": start.date(),
        "time": start.strftime("%H:%M"),
        "print_width_cm": None if width is None else plain(width),
    }


def _row(sitter: Sitter) -> dict[str, Any]:
    return {"sitter": sitter.pk} | {name: getattr(sitter, name) for name in KeptPersonForm.Meta.fields}
