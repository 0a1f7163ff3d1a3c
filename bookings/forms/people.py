"""The people of a new sitting as a form. Belongs here: one row a person with notes and wishes folded into it, and
rows added with or without a script. Not here: keeping them (`bookings.actions.sittings`)."""

from __future__ import annotations

from typing import Any

from django import forms
from django.forms.utils import ErrorDict, ErrorList
from django.utils.translation import gettext_lazy as _

from bookings.actions.comfort import said
from bookings.actions.sittings import SitterInput
from bookings.forms.comfort import NotesFields, WishFormSet, wishes_of
from bookings.models import Notes, Sitter
from bookings.models.sitters import MOST_IN_A_SITTING

AT_ONCE = 2  # empty rows on a fresh page


class PersonForm(forms.ModelForm):  # type: ignore[type-arg]
    """One person; `notes` and `wishes` are asked in the same row and may all stay empty."""

    class Meta:
        model = Sitter
        fields = ("label", "age_years", "height_cm", "posture", "household", "relation", "central", "keep_with")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        data = self.data if self.is_bound else None
        self.notes = NotesFields(data, prefix=f"{self.prefix}-notes")
        self.wishes = WishFormSet(data, prefix=f"{self.prefix}-wishes")
        self.fields["label"].error_messages["required"] = _("Give this person a short name, or empty the row.")
        posture = self.fields["posture"]
        posture.choices = [("", _("not asked")), *[choice for choice in posture.choices if choice[0] != ""]]

    def has_changed(self) -> bool:
        return super().has_changed() or self.says_more()

    def says_more(self) -> bool:
        """Whether notes or wishes say anything, or are wrong: then the row is not empty and they are shown open."""
        if not self.is_bound:
            return False
        return self.notes.has_changed() or self.wishes.has_changed()

    def is_valid(self) -> bool:
        own = super().is_valid()
        if self.empty_permitted and not self.has_changed():
            return own
        return all([own, self.notes.is_valid(), self.wishes.is_valid()])

    @property
    def is_wrong_inside(self) -> bool:
        return self.is_bound and (bool(self.notes.errors) or self.wishes.total_error_count() > 0)

    def person(self) -> SitterInput:
        own = {name: self.cleaned_data[name] for name in self.Meta.fields}
        notes = said({name: self.notes.cleaned_data[name] for name in Notes.names()})
        return SitterInput(**own, notes=notes, wishes=wishes_of(self.wishes))


class _People(forms.BaseFormSet):  # type: ignore[type-arg]
    def is_valid(self) -> bool:
        return all([super().is_valid(), *[form.is_valid() for form in self.forms]])

    def clean(self) -> None:
        labels: set[str] = set()
        named = False
        for form in self.forms:
            label = getattr(form, "cleaned_data", {}).get("label")
            if label in labels:
                form.add_error("label", _("Somebody else in this sitting is called that. Add a letter."))
            named = named or form.has_changed()
            labels |= {label} if label else set()
        if not named:
            raise forms.ValidationError(_("Name at least one person who sits."))

    @property
    def is_wrong(self) -> bool:
        if not self.is_bound:
            return False
        return self.total_error_count() > 0 or any(form.is_wrong_inside for form in self.forms)

    def leave_unjudged(self) -> None:
        for formset in (self, *[form.wishes for form in self.forms]):
            formset._errors, formset._non_form_errors = [], ErrorList()
            for form in formset.forms:
                form._errors = ErrorDict()
        for form in self.forms:
            form.notes._errors = ErrorDict()

    def people(self) -> list[SitterInput]:
        return [form.person() for form in self.forms if form.has_changed()]


PeopleFormSet = forms.formset_factory(
    PersonForm,
    formset=_People,
    extra=AT_ONCE,
    max_num=MOST_IN_A_SITTING,
    absolute_max=MOST_IN_A_SITTING + 1,
    validate_max=True,
)
