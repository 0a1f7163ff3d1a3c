"""Items with their prices, and the rules of tax, as forms. Belongs here: how the owner enters them."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Layout
from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.forms.priced import PricedForm, price_rows
from bookings.models import Item, ItemPrice, TaxRule
from studio.forms.days import DayInput
from studio.forms.versioned import helper


class ItemForm(PricedForm):
    price_rows = price_rows(Item, ItemPrice, _("Price"))

    class Meta:
        model = Item
        fields = ("name", "kind", "active")
        help_texts = {"kind": _("Decides which rule of tax holds.")}  # noqa: RUF012  (Django's own shape)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper.layout = Layout("version", *self.Meta.fields)


class TaxRuleForm(forms.ModelForm):  # type: ignore[type-arg]
    """One rule; a rule is not changed afterwards: from another day another holds."""

    class Meta:
        model = TaxRule
        fields = ("item_kind", "place", "from_day", "percent", "included", "words")
        widgets = {"from_day": DayInput}  # noqa: RUF012  (Django's own shape)
        help_texts = {  # noqa: RUF012  (Django's own shape)
            "place": _("Your own code for where it goes, as GB or US-OH. Empty: anywhere without a rule of its own."),
            "included": _("Not ticked: the tax is added to the price."),
            "words": _("As it stands on the bill."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = helper()

    def clean_place(self) -> str:
        return str(self.cleaned_data["place"]).strip().upper()
