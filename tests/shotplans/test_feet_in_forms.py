"""Brief, props, standard and rules in feet and inches for those who read in them: typed, kept metric, shown again."""

from __future__ import annotations

from typing import Any

import pytest

from shotplans import noted_lengths, rulebook
from shotplans.forms.as_shot import BuiltForm
from shotplans.forms.briefs import BriefForm
from shotplans.forms.props import PropForm
from shotplans.forms.rules import RuleForm
from shotplans.forms.standards import StandardForm
from shotplans.planner.rules import RULES
from shotplans.records import as_shot
from studio import clock, lengths
from studio.models.quantities import LengthField

BRIEF = {"key_side": "either", "orientation": "either", "setting_reading": "at_camera", "retouch": "none",
         "copy_space": "none"}  # fmt: skip


def brief(initial: Any = None, **typed: str) -> BriefForm:
    return BriefForm(BRIEF | typed if typed else None, day=clock.today(), units="imperial", initial=initial)


def standard(initial: Any = None, **typed: str) -> StandardForm:
    return StandardForm(typed | {"version": "0"} if typed else None, modifiers=(), units="imperial", initial=initial)


def prop(initial: Any = None, **typed: str) -> PropForm:
    return PropForm(typed | {"label": "chair"} if typed else None, labels=[], units="imperial", initial=initial)


def rule(code: str, **typed: str) -> RuleForm:
    entry = RULES[code]
    lines = tuple(rulebook.Line(name, number, None, None) for name, number in entry.numbers.items())
    made = rulebook.Entry(code, entry.when, entry.because, entry.source, lines, 0)
    first = RuleForm(made, units="imperial")
    held = {name: first[name].value() for name in first.fields if name.startswith("number-")}
    return RuleForm(made, held | typed | {"why": "Because."} if typed else None, "imperial")


@pytest.mark.parametrize(
    ("form", "name", "typed", "kept", "again"),
    [(brief, "viewing_m", "6' 2\"", 1.8796, "6 ft 2 in"), (brief, "viewing_m", "10", 3.048, "10 ft"),
     (brief, "print_width_cm", "20", 50.8, "20 in"), (brief, "furniture_width_cm", "6 ft", 182.88, "72 in"),
     (brief, "print_width_cm", "50 cm", 50.0, "19.685 in"), (prop, "size_m", "3 ft 0 1/2 in", 0.9271, "3 ft 0.5 in"),
     (standard, "key_m", "5 ft 3 in", 1.6002, "5 ft 3 in"),
     (standard, "camera_above_eyes_m", "-4 in", -0.1016, "-4 in")],
)  # fmt: skip
def test_what_is_typed_in_feet_is_kept_metric_and_shown_again(
    form: Any, name: str, typed: str, kept: float, again: str
) -> None:
    # 0.3048 and 0.0254 m, exact by definition; a short length's bare number is inches
    sent = form(**{name: typed})
    assert sent.is_valid(), sent.errors
    assert sent.cleaned_data[name] == kept
    shown = form(initial={name: kept})[name]
    assert shown.value() == again
    assert "(in)" in shown.label or "(ft and in)" in shown.label
    assert form(**{name: again}).is_valid()


@pytest.mark.parametrize(
    ("form", "name", "low"),
    [(brief, "viewing_m", "0.394 in"), (prop, "size_m", "0.394 in"), (standard, "key_m", "11.811 in")],
)  # fmt: skip
def test_what_is_no_length_is_told_beside_its_field_and_stays(form: Any, name: str, low: str) -> None:
    for typed in ("far", "900 ft"):
        sent = form(**{name: typed})
        assert f"Give a length from {low} to " in str(sent.errors[name])
        assert sent[name].value() == typed


def test_a_rule_s_lengths_are_typed_in_feet_and_back_to_the_first_value() -> None:
    code = "older_pair"
    form = rule(code)
    field = form.fields["number-seat_low_cm"]
    assert isinstance(field, LengthField)
    assert "first value: 17.717 in" in str(field.help_text).lower()  # 45 cm
    sent = rule(code, **{"number-seat_low_cm": "1' 6\""})
    assert sent.is_valid(), sent.errors
    assert sent.cleaned_data["number-seat_low_cm"] == 45.72
    held = sent.cleaned_data["number-seat_high_cm"]
    assert held == RULES[code].numbers["seat_high_cm"].value  # shown and sent back untouched, it is what it was
    wrong = rule(code, **{"number-seat_low_cm": "4 ft"})
    assert "13.78 in to 23.622 in" in str(wrong.errors["number-seat_low_cm"])
    first = RuleForm.with_first(sent.entry, {"number-seat_low_cm": "18 in"}, "seat_low_cm", "imperial")
    assert first["number-seat_low_cm"].value() == "17.717 in"


def test_in_metric_nothing_is_asked_otherwise() -> None:
    form = BriefForm(BRIEF | {"viewing_m": "2.5", "print_width_cm": "60"}, day=clock.today())
    assert form.is_valid(), form.errors
    assert form.cleaned_data["print_width_cm"] == 60
    assert form.fields["viewing_m"].label == "Looked at from, m"
    assert BriefForm(day=clock.today(), initial={"print_width_cm": 60})["print_width_cm"].value() == "60"


def built(**typed: str) -> BuiltForm:
    """A set-up as shot: light A planned at 2.10 m, its middle 2.24 m high, the camera at 3.00 m."""
    light = {"letter": "A", "head": "h", "modifier": "octa150-1", "distance_m": 2.1, "centre_height_m": 2.24}
    camera = {"lens": "lens85", "distance_m": 3.0, "height_m": 1.2, "aperture": 8.0, "shutter_s": 0.005, "iso": 100}
    data = {"lights": [light | {"bearing_deg": -20.0, "dial": "1/4 -0.3"}], "camera": camera, "order": 1}
    kit: dict[str, Any] = {"modifiers": [], "lenses": []}
    sent = typed | {"version": "0"} if typed else None
    return BuiltForm(sent, data_now=data, planned=data, kit=kit, units="imperial")


def test_a_set_is_written_down_in_feet_by_who_measures_in_them() -> None:
    first = built()
    assert first["A__distance_m"].label == "Distance"
    asked = first["A__distance_m"].value()
    assert lengths.parse(asked, "imperial") == 2.1  # shown and sent back untouched, it is what it was
    assert first["A__distance_m"].help_text == f"planned {asked}"
    moved = built(A__distance_m="7 ft", camera__height_m="3' 11\"", A__bearing_deg="-20")
    assert moved.is_valid(), moved.errors
    assert moved.typed["A", "distance_m"] == 2.1336  # 0.3048 m, exact by definition
    assert moved.typed["camera", "height_m"] == 1.1938
    wrong = built(A__distance_m="soon", A__centre_height_m="900 ft")
    assert "6 ft 10 in" in str(wrong.errors["A__distance_m"])
    assert "ft" in str(wrong.errors["A__centre_height_m"])


@pytest.mark.parametrize(
    ("what", "kept", "read"),
    [
        ("distance", "2.1336 m", "7 ft"),  # 0.3048 m, exact by definition
        ("height", "0.61 m", "2 ft"),  # to a quarter of an inch
        ("height", "1,5 m", "4 ft 11 in"),
        ("distance", "about 2 m", "about 2 m"),  # no number alone: somebody's words
        ("distance", "7 ft", "7 ft"),
        ("bearing", "20 degrees", "20 degrees"),
    ],
)
def test_a_length_that_was_noted_in_metres_is_read_in_feet(what: str, kept: str, read: str) -> None:
    one = noted_lengths.in_units("imperial", as_shot.Difference("A", what, kept, kept))
    assert (one.planned, one.actual) == (read, read)
    assert noted_lengths.in_units("metric", one) == one
