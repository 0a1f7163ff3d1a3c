"""Clients from a list on the desk's page: columns chosen, said before, written once, and who did it stays."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from bookings.forms.client_lists import SendForm
from bookings.models import Client, SentList
from studio import clock
from tests import cast
from tests.bookings.making import House
from tests.pages import Visitor

LIST = "Kunde;Rufnummer;E-mail\nZoë Brontë;01632 960771;zoe@example.org\nWren Hollis;;wren@\nPetra Tarn;;\n"


def send(house: House, content: bytes, name: str = "old book.csv") -> str:
    browser = cast.client_of(house.desk)
    answer = browser.post("/clients/lists/", {"file": SimpleUploadedFile(name, content)})
    return str(answer.get("Location", answer.content.decode()))


def test_a_list_is_mapped_previewed_and_brought_in_once(house: House) -> None:
    there = send(house, LIST.encode("cp1252"))
    browser = cast.client_of(house.desk)
    page = Visitor(browser).open(there).html
    assert "Read as cp1252, parted by the semicolon. Nothing is written yet." in page
    assert "for example “Zoë Brontë”" in page
    columns = {"column_0": "name", "column_1": "phone", "column_2": "email", "alike": "skip"}
    looked = browser.post(there, columns | {"look": "1"}).content.decode()
    assert "2 to be added" in looked
    assert "line 3: E-mail" in looked or "line 3: e-mail" in looked
    refused = browser.post(there, columns | {"bring_in": "1"})
    assert refused.status_code == 422
    assert "mend them in the file, or say this" in refused.content.decode()
    assert Client.objects.count() == 1  # the house's own
    sent = columns | {"bring_in": "1", "leave_out_faults": "on"}
    assert browser.post(there, sent, follow=True).content.decode().count("2 clients added.") == 1
    again = browser.post(there, sent, follow=True).content.decode()
    assert "brought in already" in again
    added = Client.objects.exclude(pk=house.client.pk).values_list("name", flat=True)
    assert sorted(added) == ["Petra Tarn", "Zoë Brontë"]
    kept = SentList.objects.get()
    assert (kept.by, kept.added, kept.faulty, bytes(kept.content)) == (house.desk, 2, 1, b"")
    trail = cast.client_of(house.members["owner"]).get("/audit/").content.decode()
    for words in ("List of clients brought in", "2 clients added", "old book.csv", house.desk.name):
        assert words in trail


@pytest.mark.parametrize(
    ("columns", "says"),
    [
        ({"column_0": "", "column_1": "phone"}, "Say which column is the name."),
        ({"column_0": "name", "column_1": "name"}, "“Kunde” is the name already."),
        ({"column_0": "nonsense"}, "nonsense is not one of the available choices"),
    ],
)
def test_columns_that_make_no_sense_are_said_and_nothing_is_written(
    house: House, columns: dict[str, str], says: str
) -> None:
    answer = cast.client_of(house.desk).post(send(house, LIST.encode()), columns | {"alike": "skip", "bring_in": "1"})
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert Client.objects.count() == 1  # the house's own


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "This file is empty."),
        (b"Name\n" + b"Wren\n" * (SendForm.most_lines + 1), "This list is too long for a page"),
    ],
)
def test_a_file_that_cannot_be_taken_is_refused_with_a_sentence(house: House, content: bytes, says: str) -> None:
    assert says in send(house, content)
    assert not SentList.objects.exists()


@pytest.mark.parametrize("content", [b"\n\n", b'Name\n"Wren,never closed\n' + b"x" * 30_000, bytes(range(256)) * 9])
def test_what_is_no_list_is_no_fault_of_the_house(house: House, content: bytes) -> None:
    answer = cast.client_of(house.desk).get(send(house, content))
    assert answer.status_code in (200, 422)


def test_a_list_nobody_confirmed_goes_after_a_day(house: House) -> None:
    old = SentList.objects.create(by=house.desk, at=clock.now() - timedelta(hours=25), file_name="a", content=b"Name\n")
    send(house, LIST.encode())
    assert not SentList.objects.filter(pk=old.pk).exists()
    assert SentList.objects.count() == 1
