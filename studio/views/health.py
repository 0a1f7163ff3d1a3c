"""Whether the house is up, for a load balancer or whoever watches the machine. Belongs here: two answers of one word,
under whatever name they are asked. Nothing of the studio stands in them, and nobody signs in for them."""

from __future__ import annotations

from collections.abc import Callable

from django.conf import settings
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor
from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from studio.access import allow

PATHS = ("/live/", "/ready/")
_whole: set[str] = set()  # what was found true once and stays so while this process runs


def under_any_name(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """The middleware: a load balancer asks a machine by its number, which is no name of this house. These two answers
    hold no address, so it does not matter which name they were asked by; every other page keeps to ALLOWED_HOSTS."""

    def answered(request: HttpRequest) -> HttpResponse:
        if request.path in PATHS:
            known = settings.ALLOWED_HOSTS[0] if settings.ALLOWED_HOSTS else "localhost"
            request.META["HTTP_HOST"] = known.removeprefix(".").replace("*", "localhost")
        return get_response(request)

    return answered


@allow.anyone
@require_safe
def live(request: HttpRequest) -> HttpResponse:
    """This process answers."""
    return _said("live")


@allow.anyone
@require_safe
def ready(request: HttpRequest) -> HttpResponse:
    """And its database does, with every table this release expects."""
    try:
        with connection.cursor() as cursor:
            cursor.execute("SELECT 1")
        if "migrated" not in _whole:
            executor = MigrationExecutor(connection)
            if executor.migration_plan(executor.loader.graph.leaf_nodes()):
                return _said("the database waits for manage.py migrate", 503)
            _whole.add("migrated")
    except DatabaseError:
        return _said("the database does not answer", 503)
    return _said("ready")


def _said(words: str, status: int = 200) -> HttpResponse:
    answer = HttpResponse(f"{words}\n", content_type="text/plain; charset=utf-8", status=status)
    answer["Cache-Control"] = "no-store"
    return answer
