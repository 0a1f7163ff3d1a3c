"""Intake on paper. Belongs here: the questions of one sitting to fill in by hand with consents and release, and the
copy of what was signed. Not here: the page and its blocks (`studio.paper`), the questions (`intake_questions`)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from django.utils.translation import gettext as _

from bookings import intake_questions, permissions, wording
from bookings.forms.intake import CONSENTS
from bookings.intake_questions import Question, Text
from bookings.models import How, Release, Sitting
from bookings.models.intake import wording_in_force
from bookings.permissions import Permission
from studio.models import Profile
from studio.paper import blocks
from studio.paper.page import FRAME_RULE, PAPERS, Block, Document, Paper, Pen, write

DRAWN_MM = (60.0, 20.0)  # the field of 600 by 200 that it was drawn in
YES_NO = (_("yes"), _("no"))


def blank(sitting: Sitting, profile: Profile) -> bytes:
    paper = PAPERS[profile.paper]
    rows = permissions.of_sitting(sitting)
    title = _("Before your sitting")
    found = [_head(title, sitting, profile, paper)]
    found += blocks.paragraph(
        _("Answer what you like and leave the rest. It is read by those who photograph you and used for nothing else."),
        paper=paper,
    )
    found += _asked(intake_questions.of_sitting(sitting.kind, len(rows)), paper)
    for row in rows:
        found += [*blocks.paragraph(row.sitter.label, bold=True, points=16.0, paper=paper)]
        found += _asked(intake_questions.of_sitter(sitting.kind, len(rows), row.sitter), paper)
        found += [blocks.ticks(str(asks).format(name=row.sitter.label), YES_NO, paper=paper) for _w, asks in CONSENTS]
    version, words = wording_in_force()
    found += blocks.paragraph(_("Release"), bold=True, points=16.0, paper=paper)
    found += blocks.paragraph(words, paper=paper)
    for row in rows:
        found += _to_sign(row, paper)
    foot = _("%(number)s   questions %(questions)d, release %(release)d") % {
        "number": sitting.number, "questions": intake_questions.VERSION, "release": version,
    }  # fmt: skip
    return write(Document(title, profile.studio_name, tuple(found), f"{title}, {sitting.number}", foot), paper)


def copy(sitting: Sitting, profile: Profile) -> bytes:
    """Release and consents of everybody in the sitting as they stand."""
    paper = PAPERS[profile.paper]
    title = _("Release and consents")
    found = [_head(title, sitting, profile, paper)]
    for row in permissions.of_sitting(sitting):
        found += blocks.paragraph(row.sitter.label, bold=True, points=16.0, paper=paper)
        found += [block for words in row.consent_words for block in blocks.paragraph(words, paper=paper)]
        found += list(_signed(row, profile, paper))
    running = f"{title}, {sitting.number}"
    return write(Document(title, profile.studio_name, tuple(found), running, sitting.number), paper)


def _head(title: str, sitting: Sitting, profile: Profile, paper: Paper) -> Block:
    under = [f"{sitting.number}, {sitting.client.name}", wording.day(sitting.starts_at, profile.zone)]
    return blocks.head(title, under, from_whom=[profile.studio_name], paper=paper)


def _asked(questions: Sequence[Question], paper: Paper) -> list[Block]:
    found: list[Block] = []
    head: Text = ""
    for question in questions:
        if (under := intake_questions.heading(question.code)) != head:
            head = under
            parts = list(blocks.paragraph(str(head), bold=True, points=12.0, paper=paper))
        else:
            parts = []
        if question.choices:
            parts.append(blocks.ticks(str(question.asks), [label for _value, label in question.choices], paper=paper))
            if question.words:
                parts.append(blocks.lines_to_write(_("in your own words"), paper=paper))
        else:
            parts.append(blocks.lines_to_write(str(question.asks), paper=paper))
        found.append(_together(parts))
    return found


def _together(parts: Sequence[Block]) -> Block:
    """A question with its lines to write on, never parted by the end of a page."""

    def draw(pen: Pen, top: float) -> None:
        for part in parts:
            part.draw(pen, top)
            top += part.height

    return Block(sum(part.height for part in parts) + 1.0, draw)


def _to_sign(row: Permission, paper: Paper) -> list[Block]:
    name = row.sitter.label
    if not row.is_minor:
        return [blocks.signature(_("signature of %(name)s") % {"name": name}, paper=paper)]
    return [
        blocks.lines_to_write(_("Guardian of %(name)s, name and relation") % {"name": name}, paper=paper),
        blocks.lines_to_write(_("Guardian's telephone"), paper=paper),
        blocks.signature(_("signature of the guardian of %(name)s") % {"name": name}, paper=paper),
    ]


def _signed(row: Permission, profile: Profile, paper: Paper) -> Iterator[Block]:
    release = row.release
    if release is None:
        yield from blocks.paragraph(_("The release is not signed."), paper=paper)
        return
    if release.wording:
        yield from blocks.paragraph(release.wording, paper=paper)
    yield from blocks.paragraph(row.release_words, bold=True, paper=paper)
    if release.how == How.LINK:
        at = wording.moment_in_full(release.at, profile.zone)
        words = _("Signed on the page at %(at)s.") % {"at": at}
        if release.wording_version:
            words += " " + _("Wording version %(version)s.") % {"version": release.wording_version}
        yield from blocks.paragraph(words, paper=paper)
    if release.drawn:
        yield _drawing(release)


def _drawing(release: Release) -> Block:
    wide, high = DRAWN_MM
    strokes = [
        [(int(x) * wide / 600, int(y) * high / 200) for x, y in (point.split(",") for point in stroke.split())]
        for stroke in release.drawn.split("; ")
    ]

    def draw(pen: Pen, top: float) -> None:
        for stroke in strokes:
            for (x, y), (x2, y2) in pairwise(stroke):
                pen.line(x, top + y, x2, top + y2, FRAME_RULE)
        pen.rule(0, top + high, wide, FRAME_RULE)

    return Block(high + 2.0, draw)
