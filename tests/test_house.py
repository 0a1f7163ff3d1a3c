"""The rules of the house that a machine can hold. Belongs here: structure, sizes, names, tools. A rule
without a check drifts."""

from __future__ import annotations

import ast
import json
import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from tests import tree_map

ROOT = Path(__file__).parents[1]
TOOLS = Path(sys.executable).parent
LONGEST_FILE = 350
LONGEST_FUNCTION = 50
FORBIDDEN_NAMES = {"utils", "helpers", "common", "misc", "services", "manager", "base"}
PURE_OF_SHOTPLANS = ("light", "planner", "sheets", "seeing", "records")
LEFT_OUT = {".git", ".coverage", ".venv", ".data", "__pycache__"}


def run(*command: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(list(map(str, command)), cwd=ROOT, capture_output=True, text=True, timeout=300)


@cache
def files() -> tuple[Path, ...]:
    """Every file of the project as it would be kept, without what tools leave behind."""
    found = []
    for folder, inside, names in os.walk(ROOT):  # never into what is left out: an environment has ten thousand files
        inside[:] = [name for name in inside if name not in LEFT_OUT and (name[0] != "." or name == ".ci")]
        for name in names:
            # A run with coverage may be going on in another window.
            if name not in LEFT_OUT and not name.endswith(".pyc") and not name.startswith(".coverage."):
                found.append(Path(folder) / name)
    return tuple(sorted(found))


def python_files() -> list[Path]:
    return [path for path in files() if path.suffix == ".py"]


def shown(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def test_apps_and_layers_import_downwards_only() -> None:
    done = run(TOOLS / "lint-imports", "--no-cache")
    assert done.returncode == 0, done.stdout


def test_the_pure_packages_run_without_django() -> None:
    code = """
import importlib, json, pkgutil, sys
for name in sys.argv[1:]:
    named = importlib.import_module(name)
    for module in pkgutil.walk_packages(getattr(named, "__path__", ()), name + "."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)
print(json.dumps(sorted(sys.modules)))
"""
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"]["contracts"]
    pure = {m for c in contracts if "django" in c.get("forbidden_modules", ()) for m in c["source_modules"]}
    assert pure >= {"studio.paper", "bookings.slots", *(f"shotplans.{part}" for part in PURE_OF_SHOTPLANS)}
    done = run(sys.executable, "-c", code, *sorted(pure))
    assert done.returncode == 0, done.stderr
    assert {"django", "environ"} & {name.split(".")[0] for name in json.loads(done.stdout)} == set()


@pytest.mark.parametrize("lower", ["studio", "bookings"])
def test_no_lower_app_names_an_upper_one_even_as_text(lower: str) -> None:
    upper = {"studio": ("bookings", "shotplans"), "bookings": ("shotplans",)}[lower]
    free = {ROOT / "studio" / "settings.py", ROOT / "studio" / "urls.py"}
    for path in set((ROOT / lower).rglob("*.py")) - free:
        text = path.read_text(encoding="utf-8")
        assert not re.search(rf"[\"']({'|'.join(upper)})\b", text), shown(path)


def test_source_files_are_short_enough_to_read() -> None:
    lengths = {
        shown(path): len(path.read_text(encoding="utf-8").splitlines()) for path in tree_map.source_files()
    }
    assert {name: lines for name, lines in lengths.items() if lines > LONGEST_FILE} == {}


def test_functions_are_short_enough_to_read() -> None:
    long = {
        f"{shown(path)}:{node.name}": node.end_lineno - node.lineno + 1
        for path in tree_map.source_files()
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and node.end_lineno is not None
    }
    assert {name: lines for name, lines in long.items() if lines > LONGEST_FUNCTION} == {}


def test_every_file_name_says_what_is_in_it() -> None:
    assert [shown(path) for path in python_files() if path.stem in FORBIDDEN_NAMES] == []


def test_every_test_is_run() -> None:
    marks = re.compile(r"mark\.(skip|skipif|xfail)\b|pytest\.(skip|xfail|importorskip)\(|unittest\.skip")
    # A desk without PostgreSQL, Chromium or the proof's libraries may go without those tests, saying why; under
    # CI=true a skip fails.
    places = ("tests/bookings/test_postgresql.py", "tests/browser/conftest.py", "tests/proof/conftest.py")
    free = {Path(__file__), *(ROOT / place for place in places)}
    found = [
        shown(p) for p in (ROOT / "tests").rglob("*.py") if p not in free and marks.search(p.read_text("utf-8"))
    ]
    assert found == []


def test_the_map_in_the_guide_is_the_tree() -> None:
    assert tree_map.written_map() == tree_map.tree_map(), "run: python -m tests.tree_map"


def test_every_chapter_of_the_asvs_names_a_test_that_is_there() -> None:
    part = (ROOT / "DEVELOPERS.md").read_text("utf-8").split("## Held against the ASVS")[1].split("\n## ")[0]
    rows = [line for line in part.splitlines() if line.startswith("| V")]
    assert len(rows) == 15
    for row in rows:
        named = re.findall(r"`(tests/[\w/]+\.py)::(\w+)`", row)
        assert named, row
        for file, test in named:
            assert f"def {test}(" in (ROOT / file).read_text("utf-8"), row


def test_the_guide_names_everything_beside_the_source() -> None:
    guide = tree_map.GUIDE.read_text(encoding="utf-8")
    tops = {shown(path).split("/")[0] for path in files()} - set(tree_map.APPS)
    assert {top for top in tops if top not in guide} == set()


def test_no_address_of_a_host_or_of_one_machine_is_kept() -> None:
    machine = "|".join(("root", "work", "tmp", "home/[a-z]", "opt", "Users"))
    pattern = re.compile(
        rf"(?<![\w.}}])/({machine})/|https?://(?!localhost|127\.0\.0\.1|studio\.example\.org\b)|pypi\.|pythonhosted"
    )
    here = Path(__file__)
    found = []
    for path in files():
        if path == here:
            continue
        text = path.read_text(encoding="utf-8", errors="ignore")
        found += [f"{shown(path)}: {match.group()}" for match in pattern.finditer(text)]
    assert found == []


def docstrings(path: Path) -> Iterator[str]:
    """Docstrings of modules, classes, functions and constants."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if (
            isinstance(node, ast.Expr)
            and isinstance(node.value, ast.Constant)
            and isinstance(node.value.value, str)
        ):
            yield node.value.value


def test_every_source_that_is_cited_is_listed() -> None:
    listed = set(
        re.findall(r"^\| ([A-Z][A-Z0-9-]+) \|", (ROOT / "shotplans/light/SOURCES.md").read_text(), re.M)
    )
    assert listed
    for path in [*(ROOT / "shotplans/light").rglob("*.py"), *(ROOT / "shotplans/planner").rglob("*.py")]:
        cited = {key for text in docstrings(path) for key in re.findall(r"\[([A-Z][A-Z0-9-]+)\]", text)}
        assert cited <= listed, shown(path)


def test_ruff_is_content() -> None:
    done = run(TOOLS / "ruff", "check", "--no-cache", ".")
    assert done.returncode == 0, done.stdout


def test_the_pure_packages_are_typed_strictly() -> None:
    done = run(sys.executable, "-m", "mypy")
    assert done.returncode == 0, done.stdout


def test_the_lock_holds_what_the_project_asks_for_and_nobody_s_address() -> None:
    lock = (ROOT / "requirements.lock").read_text(encoding="utf-8")
    pinned = set(re.findall(r"^([a-z0-9-]+)==", lock, re.M))
    asked = re.findall(
        r'^    "([a-z0-9-]+)[<>=]', (ROOT / "pyproject.toml").read_text().split("[project.opt")[0], re.M
    )
    assert set(asked) - {"hatchling"} <= pinned
    assert "--index" not in lock
    assert "--find-links" not in lock
    blocks = re.split(r"^(?=[a-z])", lock, flags=re.M)[1:]
    assert all("--hash=sha256:" in block for block in blocks)
