"""A new sitting as a browser sends it. Belongs here: the form's fields with what was typed into them."""

from __future__ import annotations

from typing import Any

from bookings.forms.comfort import WISHES_AT_ONCE
from bookings.models import Notes
from tests.bookings.making import House

ASKED = {"may_remove", "bare_arms", "clothes_shiny", "clothes_pattern"} | set(
    Notes.names()[Notes.names().index("hip_or_back") :]
)


def wishes(prefix: str, *rows: dict[str, str]) -> dict[str, str]:
    """The lines for wishes with their management form."""
    sent = {f"{prefix}-TOTAL_FORMS": str(max(WISHES_AT_ONCE, len(rows))), f"{prefix}-INITIAL_FORMS": "0"}
    for number in range(int(sent[f"{prefix}-TOTAL_FORMS"])):
        row = rows[number] if number < len(rows) else {}
        sent |= {f"{prefix}-{number}-{name}": row.get(name, "") for name in ("note", "side", "wish")}
    return sent


def notes(prefix: str = "", **said: str) -> dict[str, str]:
    """Every note, "not asked" but for what is said."""
    start = f"{prefix}-" if prefix else ""
    return {f"{start}{name}": said.get(name, "unknown" if name in ASKED else "") for name in Notes.names()}


def person(number: int, label: str = "", **typed: Any) -> dict[str, str]:
    """One row of people; `notes` and `wishes` may be among what is typed."""
    prefix = f"people-{number}"
    own = ("age_years", "height_cm", "posture", "household", "relation", "keep_with")
    sent = {f"{prefix}-label": label} | {f"{prefix}-{name}": typed.get(name, "") for name in own}
    if typed.get("central"):
        sent[f"{prefix}-central"] = "on"
    return (
        sent | notes(f"{prefix}-notes", **typed.get("notes", {})) | wishes(f"{prefix}-wishes", *typed.get("wishes", []))
    )


def new_sitting(house: House, *people: dict[str, str], **typed: Any) -> dict[str, Any]:
    """Ignace Dorrow in the Garden Room on 3 December at 15:00, but for what is typed."""
    sent: dict[str, Any] = {
        "client": "",
        "new_name": "Ignace Dorrow",
        "new_email": "",
        "new_phone": "",
        "kind": house.kind.pk,
        "day": "2026-12-03",
        "time": "15:00",
        "minutes": "",
        "setup_minutes": "",
        "strike_minutes": "",
        "purpose": "the foundry's hall",
        "print_width_cm": "",
        "room": house.other_room.pk,
        "photographer": house.members["photographer"].pk,
        "assistant": "",
        "people-TOTAL_FORMS": str(max(len(people), 2)),
        "people-INITIAL_FORMS": "0",
    } | typed
    rows = people or (person(0, "Ignace", age_years="71"),)
    for row in rows:
        sent |= row
    for number in range(len(rows), int(sent["people-TOTAL_FORMS"])):
        sent |= person(number)
    return sent
