"""`manage.py recommend` and `demo` as whole processes: streams, exit status, and what they leave behind."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from tests.planner.smallest import put, raw, smallest, spoilt

ROOT = Path(__file__).parents[2]
BRIEFS = ROOT / "fixtures" / "briefs"


def manage(
    *arguments: str, data: bytes = b"", folder: Path, **environment: str
) -> subprocess.CompletedProcess[bytes]:
    kept = {k: v for k, v in os.environ.items() if k not in ("DATABASE_URL", "SECRET_KEY", "DEBUG")}
    return subprocess.run(
        [sys.executable, "manage.py", *arguments],
        cwd=ROOT,
        env=kept | {"TENTHSTOP_DATA": str(folder)} | environment,
        input=data,
        capture_output=True,
        timeout=60,
    )


def test_a_brief_on_stdin_gives_one_json_document(tmp_path: Path) -> None:
    done = manage("recommend", "-", data=(BRIEFS / "askew.json").read_bytes(), folder=tmp_path)
    assert done.returncode == 0, done.stderr.decode()
    document = json.loads(done.stdout)
    assert [setup["name"] for setup in document["setups"]] == ["the pair"]
    assert done.stderr == b""


def test_a_plan_with_problems_is_still_a_plan(tmp_path: Path) -> None:
    tree = smallest()
    tree["kit"]["heads"] = []
    done = manage("recommend", "-", data=raw(tree), folder=tmp_path)
    assert done.returncode == 0, done.stderr.decode()
    assert json.loads(done.stdout)["problems"]


def test_text_is_for_reading(tmp_path: Path) -> None:
    done = manage("recommend", "--text", str(BRIEFS / "askew.json"), folder=tmp_path)
    assert done.returncode == 0, done.stderr.decode()
    assert "Ottoline" in done.stdout.decode("utf-8")
    assert not done.stdout.startswith(b"{")


def test_text_needs_no_orders_of_the_studio(tmp_path: Path) -> None:
    done = manage("recommend", "--text", "-", data=raw(smallest()), folder=tmp_path)
    assert done.returncode == 0, done.stderr.decode()
    assert "Set-up" in done.stdout.decode("utf-8")


def test_the_same_brief_gives_the_same_plan(tmp_path: Path) -> None:
    plans = []
    for seed in ("1", "2"):
        done = manage("recommend", str(BRIEFS / "dorrow.json"), folder=tmp_path, PYTHONHASHSEED=seed)
        plans.append(json.loads(done.stdout))
        plans[-1].pop("planning_seconds")
    assert plans[0] == plans[1]


def test_the_schema_is_printed_alone(tmp_path: Path) -> None:
    done = manage("recommend", "--schema", folder=tmp_path)
    assert done.returncode == 0
    assert json.loads(done.stdout)["title"] == "Request"


UNUSABLE = {
    "unknown key": (spoilt(put("kit.hats", 1)), "kit.hats: unknown key, expected one of heads"),
    "negative size": (spoilt(put("room.width_m", -1)), "room.width_m: -1, expected a number from"),
    "no sitter": (spoilt(put("sitters", [])), "sitters: an empty list, expected a list of 1 to 60"),
    "no camera": (spoilt(put("kit.cameras", [])), "kit.cameras: an empty list, expected"),
    "not finite": (raw(smallest()).replace(b'"depth_m": 5', b'"depth_m": NaN'), "room.depth_m: NaN is not"),
    "too large": (b" " * 5_000_001, "the file: larger than 5 MB, expected at most"),
    "not UTF-8": (b"\xff\xfe", "the file: byte 0 is not UTF-8, expected"),
    "no JSON": (b"{", "the file: line 1, column 2"),
    "deep": (b"[" * 100_000, "the file: nested too deeply, expected"),
}


def tells(said: str, line: str) -> None:
    lines = said.splitlines()
    assert lines[0].startswith(line)
    assert all(": " in one and "expected" in one for one in lines)


@pytest.mark.parametrize("case", UNUSABLE)
def test_input_that_cannot_be_used_ends_with_status_2_and_lines(
    case: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    data, line = UNUSABLE[case]
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))
    with pytest.raises(SystemExit) as ended:
        call_command("recommend", "-")
    assert ended.value.code == 2
    said = capsys.readouterr()
    assert said.out == ""
    tells(said.err, line)


@pytest.mark.parametrize("case", ["unknown key", "deep"])  # as a process of its own, where a traceback would show
def test_a_process_that_cannot_use_its_input_ends_alike(case: str, tmp_path: Path) -> None:
    data, line = UNUSABLE[case]
    done = manage("recommend", "-", data=data, folder=tmp_path)
    assert (done.returncode, done.stdout) == (2, b"")
    tells(done.stderr.decode(), line)


@pytest.mark.parametrize("name", ["nowhere.json", ".", "a\0b"])
def test_a_file_that_cannot_be_read_ends_with_status_2(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        call_command("recommend", name)
    assert ended.value.code == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.endswith("expected a readable file\n")


def test_no_file_named_ends_with_status_2(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        call_command("recommend")
    assert ended.value.code == 2
    assert capsys.readouterr().err == "BRIEF.json: missing, expected a file to read, or - for stdin\n"


def test_recommend_works_where_nothing_can_be_written(tmp_path: Path) -> None:
    blocked = tmp_path / "a file, not a folder"
    blocked.write_text("")
    done = manage("recommend", "--schema", folder=blocked / "data")
    assert done.returncode == 0, done.stderr.decode()


def test_demo_refuses_beside_a_database_of_the_studio(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DATABASE_URL", "postgres://localhost/studio")
    with pytest.raises(CommandError, match="DATABASE_URL is set"):
        call_command("demo")
