"""Frames coming in from the set. Belongs here: keeping one file's frame once, tying it, what a person says of it, and
what goes with the person (`settings.ERASERS`). Not here: reading files (`records`), answering to a page."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from typing import Any, BinaryIO

from django.db import transaction
from django.db.models import Max, Min
from django.utils import timezone
from django.utils.translation import gettext as _

from bookings.models import Sitting
from bookings.refusals import Refusal
from shotplans import blanking
from shotplans.darkroom import wanted_of
from shotplans.models import Frame, FrameCheck, FrameTie, Plan, Reading, Reference, SmallPicture
from shotplans.records import exif, files, frame_checks, matching, pictures
from studio import clock
from studio.models import Member, Profile

TOGETHER = timedelta(seconds=2)  # a JPEG and its raw may say the next second


@dataclass(frozen=True)
class Outcome:
    """What became of one file, fit for its line: the frame it is, and what was not read and why."""

    name: str
    frame: Frame | None
    says: str
    new: bool = False


@dataclass(frozen=True, kw_only=True)
class Incoming:
    """A file on its way in: its piece, the whole of it where it is at hand, and which moment its own clock gives it."""

    name: str
    piece: files.Piece
    whole: BinaryIO | None = None
    file_time_ms: int = 0


def known(sitting: Sitting) -> set[tuple[str, int, int]]:
    """Name, size and time of every file that is in already: those need not be opened again."""
    return set(Frame.objects.of(sitting).values_list("name", "size", "file_time_ms"))


def take_in(*, by: Member | None, sitting: Sitting, file: Incoming, test_of: str = "") -> Outcome:
    """Keep the frame of one file, once however often it comes. `test_of`: it is the test frame of that set-up.

    Never raises for what is in a file: the outcome says what was not read.
    """
    name = files.plain_name(file.name)
    there = Frame.objects.of(sitting).filter(digest=file.piece.digest).first()
    if there is not None:
        return _already(by, name, there, test_of)
    try:
        data, unread = exif.read_camera(file.piece), ""
    except exif.Unread as error:
        if file.piece.kind is not files.Kind.JPEG:
            return Outcome(name, None, str(error))
        data, unread = exif.CameraData(), str(error)
    profile = Profile.get()
    look, small, unseen = _picture(file, keep=profile.keep_small_pictures)
    if unread and look is None:
        return Outcome(name, None, unread)
    says = [s for s in (unread, unseen, _odd(data)) if s]
    return _keep(by, sitting, file, name, data, look, small, "; ".join(says), _aware(data.taken, profile), test_of)


@transaction.atomic
def _already(by: Member | None, name: str, there: Frame, test_of: str) -> Outcome:
    """A file that is in; one that came in from a watched folder becomes the test frame it is sent as."""
    if test_of and not there.is_test:
        Frame.objects.filter(pk=there.pk).update(is_test=True, setup_name=test_of, tied_by="person", doubt="")
        FrameTie.objects.create(
            sitting=there.sitting, first=there.number, last=there.number, count=1, before=there.setup_name,
            after=test_of, is_test=True, at=clock.now(), by=by,
        )  # fmt: skip
        return Outcome(name, there, "")
    return Outcome(name, there, _("is here already, as frame %(n)d") % {"n": there.number})


def _picture(file: Incoming, *, keep: bool) -> tuple[dict[str, Any] | None, pictures.Small | None, str]:
    if file.whole is None or file.piece.kind is not files.Kind.JPEG:
        return None, None, ""
    file.whole.seek(0)
    try:
        look, samples = pictures.look(file.whole)
    except pictures.NoPicture as error:
        return None, None, str(error)
    return asdict(look), pictures.small_copy(samples) if keep else None, ""


def _odd(data: exif.CameraData) -> str:
    return _("the camera's time cannot be read: “%(text)s”") % {"text": data.odd_time} if data.odd_time else ""


def _aware(taken: datetime | None, profile: Profile) -> datetime | None:
    """A camera that does not say its zone stands in the studio's."""
    if taken is None or timezone.is_aware(taken):
        return taken
    return timezone.make_aware(taken, profile.zone)


@transaction.atomic
def _keep(
    by: Member | None, sitting: Sitting, file: Incoming, name: str, data: exif.CameraData,
    look: dict[str, Any] | None, small: pictures.Small | None, says: str, taken: datetime | None, test_of: str,
) -> Outcome:  # fmt: skip
    held = Sitting.objects.select_for_update(of=("self",)).get(pk=sitting.pk)
    there = Frame.objects.of(held).filter(digest=file.piece.digest).first()
    if there is not None:  # somebody else sent it in just now
        return _already(by, name, there, test_of)
    frame = Frame(
        sitting=held, digest=file.piece.digest, name=name, size=file.piece.size, file_time_ms=file.file_time_ms,
        number=files.number_in(name) or 1 + (Frame.objects.of(held).aggregate(n=Max("number"))["n"] or 0),
        is_test=bool(test_of), taken_at=taken, f_number=data.f_number, shutter_s=data.shutter_s, iso=data.iso,
        focal_mm=data.focal_mm, white_balance=data.white_balance, flash_fired=data.flash_fired, unread=says[:200],
        look=look, received_at=clock.now(), by=by,
    )  # fmt: skip
    twin = None if test_of else _twin(frame)
    if twin is not None:
        frame.beside = twin
        frame.setup_name, frame.tied_by = twin.setup_name, twin.tied_by
        says = _("goes with %(name)s, frame %(n)d, and is counted once") % {"name": twin.name, "n": twin.number}
    elif test_of:
        frame.setup_name, frame.tied_by = test_of, "person"
    else:
        _tie(frame)
    frame.save()
    if small is not None:
        SmallPicture.objects.create(frame=frame, jpeg=small.jpeg, width=small.width, height=small.height)
    return Outcome(name, frame, says, new=True)


def _twin(frame: Frame) -> Frame | None:
    """The frame whose file has the same name with another ending and was taken at the same time."""
    rows = Frame.objects.of(frame.sitting).counted().filter(number=frame.number, is_test=False)
    for row in rows:
        if files.stem(row.name) != files.stem(frame.name) or row.name.casefold() == frame.name.casefold():
            continue
        if row.taken_at is None or frame.taken_at is None or abs(row.taken_at - frame.taken_at) <= TOGETHER:
            return row
    return None


def begun(sitting: Sitting) -> dict[str, datetime]:
    """When each set-up of a sitting was first metered."""
    rows = Reading.objects.filter(record__plan__sitting=sitting).values("setup_name").annotate(first=Min("at"))
    return {row["setup_name"]: row["first"] for row in rows}


def _tie(frame: Frame) -> None:
    plan = Plan.objects.of(frame.sitting).current().first()
    setups = wanted_of(plan)
    if not setups:
        frame.doubt = _("the sitting has no plan yet")
        return
    found = matching.tie(frame.data, frame.taken_at, setups, begun(frame.sitting))
    frame.setup_name, frame.tied_by, frame.doubt = found.setup, found.by, found.says


@transaction.atomic
def say_setup(*, by: Member, sitting: Sitting, first: int, last: int, setup_name: str) -> int:
    """Tie the doubtful frames from one number to another to a set-up; how many. Refuses where there is none."""
    plan = Plan.objects.of(sitting).current().first()
    if plan is None or plan.setup(setup_name) is None:
        raise Refusal(_("The plan has no such set-up. Choose one of the list."))
    rows = Frame.objects.of(sitting).filter(is_test=False, number__gte=first, number__lte=last)
    found = rows.filter(setup_name="").update(setup_name=setup_name, tied_by="person", doubt="")
    if not found:
        raise Refusal(_("None of these frames is in doubt any more."))
    FrameTie.objects.create(
        sitting=sitting, first=first, last=last, count=found, after=setup_name, at=clock.now(), by=by
    )
    return found


@transaction.atomic
def mark_eyes(*, frame: Frame, eyes: Sequence[tuple[float, float]]) -> SmallPicture:
    """Keep the two eyes that were marked, left in the picture first. Refuses with a sentence."""
    picture = SmallPicture.objects.select_for_update().filter(frame=frame).first()
    if picture is None:
        raise Refusal(_("No small picture of this frame is kept, so no eyes can be marked on it."))
    if len(eyes) != 2 or not all(0 <= part <= 1 for eye in eyes for part in eye):
        raise Refusal(_("Mark two eyes inside the picture."))
    if abs(eyes[0][0] - eyes[1][0]) < 0.005:
        raise Refusal(_("The two marks lie on top of one another. Mark one eye, then the other."))
    picture.eyes = [list(eye) for eye in sorted(eyes)]
    picture.save(update_fields=["eyes"])
    return picture


@transaction.atomic
def choose_reference(*, by: Member, frame: Frame) -> Reference:
    """The client's next frames are held against this one. Refuses where no picture of it is kept."""
    if not SmallPicture.objects.filter(frame=frame).exists():
        raise Refusal(_("No small picture of this frame is kept, so nothing can be held against it."))
    values = {"frame": frame, "chosen_at": clock.now(), "chosen_by": by}
    return Reference.objects.update_or_create(client=frame.sitting.client, defaults=values)[0]


def forget(sitting: Sitting, labels: Sequence[str], names: Mapping[str, str]) -> None:
    """With the person's notes go the small pictures of the set-ups they sit in, the marks on them and the reference;
    no frame says whose face is on it. A company's reference is the company's and stays until whoever is on it is erased
    (then there are new names), when what the files were called goes too."""
    rows = Frame.objects.of(sitting)
    if names:
        Reference.objects.filter(frame__in=rows).delete()
        SmallPicture.objects.filter(frame__in=rows).delete()
        rows.update(name="-", look=None)
        return
    documents = Plan.objects.of(sitting).values_list("document", flat=True)
    rows = rows.exclude(setup_name__in=blanking.of_others(documents, labels))
    references = Reference.objects.filter(frame__in=rows)
    if sitting.client.is_company:
        rows = rows.exclude(pk__in=references.values("frame"))
    else:
        references.delete()
    SmallPicture.objects.filter(frame__in=rows).delete()


@transaction.atomic
def answer_checks(*, by: Member, plan: Plan, setup_name: str, codes: Sequence[str], passed: bool) -> int:
    """Answer checks of a test frame, one or several at once; how many. Refuses unknown ones."""
    if plan.setup(setup_name) is None:
        raise Refusal(_("The plan has no such set-up."))
    if not codes or set(codes) - set(frame_checks.BY_CODE):
        raise Refusal(_("There is no such check."))
    at = clock.now()
    rows = [FrameCheck(plan=plan, setup_name=setup_name, code=c, passed=passed, at=at, by=by) for c in codes]
    return len(FrameCheck.objects.bulk_create(rows))
