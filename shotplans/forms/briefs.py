"""The brief as a form: what the picture must say and do, and its set-ups. Turns into the planner's `brief` and back."""

from __future__ import annotations

from typing import Any, get_args

from django import forms
from django.core.validators import RegexValidator
from django.utils.translation import gettext_lazy as _

from shotplans.planner import brief as words

INTENTS = (
    ("soft", _("calm on lines")), ("even", _("consistent, matching")), ("natural", _("gentle shape")),
    ("bold", _("strong shape, deep shadow")), ("character", _("texture shown")),
    ("bright", _("light ground, low contrast")),
)  # fmt: skip
FRAMINGS = (
    ("head", _("head")), ("head_and_shoulders", _("head and shoulders")), ("half", _("half length")),
    ("three_quarter", _("three-quarter length")), ("full", _("full length")), ("group", _("group")),
)  # fmt: skip
TONES = tuple((t, t) for t in get_args(words.Tone))
VIEWS = (
    ("either", _("as the light likes")), ("full", _("full face")), ("seven_eighths", _("seven eighths")),
    ("three_quarter", _("three quarters")), ("profile", _("profile")),
)  # fmt: skip
FACE_SIDES = (("either", _("either")), ("short", _("far cheek lit")), ("broad", _("near cheek lit")))
KEY_SIDES = (("either", _("either side")), ("camera_left", _("camera left")), ("camera_right", _("camera right")))
ORIENTATIONS = (("either", _("either way")), ("upright", _("upright")), ("horizontal", _("horizontal")))
DOMES = (("at_camera", _("dome to the camera")), ("at_key", _("dome to the key")))
MOST_SETUPS = 6
printable = RegexValidator(
    r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]", _("There is a character in it that cannot be printed."), inverse_match=True
)


class SetupForm(forms.Form):
    """One set-up."""

    name = forms.CharField(label=_("Set-up"), max_length=80, validators=[printable])
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


def setup_forms(labels: list[str], data: Any = None, initial: list[dict[str, Any]] | None = None) -> Any:
    """The formset, with one empty set-up to add."""
    made = forms.formset_factory(SetupForm, formset=SetupFormSet, extra=1, max_num=MOST_SETUPS, can_delete=True)
    return made(data, initial=initial, prefix="setup", form_kwargs={"labels": labels})


class BriefForm(forms.Form):
    """What holds for all set-ups."""

    purpose = forms.CharField(
        label=_("What the picture is for"), max_length=400, required=False, validators=[printable]
    )
    print_width_cm = forms.FloatField(label=_("Widest print, cm"), min_value=1, max_value=1000, required=False)
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
    version = forms.IntegerField(widget=forms.HiddenInput, required=False)

    @staticmethod
    def initial_from(brief: dict[str, Any]) -> dict[str, Any]:
        """The form's values for a brief."""
        found = {k: brief.get(k) for k in ("purpose", "print_width_cm", "key_side", "orientation", "minutes")}
        found["key_side"] = found["key_side"] or "either"
        found["orientation"] = found["orientation"] or "either"
        found["setting_reading"] = (brief.get("meter") or {}).get("setting_reading") or "at_camera"
        found["must"], found["wished"] = ("\n".join(brief.get(k) or []) for k in ("must", "wished"))
        return found

    def tree(self, setups: list[SetupForm], former: dict[str, Any]) -> dict[str, Any]:
        """The brief as the planner reads it; what the form does not ask for stays as it was."""
        data = self.cleaned_data
        tree = dict(former)
        tree |= {"key_side": data["key_side"], "orientation": data["orientation"]}
        tree["setups"] = [s.tree() for s in setups]
        tree["meter"] = {**(former.get("meter") or {}), "setting_reading": data["setting_reading"]}
        tree["must"], tree["wished"] = (_lines(data[k]) for k in ("must", "wished"))
        for name in ("purpose", "print_width_cm", "minutes"):
            tree.pop(name, None)
            if data[name] not in ("", None):
                tree[name] = data[name]
        return tree


def _lines(text: str) -> list[str]:
    return [line.strip() for line in text.splitlines() if line.strip()]
