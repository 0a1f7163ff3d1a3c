"""What is wrong with a tree, in sentences of our own. Belongs here: turning a refusal of the classes into
`path: what is wrong, what is expected`, worded from their JSON Schema. Not here: what they cannot say
(`consistency`)."""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import cache
from typing import Any

from pydantic_core import ErrorDetails

from shotplans.planner.json_text import Fault, Path, spelt
from shotplans.planner.request import Request
from shotplans.planner.words.joined import any_of
from studio.tongue import gettext as _

Node = dict[str, Any]
_MISSING = object()


@cache
def schema() -> Node:
    """JSON Schema of the whole input, made from the classes that read it."""
    return Request.model_json_schema(mode="validation")


def from_errors(tree: Any, errors: Iterable[ErrorDetails]) -> list[Fault]:
    """One fault for each place the classes refuse, in their order."""
    found: dict[Path, str] = {}
    for error in errors:
        path, value = _place(tree, error["loc"], unknown=error["type"] == "extra_forbidden")
        # A list with faulty entries is also called too short, because only sound entries are counted.
        if path not in found and not (error["type"] == "too_short" and value):
            found[path] = _words(error["type"], path, value)
    return list(found.items())


def _place(tree: Any, loc: Path, unknown: bool) -> tuple[Path, Any]:
    """The path inside the file (members of a union are no part of it), and what stands there.

    A member's name may look like a key where an object stands in place of a number; only an `unknown` key and the
    schema's own are taken as keys.
    """
    value = tree
    for depth, part in enumerate(loc):
        last_unknown = unknown and depth == len(loc) - 1
        if isinstance(value, dict) and isinstance(part, str) and (last_unknown or part in _properties(loc[:depth])):
            value = value.get(part, _MISSING)
        elif isinstance(value, list) and isinstance(part, int) and part < len(value):
            value = value[part]
        else:
            return loc[:depth], value
        if value is _MISSING:
            return loc[: depth + 1], value
    return loc, value


def _words(kind: str, path: Path, value: Any) -> str:
    if kind == "extra_forbidden":
        return _("unknown key, expected one of {keys}").format(keys=", ".join(_keys(path[:-1])))
    expected = _expected(_node(path))
    if value is _MISSING:
        return _("missing, expected {expected}").format(expected=expected)
    return _("{value}, expected {expected}").format(value=_shown(value), expected=expected)


def _shown(value: Any) -> str:
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return f"{value:.6g}"
    if isinstance(value, str):
        return _("a text of {count} characters").format(count=f"{len(value):,}") if len(value) > 60 else spelt(value)
    if isinstance(value, list | tuple):
        return _("a list of {count}").format(count=f"{len(value):,}") if value else _("an empty list")
    return _("an object") if isinstance(value, dict) else _("something else")


def _open(node: Node) -> Node:
    """The node behind a reference."""
    while "$ref" in node:
        node = schema()["$defs"][node["$ref"].rsplit("/", 1)[1]]
    return node


def _choices(node: Node) -> list[Node]:
    """The node's alternatives, null left out."""
    node = _open(node)
    if "anyOf" not in node:
        return [node]
    return [choice for inner in node["anyOf"] for choice in _choices(inner) if choice.get("type") != "null"]


def _node(path: Path) -> Node:
    node = schema()
    for part in path:
        first = _choices(node)[0]
        node = first["items"] if isinstance(part, int) else first["properties"][part]
    return node


def _properties(path: Path) -> Node:
    found: Node = _choices(_node(path))[0].get("properties", {})
    return found


def _keys(path: Path) -> list[str]:
    return list(_choices(_node(path))[0]["properties"])


def _expected(node: Node) -> str:
    return any_of([_one_expected(choice) for choice in _choices(node)])


def _one_expected(node: Node) -> str:
    if "enum" in node or "const" in node:
        codes = node.get("enum", [node.get("const")])
        return (_("one of {codes}") if len(codes) > 1 else "{codes}").format(codes=", ".join(codes))
    kind = node.get("type")
    if kind in ("number", "integer"):
        number = _("a number from {low} to {high}") if kind == "number" else _("a whole number from {low} to {high}")
        return number.format(low=_bound(node["minimum"]), high=_bound(node["maximum"]))
    if kind == "array":
        count = _("a list of {low} to {high} entries") if "minItems" in node else _("a list of up to {high} entries")
        return count.format(low=node.get("minItems"), high=node["maxItems"])
    if kind == "object":
        return _("an object with {keys}").format(keys=", ".join(node["properties"]))
    if kind == "boolean":
        return _("true or false")
    if "maxLength" not in node:
        return _("two numbers as in 4:5")
    some = _("a text of 1 to {most} characters, without control characters")
    any_ = _("a text of at most {most} characters, without control characters")
    return (some if "minLength" in node else any_).format(most=node["maxLength"])


def _bound(value: float) -> str:
    return f"{value:,}" if value == math.floor(value) else f"{value:.10f}".rstrip("0")
