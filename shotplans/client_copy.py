"""What the light holds of a client. Belongs here: briefs, plans and frames for the client's own copy
(`settings.CLIENT_COPIES`)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bookings.models import Client
from shotplans.models import Brief, Frame, Plan


def parts(client: Client) -> Iterator[tuple[str, list[dict[str, Any]]]]:
    """The briefs, of each plan what it was made from and what it says, and which frames are known."""
    briefs = Brief.objects.filter(sitting__client=client).select_related("sitting")
    yield "briefs", [{"sitting": row.sitting.number, "brief": row.data} for row in briefs]
    plans = Plan.objects.filter(sitting__client=client).select_related("sitting")
    yield "plans", [
        {"sitting": p.sitting.number, "version": p.number, "made from": p.request["sitters"], "says": p.document}
        for p in plans
    ]
    frames = Frame.objects.filter(sitting__client=client).values("sitting__number", "name", "taken_at", "picture")
    yield "frames", [
        {"sitting": f["sitting__number"], "file": f["name"], "taken": f["taken_at"], "picture kept": bool(f["picture"])}
        for f in frames
    ]
