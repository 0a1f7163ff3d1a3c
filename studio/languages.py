"""Which language the house and its people read in.

Belongs here: which languages there are, who reads which, and speaking the house's on paper, in letters and in what is
kept for all. Not here: sentences, and how packages without Django say theirs (`studio.tongue`). Where the house has one
language only, nobody is asked anything and no question goes to the database.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

from django import forms
from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.utils import timezone, translation
from django.utils.translation import gettext_lazy as _
from django.utils.translation import trans_real

from studio import access
from studio.models import Profile


@cache
def known() -> dict[str, str]:
    """The languages that may be chosen, each by its own name: the one sentences are written in, and those that have a
    catalogue. Looked for once a process, as catalogues are read once."""
    found = sorted(
        translation.to_language(file.parts[-3])
        for folder in settings.LOCALE_PATHS
        for file in Path(folder).glob("*/LC_MESSAGES/django.mo")
    )
    return {code: _own_name(code) for code in dict.fromkeys([settings.LANGUAGE_CODE, *found])}


def _own_name(code: str) -> str:
    try:
        return str(translation.get_language_info(code)["name_local"])
    except KeyError:
        return code  # a language nobody told Django of


def leave_out_empty_catalogues() -> None:
    """The language the sentences are written in has no catalogue of ours, and those that come with Django's apps hold
    no sentence: each is asked in turn all the same, a seventh of a page's time. Called once, at start."""
    here: Any = trans_real.translation(settings.LANGUAGE_CODE)
    while (after := here._fallback) is not None:
        if len(after._catalog) > 1:  # more than what it says of itself
            here = after
        else:
            here._fallback = after._fallback


def of_house(profile: Profile) -> str:
    """The house's language; the one sentences are written in, where its catalogue is gone."""
    return profile.language if profile.language in known() else settings.LANGUAGE_CODE


def of_reader(request: HttpRequest) -> str:
    """The language of whoever asks: a member's own, else the house's. An address that ends in .pdf is paper, which
    others read too: it speaks the house's."""
    profile = access.profile_of(request)
    member = None if request.path.endswith(".pdf") else access.member_of(request)
    return member.language if member is not None and member.language in known() else of_house(profile)


def reader(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """Every page in its reader's language. It is not taken back at the end, for a table may be sent line by line after
    it: the next request sets its own."""

    def answered(request: HttpRequest) -> HttpResponse:
        if len(known()) > 1:
            translation.activate(of_reader(request))
        return get_response(request)

    return answered


@contextmanager
def as_house(profile: Profile) -> Iterator[None]:
    """In the house's zone and language: for what it says to others, whoever is at the desk."""
    with timezone.override(profile.zone), translation.override(of_house(profile)):
        yield


@contextmanager
def kept_for_all() -> Iterator[None]:
    """In the house's language: for sentences that are kept as they were said, in a plan for one."""
    if len(known()) < 2:
        yield
        return
    with translation.override(of_house(Profile.get())):
        yield


def ask(form: forms.ModelForm, *, or_house: bool = False) -> None:  # type: ignore[type-arg]
    """The field of a language as it is asked: not at all where there is nothing to choose."""
    if len(known()) < 2:
        del form.fields["language"]
        return
    shown = form.fields["language"]
    form.fields["language"] = forms.ChoiceField(
        label=shown.label,
        help_text=shown.help_text,
        required=False,
        choices=[*([("", _("as the house"))] if or_house else []), *known().items()],
    )
    if not or_house:
        form.initial["language"] = of_house(form.instance)
