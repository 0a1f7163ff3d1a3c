"""The people of a new sitting as a form. Belongs here: one row a person with notes and wishes folded into it, and
rows made of one line. Not here: taking the line apart (`bookings.people_line`), keeping people
(`bookings.actions.sittings`)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django import forms
from django.forms.utils import ErrorDict, ErrorList
from django.http import QueryDict
from django.utils.translation import gettext, pgettext
from django.utils.translation import gettext_lazy as _

from bookings import people_line
from bookings.actions.comfort import said
from bookings.actions.sittings import SitterInput
from bookings.forms.comfort import WISHES_AT_ONCE, NotesFields, WishFormSet, wishes_of
from bookings.forms.moments import leave_long_text_to_the_sentence
from bookings.models import Notes, Sitter
from bookings.models.sitters import MOST_IN_A_SITTING, Posture

AT_ONCE = 1  # empty rows on a fresh page
SEEN_AT_ONCE = ("label", "age_years", "posture")  # the others lie folded
LINE = "people_line"
NOTHING_SAID = {"", "unknown"}


def leave_posture_open(form: forms.BaseForm) -> None:
    """Nothing chosen says that nobody asked."""
    posture: Any = form.fields["posture"]
    posture.choices = [("", _("not asked")), *[choice for choice in posture.choices if choice[0] != ""]]


class PersonForm(forms.ModelForm):  # type: ignore[type-arg]
    """One person; `notes` and `wishes` are asked in the same row and may all stay empty."""

    class Meta:
        model = Sitter
        fields = ("label", "age_years", "posture", "height_cm", "household", "relation", "central", "keep_with")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        data = self.data if self.is_bound else None
        self.notes = NotesFields(data, prefix=f"{self.prefix}-notes")
        self.wishes = WishFormSet(data, prefix=f"{self.prefix}-wishes")
        self.fields["label"].error_messages["required"] = _("Give this person a short name, or empty the row.")
        leave_posture_open(self)
        leave_long_text_to_the_sentence(self)

    @property
    def seen_at_once(self) -> list[forms.BoundField]:
        return [self[name] for name in SEEN_AT_ONCE]

    @property
    def folded(self) -> list[forms.BoundField]:
        return [self[name] for name in self.Meta.fields if name not in SEEN_AT_ONCE]

    @property
    def is_wrong_in_the_fold(self) -> bool:
        return self.is_bound and any(field.errors for field in self.folded)

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


def with_the_line(data: QueryDict) -> QueryDict:
    """The form as sent, with the people of its line in rows of their own and the line empty again. Where they would be
    too many for one sitting it stays as it was: the form then says so beside the line."""
    line, rows = data.get(LINE, ""), _rows(data)
    if not line.strip() or rows is None:
        return data
    empty = [number for number in rows if _is_empty(data, number)]
    taken = {data.get(f"people-{number}-label", "") for number in rows}
    found = people_line.people(line, words(), taken=taken, most=MOST_IN_A_SITTING)
    if not found or len(rows) - len(empty) + len(found) > MOST_IN_A_SITTING:
        return data
    copy = data.copy()
    places: Iterator[int] = iter([*empty, *range(len(rows), MOST_IN_A_SITTING)])
    for person in found:
        number = next(places)
        copy[f"people-{number}-label"] = person.label
        copy[f"people-{number}-age_years"] = person.age
        copy[f"people-{number}-posture"] = person.posture
        copy["people-TOTAL_FORMS"] = str(max(int(copy["people-TOTAL_FORMS"]), number + 1))
    copy[LINE] = ""
    return copy


def with_whole_rows(data: QueryDict) -> QueryDict:
    """The form as sent; where a row was added by somebody without a script, with the count of its wishes too."""
    copy = data.copy()
    for number in _rows(data) or ():
        copy.setdefault(f"people-{number}-wishes-TOTAL_FORMS", str(WISHES_AT_ONCE))
        copy.setdefault(f"people-{number}-wishes-INITIAL_FORMS", "0")
    return copy


def _rows(data: QueryDict) -> range | None:
    """The numbers of the rows that were sent; None where that cannot be read."""
    total = data.get("people-TOTAL_FORMS", "")
    readable = total.isascii() and total.isdecimal() and len(total) < 4
    return range(min(int(total), MOST_IN_A_SITTING)) if readable else None


def _is_empty(data: QueryDict, number: int) -> bool:
    start = f"people-{number}-"
    return all(value in NOTHING_SAID for name, value in data.items() if name.startswith(start) and "_FORMS" not in name)


def words() -> people_line.Words:
    """How the line's words are said in the language of the page, several ways parted by a bar."""
    return people_line.Words(
        joined=_ways(pgettext("between two people", "and|&|+")),
        years=_ways(gettext("years old|year old|years|year|yrs")),
        months=_ways(gettext("months old|month old|months|month")),
        aged=_ways(gettext("aged|age")),
        in_all=_ways(gettext("people|persons|sitters|in all")),
        counted={
            gettext("Person"): _ways(gettext("more people|other people|more|others")),
            gettext("Adult"): _ways(gettext("adults|adult|grown-ups")),
            gettext("Child"): _ways(gettext("children|child|kids")),
        },
        unnamed=gettext("Person"),
        postures={
            Posture.LAP: _ways(gettext("on a lap|on her lap|on his lap|on the lap|on lap|lap")),
            Posture.WHEELCHAIR: _ways(gettext("in a wheelchair|wheelchair")),
            Posture.FLOOR: _ways(gettext("on the floor|floor")),
            Posture.SEATED: _ways(gettext("seated|sitting|sits")),
            Posture.STANDING: _ways(gettext("standing|stands")),
        },
    )


def _ways(text: str) -> tuple[str, ...]:
    return tuple(way for way in text.split("|") if way)
