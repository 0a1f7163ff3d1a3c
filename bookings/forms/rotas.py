"""A rota as forms. Belongs here: the list of names with its faults in words, the times asked with it, and the day of a
make-up date. Not here: taking the list apart (`bookings.name_list`), the order (`bookings.rota_list`)."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils import timezone
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bookings import name_list, rota, rota_list, wording
from bookings.forms.moments import MomentForm
from bookings.models import Rota, Sitting
from bookings.name_list import Fault, NameList
from bookings.refusals import NotInUse, Refusal, Taken
from studio.forms.days import TimeOfDayInput
from studio.models.kit import plain_label

MOST_BYTES = 200_000
MOST_LETTERS = 60_000
FAULTS = {
    "empty": _("Write or paste the names, one a line."),
    "too_many": _("A rota takes %(most)d people; this list has %(there)d."),
    "long_line": _("Line %(line)d is longer than %(most)d letters: one person a line."),
    "unreadable": _("Line %(line)d holds signs that cannot be read."),
    "unknown": _("Line %(line)d: “%(said)s” is no e-mail address, number or word of this list (%(known)s)."),
    "nameless": _("Line %(line)d has no name."),
    "long_name": _("Line %(line)d: the name has %(letters)d letters; %(most)d fit on the slate."),
    "email": _("Line %(line)d: “%(said)s” is no e-mail address."),
    "place": _("Line %(line)d: “%(said)s” is no place; write a number."),
    "twice": _("Line %(line)d: %(name)s is on line %(other)d too. Add a letter or a second name."),
}


class RotaForm(forms.ModelForm):  # type: ignore[type-arg]
    """The list with its times; `lines` of what was cleaned are the people."""

    names = forms.CharField(
        label=_("Names, one a line"),
        max_length=MOST_LETTERS,
        required=False,
        widget=forms.Textarea({"rows": 14, "spellcheck": "false", "autocomplete": "off", "dir": "auto"}),
    )
    file = forms.FileField(
        label=_("Or a file"), required=False, widget=forms.FileInput({"accept": ".csv,.txt,.tsv,text/csv,text/plain"})
    )
    only_listed = forms.BooleanField(
        label=_("Take out of the sitting who is not on this list"), required=False,
    )
    lengthen = forms.BooleanField(required=False)
    seen = forms.IntegerField(min_value=0, max_value=2**31 - 1, required=False, widget=forms.HiddenInput)

    class Meta:
        model = Rota
        fields = (
            "lunch_at", "lunch_minutes", "place_minutes", "gap_minutes", "gap_after", "real_minutes", "wear",
            "keeps_list_order",
        )  # fmt: skip
        widgets = {"lunch_at": TimeOfDayInput}  # noqa: RUF012  (Django's own shape)

    def __init__(self, sitting: Sitting, data: Any = None, files: Any = None) -> None:
        kept = Rota.objects.filter(sitting=sitting).first()
        first = {"names": rota_list.known_lines(sitting), "seen": kept.version if kept else 0} if data is None else None
        super().__init__(data, files, instance=kept or rota_list.as_last_time(sitting), initial=first)
        self.sitting = sitting
        self.list = NameList((), ())
        self.fields["wear"].validators.append(plain_label)
        self.fields["names"].widget.attrs.pop("maxlength", None)
        if data is None and not self.initial["names"]:
            self.fields["names"].widget.attrs["autofocus"] = True

    def clean_file(self) -> str:
        file = self.cleaned_data["file"]
        if not file:
            return ""
        if file.size > MOST_BYTES:
            raise forms.ValidationError(_("That file is larger than a list of names can be. Send the names alone."))
        return name_list.decoded(file.read())

    def clean_names(self) -> str:
        """A file takes the place of what is written; judged in `clean`, when both are known."""
        return str(self.cleaned_data["names"])

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if "file" not in self.errors and "names" not in self.errors:
            text = cleaned.get("file") or cleaned.get("names", "")
            if cleaned.get("file"):
                self.data = self.data.copy()
                self.data["names"] = text  # so that it is seen, and need not be chosen again
            self.list = name_list.read(text, most=rota.MOST_PEOPLE)
            for fault in self.list.faults:
                self.add_error("names", _fault(fault))
        lunch_at = cleaned.get("lunch_at")
        start = timezone.localtime(self.sitting.starts_at)
        if lunch_at is not None and lunch_at <= start.time():
            words = gettext("The first place is at %(start)s: let lunch come after it, or leave it empty.")
            self.add_error("lunch_at", words % {"start": wording.time(start, timezone.get_current_timezone())})
        return cleaned

    @property
    def settings(self) -> Rota:
        """The rota as it would be, not kept."""
        return self.instance  # type: ignore[no-any-return]

    @property
    def times(self) -> list[forms.BoundField]:
        return [self[name] for name in self.Meta.fields if name not in ("wear", "keeps_list_order")]

    @property
    def acknowledged(self) -> list[str]:
        return list(self.data.getlist("acknowledged")) if self.is_bound else []


def _fault(fault: Fault) -> str:
    return str(FAULTS[fault.code]) % {**fault.values, "line": fault.number}


class MakeUpForm(MomentForm):
    """Day and time of a make-up date. Everything else is as it was."""

    class Meta:
        model = Sitting
        fields = ()

    def _field_of(self, refusal: Refusal) -> str | None:
        return "time" if isinstance(refusal, Taken | NotInUse) else None

