"""The map of the tree in DEVELOPERS.md. Belongs here: making it from the files' own first sentences.

`python -m tests.tree_map` writes it into DEVELOPERS.md; a test refuses a map that differs from the tree.
"""

from __future__ import annotations

import ast
from pathlib import Path

ROOT = Path(__file__).parents[1]
GUIDE = ROOT / "DEVELOPERS.md"
START, END = "<!-- map: written by python -m tests.tree_map -->\n", "<!-- end of map -->\n"
APPS = ("studio", "bookings", "shotplans")


def source_files() -> list[Path]:
    """Every source file of the product that a person writes: tests and migrations left out."""
    found = [ROOT / "manage.py"]
    for app in APPS:
        written = (path for path in (ROOT / app).rglob("*.py") if path.parent.name != "migrations")
        found += sorted(written, key=lambda path: (path.parent, path.name))
    return found


def first_sentence(path: Path) -> str:
    text = " ".join((ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or "").split())
    return text.split(". ")[0].rstrip(".")


def line(path: Path) -> str:
    """One line a file; a package's own file stands for its folder."""
    name = path.relative_to(ROOT).as_posix().removesuffix("__init__.py")
    said = first_sentence(path)
    if not said:
        raise SystemExit(f"{name}: no module docstring, expected one that says what belongs there")
    return f"- `{name}` {said}\n"


def tree_map() -> str:
    return "".join(line(path) for path in source_files())


def written_map() -> str:
    return GUIDE.read_text(encoding="utf-8").split(START)[1].split(END)[0].strip("\n") + "\n"


def write() -> None:
    before, rest = GUIDE.read_text(encoding="utf-8").split(START)
    after = rest.split(END)[1]
    GUIDE.write_text(f"{before}{START}\n{tree_map()}\n{END}{after}", encoding="utf-8")


if __name__ == "__main__":
    write()
