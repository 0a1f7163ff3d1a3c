"""The README's promises that cost nothing to check. That its two lines work is for `.ci/run` to show."""

from __future__ import annotations

import json
import re
import shlex
import tomllib
from pathlib import Path

import pytest
from django.core.management import get_commands

from shotplans.planner.gaps import NOT_YET_USED

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


def test_the_files_it_points_to_are_there() -> None:
    for name in re.findall(r"`((?:fixtures|\.ci)/[^`]*)`", README):
        assert (ROOT / name).exists(), name
    assert len(list((ROOT / "fixtures" / "briefs").glob("*.json"))) == 5
    assert json.loads((ROOT / "fixtures" / "light_cases.json").read_text(encoding="utf-8"))


def test_it_says_what_is_read_and_not_used_yet() -> None:
    section = README.split("## What it does not do yet")[1].lower()
    named = {"standard": "standards", "copy_space": "copy space", "retouch": "retouching"}
    assert [key for _, key, _ in NOT_YET_USED if named.get(key, key) not in section] == []


def test_its_last_line_names_the_licence_of_the_project() -> None:
    assert README.rstrip().splitlines()[-1].endswith(f"Licence: {PROJECT['license']}.")
