"""Nothing lost: a backup taken while others write, restored into an empty studio, every row and file compared; whatever
is not as it was written is refused before a row is. The studio is the frozen first release (`fixtures/releases`), which
has a row in every table, restored and migrated on: that it can be is what each later release owes it."""

from __future__ import annotations

import errno
import hashlib
import json
import os
import sqlite3
import time
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from django.apps import apps
from django.core.management import CommandError, call_command
from django.db import OperationalError, connections

from bookings.models import Client
from shotplans.models import Plan
from studio import clock
from studio.backup import loading, nights, packing, schema, sealing, tables
from studio.backup.faults import Fault, NotEmpty, Unusable
from studio.models import Backup, Member, Profile
from tests import homes

PICTURE = bytes(range(256)) * 3000
KEY = "eleven grey umbrellas"


@dataclass(frozen=True)
class Studio:
    """The old studio of the module under its alias, an empty one as a file, and what the old one was made of."""

    alias: str
    empty: Path
    told: dict[str, Any]


@pytest.fixture(scope="module")
def old(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, django_db_setup: None,
    django_db_blocker: Any,
) -> Iterator[Studio]:  # fmt: skip
    folder = tmp_path_factory.mktemp("old")
    with django_db_blocker.unblock(), homes.home("old", homes.first_release(request.config, folder)) as alias:
        with zipfile.ZipFile(homes.FIRST) as file:
            told = json.loads(file.read("manifest.json"))
        connections[alias].close()
        yield Studio(alias, homes.emptied(folder / "old.sqlite3", folder / "empty.sqlite3"), told)


@pytest.fixture
def new(old: Studio, tmp_path: Path) -> Iterator[str]:
    """An empty studio, and a data folder of its own."""
    with homes.home("new", homes.copied(old.empty, tmp_path / "new.sqlite3")) as alias:
        yield alias


@pytest.fixture
def data(settings: Any, tmp_path: Path) -> Path:
    settings.DATA_DIR = tmp_path / "data"
    settings.DATA_DIR.mkdir()
    return settings.DATA_DIR


@pytest.fixture
def file(old: Studio, data: Path, tmp_path: Path) -> Path:
    return packing.write(tmp_path / "plain.zip", using=old.alias).path


def empty(alias: str) -> bool:
    return not any(table["rows"] for table in tables.told(apps, alias).values())


def test_the_first_release_is_restored_migrated_on_and_keeps_every_row(old: Studio) -> None:
    had = {name: table["rows"] for name, table in old.told["tables"].items()}
    assert min(had.values()) > 0  # a row in every table it knew
    now = {name: table["rows"] for name, table in tables.told(apps, old.alias).items()}
    assert {name: now[name] for name in had} == had
    plan = Plan.objects.using(old.alias).exclude(fingerprint="").first()
    assert plan
    assert plan.request["sitters"]
    assert plan.document["setups"]
    assert Client.objects.using(old.alias).filter(found_by__has=["askew"]).exists()  # the index was made again
    call_command("migrate", "--check", database=old.alias, verbosity=0)


def test_feature_68_backup_and_restore_drill(
    old: Studio, new: str, data: Path, tmp_path: Path, settings: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nightly copy, restore to a clean machine in thirty minutes: every table and file as at one moment."""
    (data / "set_photos").mkdir()
    (data / "set_photos" / "a.jpg").write_bytes(PICTURE)
    (data / "secret_key").write_text("k" * 60)
    before = tables.told(apps, old.alias)
    own = packing.tables.Table.rows

    def rows(table: tables.Table, using: str) -> Iterator[Any]:
        """While tables are read, somebody at another desk books."""
        if table.name == "auth.user":
            with sqlite3.connect(connections[old.alias].settings_dict["NAME"], timeout=1) as desk:
                desk.execute("UPDATE studio_profile SET studio_name = 'Changed in the night'")
            desk.close()
        yield from own(table, using)

    monkeypatch.setattr(tables.Table, "rows", rows)
    made = packing.write(tmp_path / "night.sealed", key=KEY, using=old.alias)
    monkeypatch.setattr(tables.Table, "rows", own)
    assert Profile.objects.using(old.alias).get().studio_name == "Changed in the night"
    assert made.sha256 == hashlib.sha256(made.path.read_bytes()).hexdigest()
    assert (made.path.stat().st_mode & 0o777, made.files) == (0o600, 2)

    settings.DATA_DIR = tmp_path / "another machine"
    began = time.monotonic()
    homes.put(made.path, new, key=KEY)
    assert time.monotonic() - began < 60
    assert tables.told(apps, new) == before
    assert (settings.DATA_DIR / "set_photos" / "a.jpg").read_bytes() == PICTURE
    assert (settings.DATA_DIR / "secret_key").read_text() == "k" * 60
    assert sorted(path.name for path in settings.DATA_DIR.iterdir()) == ["secret_key", "set_photos"]
    member = Member.objects.using(new).latest("pk")
    member.pk, member.user_id = None, None
    with pytest.raises(Exception, match="NOT NULL"):  # a key after those that came, and every guard in its place
        member.save(using=new, force_insert=True)


def test_one_byte_changed_anywhere_is_refused_before_a_row_is_written(file: Path, new: str) -> None:
    whole = file.read_bytes()
    places = {*range(0, len(whole), len(whole) // 60), *range(len(whole) - 120, len(whole), 7), 0, 1, len(whole) - 1}
    for place in places:
        file.write_bytes(whole[:place] + bytes([whole[place] ^ 0x10]) + whole[place + 1 :])
        with pytest.raises(Unusable, match="not whole"):
            homes.put(file, new)
    for length in (0, 1, 70, 71, 72, len(whole) // 2, len(whole) - 1):
        file.write_bytes(whole[:length])
        with pytest.raises(Unusable, match="not whole"):
            homes.put(file, new)
    file.write_bytes(whole + b"\0")
    with pytest.raises(Unusable, match="not whole"):
        homes.put(file, new)
    assert empty(new)


def test_a_sealed_one_opens_with_its_key_alone_and_only_as_it_was_written(
    old: Studio, data: Path, new: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sealing, "COST", 16)  # the drill pays it once
    (data / "set_photos").mkdir()
    (data / "set_photos" / "a.jpg").write_bytes(PICTURE)
    path = packing.write(tmp_path / "one.sealed", key=KEY, using=old.alias).path
    whole = path.read_bytes()
    piece = sealing.PIECE + sealing.TAG
    assert len(whole) > 3 * piece
    assert b"auth.user" not in whole
    with pytest.raises(Unusable, match="set BACKUP_KEY"):
        homes.put(path, new)
    with pytest.raises(Unusable, match="does not open"):
        homes.put(path, new, key=KEY + " ")
    head = sealing.HEAD
    first, second = whole[head : head + piece], whole[head + piece : head + 2 * piece]
    places = (2, 25, head, 200_000, len(whole) - 1)
    changed = [whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1 :] for place in places]
    changed += [whole[: head + 2 * piece], whole[:-1], whole[: head + 5], whole + first]  # broken off, gone on
    changed += [whole[:head] + second + first + whole[head + 2 * piece :], whole[:head] + whole[head + piece :]]
    for body in changed:
        path.write_bytes(body)
        with pytest.raises(Unusable):
            homes.put(path, new, key=KEY)
    assert empty(new)


def rewritten(path: Path, name: str, body: bytes) -> Path:
    """The same backup with one part changed and its remark right again: as by somebody who knows the form."""
    with zipfile.ZipFile(path) as source:
        parts = {one: source.read(one) for one in source.namelist()} | {name: body}
    with path.open("wb") as out:
        ending = packing._Ending(out)
        with zipfile.ZipFile(ending, "w") as archive:  # type: ignore[call-overload]
            archive.comment = packing.REMARK
            for one, said in parts.items():
                archive.writestr(one, said)
        ending.finish()
    return path


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda told: told["tables"]["auth.user"].update(rows=7), "table auth.user is not as it was"),
        (lambda told: told["tables"].pop("auth.user"), "tables of its own release"),
        (lambda told: told["files"].update({"../out": {"bytes": 0, "sha256": ""}}), "tables of its own release"),
        (lambda told: told["migrations"].append(["studio", "0999_tomorrow"]), "newer release .*0999_tomorrow"),
        (lambda told: told.update(form=2), "newer release"),
    ],
)  # fmt: skip
def test_a_manifest_that_does_not_fit_is_refused(file: Path, new: str, change: Any, said: str) -> None:
    with zipfile.ZipFile(file) as archive:
        told = json.loads(archive.read("manifest.json"))
    change(told)
    with pytest.raises(Unusable, match=said):
        homes.put(rewritten(file, "manifest.json", json.dumps(told).encode()), new)
    assert empty(new)


def test_a_row_or_a_name_of_a_file_that_somebody_made_up_is_refused(file: Path, new: str) -> None:
    with zipfile.ZipFile(file) as archive:
        told, rows = json.loads(archive.read("manifest.json")), archive.read("tables/auth.user.jsonl")
    with pytest.raises(Unusable, match=r"auth\.user"):
        homes.put(rewritten(file, "tables/auth.user.jsonl", rows.replace(b"harriet", b"somebody")), new)
    rewritten(file, "tables/auth.user.jsonl", rows)
    told["files"]["set_photos/../../out"] = {"bytes": 1, "sha256": hashlib.sha256(b"x").hexdigest()}
    rewritten(file, "files/set_photos/../../out", b"x")
    with pytest.raises(Unusable, match=r"The file set_photos/\.\./\.\./out"):
        homes.put(rewritten(file, "manifest.json", json.dumps(told).encode()), new)
    assert empty(new)


def test_a_studio_that_is_there_is_left_alone(old: Studio, file: Path, new: str, data: Path) -> None:
    with pytest.raises(NotEmpty, match=r"auth\.user \(\d+\)"):
        homes.put(file, old.alias)
    (data / "kit_photos").mkdir()
    (data / "kit_photos" / "one.jpg").write_bytes(b"1")
    with pytest.raises(NotEmpty, match="kit_photos/"):
        homes.put(file, new)
    assert empty(new)


def test_what_the_database_refuses_leaves_it_empty(file: Path, new: str, tmp_path: Path) -> None:
    """A tie that leads nowhere: the rows are as they were written, yet no studio."""
    with zipfile.ZipFile(file) as archive:
        told = json.loads(archive.read("manifest.json"))
    told["tables"]["auth.user"] |= {"rows": 0, "sha256": hashlib.sha256().hexdigest()}
    rewritten(file, "tables/auth.user.jsonl", b"")
    with pytest.raises(Unusable, match="does not fit"):
        homes.put(rewritten(file, "manifest.json", json.dumps(told).encode()), new)
    assert empty(new)


def test_a_step_to_today_that_fails_is_said_and_what_came_stays(
    file: Path, new: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*asked: object, **how: object) -> None:
        raise OperationalError("disk I/O error")

    monkeypatch.setattr(loading, "call_command", fail)
    monkeypatch.setattr(loading, "apps_of_today", None)  # it came from another release
    with pytest.raises(Fault, match=r"each row compared, but .* disk I/O error\. .* run manage\.py migrate; do not"):
        homes.put(file, new)
    assert not empty(new)


def test_sixty_thousand_rows_take_no_more_memory_than_a_few(old: Studio, new: str, data: Path, tmp_path: Path) -> None:
    grown = tmp_path / "grown.sqlite3"
    with sqlite3.connect(connections[old.alias].settings_dict["NAME"]) as source, sqlite3.connect(grown) as rows:
        source.backup(rows)
        rows.execute("""INSERT INTO bookings_stagechange (sitting_id, by_id, at, stage_from, stage_to, note)
            WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 60000)
            SELECT sitting_id, by_id, at, stage_from, stage_to, printf('%0500d', i)
            FROM (SELECT * FROM bookings_stagechange LIMIT 1), n""")
    source.close()
    rows.close()
    with homes.home("grown", grown) as alias, homes.peak_of_memory() as more:
        made = packing.write(tmp_path / "grown.zip", using=alias)
        homes.put(made.path, new)
    assert made.rows > 60_000
    assert more.bytes < 20e6  # as rows they are sixty million bytes and more


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES])
def test_a_disk_that_refuses_is_named_and_nothing_is_left(
    old: Studio, data: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    def refuse(descriptor: int) -> None:
        raise OSError(number, "as the machine says it")

    monkeypatch.setattr(os, "fsync", refuse)
    folder = tmp_path / "out"
    folder.mkdir()
    with pytest.raises(Fault, match=r"disk is full|may not be read or written") as refused:
        packing.write(folder / "one.zip", using=old.alias)
    assert "No backup was made." in str(refused.value)
    assert list(folder.iterdir()) == []


@pytest.mark.django_db
def test_the_commands_say_what_was_done_and_refuse_in_sentences(
    data: Path, tmp_path: Path, settings: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    Client.objects.create(name="Isolde Varrick")
    folder = tmp_path / "nights"
    folder.mkdir()
    earlier = f"{clock.now() - timedelta(days=9):%Y-%m-%d-%H%M%S}"
    (folder / f"tenthstop-{earlier}.zip").write_bytes(b"of nine nights ago")
    Backup.objects.create(
        at=clock.now() - timedelta(days=9), path=str(folder / f"tenthstop-{earlier}.zip"), seconds=1, size=1, rows=1,
        files=0, sealed=False,
    )  # fmt: skip
    (folder / "of somebody else.zip").write_bytes(b"")
    (folder / ".tenthstop-half.part").write_bytes(b"a machine that stopped")
    os.utime(folder / ".tenthstop-half.part", (1, 1))
    call_command("backup", str(folder), keep=7)
    names = sorted(path.name for path in folder.iterdir())
    assert (len(names), f"tenthstop-{earlier}.zip" in names, "of somebody else.zip" in names) == (2, False, True)
    made = folder / names[1]
    call_command("restore", str(made), verify_only=True)
    noted = Backup.objects.kept().get()  # the other one is gone, and that is known
    assert (noted.path, noted.size, noted.keep_nights) == (str(made), made.stat().st_size, 7)
    said = capsys.readouterr().out
    assert "plain: whoever has the file can read it" in said
    assert f"{made} is whole" in said
    for arguments, why in [
        (("restore", str(made)), r"studio here already: .*bookings\.client \(1\)"),
        (("restore", str(folder / "none.zip")), "no such file"),
        (("restore", str(folder / "of somebody else.zip")), "is no backup"),
        (("backup", str(made)), "is there already"),
        (("backup", str(tmp_path / "no" / "where.zip")), "The folder .*no is not there"),
        (("backup", str(tmp_path / "one.zip"), "--keep", "3"), "a folder to keep them in"),
        (("backup", str(tmp_path / "one.zip")), "BACKUP_KEY is shorter"),
    ]:
        settings.BACKUP_KEY = "short" if "shorter" in why else ""
        with pytest.raises(CommandError, match=why):
            call_command(*arguments)
    assert Client.objects.count() == 1
    assert sorted(path.name for path in folder.iterdir()) == names


def test_a_name_may_hold_the_moment(tmp_path: Path) -> None:
    assert nights.place(str(tmp_path / "%Y-%m-%d.zip"), sealed=False).name == f"{clock.now():%Y-%m-%d}.zip"
    assert nights.place(str(tmp_path), sealed=True).suffix == ".sealed"
    assert nights.sized(3_400_000) == "3.4 MB"


def test_every_key_has_one_order_on_both_databases() -> None:
    """Rows are digested in the order of their keys: numbers, ids, and letters by their numbers."""
    kinds = {table.model._meta.pk.get_internal_type() for table in tables.travelling(apps)}
    assert kinds <= {"AutoField", "BigAutoField", "OneToOneField", "UUIDField", "CharField"}


def test_a_json_value_is_the_same_however_a_database_keeps_it() -> None:
    fields = tables.Table(Plan).fields
    one, other = tables.Digest(fields), tables.Digest(fields)
    one.take([1, {"b": [-0.0, 1e16, 0.1], "a": "1e+16"}])
    other.take([1, {"a": "1e+16", "b": [0.0, 10**16, 0.1]}])
    assert one.said == other.said


@pytest.mark.django_db
def test_the_state_of_the_tables_is_todays() -> None:
    assert schema.models_of("default", schema.state_of("default")) is apps
