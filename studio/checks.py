"""What `manage.py check` says before anybody is served. Belongs here: one check for each thing a programmer can forget,
and for a key that is not kept, each with its cure. Not here: how this house is run (`self_check`)."""

from collections.abc import Sequence
from typing import Any

from django.apps import AppConfig
from django.conf import settings
from django.core.checks import CheckMessage, Error, Warning, register
from django.urls import NoReverseMatch, reverse

from studio.addresses import every_address


@register
def secret_key_is_kept(app_configs: Sequence[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    """A key that is made anew at every start signs everybody out."""
    if settings.SECRET_KEY_KEPT:
        return []
    return [
        Warning(
            "The secret key could not be written and is lost when the process ends.",
            hint="Make the folder in TENTHSTOP_DATA writable, or set SECRET_KEY.",
            id="studio.W001",
        )
    ]


@register
def every_page_says_who_may_see_it(app_configs: Sequence[AppConfig] | None, **kwargs: Any) -> list[CheckMessage]:
    """A page that forgot to say so would be open to whoever is asking."""
    return [
        Error(
            f"{address.route} does not say who may see it.",
            hint="Put @allow(...) from studio.access on its view.",
            id="studio.E001",
        )
        for address in every_address()
        if not address.allowed_roles
    ]


@register
def every_word_of_the_top_row_leads_somewhere(
    app_configs: Sequence[AppConfig] | None, **kwargs: Any
) -> list[CheckMessage]:
    """A name in the settings that no address bears is a word missing from the page."""
    names = [name for _roles, _label, name in settings.NAV] + list(settings.FIRST_PAGES.values())
    return [
        Warning(f"No page is called {name!r}.", hint="See NAV and FIRST_PAGES in studio/settings.py.", id="studio.W002")
        for name in dict.fromkeys(names)
        if not _leads_somewhere(name)
    ]


def _leads_somewhere(name: str) -> bool:
    try:
        reverse(name)
    except NoReverseMatch:
        return False
    return True
