"""What the demo's studio writes to its clients: addresses, and what each kind of sitting promises. Belongs
here: the invented house's own words. Not here: its sittings (`scenario`), its terms (`scenario_money`)."""

from __future__ import annotations

from bookings.models import Kind, Letter, LetterKind
from studio.models import Profile

ADDRESSES = {
    "Ottoline and Bertram Askew": "askew@quillbridge.example", "Ignace Dorrow": "dorrow@bells.example",
    "Marrowfield Joinery": "office@marrowfield.example",
}  # fmt: skip
PROMISES = {
    "Anniversary couple": ("One print 75 cm wide on cotton paper, a private viewing", 6, "blemishes only", 7),
    "Company headshots": ("One portrait of each person, in two crops", 14, "blemishes only, the same for all", 0),
    "Character portrait": ("One print 40 cm high", 3, "none: every line stays", 7),
    "Family group": ("One print of everybody, one of each household", 8, "blemishes only", 7),
    "Music school portrait": ("Five files for the school and for print", 5, "blemishes only", 0),
}


def promise() -> None:
    """What a booking of each kind promises in writing, and the way in."""
    Profile.objects.update(way_in="The green door beside the mill; no step, a bell at hand height. Park on Weir Lane.")
    for name, (included, images, retouching, balance_days) in PROMISES.items():
        said = {"included": included, "images": images, "retouching": retouching, "balance_days": balance_days}
        Kind.objects.filter(name=name).update(use="private use and the client's own pages", **said)


def count() -> str:
    waiting = Letter.objects.waiting().filter(kind=LetterKind.CONFIRMATION).count()
    return f"{waiting} confirmations wait on the page Letters"
