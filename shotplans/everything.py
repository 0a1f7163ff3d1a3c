"""Everything the studio owns in one file. Belongs here: which tables go into it, which stay out and why, and writing
it row by row. What is known of people's looks and health, what they answered, and whatever opens a door stays out. Not
here: one client's own copy (`bookings.one_client`)."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Iterable, Iterator
from datetime import date, datetime, time
from typing import IO, Any

from django.apps import apps
from django.core.serializers.json import DjangoJSONEncoder
from django.db.models import Model

from shotplans import blanking
from shotplans.models import Plan
from studio import csv_out

# What is not named here does not go out; a new table is asked about by a test.
TABLES: dict[str, tuple[str, ...]] = {
    "studio": (
        "CameraBody", "Lens", "Stand", "Weight", "Background", "Seat", "Riser", "Head", "Modifier", "Adapter", "Panel",
        "Flag", "Trigger", "Member", "MemberRole", "Week", "WeekDay", "HoursChange", "DaysOff", "Profile", "Room",
        "Window", "Circuit", "KitChange", "Consumable", "CountChange", "KitList", "DoorChange",
    ),
    "bookings": (
        "Terms", "TermsWording", "Item", "ItemPrice", "TaxRule", "Client", "Kind", "Price", "Sitting", "Sitter",
        "Charge", "Payment", "Trust", "Quote", "Invoice", "DayCount", "Wait", "LateReason", "Complaint",
        "ComplaintChange", "Reshoot", "StageChange", "SittingChange", "Hold", "Answer", "ReleaseWording", "Consent",
        "Guardian", "Release", "Waiver", "AskedBack", "Rota", "Place", "PlaceChange", "Wording", "Letter",
        "NoteReading", "NotesPurged", "Erasure", "WantedTime", "SentList",
    ),
    "shotplans": (
        "Record", "Reading", "Change", "CameraSet", "Built", "SetPhoto", "Frame", "FrameCheck", "FrameTie", "Retired",
        "MeasuredBeam", "CompanyStandard", "StandardEdit", "OwnNumber", "RuleEdit", "PackingTap", "ToSeeTo", "SetTap",
        "BufferChange", "OwnPoseCard", "PoseCardEdit",
    ),
}  # fmt: skip
STAYS_OUT = {
    "bookings.Notes": "comfort notes are kept for the sitting alone and read by few",
    "bookings.Wish": "wishes are comfort notes",
    "bookings.Intake": "links to an intake open it",
    "bookings.IntakeAnswer": "answers given in confidence are comfort notes",
    "bookings.CalendarAddress": "whoever has the address reads the calendar",
    "bookings.Invitation": "made again from the sittings",
    "bookings.Attachment": "papers on letters are made again from what is here",
    "bookings.Claim": "follows from the sittings",
    "bookings.NumberSeries": "follows from the numbers themselves",
    "shotplans.Brief": "a brief is made of comfort notes",
    "shotplans.ShotList": "its words may name people; what was planned of it is in plans.jsonl",
    "shotplans.ShotListEdit": "as the shot list itself",
    "shotplans.Reference": "follows from the small pictures",
    "shotplans.SmallPicture": "pictures of people go with the people",
    "shotplans.Plan": "in plans.jsonl, without what it tells of people",
    "shotplans.Sample": "names a sitting that nobody sat for",
    "studio.Backup": "where copies lie on this machine",
    "studio.SecondStep": "whoever has its key makes the codes",
    "studio.RecoveryCode": "whoever has one comes in",
    "studio.SignInTries": "of wrong tries at the door, over after a day",
    "studio.Entry": "what an entry from a device wrote stands in its own row",
    "studio.KitItem": "each piece stands in the table of its section",
}
COLUMNS_OUT = {
    "Member": ("user_id",),
    "Letter": ("body", "once_key", "message_id", "lease", "lease_ends_at", "last_error"),  # links in it open doors
    "Release": ("drawn",),
    "SentList": ("content",),
    "KitList": ("content",),
    "Change": ("why",),
    "Frame": ("digest",),
    "Built": ("why_failed",),
}
MACHINES_OWN = ("found_by", "version", "kititem_ptr_id")
Told = tuple[str, int]


def tables() -> Iterator[tuple[str, type[Model]]]:
    """The name of each file with its rows' model."""
    for app, names in TABLES.items():
        for name in names:
            yield f"{app}/{name.lower()}.csv", apps.get_model(app, name)


def write(file: IO[bytes]) -> Iterator[Told]:
    """Write the zip; after each part say its name and how many rows it has. Few rows are in memory at a time."""
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("README.txt", _read_me())
        for name, model in tables():
            columns = _columns(model)
            rows = model._default_manager.order_by("pk").values_list(*columns).iterator(chunk_size=500)
            yield name, _put(archive, name, csv_out.lines(columns, ([_cell(one) for one in row] for row in rows)), -1)
        yield "plans.jsonl", _put(archive, "plans.jsonl", _plans(), 0)


def _put(archive: zipfile.ZipFile, name: str, lines: Iterable[str], count: int) -> int:
    with archive.open(name, "w", force_zip64=True) as raw, io.TextIOWrapper(raw, "utf-8", newline="") as out:
        for line in lines:
            out.write(line)
            count += 1
    return count


def _columns(model: type[Model]) -> list[str]:
    out = {*MACHINES_OWN, *COLUMNS_OUT.get(model.__name__, ())}
    return [field.attname for field in model._meta.concrete_fields if field.attname not in out]


def _cell(value: Any) -> object:
    if isinstance(value, dict | list):
        return json.dumps(value, cls=DjangoJSONEncoder, ensure_ascii=False)
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    return value


def _plans() -> Iterator[str]:
    """One plan on each line, as it would be kept once the notes are purged."""
    for plan in Plan.objects.order_by("pk").select_related("sitting").iterator(chunk_size=50):
        labels = {one["label"] for one in plan.request["sitters"]}
        told = {
            "sitting": plan.sitting.number, "plan": plan.number, "made_at": plan.made_at,
            "fingerprint": plan.fingerprint, "request": blanking.request(plan.request, labels, {}),
            "document": blanking.document(plan.document, {}),
        }  # fmt: skip
        yield json.dumps(told, cls=DjangoJSONEncoder, ensure_ascii=False) + "\n"


def _read_me() -> str:
    lines = [
        "What the studio owns, each table as one file of comma-separated values in UTF-8, moments in UTC. A column",
        "that ends in _id is the id of a row of another file. A text that a spreadsheet would reckon with has an",
        "apostrophe before it. plans.jsonl has one plan on each line, as JSON.",
        "",
        "Left out, and why:",
        *(f"- {name}: {why}." for name, why in STAYS_OUT.items()),
        "- sign-ins and passwords: they belong to the people themselves.",
        "- the text of letters: links in it open pages without a sign-in.",
        "- drawn signatures, and why something was changed on the set.",
        "- reasons, cautions and faces in plans: they tell of the people who sat.",
        "",
        "A client's own data, comfort notes included, is handed to that client from the client's page.",
    ]
    return "\n".join(lines) + "\n"
