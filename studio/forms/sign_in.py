"""Signing in: the name with the password, then the code of whoever has a second step. Belongs here: the fields, and
what a wrong one is told. Not here: counting tries (`actions.tries`)."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django import forms
from django.contrib.auth import password_validation
from django.contrib.auth.forms import AuthenticationForm
from django.http import HttpRequest
from django.utils.translation import gettext_lazy as _
from django.utils.translation import ngettext

from studio import clock, doors
from studio.actions import second, tries
from studio.models import SecondStep


def wait_words(until: datetime) -> str:
    """How long it is until the next try is looked at."""
    seconds = max(1, int((until - clock.now()).total_seconds()) + 1)
    if seconds <= 90:
        wait = ngettext("%(n)d second", "%(n)d seconds", seconds) % {"n": seconds}
    else:
        minutes = -(-seconds // 60)
        wait = ngettext("%(n)d minute", "%(n)d minutes", minutes) % {"n": minutes}
    return _(
        "Too many tries from here, so this one was not looked at. The next is in %(wait)s. Whoever signs in from "
        "another device is not kept waiting."
    ) % {"wait": wait}


class SignInForm(AuthenticationForm):
    error_messages = {  # noqa: RUF012  (Django's own shape)
        "invalid_login": _("Name and password do not go together. Capital letters count in the password."),
        "inactive": _("This sign-in is closed. Ask the owner of the studio."),
    }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["username"].label = _("Sign-in name")
        self.fields["password"].label = _("Password")

    def clean(self) -> dict[str, Any]:
        """A try is counted before it is looked at, for a name nobody has as for one somebody has."""
        name = self.cleaned_data.get("username")
        if not name or not self.cleaned_data.get("password"):
            return super().clean()
        key = tries.key_of("name", name.lower(), doors.place_of(self.request, name))
        if until := tries.counted(key=key):
            raise forms.ValidationError(wait_words(until), code="wait")
        try:
            found = super().clean()
        except forms.ValidationError:
            tries.note_failed()
            raise
        tries.forget(key=key)
        return found


class CodeForm(forms.Form):
    """A code of six digits, or one of those on paper."""

    code = forms.CharField(
        label=_("Code"), max_length=40,
        widget=forms.TextInput(attrs={"autocomplete": "one-time-code", "spellcheck": "false", "autofocus": True}),
        help_text=_("The six digits your telephone shows for this house, or one of your codes on paper."),
    )  # fmt: skip


class FirstCodeForm(CodeForm):
    """The first code of a new key, which shows that the telephone has it."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["code"].help_text = _("The six digits your telephone shows for this house.")


class CountedCodeForm(CodeForm):
    """Each try counts before it is looked at. Only somebody with the password comes this far: so there is one count for
    all places but the member's own devices."""

    def __init__(self, *args: Any, request: HttpRequest, step: SecondStep, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.step = step
        place = doors.device_of(request, step.member.user.get_username())
        self.key = tries.key_of("code", step.member_id, place)

    def clean_code(self) -> str:
        if until := tries.counted(key=self.key):
            raise forms.ValidationError(wait_words(until), code="wait")
        code: str = self.cleaned_data["code"]
        return code

    def forget(self) -> None:
        tries.forget(key=self.key)


class CodeAtTheDoorForm(CountedCodeForm):
    def clean_code(self) -> str:
        code = super().clean_code()
        if not second.passes(step=self.step, code=code):
            tries.note_failed()
            raise forms.ValidationError(str(second.WrongCode()))
        self.forget()
        return code


class PresentPasswordForm(forms.Form):
    """Asked again before something that decides who comes in."""

    present = forms.CharField(
        label=_("Your password"), widget=forms.PasswordInput(attrs={"autocomplete": "current-password"})
    )

    def __init__(self, *args: Any, user: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.user = user

    def clean_present(self) -> str:
        return checked_password(self.user, self.cleaned_data["present"])


class OwnPasswordForm(PresentPasswordForm):
    """A new password of one's own, after the present one."""

    present = forms.CharField(
        label=_("Present password"), widget=forms.PasswordInput(attrs={"autocomplete": "current-password"})
    )
    password = forms.CharField(
        label=_("New password"), max_length=128, widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text=_("At least ten characters, not one that everybody thinks of."),
    )  # fmt: skip

    def clean_password(self) -> str:
        password: str = self.cleaned_data["password"]
        password_validation.validate_password(password, self.user)
        return password


def checked_password(user: Any, password: str) -> str:
    """Asked of somebody signed in; tries are counted here as at the door."""
    key = tries.key_of("present", user.pk)
    if until := tries.counted(key=key):
        raise forms.ValidationError(wait_words(until), code="wait")
    if not user.check_password(password):
        tries.note_failed()
        raise forms.ValidationError(_("That is not your present password. Capital letters count."))
    tries.forget(key=key)
    return password
