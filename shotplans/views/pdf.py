"""Papers as answers. Belongs here: how a PDF is sent, kept by nobody on the way."""

from __future__ import annotations

from django.http import HttpResponse


def pdf(body: bytes, name: str) -> HttpResponse:
    answer = HttpResponse(body, content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="{name}"'
    answer["Cache-Control"] = "private, no-store"
    return answer
