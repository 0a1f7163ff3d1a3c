"""A member of the studio as a form. Belongs here: how name, roles and sign-in are asked. Not here: writing
them (`studio.actions.members`)."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Fieldset, Layout
from django import forms
from django.contrib.auth import get_user_model, password_validation
from django.contrib.auth.validators import UnicodeUsernameValidator
from django.utils.translation import gettext_lazy as _

from studio.actions import members
from studio.forms.versioned import VersionedForm
from studio.models import Member, Role


class MemberForm(VersionedForm):
    roles = forms.MultipleChoiceField(
        label=_("Roles"),
        choices=Role.choices,
        widget=forms.CheckboxSelectMultiple,
        help_text=_("What this person does here. Somebody with several changes between them in the head of the page."),
    )
    sign_in_name = forms.CharField(
        label=_("Sign-in name"), max_length=150, validators=[UnicodeUsernameValidator()], help_text=_("One word.")
    )
    password = forms.CharField(
        label=_("Password"),
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text=_("At least ten characters, not one that everybody thinks of."),
    )

    class Meta:
        model = Member
        fields = ("name", "short", "active")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.pk:
            self.initial |= self.kept_values(self.instance)
            self.fields["password"].label = _("New password")
            self.fields["password"].required = False
            self.fields["password"].help_text = _("Leave it empty to keep the present one.")
        self.helper.layout = Layout(
            "version",
            Fieldset(_("Who"), "name", "short", "roles", "active"),
            Fieldset(_("Signing in"), "sign_in_name", "password"),
        )

    def clean_sign_in_name(self) -> str:
        name: str = self.cleaned_data["sign_in_name"]
        others = get_user_model().objects.filter(username__iexact=name).exclude(pk=self.instance.user_id)
        if others.exists():
            raise forms.ValidationError(_("Somebody else signs in by that name."))
        return name

    def clean_password(self) -> str:
        password: str = self.cleaned_data["password"]
        if password:
            password_validation.validate_password(password)
        return password

    def keep(self) -> bool:
        try:
            return super().keep()
        except members.LastOwner as refusal:
            self.add_error("roles", str(refusal))
            return False

    def write(self) -> None:
        members.keep(
            member=self.instance,
            seen=self.cleaned_data["version"],
            sign_in_name=self.cleaned_data["sign_in_name"],
            password=self.cleaned_data["password"],
            roles=self.cleaned_data["roles"],
        )

    def kept_values(self, row: Any) -> dict[str, Any]:
        own = super().kept_values(row)
        return own | {"roles": sorted(row.roles), "sign_in_name": row.user.username}
