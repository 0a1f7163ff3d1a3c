"""Notes and wishes as forms. Belongs here: how they are asked, and writing without reading. Not here: who may
(`bookings.access`)."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Layout
from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.actions import comfort
from bookings.models import Notes, Wish
from studio.forms.versioned import VersionedForm

NOT_ASKED = [("unknown", _("not asked")), ("true", _("yes")), ("false", _("no"))]
WISHES_AT_ONCE = 3


class NotesFields(forms.ModelForm):  # type: ignore[type-arg]
    """The notes of one person inside another form; every field may stay empty."""

    class Meta:
        model = Notes
        fields = Notes.names()

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _ask(self)


def _ask(form: forms.BaseForm) -> None:
    """A word is chosen from the brief's own, with "not asked" for nothing."""
    for name, field in form.fields.items():
        if isinstance(field, forms.NullBooleanField):
            field.widget = forms.NullBooleanSelect()
            field.widget.choices = NOT_ASKED
        elif isinstance(field, forms.TypedChoiceField):
            nothing = _("none") if name == "glasses_lens" else _("not asked")
            field.choices = [("", nothing), *[choice for choice in field.choices if choice[0] != ""]]


class WishForm(forms.ModelForm):  # type: ignore[type-arg]
    class Meta:
        model = Wish
        fields = ("note", "side", "wish")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            field.choices = [("", _("nothing")), *[choice for choice in field.choices if choice[0] != ""]]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("wish") and not cleaned.get("note"):
            self.add_error("note", _("Say what the wish is about, or leave the whole line empty."))
        if (cleaned.get("note") or cleaned.get("side")) and not cleaned.get("wish"):
            self.add_error(
                "wish", _("Say what is wished: softer, as it is, or shown. Age is never assumed to be hidden.")
            )
        return cleaned


WishFormSet = forms.formset_factory(WishForm, extra=WISHES_AT_ONCE, max_num=40, absolute_max=60)


def wishes_of(formset: Any) -> list[dict[str, str]]:
    """The lines that say something."""
    rows = [{name: form.cleaned_data.get(name, "") for name in WishForm.Meta.fields} for form in formset]
    return [row for row in rows if any(row.values())]


class MendNotesForm(VersionedForm):
    """Notes and wishes of one sitter by somebody who may read them."""

    class Meta:
        model = Notes
        fields = Notes.names()

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _ask(self)
        sitter = self.instance.sitter
        self.wishes = WishFormSet(
            self.data if self.is_bound else None,
            initial=list(sitter.wishes.values(*WishForm.Meta.fields)),
            prefix="wishes",
        )
        self.helper.layout = Layout("version", *Notes.names())

    def is_valid(self) -> bool:
        wishes = self.wishes.is_valid()  # asked even where the notes are wrong: all sentences at once
        return super().is_valid() and wishes

    def write(self) -> None:
        comfort.write(notes=self.instance, seen=self.cleaned_data["version"], wishes=wishes_of(self.wishes))


class AddNotesForm(NotesFields):
    """Notes and wishes by somebody who may add to them and not read them: always opened empty."""

    def __init__(self, data: Any = None) -> None:
        super().__init__(data)
        self.wishes = WishFormSet(data, prefix="wishes")

    def is_valid(self) -> bool:
        wishes = self.wishes.is_valid()
        return super().is_valid() and wishes
