"""The door of the planner: bytes in, a `Request` or every fault; a plan out as text. Belongs here:
reading, the schema, the fingerprint, writing. Not here: defaults (`assumptions`), planning (`solve`)."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import ValidationError

from shotplans.planner import assumptions, consistency, faults
from shotplans.planner.faults import schema
from shotplans.planner.json_text import Fault, NotJson, parse, path_text
from shotplans.planner.request import Request
from studio.tongue import ngettext

__all__ = ["Request", "Unreadable", "dump", "fingerprint", "read_request", "schema", "understand"]

MOST_FAULTS = 1000


class Unreadable(ValueError):
    """The input cannot be used. `faults`: one line each, `path.to.field: what is wrong, what is expected`."""

    def __init__(self, faults: list[str]) -> None:
        super().__init__("\n".join(faults))
        self.faults = faults


def read_request(raw: bytes) -> Request:
    """The request in a file's bytes. Raises Unreadable with every fault found."""
    try:
        tree, notation = parse(raw)
    except NotJson as error:
        raise Unreadable([str(error)]) from None
    return _understand(tree, notation)


def understand(tree: Any) -> Request:
    """The request in a tree of plain values (the file's, or rows turned into the same). Raises Unreadable."""
    return _understand(tree, [])


def _understand(tree: Any, notation: list[Fault]) -> Request:
    request: Request | None = None
    found = list(notation)
    try:
        request = Request.model_validate(tree)
    except ValidationError as error:
        found += faults.from_errors(tree, error.errors(include_url=False, include_context=False))
    found += consistency.faults(tree)
    if found or request is None:
        raise Unreadable(_lines(found))
    return request


def _lines(found: Iterable[Fault]) -> list[str]:
    """One line for each place, the first thing said of it; a flood is cut off and counted."""
    first: dict[str, str] = {}
    for path, words in found:
        first.setdefault(path_text(path), words)
    lines = [f"{path}: {words}" for path, words in first.items()]
    if len(lines) > MOST_FAULTS:
        lines[MOST_FAULTS:] = [_more(len(lines) - MOST_FAULTS)]
    return lines


def _more(count: int) -> str:
    said = ngettext("and {count} more faults like these", "and {count} more faults like these", count)
    return said.format(count=f"{count:,}")


def fingerprint(request: Request) -> str:
    """SHA-256, in hex, of the request as understood: after the defaults, keys sorted, 1 and 1.0 the same.

    Two files that say the same have one fingerprint, whether they say it themselves or leave it to a default;
    a changed default changes it, because the plan would change too.
    """
    filled, _said = assumptions.fill(request)
    tree = filled.model_dump(mode="json")
    if not tree["beams"]:  # a key that came later: what does not use it is the request it was
        del tree["beams"]
    text = json.dumps(_settled(tree), sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("ascii")).hexdigest()


def _settled(value: Any) -> Any:
    """Whole floats as integers, and no minus zero."""
    if isinstance(value, float) and value.is_integer():
        return int(value)
    if isinstance(value, dict):
        return {key: _settled(item) for key, item in value.items()}
    return [_settled(item) for item in value] if isinstance(value, list) else value


def dump(document: Mapping[str, Any]) -> str:
    """A plan as JSON text, keys in the document's order; equal plans give equal text. ValueError for NaN."""
    return json.dumps(document, ensure_ascii=False, indent=1, allow_nan=False) + "\n"
