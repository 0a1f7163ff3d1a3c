"""Forms on rows that two people may have open at once. Belongs here: keeping the text of a stale form and
saying what differs. Not here: the rule that the first save wins (`studio.models.versions`)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from crispy_forms.helper import FormHelper
from django import forms
from django.db import IntegrityError, transaction
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from studio.models import versions

CHANGED = _(
    "Somebody else saved this while you had it open. Nothing of yours is lost and nothing is saved yet: "
    "look at what differs, then save again if yours should stand."
)
TWICE = _("Somebody else saved one of that name just now. Look at it first, or choose another name.")
GONE = _("Somebody else removed this while you had it open. Nothing was saved.")


@dataclass(frozen=True)
class Difference:
    """One field where the form differs from the row as it is kept now."""

    label: str
    kept: str
    here: str


def helper() -> FormHelper:
    """How every form is drawn: the page holds the form element, the token and the button."""
    drawn = FormHelper()
    drawn.form_tag = False
    drawn.disable_csrf = True
    return drawn


class VersionedForm(forms.ModelForm):  # type: ignore[type-arg]
    """A form that carries the version it was opened at. `keep()` saves, or leaves `differences` to be shown."""

    version = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.differences: list[Difference] = []
        # 0 for a row not yet kept: should somebody make it meanwhile, this form is stale.
        self.fields["version"].initial = 0 if self.instance._state.adding else self.instance.version
        for field in self.fields.values():  # no field of any length begins with ten empty lines
            if isinstance(field.widget, forms.Textarea) and field.widget.attrs.get("rows") == "10":
                field.widget.attrs["rows"] = 3
        self.helper = helper()

    def clean(self) -> dict[str, Any]:
        """A stale form is told so at once, beside whatever else is wrong with it."""
        cleaned = super().clean() or self.cleaned_data
        if self.instance.pk and not self.instance._state.adding:
            current = type(self.instance)._base_manager.filter(pk=self.instance.pk).first()
            if current is None or current.version != cleaned.get("version"):
                self._tell(current)
        return cleaned

    def keep(self) -> bool:
        """Save all of it or nothing; false when somebody else was faster."""
        try:
            with transaction.atomic():
                self.write()
        except versions.Stale as stale:
            self._tell(stale.current)
            return False
        except IntegrityError:
            self.add_error(None, TWICE)
            return False
        return True

    def write(self) -> None:
        """The row itself; forms whose rows have rows of their own write those too."""
        if self.instance._state.adding:
            self.instance.save(force_insert=True)
        else:
            versions.save(self.instance, seen=self.cleaned_data["version"])

    def kept_values(self, row: Any) -> dict[str, Any]:
        """What the form would show of a row; forms with fields that are not the row's own add theirs."""
        return forms.model_to_dict(row, list(self.fields))

    def _tell(self, current: Any) -> None:
        if current is None:
            self.add_error(None, GONE)
            return
        self.add_error(None, CHANGED)
        kept = self.kept_values(current)
        for name, value in kept.items():
            field, here = self.fields[name], self[name].value()
            if name != "version" and field.has_changed(value, here):
                self.differences.append(
                    Difference(capfirst(str(field.label)), self._words(field, value), self._words(field, here))
                )
        # The next save is made in knowledge of that version.
        self.data = self.data.copy()
        self.data[self.add_prefix("version")] = str(current.version)

    @staticmethod
    def _words(field: forms.Field, value: Any) -> str:
        """A value as the page shows it: the words of a choice, yes and no, a dash for nothing."""
        if isinstance(value, bool):
            return str(_("yes") if value else _("no"))
        if isinstance(value, list | tuple | set):
            return ", ".join(VersionedForm._words(field, one) for one in sorted(value)) or "-"
        if isinstance(value, float):
            value = field.prepare_value(value)
        named = {str(key): str(word) for key, word in getattr(field, "choices", ())}
        return named.get(str(value), str(value)) if value not in (None, "") else "-"
