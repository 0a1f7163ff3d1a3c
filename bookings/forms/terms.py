"""Terms as a form. Belongs here: what they say from a day on, their rules of notice as rows. Not here: keeping them
(`bookings.actions.terms`)."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from bookings import prices
from bookings.actions import terms as actions
from bookings.forms.steps import MoneyField
from bookings.models import Terms, TermsWording
from studio import clock
from studio.forms.days import DayInput
from studio.forms.versioned import Difference, VersionedForm, helper

SAYS = (
    "hold_hours", "deposit_percent", "deposit_amount", "late_minutes", "no_show_minutes", "no_show_percent", "words",
)  # fmt: skip
RULES = ("move", "cancel")


class RuleForm(forms.Form):
    """With less notice than that, that share of the fee."""

    hours = forms.IntegerField(label=_("less than, hours"), min_value=0, max_value=8760, required=False)
    percent = forms.DecimalField(
        label=_("percent of the fee"), min_value=0, max_value=100, max_digits=5, decimal_places=2, required=False
    )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if not self.errors and (cleaned.get("hours") is None) != (cleaned.get("percent") is None):
            self.add_error("hours" if cleaned.get("hours") is None else "percent", _("Give both or neither."))
        return cleaned


class _Rules(forms.BaseFormSet):  # type: ignore[type-arg]
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = helper()

    def clean(self) -> None:
        hours = [row[0] for row in self.rows()]
        if len(hours) != len(set(hours)):
            raise forms.ValidationError(_("One number of hours stands there twice."))

    def rows(self) -> list[list[Any]]:
        """As they are kept: hours with the percent as text."""
        given = [form.cleaned_data for form in self.forms if "percent" in form.cleaned_data and not form.errors]
        given = [row for row in given if row.get("hours") is not None]
        return [[row["hours"], str(row["percent"])] for row in sorted(given, key=lambda row: row["hours"])]


RuleFormSet = forms.formset_factory(RuleForm, formset=_Rules, extra=2, max_num=12, absolute_max=20)


class TermsForm(VersionedForm):
    """Terms with the wording that is in force; saved under another day it is a wording of its own."""

    class Meta:
        model = Terms
        fields = ("name",)

    valid_from = forms.DateField(
        label=_("Valid from"),
        widget=DayInput,
        help_text=_("For bookings made from that day on; earlier ones keep theirs. Another day makes another wording."),
    )

    def __init__(self, *args: Any, instance: Terms, **kwargs: Any) -> None:
        self.now = _in_force(instance)
        says = {name: getattr(self.now, name) for name in SAYS} | {"valid_from": self.now.valid_from}
        super().__init__(*args, instance=instance, initial=says, **kwargs)
        own = forms.fields_for_model(TermsWording, SAYS)
        for name in SAYS:
            self.fields[name] = own[name]
            self.fields[name].required = name in ("hold_hours", "late_minutes", "no_show_minutes")
        label = self.fields["deposit_amount"].label
        self.fields["deposit_amount"] = MoneyField(label=label, required=False, min_value=0)
        for name in ("deposit_percent", "deposit_amount", "no_show_percent"):
            self.initial[name] = f"{Decimal(self.initial[name]).normalize():f}"
        self.fields["deposit_amount"].help_text = _("Goes before the percent where it is more than nothing.")
        self.fields["words"].widget.attrs["rows"] = 3
        self.fields["words"].help_text = _("As the client reads them. Check the consumer law of the place.")
        data = self.data if self.is_bound else None
        kept = {name: [{"hours": h, "percent": p} for h, p in getattr(self.now, name)] for name in RULES}
        self.rules = {name: RuleFormSet(data, initial=kept[name], prefix=name) for name in RULES}
        self.helper.layout = Layout(
            "version",
            Fieldset(_("Terms"), "name", "valid_from", css_class="grid"),
            Fieldset(_("Hold and deposit"), "hold_hours", "deposit_percent", "deposit_amount", css_class="grid"),
            Fieldset(_("When nobody comes"), "late_minutes", "no_show_minutes", "no_show_percent", css_class="grid"),
            Fieldset(_("In words"), "words"),
        )

    def is_valid(self) -> bool:
        rules = [formset.is_valid() for formset in self.rules.values()]  # all sentences at once
        return super().is_valid() and all(rules)

    @property
    def rules_are_wrong(self) -> bool:
        return self.is_bound and any(formset.total_error_count() for formset in self.rules.values())

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        for name in ("deposit_percent", "deposit_amount", "no_show_percent"):
            if cleaned.get(name) is None and name not in self.errors:
                cleaned[name] = prices.NOTHING
        self._judge_as_wording(cleaned)
        late, no_show = cleaned.get("late_minutes"), cleaned.get("no_show_minutes")
        if late and no_show and no_show < late:
            self.add_error("no_show_minutes", _("Nobody is a no-show before they are late."))
        return cleaned

    def _judge_as_wording(self, cleaned: dict[str, Any]) -> None:
        """The bounds of the numbers are the model's to know."""
        good = {name: cleaned[name] for name in SAYS if name in cleaned and name not in self.errors}
        try:
            TermsWording(**good).clean_fields(exclude=[*RULES, "terms", "valid_from", *self.errors])
        except forms.ValidationError as wrong:
            self.add_error(None, wrong)

    def write(self) -> None:
        cleaned = self.cleaned_data
        says = {name: cleaned[name] for name in SAYS} | {name: self.rules[name].rows() for name in RULES}
        seen, day = cleaned["version"], cleaned["valid_from"]
        actions.write(self.instance, seen=seen, valid_from=day, says=says)

    def kept_values(self, row: Any) -> dict[str, Any]:
        now = _in_force(row)
        return super().kept_values(row) | {name: getattr(now, name) for name in (*SAYS, "valid_from")}

    def _tell(self, current: Any) -> None:
        """The rules somebody else wrote meanwhile are read out beside those typed."""
        super()._tell(current)
        if current is None:
            return
        now = _in_force(current)
        for name, formset in self.rules.items():
            kept, here = _in_one_line(getattr(now, name)), _in_one_line(formset.rows() if formset.is_valid() else [])
            if kept != here:
                label = TermsWording._meta.get_field(name).verbose_name
                self.differences.append(Difference(capfirst(str(label)), kept, here))


def _in_force(terms: Terms) -> TermsWording:
    """The wording of today, else the first to come, else an empty one."""
    wordings = [] if terms.pk is None else list(terms.wordings.all())  # the latest first
    today = clock.today()
    begun = [wording for wording in wordings if wording.valid_from <= today]
    return (begun or wordings[-1:] or [TermsWording(valid_from=today)])[0]


def _in_one_line(rules: Any) -> str:
    words = (_("less than %(hours)s hours: %(percent)s percent") % {"hours": h, "percent": p} for h, p in rules)
    return "; ".join(str(word) for word in words) or "-"
