"""Numbers with a unit. Belongs here: the one kind of field for a measured number, with its unit and its
bounds, so that a form can print both; and the one for what is counted. Not here: which numbers a thing has."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.functional import cached_property
from django.utils.text import capfirst, format_lazy
from django.utils.translation import gettext_lazy as _

from studio import lengths

DIGITS = {"m": 4, "cm": 2}  # of a length as it is kept: to a tenth of a millimetre


class Units(models.TextChoices):
    """How lengths are written: the house's way, and a member's own on their screens."""

    METRIC = "metric", _("metric: metres and centimetres")
    IMPERIAL = "imperial", _("imperial: feet and inches")


def plain(value: float) -> str:
    """The number as a person writes it: no zero behind the point, and no digit lost."""
    text = repr(float(value)).removesuffix(".0")
    return text if "e" not in text else f"{value:.10f}".rstrip("0").rstrip(".")


def exactly(said: str, units: str) -> str:
    """A number with its unit, a length among them as the house measures and so that a form takes it back."""
    number, _space, unit = said.partition(" ")
    if units != "imperial" or unit not in DIGITS:
        return said
    return lengths.shown(float(number) * lengths.METRES[unit], units, "ft" if unit == "m" else "in")


class QuantityField(forms.FloatField):
    """The field of a form for a `Quantity`: a plain line of text, for a number box would hide a slip of the key."""

    widget = forms.TextInput(attrs={"inputmode": "decimal"})

    def widget_attrs(self, widget: forms.Widget) -> dict[str, Any]:
        return {}

    def prepare_value(self, value: Any) -> Any:
        return plain(value) if isinstance(value, float) else value


class LengthField(QuantityField):
    """The field of a form for a length: metres, or feet and inches where the house measures in them.

    `kept` is the unit its value and bounds are in, "m" or "cm"; what is kept in centimetres is short, and is asked in
    inches alone.
    """

    units = "metric"

    def __init__(self, *, called: Any = "", kept: str = "m", **kwargs: Any) -> None:
        self.called, self.kept = called, kept
        self.bare = "ft" if kept == "m" else "in"
        super().__init__(**kwargs)

    def measure_in(self, units: str) -> None:
        """Asks and shows the length as the house measures; kept is always the metric value."""
        if units != "imperial":
            return
        asked = _("{label} (ft and in)") if self.bare == "ft" else _("{label} (in)")
        self.units, self.label = units, format_lazy(asked, label=self.called)
        said = _("Give a length from %(low)s to %(high)s, such as 4 ft 6 in or 54 in.") % {
            "low": self.words(self.min_value), "high": self.words(self.max_value),
        }  # fmt: skip
        self.error_messages |= dict.fromkeys(("invalid", "min_value", "max_value"), said)
        self.widget.attrs.pop("inputmode", None)

    def words(self, value: float) -> str:
        """A value as the field shows it."""
        if self.units != "imperial":
            return plain(value)
        return lengths.shown(value * lengths.METRES[self.kept], self.units, self.bare)

    def prepare_value(self, value: Any) -> Any:
        return self.words(value) if isinstance(value, float | int) else value

    def to_python(self, value: Any) -> float | None:
        if self.units != "imperial" or not isinstance(value, str) or not value.strip():
            return super().to_python(value)
        try:
            metres = lengths.parse(value, self.units, self.bare)
            return round(metres / lengths.METRES[self.kept], DIGITS[self.kept]) + 0.0
        except lengths.NoLength:
            raise forms.ValidationError(self.error_messages["invalid"], code="invalid") from None


def measure_in(form: forms.BaseForm, units: str) -> None:
    """Every length of a form as the house measures."""
    for field in form.fields.values():
        if isinstance(field, LengthField):
            field.measure_in(units)


class Quantity(models.FloatField):
    """A finite float from `low` to `high`, both included, in `unit`; None = not known where null is allowed."""

    def __init__(self, *args: Any, unit: Any = "", low: float = 0, high: float = 100, **kwargs: Any) -> None:
        self.unit, self.low, self.high = unit, low, high
        super().__init__(*args, **kwargs)

    @cached_property
    def validators(self) -> list[Any]:
        return [*super().validators, MinValueValidator(self.low), MaxValueValidator(self.high)]

    def deconstruct(self) -> tuple[str, str, list[Any], dict[str, Any]]:
        """A plain float to migrations: unit and bounds are no matter of the table."""
        name, _path, args, kwargs = super().deconstruct()
        return name, "django.db.models.FloatField", list(args), kwargs

    def formfield(self, **kwargs: Any) -> forms.Field:
        """The unit stands in the label, where eyes and screen readers both find it."""
        span = format_lazy(_("from {low} to {high} {unit}"), low=plain(self.low), high=plain(self.high), unit=self.unit)
        wrong = format_lazy(_("Give a number {span}."), span=span)
        kwargs.setdefault("label", format_lazy("{label} ({unit})", label=capfirst(self.verbose_name), unit=self.unit))
        words = {"invalid": wrong, "min_value": wrong, "max_value": wrong}
        kwargs.setdefault("form_class", QuantityField)
        return super().formfield(
            min_value=self.low, max_value=self.high, error_messages=words, **kwargs
        )

    def words(self, value: float | None, units: str = "metric") -> str:
        """The value as it is read out: number and unit; an f-number the trade's way round."""
        if value is None:
            return ""
        return f"f/{plain(value)}" if self.unit == "f/" else f"{plain(value)} {self.unit}"


class Length(Quantity):
    """A quantity in metres, which a house may ask and read in feet and inches."""

    def formfield(self, **kwargs: Any) -> forms.Field:
        return super().formfield(form_class=LengthField, called=capfirst(self.verbose_name), **kwargs)

    def words(self, value: float | None, units: str = "metric") -> str:
        if value is None or units != "imperial":
            return super().words(value)
        return lengths.shown(value, units)


def length(label: Any, *, low: float = 0.01, **kwargs: Any) -> Quantity:
    """A length; `low=0` where it may be nothing."""
    return Length(label, unit=_("m"), low=low, high=100, **kwargs)


def mass(label: Any, **kwargs: Any) -> Quantity:
    return Quantity(label, unit=_("kg"), high=10_000, **kwargs)


def power(label: Any, **kwargs: Any) -> Quantity:
    return Quantity(label, unit=_("W"), high=100_000, **kwargs)


def stops(label: Any, *, low: float = 0, high: float = 20, **kwargs: Any) -> Quantity:
    return Quantity(label, unit=_("stops"), low=low, high=high, **kwargs)


def angle(label: Any, *, low: float = 1, high: float = 180, **kwargs: Any) -> Quantity:
    return Quantity(label, unit=_("degrees"), low=low, high=high, **kwargs)


def share(label: Any, **kwargs: Any) -> Quantity:
    """A part of one."""
    return Quantity(label, unit=_("of the light"), high=1, **kwargs)


class WholeNumber(models.PositiveSmallIntegerField):
    """What is counted: minutes, days, people. Says its own bounds in forms too, where Django's would only say that
    nothing is below 0."""

    def deconstruct(self) -> tuple[str, str, list[Any], dict[str, Any]]:
        """A plain number to migrations: the bounds are validators already."""
        name, _path, args, kwargs = super().deconstruct()
        return name, "django.db.models.PositiveSmallIntegerField", list(args), kwargs

    def formfield(self, **kwargs: Any) -> Any:
        low, high = (
            next(one.limit_value for one in self.validators if type(one) is kind)
            for kind in (MinValueValidator, MaxValueValidator)
        )
        return super().formfield(**{"min_value": low, "max_value": high, **kwargs})


def whole_number(label: Any, *, low: int, high: int, **kwargs: Any) -> models.PositiveSmallIntegerField:
    """From `low` to `high`, both included; the label says of what."""
    return WholeNumber(label, validators=[MinValueValidator(low), MaxValueValidator(high)], **kwargs)
