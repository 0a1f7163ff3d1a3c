"""Items with their prices, and the rules of tax, as forms. Belongs here: how the owner enters them."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Layout
from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.forms.steps import MoneyField
from bookings.models import Item, ItemPrice, TaxRule
from studio.forms.versioned import Difference, VersionedForm, helper

DAY = forms.DateInput({"type": "date"}, format="%Y-%m-%d")


class ItemPriceForm(forms.ModelForm):  # type: ignore[type-arg]
    amount = MoneyField(label=_("Price"), min_value=0)

    class Meta:
        model = ItemPrice
        fields = ("from_day", "amount")
        widgets = {"from_day": DAY}  # noqa: RUF012  (Django's own shape)


class _Prices(forms.BaseInlineFormSet):  # type: ignore[type-arg]
    def add_fields(self, form: Any, index: int | None) -> None:
        super().add_fields(form, index)
        if form.instance.pk:
            form.initial["amount"] = f"{form.instance.amount.normalize():f}"
        if "DELETE" in form.fields:
            form.fields["DELETE"].label = _("Take this price out")


ItemPriceFormSet = forms.inlineformset_factory(
    Item, ItemPrice, form=ItemPriceForm, formset=_Prices, extra=1, can_delete_extra=False, max_num=40, absolute_max=60
)


class ItemForm(VersionedForm):
    """An item; its dated prices lie in `prices` and are saved along, under the item's version."""

    class Meta:
        model = Item
        fields = ("name", "kind", "active")
        help_texts = {"kind": _("Decides which rule of tax holds.")}  # noqa: RUF012  (Django's own shape)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper.layout = Layout("version", *self.Meta.fields)
        self.prices = ItemPriceFormSet(self.data if self.is_bound else None, instance=self.instance, prefix="prices")

    def is_valid(self) -> bool:
        prices = self.prices.is_valid()  # asked even where the item is wrong: all sentences at once
        return super().is_valid() and prices

    def write(self) -> None:
        super().write()
        self.prices.instance = self.instance
        self.prices.save()

    def _tell(self, current: Any) -> None:
        """What somebody else made of the prices meanwhile is shown; what was typed is read out."""
        super()._tell(current)
        typed = "; ".join(f"{f['from_day'].value() or ''}: {f['amount'].value() or ''}" for f in self.prices)
        rows = current.prices.all() if current else ()
        kept = "; ".join(f"{row.from_day}: {row.amount.normalize():f}" for row in rows)
        self.differences.append(Difference(str(_("Prices")), kept or "-", typed))
        self.prices = ItemPriceFormSet(instance=current, prefix="prices")


class TaxRuleForm(forms.ModelForm):  # type: ignore[type-arg]
    """One rule; a rule is not changed afterwards: from another day another holds."""

    class Meta:
        model = TaxRule
        fields = ("item_kind", "place", "from_day", "percent", "included", "words")
        widgets = {"from_day": DAY}  # noqa: RUF012  (Django's own shape)
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
