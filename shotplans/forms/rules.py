"""The numbers of one rule as a form. Belongs here: one field a number with its unit and range, and the reason for a
change. Not here: keeping them (`actions.rules`)."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Any

from django import forms
from django.forms.utils import ErrorDict
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shotplans import rulebook
from shotplans.actions import rules
from shotplans.forms.briefs import printable
from shotplans.planner import rules as planned
from studio.forms.versioned import CHANGED, Difference
from studio.models import Member
from studio.models.quantities import DIGITS, LengthField, QuantityField, exactly, plain


class RuleForm(forms.Form):
    """`keep()` saves; where somebody was faster, `differences` says what they set and everything typed stays."""

    version = forms.IntegerField(widget=forms.HiddenInput, required=False)
    why = forms.CharField(
        label=gettext_lazy("Why"),
        max_length=400,
        validators=[printable],
        error_messages={"required": gettext_lazy("Say why: somebody will ask.")},
        help_text=gettext_lazy("Stands in the history below."),
    )

    def __init__(self, entry: rulebook.Entry, data: Any = None, units: str = "metric") -> None:
        super().__init__(data)
        self.entry, self.units = entry, units
        self.differences: list[Difference] = []
        self.is_unjudged = False
        self.fields["version"].initial = entry.version
        for line in entry.lines:
            self.fields[_key(line)] = _field(line, units)
        self.order_fields([*map(_key, entry.lines), "why"])

    @classmethod
    def with_first(cls, entry: rulebook.Entry, data: Any, name: str, units: str) -> RuleForm:
        """The form as typed with one number back at its first value, judged by nobody yet."""
        copy = data.copy()
        for line in entry.lines:
            if line.name == name:
                copy[_key(line)] = _field(line, units).prepare_value(float(line.number.value))
        form = cls(entry, copy, units)
        form.is_unjudged, form._errors = True, ErrorDict()
        return form

    @property
    def numbers(self) -> Iterator[tuple[rulebook.Line, forms.BoundField]]:
        """Each number of the rule with its field."""
        return ((line, self[_key(line)]) for line in self.entry.lines)

    def clean(self) -> dict[str, Any]:
        """No band upside down: the planner could do nothing with it."""
        cleaned = super().clean() or self.cleaned_data
        typed = {
            (self.entry.code, line.name): cleaned[_key(line)] for line in self.entry.lines if _key(line) in cleaned
        }
        lines = {line.name: line for line in self.entry.lines}
        for _code, low, high in planned.crossed(planned.House(typed)):
            if _key(lines[low]) in cleaned and _key(lines[high]) in cleaned:
                above = _("The lower end would lie above the upper one, %(high)s.")
                self.add_error(_key(lines[low]), above % {
                    "high": _words(lines[high], cleaned[_key(lines[high])], self.units)
                })
        return cleaned

    def keep(self, by: Member) -> bool:
        """Save all of it or nothing; false when nothing differs or somebody else was faster."""
        cleaned = self.cleaned_data
        values = {line.name: cleaned[_key(line)] for line in self.entry.lines}
        try:
            edits = rules.change(
                by=by, rule=self.entry.code, values=values, why=cleaned["why"], seen=cleaned["version"]
            )
        except rules.ChangedMeanwhile:
            self._tell(rulebook.entry(self.entry.code))
            return False
        if not edits:
            self.add_error(None, _("Every number is as it was: there was nothing to save."))
        return bool(edits)

    def _tell(self, current: rulebook.Entry) -> None:
        self.add_error(None, CHANGED)
        for line in current.lines:
            here = self.cleaned_data[_key(line)]
            if here != line.value:
                words = (_words(line, value, self.units) for value in (line.value, here))
                self.differences.append(Difference(capfirst(line.number.said), *words))
        # The next save is made in knowledge of that version.
        self.data = self.data.copy()
        self.data["version"] = str(current.version)


def _key(line: rulebook.Line) -> str:
    return f"number-{line.name}"


def _field(line: rulebook.Line, units: str) -> QuantityField:
    """The range stands below the field and in the sentence that refuses a number outside it."""
    number = line.number
    imperial = units == "imperial" and number.unit in DIGITS
    low = _words(line, number.low, units) if imperial else plain(number.low)
    high = _words(line, number.high, units)
    wrong = _("Give a number from %(low)s to %(high)s.") % {"low": low, "high": high}
    called = capfirst(number.said)
    kind = partial(LengthField, called=called, kept=number.unit) if number.unit in DIGITS else QuantityField
    field = kind(
        label=called + (f" ({line.unit})" if line.unit else ""),
        initial=float(line.value),
        min_value=number.low,
        max_value=number.high,
        help_text=_("From %(low)s to %(high)s. First value: %(first)s.")
        % {"low": low, "high": high, "first": _words(line, number.value, units)},
        error_messages=dict.fromkeys(("required", "invalid", "min_value", "max_value"), wrong),
    )
    if isinstance(field, LengthField):
        field.measure_in(units)
    return field


def _words(line: rulebook.Line, value: float, units: str) -> str:
    return exactly(f"{plain(value)} {line.unit}".strip(), units)
