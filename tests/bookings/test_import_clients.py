"""Clients from a CSV file: said before, written all or not at all, the same when done twice."""

from __future__ import annotations

import io
import tracemalloc
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from bookings import client_list
from bookings.models import Client
from studio import csv_in
from tests.bookings.making import House

PLAIN = "Name,E-mail,Telephone\nZoë Brontë,zoe@example.org,01632 960771\nWren Hollis,,\n"
pytestmark = pytest.mark.django_db


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "clients.csv"


def run(file: Path, *arguments: str) -> str:
    said = io.StringIO()
    call_command("import_clients", str(file), *arguments, stdout=said, stderr=said)
    return said.getvalue()


def names() -> list[str]:
    return sorted(Client.objects.values_list("name", flat=True))


def test_nothing_is_written_until_it_is_confirmed(file: Path) -> None:
    file.write_text(PLAIN, encoding="utf-8")
    said = run(file)
    assert "2 rows: 2 would be added" in said
    assert "Nothing was written." in said
    assert names() == []
    assert "2 were added" in run(file, "--confirm")
    assert names() == ["Wren Hollis", "Zoë Brontë"]
    assert Client.objects.get(name="Zoë Brontë").found_by.startswith(" zoe bronte ")


def test_the_same_list_twice_adds_nobody_twice(file: Path) -> None:
    file.write_text(PLAIN, encoding="utf-8")
    run(file, "--confirm")
    assert "0 were added, 0 were filled in, 2 were left out as known" in run(file, "--confirm")
    assert len(names()) == 2


@pytest.mark.parametrize(
    ("encoding", "said"),
    [("utf-8", "utf-8"), ("utf-8-sig", "utf-8-sig"), ("utf-16", "utf-16"), ("utf-16-le", "utf-16-le"),
     ("utf-16-be", "utf-16-be"), ("cp1252", "cp1252"), ("latin-1", "cp1252")],
)  # fmt: skip
@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_any_letters_and_separator_are_read_and_said(file: Path, encoding: str, said: str, separator: str) -> None:
    file.write_bytes(PLAIN.replace(",", separator).encode(encoding))
    out = run(file, "--confirm")
    assert f"Read as {said}, parted by the {csv_in.SEPARATORS[separator]}" in out
    assert "Zoë Brontë" in names()


def test_headings_come_in_any_order_and_a_strange_one_is_named_by_hand(file: Path) -> None:
    file.write_text(
        'Ort,Rufnummer,surname,First name\nQuillbridge,01632 960772,"Orrin","Nell\nMay"\n', encoding="utf-8"
    )
    assert "Left out, for no field is known for them: Ort, Rufnummer" in run(file)
    file.write_text('Ort,Rufnummer,surname,First name\nQuillbridge,01632 960772,"Orrin","Nell May"\n', encoding="utf-8")
    run(file, "--confirm", "--column", "Rufnummer=phone")
    assert (Client.objects.get().name, Client.objects.get().phone) == ("Nell May Orrin", "01632 960772")


def test_every_wrong_line_is_said_with_its_number_and_keeps_all_out(file: Path) -> None:
    lines = [
        "Name,E-mail,Note",
        "Nell Orrin,nell@example.org,",
        "Bram,no address,",
        f"{'W' * 300},,",
        ",a@example.org,",
        "Odile",
    ]
    file.write_text("\n".join(lines) + '\nTamsin,,"two\nlines"\n', encoding="utf-8")
    with pytest.raises(CommandError, match="Nothing was written"):
        run(file, "--confirm")
    assert names() == []
    said = run(file)
    for line in ("line 3: e-mail", "line 4: name", "line 5: name", "line 6: 1 columns"):
        assert f"wrong, {line}" in said
    run(file, "--confirm", "--leave-out-faults")
    assert names() == ["Nell Orrin", "Tamsin"]
    assert Client.objects.get(name="Tamsin").note == "two\nlines"


@pytest.mark.parametrize(
    ("choice", "count", "email"), [("skip", 1, ""), ("add", 2, ""), ("merge", 1, "new@example.org")]
)
def test_somebody_known_is_pointed_out_and_done_with_as_chosen(
    house: House, file: Path, choice: str, count: int, email: str
) -> None:
    file.write_text("Name,Phone,E-mail\nO. Askew,+44 1632 960123,new@example.org\n", encoding="utf-8")
    said = run(file, "--confirm", "--alike", choice)
    assert choice == "add" or "known, line 2: “O. Askew” may be the client “Ottoline and Bertram Askew”." in said
    house.client.refresh_from_db()
    assert (Client.objects.count(), house.client.email) == (count, email)
    assert house.client.phone == "01632 960123"


def test_somebody_twice_in_the_file_is_added_once(file: Path) -> None:
    file.write_text("Name,E-mail\nNell,n@example.org\nNell Orrin,N@EXAMPLE.ORG\n", encoding="utf-8")
    assert "may be the same as in line 2" in run(file, "--confirm")
    assert names() == ["Nell"]


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "is empty"),
        (b"Town,Street\nQuillbridge,Mill Lane\n", "No column of the first line is a name"),
        (b"Name,Client\na,b\n", "Two columns are"),
        (b'Name,Note\nNell,"never closed' + b"x" * 30_000, "never closed"),
    ],
)
def test_what_is_no_list_is_refused_with_why(file: Path, content: bytes, sentence: str) -> None:
    file.write_bytes(content)
    with pytest.raises(CommandError, match=sentence):
        run(file, "--confirm")
    assert names() == []


@pytest.mark.parametrize("missing", ["nowhere.csv", ""])
def test_a_file_that_cannot_be_opened_is_said(tmp_path: Path, missing: str) -> None:
    with pytest.raises(CommandError):
        run(tmp_path / missing)


def test_a_million_lines_are_read_in_little_memory(file: Path) -> None:
    """Of the reader: a tenth of them here, for memory that does not grow with the lines is what is claimed."""
    with file.open("w", encoding="utf-8") as out:
        out.write("Name,E-mail\n")
        out.writelines(f"Wren Hollis {n},w{n}@example.org\n" for n in range(100_000))
    tracemalloc.start()
    assert sum(1 for _row in client_list.rows(file, client_list.shape(file))) == 100_000
    assert tracemalloc.get_traced_memory()[1] < 2_000_000
    tracemalloc.stop()
