"""What is put into forms instead of sense. Belongs here: values by the kind of their field, drawn by Hypothesis. Not
here: sending them."""

from __future__ import annotations

from typing import Any, NamedTuple

from hypothesis import strategies as st

from tests.access_world import PICTURE
from tests.hard.forms_found import Field, Form


class Sent(NamedTuple):
    """A file as a browser sends it."""

    name: str
    content: bytes


TEXTS = (
    "", " ", "x", "\x00", "a\x00b", "\ud800", "x" * 5_000, "\u202eabc\U0001f3a9", "<script>alert(1)</script>",
    "\r\n\r\n", "=1+1", "'; --", "{{ 7 }}", "../../etc", "null", "true",
    "[" * 100_000, "{", '{"a": 1e999}', "[NaN]", "[]", "{}",
    "\ufeff", "\u2028", "%s%s%n", "\x1b[0m", "e\u0301" * 300,
)  # fmt: skip
NUMBERS = (
    "-1", "0", "1", "2", "1e309", "-1e309", "NaN", "-Infinity", "inf", "9" * 30, "9" * 400, "1e-400", "0x10", "\u0663",
    "\u00b2", "1,5", "1.5", "-0", "+3", "1_000", "2147483648", "9223372036854775807", "9223372036854775808", "1e9",
    "0.0000001", "999999", "5.6", "f/5.6", "1/160", "60'", "5000000000000",
)  # fmt: skip
DAYS = (
    "0001-01-01", "9999-12-31", "2026-13-40", "2026-02-30", "0000-00-00", "10000-01-01", "2026-11-29T25:61", "-1-1-1",
    "2026-12-05", "2026-12-05T10:00", "1066-10-14", "0001-01-01T00:00", "9999-12-31T23:59", "24:00", "23:59:60",
    "00:00", "10:30", "2026-W53", "2026-12",
)  # fmt: skip
NAMES = ("a.csv", "a.jpg", "", "../../x.png", "\u202egpj.exe", "x" * 400 + ".csv", "a\x00.ies", "a.json")
CONTENTS = (
    b"", b"\x00" * 64, PICTURE, PICTURE[:40], b"\xff\xd8\xff\xe1\x00\x10Exif\x00\x00", b"Name,Telephone\nWren,1\n",
    b"PK\x03\x04", b"Name;Name\n\x00;\xff\n", b"IESNA:LM-63-2002\nTILT=NONE\n1 1e309 NaN -1\n", b"{", b"\xef\xbb\xbf",
    b'"' * 3_000,
)  # fmt: skip
ANY_TEXT = st.text(st.characters(exclude_categories=()), max_size=30)
OTHER_ROW = st.integers(-1, 60).map(str)  # rows of others, and of none
FILES = st.builds(Sent, st.sampled_from(NAMES), st.sampled_from(CONTENTS) | st.binary(max_size=200))
JUNK = st.sampled_from(TEXTS) | st.sampled_from(NUMBERS) | st.sampled_from(DAYS) | ANY_TEXT | OTHER_ROW
LIKELY = {
    "number": st.sampled_from(NUMBERS), "date": st.sampled_from(DAYS), "time": st.sampled_from(DAYS), "file": FILES,
    "datetime-local": st.sampled_from(DAYS), "select": OTHER_ROW | st.sampled_from(NUMBERS),
    "hidden": OTHER_ROW | st.sampled_from(NUMBERS), "textarea": st.sampled_from(TEXTS) | ANY_TEXT,
}  # fmt: skip


def _values(field: Field) -> st.SearchStrategy[list[Any]]:
    """What one name sends: one value, none, or two."""
    one = LIKELY.get(field.kind, JUNK) | JUNK
    if field.kind == "file":
        one = FILES | FILES | JUNK
    if field.choices:
        one = st.sampled_from(field.choices) | one
    return st.lists(one, min_size=1, max_size=1) | st.lists(one, max_size=3)


@st.composite
def posts(draw: st.DrawFn, form: Form) -> list[tuple[str, Any]]:
    """A form as it stands with one, some or all of its names filled with junk; now and then with a name it has not."""
    names = list(form.fields)
    touched = set(names)
    how = draw(st.sampled_from(("one", "some", "all"))) if names else "all"
    if how == "one":
        touched = {draw(st.sampled_from(names))}
    elif how == "some":
        touched = draw(st.sets(st.sampled_from(names), min_size=1, max_size=6))
    sent: list[tuple[str, Any]] = []
    for name, field in form.fields.items():
        if name in touched:
            sent += [(name, value) for value in draw(_values(field))]
        elif field.kind == "file" or (field.value is None and field.choices and field.kind != "submit"):
            continue
        elif field.value is not None:
            sent.append((name, field.value))
    if draw(st.integers(0, 9)) == 9:
        sent.append((draw(st.sampled_from(("seen", "version", "next", "pk", "id", "\x00"))), draw(JUNK)))
    return sent
