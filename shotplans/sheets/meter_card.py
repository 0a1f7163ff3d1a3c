"""The meter card: the round of readings on paper, each with its target and two boxes to write in. Belongs here: its
page. What it says is `meter_round`."""

from __future__ import annotations

from collections.abc import Sequence

from shotplans.sheets.meter_round import Face, FaceRow, GroundGrid, MeterCard, Step
from studio.paper import blocks, fonts
from studio.paper.page import (
    A4,
    ACTUAL_MM,
    AT_ONE_METRE,
    BODY,
    FRAME_RULE,
    HEAVY,
    ON_A_STAND,
    ROW,
    SMALL,
    Block,
    Document,
    Paper,
    Pen,
    fitted,
    line_mm,
    section,
    space,
    write,
)
from studio.tongue import gettext as _
from studio.tongue import noop

BOX_WIDE, BOX_GAP, TARGET_WIDE = 24.0, 1.5, 40.0
ABREAST = 5  # faces beside one another: a name, a target and a box each
FACE_GAP = 3.0
GROUND_WIDE = 22.0
LOOK_FIRST = noop(
    "Off by more than the tolerance? Look first: cloth on or off, the distance, the right "
    "channel, another light still on. Then the power. Write the first reading, change, and write "
    "the second."
)


def render(card: MeterCard, paper: Paper = A4) -> bytes:
    """The card as a PDF. Equal content, print time included, gives equal bytes."""
    return write(document(card, paper), paper)


def document(card: MeterCard, paper: Paper = A4) -> Document:
    h = card.heading
    which = _("set-up {number} of {of}, {setup}").format(number=card.number, of=card.of, setup=card.setup)
    return Document(
        title=_("Meter card, {sitting} {client}: {which}, plan {plan_version}").format(
            sitting=h.sitting, client=h.client, which=which, plan_version=h.plan_version
        ),
        author=h.studio,
        blocks=tuple(_blocks(card, paper)),
        running=fitted(
            _("Meter card, {sitting}, {which}").format(sitting=h.sitting, which=which), ROW, paper.inner, True
        )[0],
        foot=_("Sitting {sitting}   plan {plan_version}   printed {printed_at}").format(
            sitting=h.sitting, plan_version=h.plan_version, printed_at=h.printed_at
        ),
    )


def _blocks(card: MeterCard, paper: Paper) -> list[Block]:
    h = card.heading
    where = _("{date}, {room}. Set-up {number} of {of}: {setup}").format(
        date=h.date, room=h.room, number=card.number, of=card.of, setup=card.setup
    )
    found = [
        blocks.head(
            _("Meter card  {sitting}  {client}").format(sitting=h.sitting, client=h.client),
            [where],
            url=h.url,
            paper=paper,
        )
    ]
    found.append(_camera(card, paper))
    found += _steps(_("Each light alone"), card.alone, paper)
    found += _steps(_("Together: this reading sets the camera"), card.setting, paper)
    found += _faces(card, paper)
    found += _steps(_("All lights on"), card.all_on, paper)
    found += _ground(card.ground, paper) if card.ground else []
    return [
        *found,
        space(2.0),
        *blocks.paragraph(_(LOOK_FIRST), paper=paper),
        blocks.signature(_("metered by"), paper=paper),
    ]


def _camera(card: MeterCard, paper: Paper) -> Block:
    """What the camera is set to, to be held against the reading that sets it."""
    each = paper.inner / len(card.camera)

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top, paper.inner, HEAVY)
        for n, (label, value) in enumerate(card.camera):
            pen.text(n * each, top + 0.5, label, SMALL)
            pen.text(n * each, top + 5.7, value, ON_A_STAND, bold=True)

    return Block(6.0 + line_mm(ON_A_STAND), draw)


def _steps(title: str, steps: Sequence[Step], paper: Paper) -> list[Block]:
    if not steps:
        return []
    head = section(title, paper)
    return [head, *(_step(step, head, paper) for step in steps)]


def _step(step: Step, head: Block, paper: Paper) -> Block:
    """Which lights and where, the target to be read at a metre, and two boxes."""
    boxes = 2 * BOX_WIDE + BOX_GAP
    left, wide = 9.0, paper.inner - boxes - TARGET_WIDE - 9.0 - 3.0
    words = [
        *((line, True) for line in fitted(step.lights, BODY, wide, True)),
        *((line, False) for line in fitted(step.place, BODY, wide)),
    ]
    height = max(len(words) * line_mm(BODY) + 2.0, ACTUAL_MM + 3.2)

    def draw(pen: Pen, top: float) -> None:
        pen.rule(0, top, paper.inner)
        pen.text(0, top + 1.0, str(step.number), ROW, bold=True)
        for n, (line, bold) in enumerate(words):
            pen.text(left, top + 1.2 + n * line_mm(BODY), line, BODY, bold=bold)
        x = paper.inner - boxes - TARGET_WIDE
        pen.text(x, top + 0.8, step.target, AT_ONE_METRE, bold=True)
        pen.text(x, top + 1.4 + line_mm(AT_ONE_METRE), step.tolerance, BODY)
        for n in range(2):
            _write_in(
                pen, paper.inner - boxes + n * (BOX_WIDE + BOX_GAP), top + 1.6, BOX_WIDE, (_("first"), _("after"))[n]
            )

    return Block(height, draw, head=head)


def _write_in(pen: Pen, x: float, top: float, wide: float, label: str) -> None:
    pen.box(x, top, wide, ACTUAL_MM)
    if label:
        pen.text(x + 1.0, top + 0.4, label, SMALL)


def _faces(card: MeterCard, paper: Paper) -> list[Block]:
    """The faces as the camera sees them, row by row, each with its target and a box."""
    if not card.faces:
        return []
    head = section(
        _("Faces, {faces_tolerance}: as the camera sees them, dome as above").format(
            faces_tolerance=card.faces_tolerance
        ),
        paper,
    )
    found = [head]
    for row in card.faces:
        parts = [row.faces[n : n + ABREAST] for n in range(0, len(row.faces), ABREAST)]
        found += [_face_row(row if n == 0 else FaceRow("", row.faces), part, head, paper)
                  for n, part in enumerate(parts)]  # fmt: skip
    return found


def _face_row(row: FaceRow, part: Sequence[Face], head: Block, paper: Paper) -> Block:
    each = (paper.inner - FACE_GAP * (ABREAST - 1)) / ABREAST
    names = [
        fitted(_("{label} · step {number}").format(label=face.label, number=face.number), BODY, each, True)
        for face in part
    ]
    title = line_mm(BODY) if row.name else 0.0
    under = title + max(map(len, names)) * line_mm(BODY)

    def draw(pen: Pen, top: float) -> None:
        if row.name:
            pen.text(0, top + 0.6, row.name, BODY)
        for n, (face, lines) in enumerate(zip(part, names, strict=True)):
            x = n * (each + FACE_GAP)
            pen.lines(x, top + 0.6 + title, lines, BODY, bold=True)
            pen.text(x, top + 0.8 + under, face.target, ROW)
            _write_in(pen, x, top + 1.4 + under + line_mm(ROW), each, "")

    return Block(under + line_mm(ROW) + ACTUAL_MM + 3.4, draw, head=head)


def _ground(grid: GroundGrid, paper: Paper) -> list[Block]:
    """Nine places of the ground, from camera left and from the top, with what all should read."""
    head = section(_("Ground, its own light and the front lights on, dome recessed, flat against it"), paper)
    said = (_("Every place {target}, all within {even} stop.") if grid.even else _("Every place {target}.")).format(
        target=grid.target, even=grid.even
    )
    lines = fitted(said, BODY, paper.inner - 3 * (GROUND_WIDE + FACE_GAP) - 26.0)

    def draw(pen: Pen, top: float) -> None:
        for r, place in enumerate((_("top"), _("middle"), _("low"))):
            y = top + 6.0 + r * (ACTUAL_MM + 1.5)
            pen.text(0, y + 3.6, place, BODY)
            for c in range(3):
                pen.box(20.0 + c * (GROUND_WIDE + FACE_GAP), y, GROUND_WIDE, ACTUAL_MM, FRAME_RULE)
        for c, side in enumerate((_("left"), _("middle"), _("right"))):
            x = 20.0 + c * (GROUND_WIDE + FACE_GAP)
            pen.text(x + (GROUND_WIDE - fonts.width_pt(side, BODY)) / 2, top + 0.6, side, BODY)
        pen.lines(paper.inner - (paper.inner - 3 * (GROUND_WIDE + FACE_GAP) - 26.0), top + 6.0, lines, BODY)

    return [head, Block(6.0 + 3 * (ACTUAL_MM + 1.5) + 1.0, draw, head=head)]
