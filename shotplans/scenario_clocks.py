"""What the demo's studio did before the demo's day, and still owes: sittings of last month with their clocks, a
complaint, a re-shoot, and clients to ask back. Belongs here: that past, by way of the actions the pages use, each at
its own moment. Not here: the day itself (`scenario`)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from django.db.models import F
from django.utils import timezone

from bookings import afterwards, hours, rebooking
from bookings.actions import arrivals, clocks, complaints, letters, money, sittings
from bookings.actions.arrivals import Signature
from bookings.models import Cause, Client, Complaint, Kind, LateReason, Payment, Sitting, Stage, StageChange
from bookings.models.kinds import AskBack
from studio import clock
from studio.models import Member, Room

ASK_BACK = {"Company headshots": AskBack.NEW_HIRES, "Family group": AskBack.YEARLY}
ONWARD = (Stage.ARRIVED, Stage.PHOTOGRAPHED, Stage.CHOSEN, Stage.DELIVERED, Stage.CLOSED)


@dataclass(frozen=True)
class Earlier:
    """One sitting of the past: `ago` days before the demo's day, then each further stage so many days before it."""

    client: str
    people: tuple[str, ...]
    kind: str
    room: str
    ago: int
    onward: tuple[int, ...] = ()
    purpose: str = ""
    email: str = ""
    is_company: bool = False
    occasion_in: int | None = None  # its day comes round in so many days
    occasion_years: int = 0


EARLIER = (
    Earlier(
        "Idony Crake", ("Idony",), "Character portrait", "Garden Room", 52, (45,),
        "A print for the lace school's stair", "crake@lace.example",
    ),
    Earlier(
        "Linnet and Hobart Varley", ("Linnet", "Hobart"), "Anniversary couple", "Long Room", 19, (11,),
        "Copper wedding, over the piano", "varley@quillbridge.example",
    ),
    Earlier("Sorrel Ockenden", ("Sorrel",), "Music school portrait", "Long Room", 9, (), "For the spring concert"),
    Earlier("Fenwick Ambry", ("Fenwick",), "Character portrait", "Garden Room", 40, (36, 33, 30)),
    Earlier("Fenwick Ambry", ("Fenwick",), "Character portrait", "Garden Room", 26, (24, 15, 12)),
    Earlier(
        "Philippa and Noll Sandry", ("Philippa", "Noll"), "Anniversary couple", "Long Room", 320, (312, 296, 290),
        "Pearl wedding", "sandry@quillbridge.example", occasion_in=45, occasion_years=31,
    ),
    Earlier(
        "Quillbridge Ropewalk", ("Aldith", "Benet", "Cuthwin"), "Company headshots", "Long Room", 340, (335, 325, 320),
        "The page of the people", "office@ropewalk.example", is_company=True,
    ),
)  # fmt: skip


def tell(day: date) -> str:
    """The past, and what is owed of it."""
    for name, when in ASK_BACK.items():
        Kind.objects.filter(name=name).update(ask_back=when)
    maud, tobiah = (Member.objects.get(user__username=name) for name in ("maud", "tobiah"))
    house, rows = house_until(day), []
    for earlier in EARLIER:
        rows.append(live(earlier, house, day, maud, tobiah))
    crake, varley, _ockenden, first, again, *_ask_back = rows
    with clock.standing(at(day - timedelta(days=3), 16)):
        words = "The lab's first print came back too dark; it is made again"
        clocks.say_why_late(by=maud, sitting=crake, code=LateReason.Code.LAB, note=words)
        complaints.keep(by=maud, complaint=_complaint(varley, tobiah, day))
    with clock.standing(again.starts_at):
        said = "The eye nearer the window was soft in every frame"
        complaints.link_reshoot(by=maud, sitting=again, first=first, cause=Cause.FOCUS, note=said)
    late, due = len(afterwards.late()), len(rebooking.due(day))
    return f"{len(rows)} sittings of the past: late {late}, complaints open 1, to ask back {due}"


def house_until(day: date) -> afterwards.House:
    """When the house was open in the year before."""
    return afterwards.House(hours.timetable(day - timedelta(days=400), day, (), timezone.get_current_timezone()))


def _complaint(row: Sitting, keeper: Member, day: date) -> Complaint:
    return Complaint(
        client=row.client, sitting=row, cause=Cause.GLARE, keeper=keeper, due_on=day + timedelta(days=3),
        said="In the frame we chose, Hobart's glasses shine white on one side",
        wanted="The same frame without the shine, or another one",
        offered="Three more frames of that pose to choose from, no charge",
    )  # fmt: skip


def live(
    earlier: Earlier, house: afterwards.House, day: date, maud: Member, tobiah: Member,
    people: Sequence[sittings.SitterInput] = (),
) -> Sitting:  # fmt: skip
    """Booked, paid, confirmed by a letter that went, and moved on, each on a day the house is open."""
    on = open_before(house, day - timedelta(days=earlier.ago))
    occasion = None
    if earlier.occasion_in is not None:
        comes_round = day + timedelta(days=earlier.occasion_in)
        occasion = rebooking.in_year(comes_round, comes_round.year - earlier.occasion_years)
    kind = Kind.objects.get(name=earlier.kind)
    kept = Client.objects.filter(name=earlier.client).first()
    with clock.standing(at(open_before(house, on - timedelta(days=12)), 11)):
        row = sittings.book(
            by=maud, client=kept or Client(name=earlier.client, is_company=earlier.is_company, email=earlier.email),
            kind=kind, room=Room.objects.get(name=earlier.room), photographer=tobiah, assistant=None,
            starts_at=at(on, 10), minutes=kind.minutes, setup_minutes=30, strike_minutes=15,
            purpose=earlier.purpose, print_width_cm=None, occasion_on=occasion,
            sitters=people or [sittings.SitterInput(name) for name in earlier.people],
        )  # fmt: skip
        _take(row, maud, Payment.Kind.DEPOSIT)
        for letter in row.letters.waiting():
            letters.handed_over(letter=letter, by=maud)
    moments = _moments(earlier, house, on, day)
    with clock.standing(moments[0]):
        everybody = [sitter.pk for sitter in row.sitters.all()]
        arrivals.sign(by=maud, sitting=row, people=everybody, how="paper", signature=Signature(), signed_on=on)
        _take(row, maud, Payment.Kind.BALANCE)
    return _moved_on(row, maud, moments)


def _moved_on(row: Sitting, maud: Member, moments: Sequence[datetime]) -> Sitting:
    """Through the stages that cost nothing and tell nobody, as rows: by the action they took a third of the demo's
    past."""
    onward = ONWARD[: len(moments)]
    before = (Stage.CONFIRMED, *onward)
    StageChange.objects.bulk_create(
        StageChange(sitting=row, at=moment, by=maud, stage_from=former, stage_to=stage)
        for former, stage, moment in zip(before, onward, moments, strict=False)
    )
    Sitting.objects.filter(pk=row.pk, stage=Stage.CONFIRMED).update(
        stage=onward[-1], version=F("version") + len(onward)
    )
    return Sitting.objects.get(pk=row.pk)


def _moments(earlier: Earlier, house: afterwards.House, on: date, day: date) -> list[datetime]:
    later = [open_before(house, day - timedelta(days=ago)) for ago in earlier.onward]
    return [at(on, 9), at(on, 12), *(at(moment, 15) for moment in later)]


def _take(row: Sitting, maud: Member, kind: str) -> None:
    amount = row.deposit if kind == Payment.Kind.DEPOSIT else (row.fee or 0) - row.deposit
    money.take(by=maud, sitting=row, kind=kind, amount=amount, method=Payment.Method.TRANSFER)


def open_before(house: afterwards.House, day: date) -> date:
    while not house.is_open(day):
        day -= timedelta(days=1)
    return day


def at(day: date, hour: int) -> datetime:
    return timezone.make_aware(datetime.combine(day, time(hour)))
