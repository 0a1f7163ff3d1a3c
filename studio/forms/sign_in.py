"""Signing in. Belongs here: the two fields and what a wrong pair is told."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.forms import AuthenticationForm
from django.utils.translation import gettext_lazy as _


class SignInForm(AuthenticationForm):
    error_messages = {  # noqa: RUF012  (Django's own shape)
        "invalid_login": _("Name and password do not go together. Capital letters count in the password."),
        "inactive": _("This sign-in is closed. Ask the owner of the studio."),
    }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["username"].label = _("Sign-in name")
        self.fields["password"].label = _("Password")
