"""A rota on paper: the list for the door, and a slate for each person. Belongs here: what stands on them. Not here: the
page and its blocks (`studio.paper`), reading the rota (`rota_board`)."""

from __future__ import annotations

from collections.abc import Iterator

from django.conf import settings
from django.urls import reverse
from django.utils.translation import gettext as _

from bookings import permissions, wording
from bookings.models import Place, Sitter, State
from bookings.rota_board import MINUTE, Board
from studio.models import Profile
from studio.paper import blocks, fonts
from studio.paper.page import (
    BODY,
    FRAME_RULE,
    HEAVY,
    MARGIN,
    PAPERS,
    ROW,
    RUNNING_HEIGHT,
    SMALL,
    TICK_MM,
    Block,
    Document,
    Paper,
    Pen,
    fitted,
    line_mm,
    write,
)

TIME_MM, NUMBER_MM, HERE_MM, RELEASE_MM = 20.0, 12.0, 16.0, 42.0
LARGEST, SMALLEST, MOST_LINES = 120.0, 28.0, 3  # points of a name on a slate
NUMBER_POINTS = 190.0


def door_list(board: Board, profile: Profile) -> bytes:
    """The door list as a PDF on the studio's paper."""
    return write(door_document(board, profile), PAPERS[profile.paper])


def door_document(board: Board, profile: Profile) -> Document:
    """Everybody in the order of their times, with lunch, and boxes to tick."""
    sitting, paper = board.rota.sitting, PAPERS[profile.paper]
    day = wording.day(sitting.starts_at, profile.zone)
    title = _("Door list, %(client)s") % {"client": sitting.client.name}
    under = [
        day,
        _("%(room)s, %(number)s, %(count)d people") % {
            "room": sitting.room.name, "number": sitting.number, "count": len(_places(board)),
        },
    ]  # fmt: skip
    url = settings.TENTHSTOP_URL + reverse("rota_board", args=[sitting.number])
    head = blocks.head(title, [*under, profile.studio_name], url=url, paper=paper)
    running = f"{title}, {day}"
    found = [head, *_rows(board, profile, paper), blocks.lines_to_write(_("Walk-ins"), 3, paper=paper)]
    return Document(title, profile.studio_name, tuple(found), running, f"{sitting.number}   {day}")


def _places(board: Board) -> list[Place]:
    rows = [*board.queue, *board.done, *board.absent, *([board.on_set] if board.on_set else [])]
    return sorted((row.place for row in rows), key=lambda place: (place.after, place.number))


def _rows(board: Board, profile: Profile, paper: Paper) -> Iterator[Block]:
    sitters = permissions.read_along(Sitter.objects.filter(sitting=board.rota.sitting))
    signed = {one.pk: permissions.of(one).is_signed for one in sitters}
    top = _head(paper)
    yield Block(top.height, top.draw, with_next=True)
    lunch_said = board.lunch is None
    for place in _places(board):
        if not lunch_said and board.lunch is not None and place.starts_at >= board.lunch.ends_at:
            lunch_said = True
            yield _line(wording.time(board.lunch.starts_at, profile.zone), _("lunch, %(minutes)d minutes") % {
                "minutes": board.lunch.length / MINUTE,
            }, top, paper)  # fmt: skip
        release = _("signed") if signed.get(place.sitter_id) else _("release to sign")
        yield _person(place, wording.time(place.starts_at, profile.zone), release, top, paper)


def _head(paper: Paper) -> Block:
    def draw(pen: Pen, top: float) -> None:
        for x, words in (
            (0.0, _("time")), (TIME_MM, _("no.")), (TIME_MM + NUMBER_MM, _("name")),
            (paper.inner - HERE_MM - RELEASE_MM, _("release")), (paper.inner - TICK_MM - 1.0, _("here")),
        ):  # fmt: skip
            pen.text(x, top + 1.0, words, SMALL, bold=True)
        pen.rule(0, top + 6.4, paper.inner, HEAVY)

    return Block(7.0, draw)


def _person(place: Place, time: str, release: str, head: Block, paper: Paper) -> Block:
    room = paper.inner - TIME_MM - NUMBER_MM - HERE_MM - RELEASE_MM - 3.0
    words = place.sitter.label
    if place.state == State.ABSENT:
        words = _("%(name)s (absent)") % {"name": words}
    elif place.walk_in:
        words = _("%(name)s (walk-in)") % {"name": words}
    lines = fitted(words, ROW, room, bold=True)
    height = max(len(lines) * line_mm(ROW), TICK_MM) + 2.2

    def draw(pen: Pen, top: float) -> None:
        pen.text(0, top + 1.2, time, ROW)
        pen.text(TIME_MM, top + 1.2, str(place.number), ROW)
        pen.lines(TIME_MM + NUMBER_MM, top + 1.2, lines, ROW, bold=True)
        pen.text(paper.inner - HERE_MM - RELEASE_MM, top + 1.7, release, BODY)
        pen.box(paper.inner - TICK_MM, top + 1.0, TICK_MM, TICK_MM)
        pen.rule(0, top + height, paper.inner)

    return Block(height, draw, head=head)


def _line(time: str, words: str, head: Block, paper: Paper) -> Block:
    def draw(pen: Pen, top: float) -> None:
        pen.text(0, top + 1.2, time, ROW)
        pen.text(TIME_MM + NUMBER_MM, top + 1.2, words, ROW)
        pen.rule(0, top + line_mm(ROW) + 2.2, paper.inner)

    return Block(line_mm(ROW) + 2.2, draw, head=head)


def slates(board: Board, profile: Profile) -> bytes:
    """One sheet a person, lengthwise: number and name as large as they go."""
    sitting, upright = board.rota.sitting, PAPERS[profile.paper]
    paper = Paper(upright.height, upright.width)
    day = wording.day(sitting.starts_at, profile.zone)
    running = f"{sitting.number}   {sitting.client.name}"
    found = [_slate(place, running, n == 0, paper) for n, place in enumerate(_places(board))]
    title = _("Slates, %(number)s") % {"number": sitting.number}
    return write(Document(title, profile.studio_name, tuple(found), running, day), paper)


def _slate(place: Place, running: str, is_first: bool, paper: Paper) -> Block:
    """The first page has no running head of the page's own: the slate writes it."""
    above = RUNNING_HEIGHT if is_first else 0.0
    height = paper.room - RUNNING_HEIGHT
    points, lines = _as_large_as_fits(place.sitter.label, paper.inner, height - line_mm(NUMBER_POINTS) - 8.0)

    def draw(pen: Pen, top: float) -> None:
        if is_first:
            pen.text(0, MARGIN, running, ROW, bold=True)
            pen.rule(0, MARGIN + RUNNING_HEIGHT - 3.2, paper.inner, FRAME_RULE)
        at = top + above
        pen.text(paper.inner / 2, at, str(place.number), NUMBER_POINTS, bold=True, align="centre")
        under = at + line_mm(NUMBER_POINTS)
        for n, line in enumerate(lines):
            pen.text(paper.inner / 2, under + n * line_mm(points), line, points, bold=True, align="centre")

    return Block(height + above, draw)


def _as_large_as_fits(name: str, wide: float, high: float) -> tuple[float, list[str]]:
    """The largest size at which a name stands whole in the room there is, words unbroken where they can be."""
    points = LARGEST
    while True:
        lines = fitted(name, points, wide, bold=True)
        is_whole = all(fonts.width_pt(word, points, True) <= wide for word in name.split())
        if points <= SMALLEST or (is_whole and len(lines) <= MOST_LINES and len(lines) * line_mm(points) <= high):
            return points, lines
        points -= 4.0
