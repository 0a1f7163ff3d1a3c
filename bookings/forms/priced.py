"""A row with prices by the day as one form. Belongs here: the prices beside the row, saved and told apart with it. Not
here: what a kind of sitting or an item is asked (`clients`, `items`)."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.forms.steps import MoneyField
from studio.forms.days import DayInput
from studio.forms.versioned import Difference, VersionedForm, helper

FIELDS = ("from_day", "amount")


class _Prices(forms.BaseInlineFormSet):  # type: ignore[type-arg]
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = helper()

    def add_fields(self, form: Any, index: int | None) -> None:
        super().add_fields(form, index)
        if form.instance.pk:
            form.initial["amount"] = f"{form.instance.amount.normalize():f}"
        if "DELETE" in form.fields:
            form.fields["DELETE"].label = _("Take this price out")


def price_rows(parent: type[Any], model: type[Any], label: Any) -> Any:
    """The rows of one kind of price: a day and what it costs from then on."""
    amount = MoneyField(label=label, min_value=0)
    form = forms.modelform_factory(model, fields=FIELDS, widgets={"from_day": DayInput})
    named = type(f"{model.__name__}Form", (form,), {"amount": amount})
    return forms.inlineformset_factory(
        parent, model, form=named, formset=_Prices, extra=1, can_delete_extra=False, max_num=40, absolute_max=60
    )


class PricedForm(VersionedForm):
    """A row whose dated prices lie in `prices` and are saved along, under the row's version."""

    price_rows: ClassVar[Any]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        data = self.data if self.is_bound else None
        self.prices = self.price_rows(data, instance=self.instance, prefix="prices")

    def is_valid(self) -> bool:
        prices = self.prices.is_valid()  # asked even where the row is wrong: all sentences at once
        return super().is_valid() and prices

    def write(self) -> None:
        super().write()
        self.prices.instance = self.instance
        self.prices.save()

    def _tell(self, current: Any) -> None:
        """Prices somebody else took out cannot be saved again: the kept ones are shown, the typed ones read out."""
        super()._tell(current)
        typed = [{name: form[name].value() or "" for name in FIELDS} for form in self.prices]
        here = "; ".join(f"{row['from_day']}: {row['amount']}" for row in typed if any(row.values()))
        rows = current.prices.all() if current else ()
        kept = "; ".join(f"{row.from_day}: {row.amount.normalize():f}" for row in rows) if current else here
        if here != kept:
            self.differences.append(Difference(str(_("Prices")), kept or "-", here or "-"))
            self.prices = self.price_rows(instance=current, prefix="prices")
