"""Reads the published numbers of fixtures/values, one row a number, for tests to take as parameters."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

_FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "values"


@dataclass(frozen=True)
class Published:
    """One number that was printed elsewhere or, where `tag` says MEM or CALC, remembered or worked out."""

    id: str
    quantity: str
    inputs: dict[str, float]
    text: str
    unit: str
    source: str
    tag: str

    @property
    def value(self) -> float:
        return float(self.text)

    @property
    def half_digit(self) -> float:
        """Half of the last printed digit: as near as the row itself claims to be."""
        return 0.5 * 10.0 ** -len(self.text.partition(".")[2]) * (1 + 1e-9)


def rows(topic: str, quantity: str) -> list[Published]:
    with (_FOLDER / f"{topic}.csv").open(newline="", encoding="utf-8") as file:
        found = [_read(row) for row in csv.DictReader(file) if row["quantity"] == quantity]
    assert found, f"no published {quantity!r} in {topic}.csv"
    return found


def params(topic: str, quantity: str) -> list[Any]:
    return [
        pytest.param(row, id=f"{row.id}-{row.quantity}-{at}") for at, row in enumerate(rows(topic, quantity))
    ]


def only(topic: str, quantity: str) -> Published:
    (row,) = rows(topic, quantity)
    return row


def _read(row: dict[str, str]) -> Published:
    pairs = [part.split("=") for part in row["inputs"].split(";") if part.strip()]
    inputs = {name.strip(): _number(text) for name, text in pairs}
    return Published(row["id"], row["quantity"], inputs, row["value"], row["unit"], row["source"], row["tag"])


def _number(text: str) -> float:
    above, _, below = text.partition("/")
    return float(Fraction(above) / Fraction(below)) if below else float(above)
