"""The brief as a form: what the picture must say and do, and its set-ups. Turns into the planner's `brief` and back."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django import forms
from django.core.validators import RegexValidator
from django.utils.translation import gettext_lazy as _

from shotplans.forms.props import CropsField, one_line
from shotplans.planner import framings
from shotplans.snapshot import EVENT_ON
from studio.models.quantities import LengthField, measure_in

INTENTS = (
    ("soft", _("calm on lines")), ("even", _("consistent, matching")), ("natural", _("gentle shape")),
    ("bold", _("strong shape, deep shadow")), ("character", _("texture shown")),
    ("bright", _("light ground, low contrast")),
)  # fmt: skip
FRAMINGS = tuple((name, _(framing.words)) for name, framing in framings.FRAMINGS.items())
TONES = (("black", _("black")), ("dark", _("dark")), ("mid", _("mid")), ("light", _("light")), ("white", _("white")))
VIEWS = (
    ("either", _("as the light likes")), ("full", _("full face")), ("seven_eighths", _("seven eighths")),
    ("three_quarter", _("three quarters")), ("profile", _("profile")),
)  # fmt: skip
FACE_SIDES = (("either", _("either")), ("short", _("far cheek lit")), ("broad", _("near cheek lit")))
KEY_SIDES = (("either", _("either side")), ("camera_left", _("camera left")), ("camera_right", _("camera right")))
ORIENTATIONS = (("either", _("either way")), ("upright", _("upright")), ("horizontal", _("horizontal")))
DOMES = (("at_camera", _("dome to the camera")), ("at_key", _("dome to the key")))
COPY_SPACES = (("none", _("none")), ("left", _("left")), ("right", _("right")))
RETOUCHES = (("none", _("none")), ("light", _("light")), ("full", _("full")))
YES_NO = (("", _("not asked")), ("yes", _("yes")), ("no", _("no")))
SHORT = {"furniture_width_cm": _("Furniture under the print"), "viewing_m": _("Looked at from")}  # without the unit
WORDS = {"key_side": "either", "orientation": "either", "copy_space": "none", "retouch": "none"}  # where none is said
NUMBERS = ("print_width_cm", "minutes", "viewing_m", "furniture_width_cm")
MOST_SETUPS = 6
MOST_SENT = 2 * MOST_SETUPS  # more are no page of ours, and are not read
MOST_AHEAD = timedelta(days=3650)
printable = RegexValidator(
    r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]", _("There is a character in it that cannot be printed."), inverse_match=True
)


class SetupForm(forms.Form):
    """One set-up."""

    name = forms.CharField(label=_("Set-up"), max_length=80, validators=[one_line])
    intent = forms.ChoiceField(label=_("Light"), choices=INTENTS, initial="natural")
    framing = forms.ChoiceField(label=_("Framing"), choices=FRAMINGS, initial="head_and_shoulders")
    background_tone = forms.ChoiceField(label=_("Ground"), choices=TONES, initial="mid")
    view = forms.ChoiceField(label=_("Faces"), choices=VIEWS, required=False)
    face_side = forms.ChoiceField(label=_("Cheek"), choices=FACE_SIDES, required=False)
    people = forms.MultipleChoiceField(label=_("Who"), widget=forms.CheckboxSelectMultiple, required=False)

    def __init__(self, *args: Any, labels: list[str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["people"].choices = [(x, x) for x in labels]  # type: ignore[attr-defined]

    def has_changed(self) -> bool:
        """The empty set-up to add counts once it has a name or somebody in it: its lists always stand at something."""
        if self.empty_permitted and self.is_bound:
            typed = self.data.get(self.add_prefix("name"), "")  # type: ignore[union-attr]
            return bool(str(typed).strip()) or bool(self["people"].data)
        return super().has_changed()

    def tree(self) -> dict[str, Any]:
        """The set-up as the planner reads it."""
        data = {k: v for k, v in self.cleaned_data.items() if v not in ("", [], None) and k != "DELETE"}
        return data


class SetupFormSet(forms.BaseFormSet):  # type: ignore[type-arg]
    """The set-ups of a brief; names differ, because sheets and readings go by them."""

    def add_fields(self, form: forms.Form, index: int | None) -> None:
        super().add_fields(form, index)
        form.fields["DELETE"].label = _("Leave this set-up out")

    def clean(self) -> None:
        if any(self.errors):
            return
        names = [f.cleaned_data["name"] for f in self.kept()]
        if not names:
            raise forms.ValidationError(_("One set-up at least."))
        if len({n.casefold() for n in names}) < len(names):
            raise forms.ValidationError(_("Two set-ups have the same name: sheets and readings go by it."))

    def kept(self) -> list[SetupForm]:
        return [f for f in self.forms if f.cleaned_data.get("name") and not f.cleaned_data.get("DELETE")]


def setup_forms(labels: list[str], data: Any, initial: list[dict[str, Any]] | None) -> Any:
    """The formset, with one empty set-up to add."""
    made = forms.formset_factory(
        SetupForm, formset=SetupFormSet, extra=1, max_num=MOST_SETUPS, absolute_max=MOST_SENT, can_delete=True
    )
    said = {"too_many_forms": _("A brief has %(n)d set-ups at most.") % {"n": MOST_SETUPS}}
    return made(data, initial=initial, prefix="setup", form_kwargs={"labels": labels}, error_messages=said)


class BriefForm(forms.Form):
    """What holds for all set-ups. `day` is the day of the sitting, from which an event is counted."""

    MORE = (
        "retouch", "crops", "copy_space", "furniture_width_cm", "viewing_m", "event_on", "decider_present", "haze",
    )  # fmt: skip

    purpose = forms.CharField(
        label=_("What the picture is for"), max_length=400, required=False, validators=[printable]
    )
    print_width_cm = LengthField(
        label=_("Widest print, cm"), called=_("Widest print"), kept="cm", min_value=1, max_value=1000, required=False
    )
    key_side = forms.ChoiceField(label=_("Key at"), choices=KEY_SIDES)
    orientation = forms.ChoiceField(label=_("Pictures"), choices=ORIENTATIONS)
    setting_reading = forms.ChoiceField(label=_("Meter"), choices=DOMES)
    minutes = forms.FloatField(label=_("Minutes for the shots"), min_value=5, max_value=600, required=False)
    must = forms.CharField(
        label=_("Must have, one a line"),
        widget=forms.Textarea(attrs={"rows": 4}),
        max_length=2000,
        validators=[printable],
        required=False,
    )
    wished = forms.CharField(
        label=_("Wished, one a line"),
        widget=forms.Textarea(attrs={"rows": 3}),
        max_length=2000,
        validators=[printable],
        required=False,
    )
    retouch = forms.ChoiceField(label=_("Retouching agreed"), choices=RETOUCHES)
    crops = CropsField(
        label=_("Shapes it is cut to"), required=False, help_text=_("Width to height, with commas: 1:1, 4:5.")
    )
    copy_space = forms.ChoiceField(label=_("Space for words"), choices=COPY_SPACES)
    furniture_width_cm = LengthField(
        label=_("Furniture under the print, cm wide"), called=_("Furniture under the print, how wide"), kept="cm",
        min_value=1, max_value=10_000, required=False,
    )  # fmt: skip
    viewing_m = LengthField(
        label=_("Looked at from, m"), called=_("Looked at from"), min_value=0.01, max_value=100, required=False
    )
    event_on = forms.DateField(
        label=_("Needed for the day"),
        required=False,
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages={"invalid": _("Give a day as year-month-day, such as 2027-05-03.")},
    )
    decider_present = forms.ChoiceField(label=_("Whoever decides is there"), choices=YES_NO, required=False)
    haze = forms.BooleanField(label=_("Fog or haze in the picture"), required=False)
    version = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, day: date, units: str = "metric", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.day = day
        measure_in(self, units)

    @staticmethod
    def initial_from(brief: dict[str, Any], day: date) -> dict[str, Any]:
        """The form's values for a brief."""
        found = {k: brief.get(k) for k in ("purpose", *NUMBERS)}
        found |= {name: brief.get(name) or usual for name, usual in WORDS.items()}
        found["setting_reading"] = (brief.get("meter") or {}).get("setting_reading") or "at_camera"
        found["must"], found["wished"] = ("\n".join(brief.get(k) or []) for k in ("must", "wished"))
        found["crops"] = brief.get("crops") or []
        found["haze"] = bool(brief.get("haze"))
        found["decider_present"] = {True: "yes", False: "no"}.get(brief.get("decider_present"), "")  # type: ignore[arg-type]
        found["event_on"] = brief.get(EVENT_ON)
        if not found["event_on"] and (days := brief.get("event_in_days")) is not None:
            found["event_on"] = day + timedelta(days=int(days))
        return found

    def clean_event_on(self) -> date | None:
        event_on: date | None = self.cleaned_data["event_on"]
        if event_on and not timedelta(0) <= event_on - self.day <= MOST_AHEAD:
            raise forms.ValidationError(
                _("Give a day on or after the sitting, %(day)s, and within %(years)s years of it.")
                % {"day": self.day, "years": MOST_AHEAD.days // 365}
            )
        return event_on

    @property
    def said(self) -> str:
        """What of the folded part the brief says already, by the names of its fields."""
        nothing = (None, "", "none", False, [])
        said = (name for name in self.MORE if self.initial.get(name) not in nothing)
        return "; ".join(str(SHORT.get(name, self.fields[name].label)) for name in said)

    @property
    def more_to_show(self) -> bool:
        """Whether something in the folded part was refused, and must be seen."""
        return self.is_bound and any(name in self.errors for name in self.MORE)

    def tree(self, setups: list[SetupForm], props: list[dict[str, Any]], former: dict[str, Any]) -> dict[str, Any]:
        """The brief as it is kept; what the form does not ask for stays as it was."""
        data = self.cleaned_data
        tree = dict(former)
        tree |= {name: data[name] for name in WORDS}
        looks = {s["name"]: s["standard"] for s in former.get("setups") or () if s.get("standard")}
        tree["setups"] = [_with_look(s.tree(), looks) for s in setups]
        tree["meter"] = {**(former.get("meter") or {}), "setting_reading": data["setting_reading"]}
        tree["must"], tree["wished"] = (_lines(data[k]) for k in ("must", "wished"))
        tree["crops"], tree["props"], tree["haze"] = data["crops"], props, data["haze"]
        for name in ("purpose", *NUMBERS, "decider_present", EVENT_ON, "event_in_days"):
            tree.pop(name, None)
        tree |= {name: data[name] for name in ("purpose", *NUMBERS) if data[name] not in ("", None)}
        if data["decider_present"]:
            tree["decider_present"] = data["decider_present"] == "yes"
        if data["event_on"]:
            tree[EVENT_ON] = data["event_on"].isoformat()
        return tree


def _with_look(setup: dict[str, Any], looks: dict[str, Any]) -> dict[str, Any]:
    """A set-up with the look it had, last time's, which the form does not ask for."""
    return setup | {"standard": looks[setup["name"]]} if setup["name"] in looks else setup


def _lines(text: str) -> list[str]:
    return [line.strip() for line in text.splitlines() if line.strip()]
