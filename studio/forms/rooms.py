"""A room with its circuits as a form. Belongs here: how they are asked. Not here: what a set does in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.utils.translation import gettext_lazy as _

from studio.forms.versioned import Difference, VersionedForm, helper
from studio.models import Circuit, Room
from studio.models.quantities import plain


class RoomForm(VersionedForm):
    """A room; its circuits lie in `circuits` and are saved along, under the room's version."""

    class Meta:
        model = Room
        fields = (
            "name",
            "width_m",
            "depth_m",
            "ceiling_m",
            "keep_out_m",
            "set_axis",
            "surface_walls",
            "surface_ceiling",
            "surface_floor",
            "ambient_lux",
            "black_out",
            "active",
        )
        help_texts = {  # noqa: RUF012  (Django's own shape)
            "width_m": _("One side of the floor, wall to wall."),
            "depth_m": _("The other side."),
            "ceiling_m": _("To the lowest thing a light could touch: a beam, a lamp."),
            "set_axis": _("Which way a set may face in this room."),
            "active": _("Rooms not in use are not offered for new sittings."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.circuits = CircuitFormSet(self.data if self.is_bound else None, instance=self.instance, prefix="circuits")
        self.helper.layout = Layout(
            "version",
            "name",
            Fieldset(_("Size"), "width_m", "depth_m", "ceiling_m", "keep_out_m", "set_axis", css_class="grid"),
            Fieldset(_("Surfaces"), "surface_walls", "surface_ceiling", "surface_floor", css_class="grid"),
            Fieldset(_("Light that is there anyway"), "ambient_lux", "black_out"),
            Fieldset(_("Use"), "active"),
        )

    def is_valid(self) -> bool:
        circuits = self.circuits.is_valid()  # asked even where the room is wrong: all sentences at once
        return super().is_valid() and circuits

    def write(self) -> None:
        super().write()
        self.circuits.instance = self.instance
        self.circuits.save()

    def _tell(self, current: Any) -> None:
        """Circuits somebody else took out cannot be saved again: the kept ones are shown, the typed ones read out."""
        super()._tell(current)
        typed = [
            {name: form[name].value() or "" for name in ("label", "volts", "breaker_amps")}
            for form in self.circuits
            if not ("DELETE" in form.fields and form["DELETE"].value())
        ]
        here = _in_one_line(row for row in typed if any(row.values()))
        kept = _in_one_line(current.circuits.values()) if current else here
        if here != kept:
            self.differences.append(Difference(str(_("Circuits")), kept, here))
            self.circuits = CircuitFormSet(instance=current, prefix="circuits")


def _in_one_line(circuits: Iterable[Mapping[str, Any]]) -> str:
    """Circuits in one line, by name; numbers as they were typed where they are none."""
    words = (f"{row['label']}: {_number(row['volts'])} V, {_number(row['breaker_amps'])} A" for row in circuits)
    return "; ".join(sorted(words)) or "-"


def _number(value: Any) -> str:
    try:
        return plain(float(value))
    except (TypeError, ValueError):
        return str(value)


class CircuitForm(forms.ModelForm):  # type: ignore[type-arg]
    class Meta:
        model = Circuit
        fields = ("label", "volts", "breaker_amps")


class _Circuits(forms.BaseInlineFormSet):  # type: ignore[type-arg]
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = helper()

    def add_fields(self, form: Any, index: int | None) -> None:
        super().add_fields(form, index)
        if "DELETE" in form.fields:
            form.fields["DELETE"].label = _("Take this circuit out")


CircuitFormSet = forms.inlineformset_factory(
    Room, Circuit, form=CircuitForm, formset=_Circuits, extra=2, can_delete_extra=False, max_num=40, absolute_max=60
)
