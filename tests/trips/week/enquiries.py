"""Thirty who ring in the week, and what comes of it. Belongs here: who asks for what, and how the desk takes it down.
Not here: on which day of the story they ring."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from bookings.actions import money, sittings
from bookings.models import Client, Kind, Sitting
from studio.models import Member, Room
from tests.hands.hand import Hand
from tests.trips.week.house import Week, day, moment

COUPLE, CHARACTER, HEADSHOTS = "Anniversary couple", "Character portrait", "Company headshots"
FAMILY, SCHOOL = "Family group", "Music school portrait"
LONG, GARDEN = "Long Room", "Garden Room"


class Enquiry(NamedTuple):
    """Somebody on the telephone, and the time they would like: 0 is Monday."""

    client: str
    people: str
    kind: str
    weekday: int
    time: str
    room: str = LONG
    known: bool = False
    company: bool = False
    minutes: str = ""


MILL = "Weir Mill"  # away from the studio
DEPOSITS = {COUPLE: "45", CHARACTER: "40", HEADSHOTS: "210", FAMILY: "65", SCHOOL: "30"}

# Of Monday: for this week, free.
ALIKE = ("Merle Ashdown", "Lark Ingleby", "Sabra and Emlyn Pask", "Corisande Vell", "Tansy and Roake Merrin",
         "The Hathersages")  # taken down like the others
BOOKED = (
    Enquiry("Quillbridge Weavers", "20 people", HEADSHOTS, 1, "09:30", company=True, minutes="235"),
    Enquiry("Hob Tansley", "Hob 64", CHARACTER, 1, "15:00", GARDEN),
    Enquiry("Merle Ashdown", "Merle 15", SCHOOL, 1, "16:45"),
    Enquiry("Osbert Quill", "Osbert 58", CHARACTER, 2, "09:45", GARDEN),
    Enquiry("Tansy and Roake Merrin", "Tansy 51, Roake 55", COUPLE, 2, "13:00"),
    Enquiry("Lark Ingleby", "Lark 17", SCHOOL, 2, "15:15"),
    Enquiry("Sabra and Emlyn Pask", "Sabra 44, Emlyn 47", COUPLE, 4, "12:15"),
    Enquiry("Corisande Vell", "Corisande 16", SCHOOL, 4, "16:45"),
    Enquiry("The Hathersages", "Joan 62, Ned 66, Ivy 9, Tam 6", FAMILY, 5, "10:00"),
    Enquiry("Blythe and Orrin Cade", "Blythe 38, Orrin 41", COUPLE, 5, "12:30"),
    Enquiry("Gideon Marl", "Gideon 70", CHARACTER, 5, "15:00", MILL),
)
# Of Monday: the hour they ask for is taken. The first takes the next that is free, the second waits behind.
TAKEN = (
    Enquiry("Isaura and Finn Tolley", "Isaura 33, Finn 35", COUPLE, 4, "12:15"),
    Enquiry("The Brocklebanks", "Agnes 71, Percy 73, Dot 40", FAMILY, 5, "12:30"),
)
# Of the other days: one who comes again as last year, the others for the weeks to come.
LATER = {
    1: (Enquiry("Barnaby Stroud", "Barnaby 69", CHARACTER, 2, "17:15", GARDEN, known=True),
        Enquiry("Wystan Doyle", "Wystan 49", CHARACTER, 8, "11:00", GARDEN),
        Enquiry("Elowen and Jago Rusk", "Elowen 29, Jago 31", COUPLE, 9, "13:00"),
        Enquiry("Thea Marchbank", "Thea 15", SCHOOL, 8, "14:00"),
        Enquiry("Ambrose Pike", "Ambrose 77", CHARACTER, 9, "09:30", GARDEN)),
    2: (Enquiry("The Saltmarshes", "Una 39, Bede 42, Kit 7", FAMILY, 9, "15:30"),
        Enquiry("Perpetua Lowe", "Perpetua 17", SCHOOL, 10, "10:30"),
        Enquiry("Quillbridge Chandlery", "6 people", HEADSHOTS, 10, "13:30", company=True)),
    3: (Enquiry("Amyas Thorne", "Amyas 61", CHARACTER, 11, "09:30", GARDEN),
        Enquiry("Rosalba and Hew Dunn", "Rosalba 60, Hew 63", COUPLE, 11, "12:00"),
        Enquiry("Cosmo Birtle", "Cosmo 53", CHARACTER, 15, "10:00", GARDEN)),
    4: (Enquiry("Meriel Stroud", "Meriel 16", SCHOOL, 11, "15:00"),
        Enquiry("The Larkhills", "Peg 58, Walt 60, Bea 31", FAMILY, 15, "13:00")),
    5: (Enquiry("Jocelin and Ada Firth", "Jocelin 52, Ada 50", COUPLE, 12, "11:00"),
        Enquiry("Lettice Orme", "Lettice 66", CHARACTER, 16, "10:00", GARDEN),
        Enquiry("Sorrel Ockenden", "Sorrel 17", SCHOOL, 16, "13:00")),
}  # fmt: skip


def ring_on(week: Week, weekday: int) -> None:
    """The telephone of a day: who is known already is found on the page."""
    for enquiry in LATER[weekday]:
        if enquiry.known:
            book(week.maud, enquiry, paid=True)
        else:
            take_down(week, enquiry)


def take_down(week: Week, enquiry: Enquiry, *, paid: bool = False) -> None:
    """As one of several alike: on the page where the week is walked whole, in the suite by the action behind it."""
    if week.whole:
        book(week.maud, enquiry, paid=paid)
        return
    row = enter(enquiry)
    if paid:
        amount, maud = Decimal(DEPOSITS[enquiry.kind]), Member.objects.get(user__username="maud")
        money.take(by=maud, sitting=row, kind="deposit", amount=amount, method="card")


def enter(enquiry: Enquiry) -> Sitting:
    people = {member.user.username: member for member in Member.objects.select_related("user")}
    kind = Kind.objects.get(name=enquiry.kind)
    return sittings.book(
        by=people["maud"], client=Client(name=enquiry.client, is_company=enquiry.company), kind=kind,
        room=Room.objects.get(name=enquiry.room), photographer=people["tobiah"], assistant=people["ines"],
        starts_at=moment(enquiry.weekday, *map(int, enquiry.time.split(":"))),
        minutes=int(enquiry.minutes or kind.minutes), setup_minutes=30, strike_minutes=15,
        purpose="", print_width_cm=None,
        sitters=[sittings.SitterInput(said.split()[0]) for said in enquiry.people.split(", ")],
    )  # fmt: skip


def ask(maud: Hand, enquiry: Enquiry) -> None:
    """What the desk types while they speak, up to the button."""
    maud.follow("New sitting")
    if enquiry.known:
        maud.name_client(enquiry.client)
    else:
        maud.type("Client", enquiry.client)
        maud.type("Telephone", f"01632 960{sum(map(ord, enquiry.client)) % 800 + 100}")
    if enquiry.company:
        maud.tick("a company")
    maud.pick("Kind of sitting", enquiry.kind)
    maud.type("All of them in one line", enquiry.people)
    maud.type("Day", day(enquiry.weekday))
    maud.type("The sitting starts at", enquiry.time)
    maud.pick("Room", enquiry.room)
    maud.pick("Assistant", "Ines Calloway")
    if enquiry.minutes:
        maud.type("Length, minutes", enquiry.minutes)
    maud.press("Book it", beside="Leave it")


def book(maud: Hand, enquiry: Enquiry, *, paid: bool = False) -> None:
    """They ask for a time that is free, and may pay the deposit by card while they speak."""
    ask(maud, enquiry)
    maud.says(enquiry.client, "Held. Client's move: pay the deposit")
    if paid:
        pay_deposit(maud, enquiry.kind)


def pay_deposit(maud: Hand, kind: str) -> None:
    maud.type("Amount", DEPOSITS[kind])
    maud.pick("How", "card")
    maud.press("Enter money")
    maud.says("Confirmed.")


def open_sitting(hand: Hand, client: str) -> None:
    """By Find, as one does who has the name alone."""
    hand.find(client)
    hand.follow("L-", beside=client)


def arrives(maud: Hand, short_name: str) -> None:
    """Somebody stands at the door."""
    maud.follow("Arrivals")
    maud.press(f"Arrived: {short_name}")
