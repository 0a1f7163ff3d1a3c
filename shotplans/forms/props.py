"""What else a brief asks for as fields of a form: the shapes a picture is cut to, and the props in it."""

from __future__ import annotations

import re
from typing import Any

from django import forms
from django.core.validators import RegexValidator
from django.utils.translation import gettext_lazy as _

from studio.models.quantities import LengthField, measure_in, plain

RATIO = re.compile(r"[1-9][0-9]{0,3}(\.[0-9]+)?[:x/][1-9][0-9]{0,3}(\.[0-9]+)?")  # as the planner reads it
NUMBER = re.compile(r"[0-9]{1,3}(\.[0-9]{1,6})?")
LEAST, MOST = 0.01, 100.0
MOST_CROPS, MOST_PROPS, PROPS_AT_ONCE = 12, 20, 2
NOT_KNOWN = (("", _("not known")), ("yes", _("yes")), ("no", _("no")))
one_line = RegexValidator(
    r"[\x00-\x1f\x7f]", _("There is a character in it that cannot be printed."), inverse_match=True
)


class CropsField(forms.CharField):
    """Ratios of width to height, with commas between: a list of the planner's own values, kept as they were typed."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=200, **kwargs)

    def prepare_value(self, value: Any) -> Any:
        if isinstance(value, list | tuple):
            return ", ".join(x if isinstance(x, str) else plain(x) for x in value)
        return value

    def to_python(self, value: Any) -> Any:
        typed = [part.replace(" ", "") for part in re.split(r"[,;\n]", super().to_python(value))]
        return [_ratio(part) for part in typed if part]

    def validate(self, value: Any) -> None:
        if len(value) > MOST_CROPS:
            raise forms.ValidationError(_("At most %(most)s shapes.") % {"most": MOST_CROPS})

    def run_validators(self, value: Any) -> None:
        """Each part has been read already; the length of what was typed bounds nothing more."""


def _ratio(text: str) -> str | float:
    if RATIO.fullmatch(text):
        return text
    if NUMBER.fullmatch(text) and LEAST <= float(text) <= MOST:
        return float(text)
    raise forms.ValidationError(
        _("%(text)s is no shape: give width to height, such as 4:5, with commas between.") % {"text": text[:40]}
    )


class PropForm(forms.Form):
    """One thing in the picture; an empty line is none."""

    label = forms.CharField(label=_("Prop"), max_length=120, validators=[one_line], required=False)
    size_m = LengthField(
        label=_("Longest side, m"), called=_("Longest side"), min_value=0.01, max_value=100, required=False
    )
    shiny = forms.ChoiceField(label=_("Shines"), choices=NOT_KNOWN, required=False)
    held_by = forms.ChoiceField(label=_("Held by"), required=False)

    def __init__(self, *args: Any, labels: list[str], units: str = "metric", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        measure_in(self, units)
        self.fields["held_by"].choices = [("", _("nobody")), *((x, x) for x in labels)]  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not data.get("label") and "label" not in self.errors and any(v not in ("", None) for v in data.values()):
            self.add_error("label", _("Say what it is, or leave the whole line empty."))
        return data

    def tree(self) -> dict[str, Any]:
        data = {k: v for k, v in self.cleaned_data.items() if v not in ("", None)}
        if "shiny" in data:
            data["shiny"] = data["shiny"] == "yes"
        return data


class _Props(forms.BaseFormSet):  # type: ignore[type-arg]
    def trees(self) -> list[dict[str, Any]]:
        """The props as the planner reads them."""
        return [tree for form in self.forms if (tree := form.tree())]


def prop_forms(
    labels: list[str], data: Any, initial: list[dict[str, Any]] | None, units: str
) -> Any:
    """The formset for a brief's props, with empty lines to add."""
    made = forms.formset_factory(
        PropForm, formset=_Props, extra=PROPS_AT_ONCE, max_num=MOST_PROPS, absolute_max=2 * MOST_PROPS
    )
    shown = [p | {"shiny": {True: "yes", False: "no"}.get(p.get("shiny"), "")} for p in initial or []]  # type: ignore[arg-type]
    return made(data, initial=shown, prefix="prop", form_kwargs={"labels": labels, "units": units})
