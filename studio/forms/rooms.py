"""A room with its windows and circuits as a form. Belongs here: how they are asked. Not here: what a set does in it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import partial
from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.utils.translation import gettext_lazy as _

from studio import lengths
from studio.forms.versioned import Difference, VersionedForm, helper
from studio.models import Circuit, Room, Window
from studio.models.quantities import measure_in, plain


class RoomForm(VersionedForm):
    """A room; its `windows` and `circuits` are saved along, under the room's version."""

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
            "away",
            "address",
            "way_in",
            "power_note",
            "emergency",
            "active",
        )
        help_texts = {  # noqa: RUF012  (Django's own shape)
            "width_m": _("One side of the floor, wall to wall."),
            "depth_m": _("The other side."),
            "ceiling_m": _("To the lowest thing a light could touch: a beam, a lamp."),
            "set_axis": _("Which way a set may face in this room."),
            "away": _("A client's house, an office: what is packed for it is packed apart, with more spares."),
            "active": _("Rooms not in use are not offered for new sittings."),
        }

    def __init__(self, *args: Any, units: str = "metric", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.units = units
        measure_in(self, units)
        sent = self.data if self.is_bound else None
        self.windows = self._windows(sent, self.instance)
        self.circuits = CircuitFormSet(sent, instance=self.instance, prefix="circuits")
        self.helper.layout = Layout(
            "version",
            "name",
            Fieldset(_("Size"), "width_m", "depth_m", "ceiling_m", "keep_out_m", "set_axis", css_class="grid"),
            Fieldset(_("Surfaces"), "surface_walls", "surface_ceiling", "surface_floor", css_class="grid"),
            Fieldset(_("Light that is there anyway"), "ambient_lux", "black_out"),
            Fieldset(_("The place"), "away", "address", "way_in", "power_note", "emergency"),
            Fieldset(_("Use"), "active"),
        )

    def _windows(self, sent: Any, room: Room) -> Any:
        rows = WindowFormSet(sent, instance=room, prefix="windows")
        for form in rows.forms:
            measure_in(form, self.units)
        return rows

    def is_valid(self) -> bool:
        parts = [self.windows.is_valid(), self.circuits.is_valid()]  # asked even where the room is wrong: all at once
        return super().is_valid() and all(parts)

    def write(self) -> None:
        super().write()
        for part in (self.windows, self.circuits):
            part.instance = self.instance
            part.save()

    def _tell(self, current: Any) -> None:
        """Rows somebody else took out cannot be saved again: the kept ones are shown, the typed ones read out."""
        super()._tell(current)
        if self._differs(_("Windows"), self.windows, current, partial(_window, self.units)):
            self.windows = self._windows(None, current)
        if self._differs(_("Circuits"), self.circuits, current, _circuit):
            self.circuits = CircuitFormSet(instance=current, prefix="circuits")

    def _differs(self, label: Any, rows: Any, current: Any, words: Callable[[Mapping[str, Any]], str]) -> bool:
        """Whether the rows typed are others than the kept ones; both are then read out."""
        typed = [
            {name: form[name].value() or "" for name in form.Meta.fields}
            for form in rows
            if not ("DELETE" in form.fields and form["DELETE"].value())
        ]
        here = _in_one_line(words(row) for row in typed if any(row.values()))
        kept = _in_one_line(map(words, getattr(current, rows.prefix).values())) if current else here
        if here != kept:
            self.differences.append(Difference(str(label), kept, here))
        return here != kept


def _in_one_line(rows: Iterable[str]) -> str:
    return "; ".join(sorted(rows)) or "-"


def _circuit(row: Mapping[str, Any]) -> str:
    """A circuit by name; numbers as they were typed where they are none."""
    return f"{row['label']}: {_number(row['volts'])} V, {_number(row['breaker_amps'])} A"


def _window(units: str, row: Mapping[str, Any]) -> str:
    return f"{row['wall']}: " + ", ".join(_length(row[name], units) for name in ("width_m", "height_m", "sill_m"))


def _length(value: Any, units: str) -> str:
    if units != "imperial":
        return f"{_number(value)} m"
    try:
        return lengths.shown(value if isinstance(value, float) else lengths.parse(str(value or ""), units), units)
    except lengths.NoLength:
        return str(value or "-")


def _number(value: Any) -> str:
    try:
        return plain(float(value))
    except (TypeError, ValueError):
        return str(value or "-")


class WindowForm(forms.ModelForm):  # type: ignore[type-arg]
    class Meta:
        model = Window
        fields = ("wall", "width_m", "height_m", "sill_m")


class CircuitForm(forms.ModelForm):  # type: ignore[type-arg]
    class Meta:
        model = Circuit
        fields = ("label", "volts", "breaker_amps")


class _Rows(forms.BaseInlineFormSet):  # type: ignore[type-arg]
    TAKE_OUT = _("Take this circuit out")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = helper()

    def add_fields(self, form: Any, index: int | None) -> None:
        super().add_fields(form, index)
        if "DELETE" in form.fields:
            form.fields["DELETE"].label = self.TAKE_OUT


class _Windows(_Rows):
    TAKE_OUT = _("Take this window out")


WindowFormSet = forms.inlineformset_factory(
    Room, Window, form=WindowForm, formset=_Windows, extra=1, can_delete_extra=False, max_num=40, absolute_max=60
)
CircuitFormSet = forms.inlineformset_factory(
    Room, Circuit, form=CircuitForm, formset=_Rows, extra=2, can_delete_extra=False, max_num=40, absolute_max=60
)
