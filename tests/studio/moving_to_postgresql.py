"""A studio's backup, made on SQLite, put into the PostgreSQL of the run: the move. `tests/bookings/test_postgresql.py`
makes the file and runs this there; by itself it is no test of the suite."""

from __future__ import annotations

import json
import os
import zipfile
from pathlib import Path
from typing import Any

import psycopg
import pytest
from django.apps import apps
from django.contrib.auth.models import Group
from django.db import InternalError, connections

from bookings.models import Client
from studio.backup import packing, tables
from tests import homes


@pytest.mark.django_db
def test_every_table_of_a_moved_studio_has_the_same_rows_and_the_same_digest(tmp_path: Path, settings: Any) -> None:
    settings.DATA_DIR = tmp_path
    moved = Path(os.environ["STUDIO_TO_MOVE"])
    with zipfile.ZipFile(moved) as file:
        told = json.loads(file.read("manifest.json"))
    assert (told["database"], connections["default"].vendor) == ("sqlite", "postgresql")
    homes.put(moved, "default")
    was = {name: {"rows": table["rows"], "sha256": table["sha256"]} for name, table in told["tables"].items()}
    assert tables.told(apps, "default") == was
    last = Client.objects.order_by("-pk").values_list("pk", flat=True)[0]
    assert Client.objects.create(name="Isolde Varrick").pk > last
    Client.objects.filter(pk__gt=last).delete()
    back = packing.write(tmp_path / "back.zip")
    with zipfile.ZipFile(back.path) as file:  # and the way back is open
        assert json.loads(file.read("manifest.json"))["tables"] == told["tables"]


@pytest.mark.django_db(transaction=True)
def test_a_backup_is_of_one_moment_there_too() -> None:
    name = connections["default"].settings_dict["NAME"]
    with psycopg.connect(dbname=name, autocommit=True) as desk, packing.one_moment("default"):
        assert not Group.objects.exists()
        desk.execute("INSERT INTO auth_group (name) VALUES ('made at another desk')")  # which does not wait
        assert not Group.objects.exists()
    assert Group.objects.exists()
    with pytest.raises(InternalError, match="read-only"), packing.one_moment("default"):
        Group.objects.create(name="made by the backup")
