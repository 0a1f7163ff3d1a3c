"""Every sheet speaks the reader's language: no words of ours stand outside a sentence that a translator reaches."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SAYING = {"_", "gettext", "ngettext", "noop"}
# What is asked for, matched or written for a machine.
SILENT = {
    "get", "removeprefix", "removesuffix", "startswith", "endswith", "split", "getattr", "compile", "TypeVar", "sub",
    "ValueError", "TypeError", "KeyError", "partition", "replace",
}  # fmt: skip
SENTENCE = re.compile(r"[A-Za-z]{2,}[^A-Za-z]* [^A-Za-z]*[A-Za-z]{2,}")
WORDS = re.compile(r"[A-Za-z]{2,}")
# SVG, names of marks, units and keys of files: for a machine, or the same everywhere.
FOR_MACHINES = re.compile(
    r"[<>]|=\"|^[\W\d]*(mm|cm|ft|lb|kg|in|ISO|W|A|K|h  min|min|m|U\+\w*|[a-z]+-)[\W\d]*$|^(EXIF|mark) "
    r"| (aim|beam|bearing|broken)$"
)
FILES = sorted(
    path for package in ("shotplans/sheets", "shotplans/records", "shotplans/seeing", "studio/paper")
    for path in (ROOT / package).glob("*.py")
    if path.name not in ("svg.py", "fonts.py", "pack.py", "counts.py", "set_marks.py")
)  # fmt: skip
PARTS = {"part", "align", "kind"}


def unsaid(source: str) -> Iterator[str]:
    """Sentences of a module that stand outside every call of the tongue, with their lines. What a table marks may stand
    elsewhere as what it is known by."""
    tree = ast.parse(source)
    marked = {
        one.args[0].value for one in ast.walk(tree)
        if isinstance(one, ast.Call) and getattr(one.func, "id", "") == "noop" and isinstance(one.args[0], ast.Constant)
    }  # fmt: skip
    yield from (said for said in _walk(tree) if said.partition(": ")[2] not in marked)


def _walk(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
        return  # a docstring
    if isinstance(node, ast.Call):
        name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        if name in SAYING | SILENT:
            return
    if isinstance(node, ast.Compare):
        return
    if isinstance(node, ast.keyword) and node.arg in PARTS:
        return
    if isinstance(node, ast.JoinedStr):
        text = "".join(one.value if isinstance(one, ast.Constant) else "{}" for one in node.values)
        if WORDS.search(text.replace("{}", " ")) and not FOR_MACHINES.search(text.replace("{}", "").strip()):
            yield f"line {node.lineno}: {text}"
        for one in node.values:
            if isinstance(one, ast.FormattedValue):
                yield from _walk(one.value)
        return
    if isinstance(node, ast.Constant):
        if isinstance(node.value, str) and SENTENCE.search(node.value) and not FOR_MACHINES.search(node.value):
            yield f"line {node.lineno}: {node.value}"
        return
    for child in ast.iter_child_nodes(node):
        yield from _walk(child)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_every_sentence_of_a_sheet_goes_through_the_tongue(path: Path) -> None:
    assert list(unsaid(path.read_text())) == []


def test_a_sentence_that_is_not_said_is_found() -> None:
    source = 'A = noop("white side")\ndef f(x):\n    """No words."""\n    return f"{x} is full", "in the way", _("it")'
    assert list(unsaid(source)) == ["line 4: {} is full", "line 4: in the way"]
