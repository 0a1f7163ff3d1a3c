"""Bytes to a tree of plain values, exactly. Belongs here: what JSON itself can get wrong (encoding, syntax,
repeated keys, numbers that are not finite, half characters, depth). Not here: what the values mean."""

from __future__ import annotations

import json
import math
from collections import Counter
from typing import Any, NoReturn

from studio.tongue import gettext as _
from studio.tongue import noop

LARGEST_BYTES = 5_000_000
DEEPEST = 32
WHOLE = noop("the file")
Path = tuple[str | int, ...]
Fault = tuple[Path, str]


class NotJson(ValueError):
    """The bytes are no JSON text at all; `str()` is the one fault."""


class _OddNumber:
    """A number that is not finite, kept as it was written so that its place can be named."""

    def __init__(self, written: str) -> None:
        self.written = written


class _Repeating(dict[str, Any]):
    """An object in which keys came more than once."""

    repeated: list[str]


def spelt(text: str) -> str:
    """A short text fit for one line of a terminal: quoted, controls and half characters escaped."""
    shown = text if len(text) <= 60 else text[:57] + "..."
    return json.dumps(shown, ensure_ascii=not shown.isprintable())


def path_text(path: Path) -> str:
    """`brief.setups[0].intent`; the whole file where the path is empty."""
    out = ""
    for part in path:
        if isinstance(part, int):
            out += f"[{part}]"
        else:
            plain = part.isidentifier() and len(part) <= 60
            out += ("." if out else "") + (part if plain else spelt(part))
    return out or _(WHOLE)


def parse(raw: bytes) -> tuple[Any, list[Fault]]:
    """The tree and every fault of notation in it, with its path. Raises NotJson where there is no tree."""
    if len(raw) > LARGEST_BYTES:
        raise NotJson(_at_whole(_("larger than 5 MB, expected at most {most} bytes").format(most=f"{LARGEST_BYTES:,}")))
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise NotJson(
            _at_whole(_("byte {place} is not UTF-8, expected JSON in UTF-8").format(place=error.start))
        ) from None
    try:
        tree = json.loads(
            text, object_pairs_hook=_object, parse_float=_number, parse_int=_whole, parse_constant=_OddNumber
        )
    except json.JSONDecodeError as error:
        said = _("line {line}, column {column}: {reason}, expected one JSON object")
        reason = error.msg[:1].lower() + error.msg[1:]
        raise NotJson(_at_whole(said.format(line=error.lineno, column=error.colno, reason=reason))) from None
    except RecursionError:
        _too_deep()
    return tree, _faults(tree)


def _at_whole(words: str) -> str:
    return f"{_(WHOLE)}: {words}"


def _too_deep() -> NoReturn:
    raise NotJson(_at_whole(_("nested too deeply, expected at most {most} levels").format(most=DEEPEST))) from None


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    plain = dict(pairs)
    if len(plain) == len(pairs):
        return plain
    found = _Repeating(plain)
    counts = Counter(key for key, _value in pairs)
    found.repeated = [key for key, count in counts.items() if count > 1]
    return found


def _number(written: str) -> float | _OddNumber:
    value = float(written)
    return value if math.isfinite(value) else _OddNumber(written)


def _whole(written: str) -> int | float | _OddNumber:
    # Past 18 digits a float says the same to any bound we set, and costs nothing to read.
    return int(written) if len(written) <= 18 else _number(written)


def _faults(tree: Any) -> list[Fault]:
    """Walks the tree without recursion, so that no depth can hurt."""
    faults: list[Fault] = []
    waiting: list[tuple[Path, Any]] = [((), tree)]
    while waiting:
        path, value = waiting.pop()
        if len(path) > DEEPEST:
            _too_deep()
        if isinstance(value, _OddNumber):
            said = _("{value} is not a finite number, expected a finite number")
            faults.append((path, said.format(value=value.written[:40])))
        elif isinstance(value, str):
            if _is_broken(value):
                said = _("{value} holds half a character, expected whole Unicode text")
                faults.append((path, said.format(value=spelt(value))))
        elif isinstance(value, list):
            waiting.extend(((*path, i), item) for i, item in reversed(list(enumerate(value))))
        elif isinstance(value, dict):
            if isinstance(value, _Repeating):
                faults.extend(((*path, key), _("given more than once, expected once")) for key in value.repeated)
            faults.extend(
                ((*path, key), _("key holds half a character, expected whole Unicode text"))
                for key in value
                if _is_broken(key)
            )
            waiting.extend(((*path, key), item) for key, item in reversed(list(value.items())))
    return faults


def _is_broken(text: str) -> bool:
    return any("\ud800" <= c <= "\udfff" for c in text)
