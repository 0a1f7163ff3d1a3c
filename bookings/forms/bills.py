"""What a sitting's account asks as forms. Belongs here: an item and its number, where it goes, a quote's items, a day's
count, a span for the bookkeeper."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.forms.steps import VERSION, MoneyField, note_field
from bookings.models import Item, Sitting, TaxRule
from bookings.models.items import place_code
from studio import clock
from studio.csv_out import SEPARATORS
from studio.forms.days import DayField

QUOTE_DAYS = 14  # how long a quote holds unless another day is given; common practice, no source
MOST = 999


class ItemCountForm(forms.Form):
    """Which item and how many."""

    item = forms.ModelChoiceField(label=_("Item"), queryset=Item.objects.none(), empty_label=_("choose"))
    count = forms.IntegerField(label=_("How many"), min_value=1, max_value=MOST, initial=1)

    def __init__(self, *args: Any, items: Any = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["item"].queryset = Item.objects.filter(active=True) if items is None else items


class _Wanted(forms.BaseFormSet):  # type: ignore[type-arg]
    """Rows of a quote; an empty row is none."""

    def add_fields(self, form: Any, index: int | None) -> None:
        super().add_fields(form, index)
        form.fields["item"].required = form.fields["count"].required = False

    def wanted(self) -> list[tuple[Item, int]]:
        rows = [form.cleaned_data for form in self.forms if form.cleaned_data.get("item")]
        return [(row["item"], row["count"] or 1) for row in rows]


WantedFormSet = forms.formset_factory(ItemCountForm, formset=_Wanted, extra=3, max_num=20, absolute_max=30)


class QuoteForm(forms.Form):
    valid_until = DayField(label=_("Valid until"))

    def __init__(self, data: Any = None) -> None:
        super().__init__(data, initial={"valid_until": clock.today() + timedelta(days=QUOTE_DAYS)})
        self.wanted = WantedFormSet(data, prefix="wanted", form_kwargs={"items": Item.objects.filter(active=True)})

    def clean_valid_until(self) -> Any:
        day = self.cleaned_data["valid_until"]
        if day < clock.today():
            raise forms.ValidationError(_("That day is over: give one from today on."))
        return day

    def is_valid(self) -> bool:
        wanted = self.wanted.is_valid()
        return super().is_valid() and wanted


class DestinationForm(forms.Form):
    """Where what is sold goes; the places that rules are made for are offered."""

    place = forms.CharField(
        label=_("Goes to"), max_length=12, required=False, widget=forms.TextInput({"list": "places"}),
        help_text=_("A place of the rules of tax; empty is anywhere."),
    )  # fmt: skip
    seen = forms.IntegerField(widget=forms.HiddenInput, **VERSION)

    def __init__(self, sitting: Sitting, data: Any = None) -> None:
        super().__init__(data, initial={"place": sitting.destination, "seen": sitting.version})
        self.places = TaxRule.objects.exclude(place="").values_list("place", flat=True).distinct().order_by("place")

    def clean_place(self) -> str:
        place = str(self.cleaned_data["place"]).strip().upper()
        if place:
            place_code(place)
        return place


class CountForm(forms.Form):
    counted = MoneyField(label=_("Cash counted"), min_value=0)
    count_note = note_field()


class SpanForm(forms.Form):
    """From which day to which, and how the file is written."""

    first = DayField(label=_("From"))
    last = DayField(label=_("to"))
    separator = forms.ChoiceField(
        label=_("Between the columns"),
        choices=[("comma", _("comma")), ("semicolon", _("semicolon")), ("tab", _("tab"))],
    )
    mark = forms.BooleanField(
        label=_("byte-order mark"), required=False, help_text=_("For a spreadsheet that shows accents wrongly without.")
    )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("first") and cleaned.get("last") and cleaned["last"] < cleaned["first"]:
            self.add_error("last", _("The last day is before the first."))
        return cleaned

    @property
    def between(self) -> str:
        return SEPARATORS[self.cleaned_data["separator"]]
