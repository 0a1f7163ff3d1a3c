"""A step of a sitting, its hold and its money as forms. Belongs here: what each asks on the sitting's page. Not here:
doing it (`bookings.actions`)."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from django import forms
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from bookings.accounts import Account
from bookings.forms.moments import WhichOfTwo, is_twice
from bookings.models import Hold, Payment, Stage
from studio.forms.days import DayField, DayInput, TimeOfDayInput
from studio.models.kit import plain_label

VERSION = {"min_value": 0, "max_value": 2**31}


def note_field(**kwargs: Any) -> forms.CharField:
    return forms.CharField(label=_("Note"), max_length=400, required=False, validators=[plain_label], **kwargs)


class MoneyField(forms.DecimalField):
    """An amount as a person writes it, with a point or a comma."""

    widget = forms.TextInput(attrs={"inputmode": "decimal"})

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_digits=12, decimal_places=3, **kwargs)
        self.error_messages["invalid"] = _("Give an amount in figures, as 45 or 45.50.")

    def widget_attrs(self, widget: forms.Widget) -> dict[str, Any]:
        return {}

    def to_python(self, value: Any) -> Decimal | None:
        return super().to_python(value.strip().replace(",", ".") if isinstance(value, str) else value)


class StepForm(forms.Form):
    """A step as the page shows it; `seen` is the version it was shown at."""

    to = forms.ChoiceField(choices=Stage.choices)
    seen = forms.IntegerField(**VERSION)
    note = forms.CharField(max_length=400, required=False)
    agreed_fee = MoneyField(required=False)
    trust_until = forms.DateField(required=False)
    waive_deposit = forms.BooleanField(required=False)

    def values(self) -> dict[str, Any]:
        """What was typed, for a page that shows it again."""
        return {name: self.data.get(name, "") for name in self.fields}


class DepositForm(forms.Form):
    """Who answers for a deposit that is missing: a later day, or the owner who waives it."""

    trust_day = forms.DateField(
        label=_("Wait for it until"), required=False, widget=DayInput
    )
    waive = forms.BooleanField(label=_("Waive it; the note says why"), required=False)
    deposit_note = note_field()
    seen = forms.IntegerField(widget=forms.HiddenInput, **VERSION)

    def __init__(self, version: int, data: Any = None, *, may_waive: bool) -> None:
        super().__init__(data, initial={"seen": version})
        if not may_waive:
            del self.fields["waive"]


class HoldForm(WhichOfTwo, forms.Form):
    """Until when a time is kept."""

    time_name = "hold_time"
    hold_day = DayField(label=_("Hold it until"))
    hold_time = forms.TimeField(label=_("at"), widget=TimeOfDayInput)
    hold_note = note_field()
    seen = forms.IntegerField(widget=forms.HiddenInput, **VERSION)

    def __init__(self, hold: Hold, data: Any = None) -> None:
        end = timezone.localtime(hold.expires_at)
        kept = {"hold_day": end.date(), "hold_time": end.strftime("%H:%M"), "hold_note": hold.note}
        super().__init__(data, initial=kept | {"seen": hold.sitting.version})
        self.hold, self.twice = hold, is_twice(hold.expires_at)

    @property
    def stays(self) -> datetime:
        return self.hold.expires_at

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("hold_day") and cleaned.get("hold_time") is not None:
            end = self.moment(cleaned["hold_day"], cleaned["hold_time"])
            if end is not None:
                cleaned["expires_at"] = end.astimezone(UTC)
        return cleaned


class PaymentForm(forms.Form):
    """Money taken or refunded; on a fresh page what is most likely asked for."""

    kind = forms.ChoiceField(label=_("For"), choices=Payment.Kind.choices)
    amount = MoneyField(label=_("Amount"))
    method = forms.ChoiceField(label=_("How"), choices=Payment.Method.choices)
    paid_note = note_field()
    entries = forms.IntegerField(widget=forms.HiddenInput, required=False, **VERSION)  # as many as the page showed

    def __init__(self, account: Account, data: Any = None) -> None:
        super().__init__(data, initial=_likely(account) | {"entries": len(account.payments)})

    def know(self, account: Account) -> None:
        """What somebody else entered has been seen now: sent again, it is meant."""
        self.data = self.data.copy()
        self.data["entries"] = str(len(account.payments))


def _likely(account: Account) -> dict[str, Any]:
    if account.deposit_missing:
        return {"kind": Payment.Kind.DEPOSIT, "amount": _typed(account.deposit_missing)}
    if account.to_refund:
        return {"kind": Payment.Kind.REFUND, "amount": _typed(account.to_refund)}
    return {"kind": Payment.Kind.BALANCE, "amount": _typed(account.balance) if account.balance else ""}


def _typed(amount: Decimal) -> str:
    """Without zeros nobody writes: 45, 45.50, 0.125."""
    plain = f"{amount.normalize():f}"
    point = plain.find(".")
    return plain + "0" if point >= 0 and len(plain) - point == 2 else plain
