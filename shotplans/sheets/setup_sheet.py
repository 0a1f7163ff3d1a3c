"""The setup sheet: from its content to a PDF an assistant can build from. Belongs here: the order of the blocks, and
how the drawing shares page one with the rest."""

from __future__ import annotations

from collections.abc import Iterable

from shotplans.sheets import diagram, ruler, sheet_head, sheet_lists, sheet_tables
from shotplans.sheets.content import Note, SetupSheet
from shotplans.sheets.scene import Scene
from studio.paper import fonts
from studio.paper.page import (
    A4,
    BODY,
    FOOT_HEIGHT,
    MARGIN,
    ROW,
    RUNNING_HEIGHT,
    Block,
    Document,
    Paper,
    Pen,
    fitted,
    flow,
    line_mm,
    section,
    space,
    write,
)
from studio.tongue import gettext as _

LEAST_DRAWING, MOST_DRAWING = 93.0, 122.0  # a third of A4 and a little more where there is room
COARSEST = 140  # a drawing to a smaller scale than 1 : this does not show where a stand's legs go
AFTER_DRAWING, AFTER_TABLE = 2.0, 1.5
SPACES = AFTER_DRAWING + AFTER_TABLE + 0.5
NOTES_WIDE, NOTES_GAP, NOTE_SPACE = 66.0, 3.0, 1.3


def render(sheet: SetupSheet, paper: Paper = A4) -> bytes:
    """The sheet as a PDF. Equal content, print time included, gives equal bytes."""
    return write(document(sheet, paper), paper)


def document(sheet: SetupSheet, paper: Paper = A4) -> Document:
    h = sheet.heading
    return Document(
        title=_("{sitting} {client}: set-up {number} of {of}, plan {plan_version}").format(
            sitting=h.sitting, client=h.client, number=sheet.number, of=sheet.of, plan_version=h.plan_version
        ),
        author=h.studio,
        blocks=tuple(blocks(sheet, paper)),
        running=running(sheet, paper),
        foot=_("Sitting {sitting}   plan {plan_version}   printed {printed_at}").format(
            sitting=h.sitting, plan_version=h.plan_version, printed_at=h.printed_at
        ),
    )


def running(sheet: SetupSheet, paper: Paper) -> str:
    """The head of every page but the first: as much of number, client and set-up as one line holds, and the times."""
    h = sheet.heading
    times = f"{h.setup_at} / {h.sitter_at} / {h.finish_at}"
    for words in (f"{h.sitting} {h.client}, {sheet.setup}, {times}", f"{h.sitting} {h.client}, {times}"):
        if len(fonts.wrap(words, ROW, paper.inner, bold=True)) == 1:
            return words
    return _("{sitting}, set-up {number}, {times}").format(sitting=h.sitting, number=sheet.number, times=times)


def blocks(sheet: SetupSheet, paper: Paper) -> list[Block]:
    """Page one in its order, then what is read with the sitters near."""
    first = [sheet_head.head(sheet, paper), *sheet_head.alerts(sheet, paper), sheet_head.intent(sheet, paper)]
    strip = sheet_tables.camera(sheet.camera, paper)
    lights = sheet_tables.lights(sheet.lights, paper)
    others = sum(b.height for b in (*first, *lights, *strip))
    left = paper.room - others - SPACES
    height = min(MOST_DRAWING, max(LEAST_DRAWING, left))
    drawn, beside = _drawing(sheet, height, paper)
    second = [*beside, *sheet_lists.shots(sheet.shots, paper)]
    second += sheet_lists.packing(sheet.packing, left_under(second, paper), paper)
    second.append(sheet_lists.end(sheet.hazards, sheet.foot, paper))
    second[0] = Block(second[0].height, second[0].draw, second[0].head, second[0].with_next, new_page=True)
    return [*first, *drawn, *lights, space(AFTER_TABLE), *strip, *second, *_large(sheet, height, paper)]


def left_under(found: list[Block], paper: Paper) -> float:
    """What the page has left under blocks that begin with its second, millimetres."""
    last, top = flow([space(RUNNING_HEIGHT), *found], paper)[-1][-1]
    return paper.height - MARGIN - FOOT_HEIGHT - top - last.height


def _drawing(sheet: SetupSheet, height: float, paper: Paper) -> tuple[list[Block], list[Block]]:
    """The drawing with the notes beside it, and the notes and rows for which the column is too short."""
    notes = [*sheet.notes, *(Note(row.name, ", ".join(row.people)) for row in sheet.rows)]
    if sheet.scene is None:
        return [_note_block(note, paper.inner, None) for note in notes], []
    column: list[Block] = []
    over: list[Note] = []
    used = 0.0
    for note in notes:
        block = _note_block(note, NOTES_WIDE, None)
        if over or used + block.height > height:
            over.append(note)
        else:
            column.append(block)
            used += block.height
    beside = _continued(over, paper)
    return [_set(sheet.scene, column, height, paper)], beside


def _large(sheet: SetupSheet, height: float, paper: Paper) -> list[Block]:
    """The set once more on a page of its own, where there is too much on it to be read a third of a page high."""
    if sheet.scene is None or not (diagram.is_dense(sheet.scene) or _scale(sheet.scene, height, paper) > COARSEST):
        return []
    head = section(_("The set, drawn large: {setup}").format(setup=sheet.setup), paper)
    whole = paper.room - RUNNING_HEIGHT - head.height - 1.0
    drawing = diagram.draw(sheet.scene, paper.inner, whole)
    return [head, Block(whole, lambda pen, top: pen.drawing(drawing, 0, top))]


def _scale(scene: Scene, height: float, paper: Paper) -> int:
    return ruler.lay(scene, paper.inner - NOTES_WIDE - NOTES_GAP, height).scale


def _set(scene: Scene, column: Iterable[Block], height: float, paper: Paper) -> Block:
    drawing = diagram.draw(scene, paper.inner - NOTES_WIDE - NOTES_GAP, height)

    def draw(pen: Pen, top: float) -> None:
        pen.drawing(drawing, 0, top)
        pen.canvas.saveState()
        pen.canvas.translate((paper.inner - NOTES_WIDE) * 72 / 25.4, 0)
        y = top + 1.0
        for block in column:
            block.draw(pen, y)
            y += block.height
        pen.canvas.restoreState()

    return Block(height + AFTER_DRAWING, draw)


def _continued(notes: list[Note], paper: Paper) -> list[Block]:
    if not notes:
        return []
    head = section(_("The set, continued"), paper)
    return [head, *(_note_block(note, paper.inner, head) for note in notes)]


def _note_block(note: Note, width: float, head: Block | None) -> Block:
    """What it is about in bold, then what to do, in one paragraph."""
    about = fonts.width_pt(f"{note.about}  ", BODY, True)
    if about > 0.6 * width:
        lines, first_x = ["", *fitted(note.says, BODY, width)], 0.0
    else:
        pad = "\u00a0" * max(1, round(about / fonts.width_pt("\u00a0", BODY)))
        lines, first_x = fitted(f"{pad}{note.says}", BODY, width), about
    titles = fitted(note.about, BODY, width, bold=True)

    def draw(pen: Pen, top: float) -> None:
        for n, title in enumerate(titles):
            pen.text(0, top + n * line_mm(BODY), title, BODY, bold=True)
        for n, line in enumerate(lines):
            pen.text(first_x if n == 0 else 0, top + (n + len(titles) - 1) * line_mm(BODY), line.lstrip("\u00a0"), BODY)

    return Block((len(lines) + len(titles) - 1) * line_mm(BODY) + NOTE_SPACE, draw, head=head)
