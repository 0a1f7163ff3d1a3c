"""The starter list: kit of usual sizes that a new studio ticks instead of typing. Belongs here: reading the list, and
rows of it as pieces with their codes. Not here: keeping what was ticked (`actions.starter_kit`).

The list is `fixtures/first/starter_kit.csv`, in the columns of the kit's own file with two numbers beside them: how
many stand ticked at first, and how many of it the sample has. Values are typical, not of any maker: metered ones are
better, and each may be mended on the piece's own page.
"""

from __future__ import annotations

import csv
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

from django.conf import settings

from studio import kit_list
from studio.models import KIT, KitItem

PATH = ("fixtures", "first", "starter_kit.csv")
MOST_OF_ONE = 12
# What no plan can be made without, by the kit's own sections.
NEEDED = ("heads", "modifiers", "stands", "backgrounds", "cameras", "lenses")


@dataclass(frozen=True)
class Line:
    """One line of the list: a piece of a usual size."""

    section: str
    stem: str
    label: str
    usual: int
    sample: int
    values: tuple[tuple[str, Any], ...]

    @property
    def field(self) -> str:
        """What its number is called in a form."""
        return f"n-{self.stem}"


@cache
def lines() -> tuple[Line, ...]:
    """The whole list, in the order of the kit's sections."""
    with settings.BASE_DIR.joinpath(*PATH).open(encoding="utf-8", newline="") as file:
        rows = [_line({name: text for name, text in row.items() if text}) for row in csv.DictReader(file)]
    order = list(KIT)
    return tuple(sorted(rows, key=lambda line: order.index(line.section)))


def _line(row: dict[str, str]) -> Line:
    section, stem = row.pop("section"), row.pop("code")
    usual, sample = int(row.pop("usual", 0)), int(row.pop("sample", 0))
    values = kit_list.values(section, row)
    return Line(section, stem, row["label"], usual, sample, tuple(values.items()))


def pieces(line: Line, count: int, *, taken: Collection[str], before: str = "", after: str = "") -> Iterator[KitItem]:
    """So many pieces of a line, not yet kept, each with the next code that is not taken: h400-1, h400-2. `before`
    stands in front of each code, `after` behind each name."""
    number, made = 0, 0
    while made < count:
        number += 1
        code = f"{before}{line.stem}-{number}"
        if code not in taken:
            made += 1
            yield KIT[line.section](code=code, **(dict(line.values) | {"label": f"{line.label}{after}"}))


def missing(*, but: Iterable[KitItem] = ()) -> list[str]:
    """Sections without which no plan is made and of which the house owns nothing beside `but`, as words."""
    own = KitItem.objects.filter(section__in=NEEDED).exclude(pk__in=[piece.pk for piece in but])
    owned = set(own.order_by().values_list("section", flat=True).distinct())
    return [str(KitItem.Section(section).label) for section in NEEDED if section not in owned]
