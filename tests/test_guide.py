"""README and guide name commands, options, files, functions, settings and words of pages: each is there. Belongs here:
what a machine can hold of what they say. Not here: that the README's two lines work (`.ci/run`)."""

from __future__ import annotations

import re
from functools import cache
from importlib.util import find_spec
from pathlib import Path

import pytest
from django.core.management import get_commands, load_command_class

from shotplans.records.frame_checks import CHECKS
from studio import on_set
from studio.actions import second, tries
from studio.models import Profile
from tests import test_house, tree_map

ROOT = Path(__file__).parents[1]
GUIDE = tree_map.GUIDE.read_text("utf-8")
TEXTS = {
    "README.md": (ROOT / "README.md").read_text("utf-8"),
    "DEVELOPERS.md": GUIDE.split(tree_map.START)[0] + GUIDE.split(tree_map.END)[1],  # the map has a test of its own
}
BLOCK = re.compile(r"^```\w*\n(.*?)^```", re.M | re.S)
OF_OTHERS = {"--workers", "--threads", "--bind", "--maxprocesses", "--dist", "max_connections"}  # gunicorn's, pytest's
CONFTEST = ROOT / "tests" / "conftest.py"  # `tests.postgres` hands its options on
# Addresses, readings, what is made on the way, how names begin, and files of the reader's own: not in the tree.
NOT_HERE = re.compile(
    r"/.*|https?:.*|f/\d.*|\.(data|venv)\b.*|\.\w+|-+\w.*|X-.*|(own|read|fit)_|_noun\.html|BRIEF\.json"
)


@cache
def spans(name: str) -> tuple[str, ...]:
    """What stands between backticks, and each step of a line of a block."""
    lines = [line for block in BLOCK.findall(TEXTS[name]) for line in block.splitlines()]
    steps = [step for line in lines for step in line.split(" && ")]
    return (*re.findall(r"`([^`\n]+)`", BLOCK.sub("", TEXTS[name])), *steps)


@cache
def places() -> tuple[str, ...]:
    """Every file and folder, with a stroke before it, so that the end of one is asked for whole."""
    found = {test_house.shown(path) for path in test_house.files()}
    return tuple(f"/{one}" for one in found | {str(above) for one in found for above in Path(one).parents})


def of(name: str, *endings: str) -> list[Path]:
    """The files and folders that a name, whole or its end, stands for."""
    wanted = tuple(f"/{name}{ending}" for ending in endings)
    return [ROOT / one[1:] for one in places() if one.endswith(wanted)]


@cache
def source(path: Path) -> str:
    return path.read_text("utf-8")


@cache
def words() -> frozenset[str]:
    """Every word of the product, its pages and its tests, these two texts left out."""
    read = (path for path in test_house.files() if path.suffix in {".py", ".html", ".js", ".toml", ".css"})
    return frozenset(word for path in read for kind in (r"\w+", r"[\w-]+") for word in re.findall(kind, source(path)))


def is_defined(module: str, name: str) -> bool:
    """Whether a module of that name, or the end of it, has this at its top, made there or taken in."""
    of_top = re.compile(rf"^(?:(?:def|class) {name}\b|{name}\b.*=|from .* import .*\b{name}\b|    {name},$)", re.M)
    return any(of_top.search(source(path)) for path in of(module.replace(".", "/"), ".py", "/__init__.py"))


def stands(span: str) -> bool:
    """A path, a test in one, `views/plans.sheet`, `settings.NAV` or `NAV`: whether there is such a thing."""
    place, _colons, test = span.partition("::")
    if test:
        return is_defined(place.removesuffix(".py"), test)
    if of(span.rstrip("/"), "", ".py", ".html") or of(span.replace(".", "/"), "", ".py"):
        return True
    module, _point, name = span.rpartition(".")
    return is_defined(module, name) if module else span in words()


@pytest.mark.parametrize("name", TEXTS)
def test_every_file_function_and_name_that_is_named_is_there(name: str) -> None:
    asked = [one for one in spans(name) if re.fullmatch(r"[\w./:-]*\w[\w./:-]*", one) and not NOT_HERE.fullmatch(one)]
    assert len(asked) > 25
    assert [one for one in asked if one not in OF_OTHERS and not stands(one)] == []


def test_a_name_that_is_nowhere_is_seen() -> None:
    no = ["views/plans.shet", "fixtures/nobody/", "planner/none.py", "kerf" + "uffles", "tests/test_guide.py::test_no"]
    yes = ["views/plans.sheet", "fixtures/briefs/", "planner/rows.py", "spans", "tests/test_guide.py::stands"]
    assert [stands(one) for one in (*no, *yes)] == [False] * len(no) + [True] * len(yes)


@pytest.mark.parametrize("name", TEXTS)
def test_every_command_that_is_named_takes_the_options_named_with_it(name: str) -> None:
    """A command of ours as its own parser has it; an option of another must stand in its source."""
    commands, seen = get_commands(), 0
    for span in spans(name):
        options = set(re.findall(r"(?<=\s)--[a-z][a-z-]*", f" {span}")) - OF_OTHERS
        for command in re.findall(r"manage\.py ([a-z_]+)", span):
            parser = load_command_class(commands[command], command).create_parser("manage.py", command)
            assert options <= set(parser._option_string_actions), span
            seen += 1
        for module in re.findall(r"python -m ([a-z_.]+[a-z])", span):
            assert find_spec(module) is not None, span
            seen += 1
            if module.startswith("tests"):
                text = "".join(map(source, [*of(module.replace(".", "/"), ".py", "/__main__.py"), CONFTEST]))
                assert {one for one in options if f'"{one}"' not in text} == set(), span
    assert seen > 10


@pytest.mark.parametrize("name", TEXTS)
def test_an_option_that_is_named_by_itself_is_one_of_a_command(name: str) -> None:
    named = {one.split()[0] for one in spans(name) if one.startswith("--")} - OF_OTHERS
    sources = "".join(source(path) for path in test_house.files() if path.suffix == ".py") + source(ROOT / ".ci/run")
    assert named
    assert {one for one in named if f'"{one}"' not in sources} == set()


@pytest.mark.parametrize("package", ["bench", "hard"])
def test_every_name_of_a_bench_or_of_a_hard_run_is_one(package: str) -> None:
    said = {one for text in TEXTS.values() for one in re.findall(rf"tests\.{package} ([a-z|\\-]+)", text)}
    named = {one for each in said for one in re.split(r"\\?\|", each) if not one.startswith("--")}
    known = set(re.findall(r'"([a-z-]+)": ', source(ROOT / "tests" / package / "__main__.py")))
    assert len(named) > 4
    assert named <= known


def test_the_settings_of_the_readme_are_those_that_are_read_with_their_defaults() -> None:
    text, read = TEXTS["README.md"].split("## Settings\n")[1], source(ROOT / "studio" / "settings.py")
    told = dict(re.findall(r"`([A-Z][A-Z_]+)`(?: \((\d+)\))?", text))
    asked = dict(re.findall(r'(?:env\.\w+|switch)\("([A-Z_]+)"(?:, default=(\d+))?', read))
    assert told == asked


def test_words_in_italics_stand_on_a_page_or_head_a_part_of_the_readme() -> None:
    text = re.sub(r"`[^`\n]*`|\*\*", "", BLOCK.sub("", TEXTS["README.md"]))
    named = {one for one in re.findall(r"(?<![\w*])\*([^*\n]+)\*(?![\w*])", text) if one[0].isupper()}
    heads = set(re.findall(r"^## (.*)$", text, re.M))
    tops = ("templates", *tree_map.APPS)
    said = "".join(source(path) for top in tops for kind in ("html", "py") for path in (ROOT / top).rglob(f"*.{kind}"))
    assert len(named) > 15
    assert {one for one in named - heads if not re.search(rf'["}}]{one}["<:]', said)} == set()


def test_parts_of_the_readme_that_the_house_names_are_there() -> None:
    heads = re.findall(r"^## (.*)$", TEXTS["README.md"], re.M)
    assert "Serve it for real" in source(ROOT / "studio" / "self_check.py")
    assert "“Back up, and move to PostgreSQL”" in source(ROOT / "templates" / "studio" / "status.html")
    assert {"Serve it for real", "Back up, and move to PostgreSQL"} <= set(heads)


def test_every_capability_of_the_job_s_list_has_a_test_with_its_number() -> None:
    """Seventy-two are expected of the house (job.md section 8)."""
    tests = "".join(source(path) for path in test_house.files() if path.name.startswith("test_"))
    named = re.findall(r"^def test_feature_((?:\d\d_(?:and_)?)+)", tests, re.M)
    assert {int(number) for name in named for number in re.findall(r"\d\d", name)} == set(range(1, 73))


def test_numbers_that_are_told_are_the_house_s_own() -> None:
    assert tries.FREE == 5
    assert (tries.FIRST_WAIT.total_seconds(), tries.LONGEST_WAIT.total_seconds()) == (30, 3600)
    assert (second.CODES, len(CHECKS), on_set.KEPT.total_seconds() / 3600) == (10, 14, 12)
    days = Profile._meta.get_field("keep_notes_days").default
    for said in ("Five wrong tries", "half a minute and doubles up to an hour", "ten codes on paper", "fourteen checks",
                 "others for twelve hours", f"They go {days} days after delivery"):  # fmt: skip
        assert said in TEXTS["README.md"], said
    assert f"under {test_house.LONGEST_FILE} lines" in GUIDE
    assert f"functions under {test_house.LONGEST_FUNCTION}" in GUIDE
