"""Which function uses which source, read off the docstrings. Belongs here: finding that and writing SOURCES.md anew.

`python -m tests.light.cited` rewrites the last column of the table; a test refuses a table that differs from the
docstrings. A new source is a row `| KEY | what | how it was seen |`; the command adds who uses it.
"""

from __future__ import annotations

import ast
import re
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
TABLE = ROOT / "shotplans" / "light" / "SOURCES.md"
KEY = re.compile(r"\[([A-Z][A-Z0-9-]+)\]")
HEAD = "| key | what | how it was seen | used by |\n|---|---|---|---|\n"


def docstrings(path: Path) -> Iterator[tuple[str, str]]:
    """Every docstring with the dotted name of what it belongs to: a module, a class, a function or a constant."""
    module = path.stem if path.parent.name == "light" else f"{path.parent.name}.{path.stem}"
    yield from _docstrings(ast.parse(path.read_text(encoding="utf-8")), module)


def _docstrings(node: ast.Module | ast.ClassDef | ast.FunctionDef, name: str) -> Iterator[tuple[str, str]]:
    yield name, ast.get_docstring(node) or ""
    for before, statement in zip([None, *node.body], node.body, strict=False):
        if isinstance(statement, ast.ClassDef | ast.FunctionDef):
            yield from _docstrings(statement, f"{name}.{statement.name}")
        elif isinstance(before, ast.Assign | ast.AnnAssign) and _text(statement):
            target = before.targets[0] if isinstance(before, ast.Assign) else before.target
            yield f"{name}.{ast.unparse(target)}", _text(statement)


def _text(statement: ast.stmt) -> str:
    constant = statement.value if isinstance(statement, ast.Expr) else None
    return constant.value if isinstance(constant, ast.Constant) and isinstance(constant.value, str) else ""


def users() -> dict[str, list[str]]:
    """Names that cite each key, in the order of the files and of their lines."""
    found: dict[str, list[str]] = defaultdict(list)
    for package in ("light", "planner"):
        for path in sorted((ROOT / "shotplans" / package).rglob("*.py")):
            for name, text in docstrings(path):
                for key in dict.fromkeys(KEY.findall(text)):
                    found[key].append(name)
    return found


def rows() -> list[list[str]]:
    """Cells of the written table, row by row, without its head."""
    lines = [line for line in TABLE.read_text(encoding="utf-8").splitlines() if line.startswith("| ")]
    return [[cell.strip() for cell in line.strip("| ").split(" | ")] for line in lines[1:]]


def written() -> str:
    return TABLE.read_text(encoding="utf-8")


def made() -> str:
    """The page with its last column as the docstrings have it."""
    before = written().split("| key |")[0]
    cited = users()
    lines = [f"| {key} | {what} | {seen} | {', '.join(cited[key])} |\n" for key, what, seen, *_ in rows()]
    return before + HEAD + "".join(lines)


if __name__ == "__main__":
    TABLE.write_text(made(), encoding="utf-8")
