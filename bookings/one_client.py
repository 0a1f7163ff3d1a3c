"""Everything about one client in one file. Belongs here: gathering the rows and packing them, with a page to read them
by. Not here: which rows there are (`erasable`)."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Iterator
from html import escape
from typing import Any

from django.conf import settings
from django.core import serializers
from django.core.serializers.json import DjangoJSONEncoder
from django.utils.module_loading import import_string
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from bookings import erasable
from bookings.models import Client
from studio import tongue

Part = tuple[str, list[dict[str, Any]]]
LEFT_OUT = ("found_by", "content", "secret", "digest", "lease", "version")  # the machine's own, nothing about anybody


def packed(client: Client) -> bytes:
    """A zip with the data as JSON and the same as a page."""
    parts = list(gathered(client))
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("data.json", json.dumps(dict(parts), cls=DjangoJSONEncoder, ensure_ascii=False, indent=1))
        archive.writestr("read-me.html", _page(client, parts))
    return file.getvalue()


def gathered(client: Client) -> Iterator[Part]:
    """Each kind of row with its values, the client first; what upper apps hold last."""
    yield str(Client._meta.verbose_name), _values([client])
    seen: dict[str, list[dict[str, Any]]] = {}
    for words in erasable.WORDS:
        seen.setdefault(str(words.model._meta.verbose_name), []).extend(_values(words.of(client)))
    yield from seen.items()
    for path in settings.CLIENT_COPIES:
        yield from import_string(path)(client)


def _values(rows: Any) -> list[dict[str, Any]]:
    found = serializers.serialize("python", rows)
    return [
        {"key": one["pk"]} | {name: value for name, value in one["fields"].items() if _is_told(name, value)}
        for one in found
    ]


def _is_told(name: str, value: Any) -> bool:
    return not (name in LEFT_OUT and not isinstance(value, dict)) and not isinstance(value, bytes)


def _page(client: Client, parts: list[Part]) -> str:
    title = _("What the studio holds about %(name)s") % {"name": client.name}
    body = [f"<h1>{escape(title)}</h1>"]
    for name, rows in parts:
        if not rows:
            continue
        body.append(f"<h2>{escape(capfirst(name))}</h2>")
        for row in rows:
            facts = "".join(
                f"<dt>{escape(str(key))}</dt><dd>{escape(_said(value))}</dd>"
                for key, value in row.items() if value not in (None, "", [], {})
            )  # fmt: skip
            body.append(f"<dl>{facts}</dl>")
    head = f'<html lang="{tongue.language()}"><meta charset="utf-8"><title>{escape(title)}</title>'
    return f"<!doctype html>{head}{''.join(body)}</html>"


def _said(value: Any) -> str:
    if isinstance(value, dict | list):
        return json.dumps(value, cls=DjangoJSONEncoder, ensure_ascii=False)
    return str(value)
