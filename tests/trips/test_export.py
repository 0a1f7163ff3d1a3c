"""Everything the studio owns in one file, and nothing that was told in confidence or opens a door."""

from __future__ import annotations

import csv
import io
import json
import zipfile
from pathlib import Path

import pytest
from django.apps import apps
from django.core.management import CommandError, call_command

from bookings.actions import calendars
from bookings.models import Client, Letter, Sitting, Wish
from shotplans import everything
from shotplans.models import Plan
from tests import cast, lindenmere
from tests.pages import Visitor

MARK = "quexoloft"  # a word that stands nowhere else


def test_everything_the_studio_owns_is_handed_over_and_no_notes(studio: None, tmp_path: Path) -> None:
    sitting = lindenmere.sitting("askew")
    sitter = sitting.sitters.get(label="Ottoline")
    Wish.objects.create(sitter=sitter, note="other", wish=MARK)
    Plan.objects.filter(sitting=sitting).update(why=MARK)
    Client.objects.create(name="=SUM(A1)", phone="+44 1632 960199")
    secret = calendars.make_address(member=lindenmere.member("front_desk"))
    path = tmp_path / "all.zip"
    said = io.StringIO()
    call_command("export", str(path), stdout=said)
    assert f"bookings/client.csv: {Client.objects.count()} rows" in said.getvalue()
    assert (path.stat().st_mode & 0o077) == 0
    files = unpacked(path.read_bytes())
    clients = list(csv.DictReader(io.StringIO(files["bookings/client.csv"])))
    assert {row["name"] for row in clients} >= {"'=SUM(A1)", sitting.client.name}
    sittings = {row["number"]: row for row in csv.DictReader(io.StringIO(files["bookings/sitting.csv"]))}
    assert len(sittings) == Sitting.objects.count()
    assert sittings[sitting.number]["starts_at"] == sitting.starts_at.isoformat()
    made = [json.loads(line) for line in files["plans.jsonl"].splitlines()]
    assert len(made) == Plan.objects.count() > 0
    assert all(set(one) <= {"label", "posture", "household", "central", "keep_with"}
               for plan in made for one in plan["request"]["sitters"])  # fmt: skip
    assert not any(setup["reasons"] for plan in made for setup in plan["document"]["setups"])
    whole = "".join(files.values())
    assert MARK not in whole
    assert secret not in whole
    assert "comfort notes" in files["README.txt"]


def test_the_owner_gets_it_on_a_page_and_a_file_that_is_there_is_not_written_over(studio: None, tmp_path: Path) -> None:
    owner = Visitor(cast.client_of(lindenmere.member("owner")))
    page = owner.open("/everything/")
    assert "What stays out" in page.words
    answer = owner.client.post("/everything/file/")
    assert answer["Content-Type"] == "application/zip"
    files = unpacked(b"".join(answer.streaming_content))
    assert set(files) == {"README.txt", "plans.jsonl", *(name for name, _model in everything.tables())}
    kept = tmp_path / "kept.zip"
    kept.write_text("mine")
    with pytest.raises(CommandError, match="Nothing was written"):
        call_command("export", str(kept))
    with pytest.raises(CommandError, match="Nothing was written"):
        call_command("export", str(tmp_path / "nowhere" / "all.zip"))
    assert kept.read_text() == "mine"


def test_every_table_goes_out_or_stays_for_a_reason() -> None:
    ours = {m._meta.label for app in everything.TABLES for m in apps.get_app_config(app).get_models()}
    going = {model._meta.label for _name, model in everything.tables()}
    assert going & set(everything.STAYS_OUT) == set()
    assert going | set(everything.STAYS_OUT) == ours
    columns = {one for _name, model in everything.tables() for one in everything._columns(model)}
    assert columns & {"secret", "digest", "password", "body", "drawn", "lease", "once_key"} == {"body"}  # of wordings
    assert "body" not in everything._columns(Letter)


def unpacked(body: bytes) -> dict[str, str]:
    with zipfile.ZipFile(io.BytesIO(body)) as archive:
        assert archive.testzip() is None
        return {name: archive.read(name).decode() for name in archive.namelist()}
