"""What is used up as a form. Belongs here: the order of its fields. Not here: the fields themselves."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Fieldset, Layout

from studio.actions import kit
from studio.forms.versioned import VersionedForm
from studio.models import Consumable, Member


class ConsumableForm(VersionedForm):
    class Meta:
        model = Consumable
        fields = ("name", "unit", "count", "low_mark", "case", "note")

    def __init__(self, *args: Any, by: Member, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.by, self.before = by, self.instance.count if self.instance.pk else 0
        self.helper.layout = Layout("version", Fieldset("", *self.Meta.fields, css_class="grid"))

    def write(self) -> None:
        super().write()
        kit.counted(by=self.by, consumable=self.instance, before=self.before)
