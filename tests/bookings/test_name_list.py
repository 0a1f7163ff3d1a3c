"""Lists of names as they come: pasted, from a table, from an older machine; every fault said by its line."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookings import name_list


def read(text: str, most: int = 60) -> name_list.NameList:
    return name_list.read(text, most=most)


def faults(text: str) -> list[tuple[int, str]]:
    return [(fault.number, fault.code) for fault in read(text).faults]


@pytest.mark.parametrize(
    "text",
    [
        "Corin Vale, corin@marrowfield.example, leader\nZoë Łaska, , glasses",
        "Corin Vale;corin@marrowfield.example;leader\nZoë Łaska;;glasses",
        "Corin Vale\tcorin@marrowfield.example\tleader\nZoë Łaska\t\tglasses",
        "\ufeffName,E-mail,Wish\r\nCorin Vale,corin@marrowfield.example,Leader\r\nZoë Łaska,,Glasses\r\n,,\r\n",
        "wish;first name;last name;email\nleader;Corin;Vale;corin@marrowfield.example\nglasses;Zoë;Łaska;",
        "Corin Vale <corin@marrowfield.example>, leader\nZoë Łaska, glasses",
    ],
)
def test_the_usual_ways_to_write_a_list_come_to_the_same(text: str) -> None:
    found = read(text)
    assert found.faults == []
    assert [(one.name, one.email, set(one.wishes)) for one in found.lines] == [
        ("Corin Vale", "corin@marrowfield.example", {"leader"}), ("Zoë Łaska", "", {"glasses"})
    ]  # fmt: skip


def test_a_quoted_name_a_number_and_several_wishes_are_read() -> None:
    (one,) = read('"Vale, Corin", 7, "no flash, wheelchair"').lines
    assert (one.name, one.place, set(one.wishes)) == ("Vale, Corin", 7, {"steady", "wheelchair"})


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", [(0, "empty")]),
        (" \n,;\n", [(0, "empty")]),
        ("Corin\nCORIN", [(2, "twice")]),
        ("Corin, corin@marrowfield", [(1, "email")]),
        ("Corin, tall", [(1, "unknown")]),
        ("name,wish\n,leader", [(2, "nameless")]),
        ("Corin\n" + "x" * 61, [(2, "long_name")]),
        ("Corin\n" + "x" * 300_000, [(2, "long_line")]),
        ("name,place\nCorin,soon", [(2, "place")]),
        ("Corin\x00", [(1, "unreadable")]),
        ("\n".join(f"P{n}" for n in range(61)), [(0, "too_many")]),
        ("\n".join(f"P{n}" for n in range(100_000)), [(0, "too_many")]),
    ],
)
def test_every_fault_is_said_by_its_line(text: str, said: list[tuple[int, str]]) -> None:
    assert faults(text) == said


def test_sixty_people_of_any_script_are_taken() -> None:
    names = [f"{name} {n}" for n in range(10) for name in ("王小明", "علي", "Søren", "Ann-Mareike", "O'Dell", "🌿 Ivy")]
    assert [one.name for one in read("\n".join(names)).lines] == names


@pytest.mark.parametrize("coding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_file_of_any_usual_coding_is_read(coding: str) -> None:
    assert name_list.decoded("Zoë Ash\r\n".encode(coding)) == "Zoë Ash\r\n"


@given(st.text(max_size=300))
@settings(max_examples=150, deadline=None)
def test_whatever_is_pasted_is_answered(text: str) -> None:
    found = read(text)
    assert found.lines or found.faults
    assert all(0 < len(one.name) <= name_list.LONGEST_NAME for one in found.lines)


@given(st.binary(max_size=200))
@settings(max_examples=50, deadline=None)
def test_whatever_is_sent_is_answered(data: bytes) -> None:
    read(name_list.decoded(data))
