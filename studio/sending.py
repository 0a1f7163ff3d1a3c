"""Files as answers. Belongs here: how a paper, a table or an archive is sent, under its name and kept by nobody on the
way."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from django.http import HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase

Answer = TypeVar("Answer", bound=HttpResponseBase)


def pdf(body: bytes, name: str) -> HttpResponse:
    """A paper, to be looked at and printed."""
    return _kept_by_nobody(HttpResponse(body, content_type="application/pdf"), f'inline; filename="{name}"')


def jpeg(body: bytes, name: str) -> HttpResponse:
    """A picture, to be looked at on a page."""
    return _kept_by_nobody(HttpResponse(body, content_type="image/jpeg"), f'inline; filename="{name}"')


def png(body: bytes, name: str) -> HttpResponse:
    """A drawn picture, to be looked at on a page."""
    return _kept_by_nobody(HttpResponse(body, content_type="image/png"), f'inline; filename="{name}"')


def csv(lines: Iterable[str], name: str) -> StreamingHttpResponse:
    """A table, line by line, to be kept."""
    answer = StreamingHttpResponse(lines, content_type="text/csv; charset=utf-8")
    return _kept_by_nobody(answer, f'attachment; filename="{name}"')


def archive(body: bytes | Iterable[bytes], name: str) -> HttpResponseBase:
    """A zip in one piece or as it is made, to be kept."""
    kind = HttpResponse if isinstance(body, bytes) else StreamingHttpResponse
    return _kept_by_nobody(kind(body, content_type="application/zip"), f'attachment; filename="{name}"')


def _kept_by_nobody(answer: Answer, disposition: str) -> Answer:
    answer["Content-Disposition"] = disposition
    answer["Cache-Control"] = "private, no-store"
    return answer
