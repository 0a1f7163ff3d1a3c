"""A piece of kit as a form, one for each section. Belongs here: order and grouping of the fields. Not here:
the fields themselves, which are the models'."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.conf import settings
from django.utils.module_loading import import_string
from django.utils.translation import gettext_lazy as _

from studio.actions import kit as actions
from studio.forms.days import DayInput
from studio.forms.versioned import VersionedForm
from studio.models import KIT, KitItem, Member
from studio.models.quantities import measure_in

ANY_PIECE = ("code", "label", "state", "note")
KEEPING = ("mass_kg", "case", "serial", "bought_on", "next_test_on")
DAYS = ("bought_on", "next_test_on")


def own_fields(kind: type[KitItem]) -> list[str]:
    """What a plan asks of one kind, in the order of its model."""
    return [field.name for field in kind._meta.local_fields if not field.primary_key] + list(kind.PLANNED)


def kept_fields(kind: type[KitItem]) -> list[str]:
    """What is kept of every piece and no plan asks of this kind."""
    return [name for name in KEEPING if name not in kind.PLANNED]


class KitForm(VersionedForm):
    def __init__(self, *args: Any, units: str = "metric", by: Member | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        measure_in(self, units)
        self.by, self.before = by, self.instance.state if self.instance.pk else ""
        kind = type(self.instance)
        names = own_fields(kind)
        for name in kind.DEMANDED:
            self.fields[name].required = True
        needed = [name for name in names if self.fields[name].required]
        known = [name for name in names if name not in needed]
        self.fields["code"].error_messages["invalid"] = _("Letters, digits and hyphens only, no blanks.")
        for name in names:
            _call_the_open_choice(self.fields[name])
        if self.instance.pk:
            self.fields["code"].disabled = True
            self.fields["code"].help_text = _("Plans and labels carry it, so it stays.")
        groups = [Fieldset(_("The piece"), *ANY_PIECE, css_class="grid")]
        if needed:
            groups.append(Fieldset(_("A plan cannot do without"), *needed, css_class="grid"))
        if known:
            groups.append(
                Fieldset(
                    _("May stay empty: the plan then says what it took"),
                    *known,
                    css_class="grid",
                )
            )
        groups.append(Fieldset(_("How it is kept"), *kept_fields(kind), css_class="grid"))
        self.helper.layout = Layout("version", *groups)

    def write(self) -> None:
        super().write()
        if self.by is not None and self.before:
            actions.noted(by=self.by, piece=self.instance, before=self.before, after=self.instance.state)

    def _post_clean(self) -> None:
        """Once the numbers are good one by one, what upper apps know of them beside the other kit."""
        super()._post_clean()
        if not self.errors:
            for check in (import_string(path)() for path in settings.KIT_CHECKS):
                for name, sentence in check(self.instance):
                    self.add_error(name, sentence)


def _call_the_open_choice(field: forms.Field) -> None:
    """What is not chosen is not known, and says so."""
    if isinstance(field, forms.NullBooleanField):
        field.widget.choices[0] = ("unknown", _("not known"))
    elif isinstance(field, forms.TypedChoiceField) and not field.required:
        field.choices = [(value, word if value else _("not known")) for value, word in field.choices]


def form_for(section: str) -> type[KitForm]:
    kind = KIT[section]
    days = dict.fromkeys(DAYS, DayInput)
    fields = [*ANY_PIECE, *own_fields(kind), *kept_fields(kind)]
    return forms.modelform_factory(kind, form=KitForm, fields=fields, widgets=days)
