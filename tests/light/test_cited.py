"""SOURCES.md against the docstrings: each source once, each with the functions that use it, none without."""

from __future__ import annotations

import ast
import re

import pytest

from tests.light import cited


def test_each_source_is_listed_once() -> None:
    keys = [row[0] for row in cited.rows()]
    assert sorted(keys) == sorted(set(keys))


def test_every_source_that_is_cited_is_listed_and_every_listed_one_is_cited() -> None:
    assert set(cited.users()) == {row[0] for row in cited.rows()}


def test_the_table_names_the_functions_that_use_each_source() -> None:
    assert cited.written() == cited.made(), "run: python -m tests.light.cited"


@pytest.mark.parametrize("row", cited.rows(), ids=lambda row: row[0])
def test_a_row_says_what_and_how_it_was_seen(row: list[str]) -> None:
    assert len(row) == 4
    assert all(row)


SAYS_WHENCE = re.compile(
    r"\[[A-Z][A-Z0-9-]+\]|common practice|from memory|[Oo]wn derivation|convention|[Dd]efinition|[Gg]eometr"
    r"|[Kk]inematics|Sources?:|[Ss]ources? as (in|there)"
)
NO_FORMULA = ("units.require_", "units.round_to", "units.feet_and_inches", "__main__", "cases")


def test_every_formula_says_where_it_is_from() -> None:
    found = []
    for path in sorted((cited.ROOT / "shotplans" / "light").glob("*.py")):
        public = {
            node.name for node in ast.parse(path.read_text(encoding="utf-8")).body
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
        }  # fmt: skip
        told = dict(cited.docstrings(path))  # the last of several overloads is the one that is documented
        names = [f"{path.stem}.{name}" for name in sorted(public)]
        said = {n: " ".join(told[n].split()) for n in names if not n.startswith(NO_FORMULA)}
        found += [n for n, text in said.items() if not SAYS_WHENCE.search(text)]
    assert found == []
