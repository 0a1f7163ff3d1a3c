"""The README's promises that cost nothing to check. That its two lines work is for `.ci/run` to show."""

from __future__ import annotations

import re
import shlex
import tomllib
from pathlib import Path

import pytest
from django.core.management import get_commands

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
BLOCKS = re.findall(r"^```sh\n(.*?)^```", README, re.M | re.S)


def steps(block: str) -> list[list[str]]:
    return [shlex.split(step) for step in block.split("&&")]


@pytest.mark.parametrize("number", [0, 1])
def test_each_of_the_first_two_blocks_is_one_line_that_does_its_own_set_up(number: int) -> None:
    assert BLOCKS[number].count("\n") == 1
    first, *rest = steps(BLOCKS[number])
    assert first == ["python3", "-m", "venv", ".venv"]
    assert all(step[0] in (".venv/bin/pip", ".venv/bin/python") for step in rest)


@pytest.mark.parametrize("number", [0, 1])
def test_they_name_files_extras_and_commands_that_exist(number: int) -> None:
    for step in steps(BLOCKS[number]):
        if "-r" in step:
            assert (ROOT / step[step.index("-r") + 1]).is_file()
        if "-e" in step:
            extras = re.findall(r"\[(.*)\]", step[-1])
            assert set(extras) <= set(PROJECT["optional-dependencies"])
        if "manage.py" in step:
            assert step[step.index("manage.py") + 1] in get_commands()


def test_the_first_plans_the_second_tests() -> None:
    assert steps(BLOCKS[0])[-1] == [".venv/bin/python", "manage.py", "demo"]
    assert steps(BLOCKS[1])[-1][:3] == [".venv/bin/python", "-m", "pytest"]


def test_every_other_block_names_a_command_that_exists() -> None:
    lines = [shlex.split(line) for block in BLOCKS[2:] for line in block.splitlines()]
    assert {line[0] for line in lines} == {".venv/bin/python", ".venv/bin/gunicorn"}
    for line in lines:
        assert line[1] == "studio.wsgi" or (line[1] == "manage.py" and line[2] in get_commands())


def test_a_newcomer_meets_its_parts_in_this_order() -> None:
    """The job, how it looks, the two commands, a studio's own beginning, what is missing, cautions; then the rest."""
    heads = re.findall(r"^## (.*)$", README, re.M)
    assert heads[:5] == ["What it looks like", "Two commands", "A studio of your own", "What it does not do yet",
                         "Cautions"]  # fmt: skip
    shown = re.findall(r"^!\[.*\]\((.*)\)$", README.split("## Two commands")[0], re.M)
    assert len(shown) == 3
    assert all((ROOT / picture).is_file() for picture in shown)
    assert len(README.split("\n\n")[1]) < 800, "the job is one paragraph"


def test_its_last_line_names_the_licence_of_the_project() -> None:
    assert README.rstrip().splitlines()[-1].endswith(f"Licence: {PROJECT['license']}.")
