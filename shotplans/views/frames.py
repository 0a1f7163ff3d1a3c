"""A sitting's frames: brought in from a folder, told as a ledger, held against the client's reference."""

from __future__ import annotations

from contextlib import suppress

from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings.models import Sitting
from bookings.refusals import Refusal
from shotplans import darkroom
from shotplans.actions import frames
from shotplans.models import Frame, Plan, SmallPicture
from shotplans.records.files import HEAD_BYTES, Kind, Piece, read_piece
from shotplans.views.sittings import sitting_or_404
from studio import entries, sending
from studio.access import allow
from studio.models import Role
from studio.sent import whole

LARGEST_BYTES = 120_000_000  # of a JPEG; of a raw only the two ends come


def incoming(request: HttpRequest) -> list[frames.Incoming | frames.Outcome]:
    """The files of a post, whole or as the two ends that the page's script cut; one too large as what became of it."""
    file_time_ms = whole(request.POST.get("file_time", ""), digits=14) or 0
    ends = (request.FILES.get("head"), request.FILES.get("tail"))
    size = whole(request.POST.get("size", ""), digits=14)
    if isinstance(ends[0], UploadedFile) and isinstance(ends[1], UploadedFile) and size is not None:
        head, tail = (bytes(end.read(HEAD_BYTES)) for end in ends)
        name = request.POST.get("name", "") or ends[0].name or ""
        whole_size = max(size, len(head), len(tail))
        return [frames.Incoming(name=name, piece=Piece(whole_size, head, tail), file_time_ms=file_time_ms)]
    found: list[frames.Incoming | frames.Outcome] = []
    for file in request.FILES.getlist("files"):
        if (file.size or 0) > LARGEST_BYTES:
            found.append(frames.Outcome(file.name or "?", None, _("is larger than 120 MB; no camera's picture is")))
            continue
        piece = read_piece(file.file)
        body = file.file if piece.kind is Kind.JPEG else None
        found.append(frames.Incoming(name=file.name or "", piece=piece, whole=body, file_time_ms=file_time_ms))
    return found


def take_all(request: HttpRequest, sitting: Sitting, *, test_of: str = "") -> list[frames.Outcome]:
    """Keep every file of a post."""
    by = request.member  # type: ignore[attr-defined]
    return [
        one if isinstance(one, frames.Outcome) else frames.take_in(by=by, sitting=sitting, file=one, test_of=test_of)
        for one in incoming(request)
    ]


@allow("photographer", "assistant")
def ledger(request: HttpRequest, number: str, outcomes: list[frames.Outcome] | None = None) -> HttpResponse:
    """Counts against the shot list, runs with wrong settings, frames in doubt."""
    sitting = sitting_or_404(number)
    plan = Plan.objects.of(sitting).current().first()
    pictures = SmallPicture.objects.filter(frame__sitting=sitting).select_related("frame").defer("jpeg")
    context = {
        "sitting": sitting, "plan": plan, "ledger": darkroom.ledger(sitting, plan), "outcomes": outcomes,
        "pictures": pictures.order_by("-frame__number")[:24], "reference": darkroom.reference_of(sitting),
        "may_run": request.member.has_role(Role.OWNER, Role.FRONT_DESK),  # type: ignore[attr-defined]
    }  # fmt: skip
    return render(request, "shotplans/frames.html", context)


@allow("photographer", "assistant")
def known(request: HttpRequest, number: str) -> HttpResponse:
    """Name, size and time of the files that are in, so that the page sends none of them twice."""
    return JsonResponse({"known": sorted(frames.known(sitting_or_404(number)))})


@allow("photographer", "assistant")
@require_POST
def send(request: HttpRequest, number: str) -> HttpResponse:
    """Bring files in: one by the page's script, which is answered with its line, or several at once without it."""
    outcomes = take_all(request, sitting_or_404(number))
    if request.headers.get("Accept") == "application/json":
        lines = [{"name": o.name, "says": o.says, "new": o.new, "kept": o.frame is not None} for o in outcomes]
        return JsonResponse({"lines": lines})
    if not outcomes:
        messages.error(request, _("No file was chosen. Nothing was read."))
        return redirect("frames", number=number)
    return ledger(request, number, outcomes)


@allow("photographer", "assistant")
@require_POST
@entries.once
def say_setup(request: HttpRequest, number: str) -> HttpResponse:
    """Which set-up frames in doubt belong to."""
    sitting = sitting_or_404(number)
    ends = [whole(request.POST.get(name, "")) for name in ("first", "last")]
    first, last = (-1 if end is None else end for end in ends)
    try:
        count = frames.say_setup(
            by=request.member, sitting=sitting, first=first, last=last, setup_name=request.POST.get("setup", "")  # type: ignore[attr-defined]
        )
        messages.success(request, _("%(n)d frames were tied.") % {"n": count})
    except Refusal as error:
        messages.error(request, str(error))
    return redirect("frames", number=number)


def _frame(number: str, pk: int) -> Frame:
    rows = Frame.objects.select_related("sitting__client").filter(sitting__number=number)
    return get_object_or_404(rows, pk=pk)


@allow("photographer", "assistant")
def picture(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """The small picture of a frame."""
    found = SmallPicture.objects.filter(frame__sitting__number=number, frame=pk).first()
    if found is None:
        raise Http404
    return sending.jpeg(bytes(found.jpeg), f"frame-{pk}.jpg")


def place(request: HttpRequest, name: str, picture: SmallPicture | None) -> tuple[float, float] | None:
    """Where a picture was touched, as shares of it: sent as pixels, with how wide it was shown."""
    sent = request.POST if request.method == "POST" else request.GET
    with suppress(ValueError, ZeroDivisionError, OverflowError):
        wide = float(sent.get("shown", "") or 340)
        if picture is not None and f"{name}.x" in sent:
            x, y = float(sent[f"{name}.x"]) / wide, float(sent[f"{name}.y"]) / (wide * picture.height / picture.width)
            return (x, y) if 0 <= x <= 1 and 0 <= y <= 1 else None
    return None


def _first_mark(text: str) -> tuple[float, float] | None:
    with suppress(ValueError):
        x, y = (float(part) for part in text.split(","))
        return (x, y) if 0 <= x <= 1 and 0 <= y <= 1 else None
    return None


@allow("photographer", "assistant")
def beside(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """A frame beside its client's reference; eyes are marked by two touches, the first waits in the address."""
    frame = _frame(number, pk)
    new, reference = darkroom.side(frame), darkroom.reference_of(frame.sitting)
    own = reference is not None and reference.frame.pk == frame.pk
    sides = [new] if reference is None or own else [new, reference]
    asked = next((s for s in sides if str(s.frame.pk) == request.GET.get("of", "")), None)
    first = place(request, "eye", asked.picture) if asked else None
    context = {
        "frame": frame, "sitting": frame.sitting, "sides": sides, "own": own, "reference": reference,
        "heads": darkroom.heads(new), "offsets": [] if own else darkroom.offsets(new, reference),
        "marking": asked.frame.pk if asked and first else None,
        "first": f"{first[0]:.5f},{first[1]:.5f}" if first else "",
    }  # fmt: skip
    return render(request, "shotplans/beside.html", context)


@allow("photographer", "assistant")
@require_POST
def mark_eyes(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """Keep both eyes of a frame: the first was touched before, the second just now."""
    frame = _frame(number, pk)
    shown = SmallPicture.objects.filter(frame=frame).first()
    marks = [m for m in (_first_mark(request.POST.get("first", "")), place(request, "eye", shown)) if m]
    try:
        frames.mark_eyes(frame=frame, eyes=marks)
    except Refusal as error:
        messages.error(request, str(error))
    back = whole(request.POST.get("back", ""), digits=14)
    on = None if back is None else Frame.objects.filter(pk=back).first()
    return redirect("frame_beside", number=on.sitting.number if on else number, pk=on.pk if on else pk)


@allow("photographer", "assistant")
@require_POST
def choose_reference(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """From now on the client's frames are held against this one."""
    try:
        frames.choose_reference(by=request.member, frame=_frame(number, pk))  # type: ignore[attr-defined]
        messages.success(request, _("This frame is the reference from now on."))
    except Refusal as error:
        messages.error(request, str(error))
    return redirect("frame_beside", number=number, pk=pk)
