"""Spoiled files, a few: `python -m tests.hard files --long` reads thousands."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from studio import csv_in
from tests.hard import file_fuzz


def test_no_spoiled_file_breaks_its_reader() -> None:
    found = file_fuzz.fuzz(each=20, number=1, heavy=False)
    assert found.faults == {}
    assert found.memory_mb < file_fuzz.MOST_MEMORY_MB
    assert found.files > 150
    read, refused = ({kind for kind in found.outcomes if kind.endswith(how)} for how in ("True", "refused"))
    assert {"photo: kept True", "frame: seen True", "clients: rows True", "photometry: read True"} <= read
    assert {"frame: refused", "photometry: refused", "brief: refused"} <= refused
    assert (found.outcomes["bomb: bomb"], found.outcomes["bomb: dear"]) == (2, 1)


def test_a_reader_that_breaks_is_seen() -> None:
    found = file_fuzz.Found()
    file_fuzz._hand("kind", lambda raw: str(1 // len(raw)), b"", found)
    assert [what.split(" at ")[0] for what in found.faults] == ["kind: ZeroDivisionError"]
    whole = file_fuzz.CLIENTS.encode()
    drawn = [file_fuzz.spoiled(whole, [whole], random.Random(1)) for _ in range(2)]
    assert drawn[0] == drawn[1] != whole


@pytest.mark.parametrize("content", ["Name\nWren".encode("utf-16")[:-1], b"\xef\xbb\xbfName\n\xff\xfe", b"N\x00a\x00m"])
def test_a_table_whose_letters_break_off_is_refused_in_words(tmp_path: Path, content: bytes) -> None:
    there = tmp_path / "clients.csv"
    there.write_bytes(content)
    with pytest.raises(csv_in.Unreadable, match="The file is damaged"):
        csv_in.head(there, {})
