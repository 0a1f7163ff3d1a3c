"""Every address asked as everybody there is: each role, somebody without one, somebody who has left, a stranger, the
assistant of another sitting, and every signed link at every door that a link opens. Belongs here: asking, and holding
what came back against `access_lines`. `python -m tests.access_table` prints it."""

from __future__ import annotations

import logging
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple
from unittest import mock

from django.db import transaction
from django.http import HttpRequest, HttpResponse, HttpResponseForbidden
from django.test import Client, override_settings
from django.urls import reverse
from django.utils.html import escape

from bookings import feed, intake_links, links
from bookings.actions import calendars
from bookings.actions import intake as intakes
from bookings.models import Intake, Sitting, Stage
from studio.access import EVERY_ROLE
from studio.addresses import every_address
from tests.access_lines import ASSISTANT, NOTES, OPEN_TO_ALL, TABLE, Line
from tests.access_world import World

NOBODY = ("newcomer", "gone")  # no role yet; no longer here
STRANGER, OTHER = "stranger", "other_assistant"
ANSWERS_OF_A_CHANGE = (200, 302, 400, 404, 422)  # one that says nothing may be refused in words: it is let in


class Asked(NamedTuple):
    """One question at the door, and what was surprising about the answer; nothing where `wrong` is empty."""

    name: str
    who: str
    how: str
    status: int
    wrong: str = ""


@contextmanager
def apart(folder: Path) -> Iterator[None]:
    """Pictures lie in `folder`; and a refusal is its number: its page (`studio/test_door`) would be drawn a thousand
    times."""

    def refuse(request: HttpRequest, exception: Exception) -> HttpResponse:
        return HttpResponseForbidden()

    quiet = mock.patch.object(logging.getLogger("django.request"), "disabled", True)  # a trace costs more
    with quiet, override_settings(DATA_DIR=folder), mock.patch("studio.urls.handler403", refuse, create=True):
        yield


def ask(world: World, name: str, line: Line) -> Iterator[Asked]:
    """One address as everybody: who may come is let in, whoever may not is not, by looking or by sending."""
    url = reverse(name, kwargs=line.fill(world))
    whole = True  # a change is carried out for the first who may make it; for the others the door is enough
    sent = False  # the door stands before the kind of question: one of those turned away sends something, too
    for role in EVERY_ROLE:
        if role not in line.roles:
            yield from _turned_away(world, name, role, url, send=not sent)
            sent = True
        elif not line.post:
            yield _opened(world, name, line, role, url)
        else:
            browser = world.browser_of(role)
            yield _held(name, role, "get", browser.get(url).status_code, (405,))
            if whole:
                yield _held(name, role, "post", browser.post(url).status_code, ANSWERS_OF_A_CHANGE)
            whole = False
    if line.whose == NOTES and line.roles & ASSISTANT:
        yield _of_another_sitting(world, name, url)
    for who in (*NOBODY, STRANGER):
        yield from _turned_away(world, name, who, url, send=who == STRANGER)


def _held(name: str, who: str, how: str, status: int, expected: tuple[int, ...]) -> Asked:
    return Asked(name, who, how, status, "" if status in expected else f"{status}, expected {expected}")


def _turned_away(world: World, name: str, who: str, url: str, *, send: bool) -> Iterator[Asked]:
    browser = world.browser_of(who)
    for how in ("get", "post") if send else ("get",):
        answer = getattr(browser, how)(url)
        said = _held(name, who, how, answer.status_code, (302,) if who == STRANGER else (403,))
        if who == STRANGER and not said.wrong and not answer["Location"].startswith("/sign-in/"):
            said = said._replace(wrong=f"sent to {answer['Location']}")
        yield said


def _opened(world: World, name: str, line: Line, role: str, url: str) -> Asked:
    answer = world.browser_of(role).get(url)
    said = _held(name, role, "get", answer.status_code, (403,) if role in line.refused else (200, 302))
    wrong = [said.wrong, *forbidden_by_the_policy(answer), *left_to_guess(answer)]
    if role not in ("photographer", "assistant"):
        wrong += told_of_people(world, answer)
    return said._replace(wrong=", ".join(filter(None, wrong)))


def _of_another_sitting(world: World, name: str, url: str) -> Asked:
    """The assistant of another sitting: refused where there is nothing but notes, else shown the rest."""
    answer = world.browser_of(OTHER).get(url)
    said = _held(name, OTHER, "get", answer.status_code, (403,) if name == "read_notes" else (200,))
    return said._replace(wrong=", ".join(filter(None, [said.wrong, *told_of_people(world, answer)])))


def forbidden_by_the_policy(answer: Any) -> list[str]:
    """Styles and scripts of a page's own, which the browser would drop without a word."""
    if answer.status_code != 200 or "html" not in answer["Content-Type"]:
        return []
    if "unsafe" in answer["Content-Security-Policy"]:
        return ["a policy that lets unsafe things in"]
    page = answer.content.decode()
    return [f"the page has{bad}" for bad in (" style=", "<style", "onclick=", "onchange=", "<script>") if bad in page]


def left_to_guess(answer: Any) -> list[str]:
    """What a browser would have to find out by itself: of what kind an answer is, in which letters its text is."""
    kind, wrong = answer.get("Content-Type", ""), []
    if not kind or (kind.startswith("text/") and "charset=" not in kind):
        wrong.append(f"an answer of the kind “{kind}”")
    if answer.get("X-Content-Type-Options") != "nosniff":
        wrong.append("an answer that a browser may take for another kind")
    return wrong


def told_of_people(world: World, answer: Any) -> list[str]:
    """Reasons of the plan that cite a person's notes, on a page of somebody who may not read those."""
    if answer.status_code != 200 or "html" not in answer["Content-Type"]:
        return []
    page = answer.content.decode()
    return [f"says “{one}”" for one in secrets_of(world) if one in page]


def secrets_of(world: World) -> list[str]:
    """What only those who may read notes are told: reasons of the plan that cite a person, as a page writes them."""
    reasons = [reason for setup in world.plan.setups for reason in setup["reasons"]]
    of_people = [one for one in reasons if any(str(path).startswith("sitters") for path in one.get("from") or ())]
    return sorted({escape(one["because"]) for one in of_people})


class Key(NamedTuple):
    """One signed link or secret as it is kept in an address, and the doors it opens."""

    held: str
    text: str
    opens: frozenset[str]


LINKED = {"answer": "signed", "intake": "signed", "intake_copy": "signed", "calendar_feed": "secret"}
INTAKE = frozenset({"intake", "intake_copy"})


def keys_of(world: World) -> list[Key]:
    """Every kind of key there is, good, dead and of another kind."""
    sitting, nothing = world.sitting, frozenset[str]()
    Sitting.objects.filter(pk=sitting.pk).update(stage=Stage.CONFIRMED)
    dead = intake_links.signed(intakes.make_link(sitting=sitting))
    good = intake_links.signed(intakes.make_link(sitting=sitting))
    revoked = calendars.make_address(member=world.members["assistant"])
    calendars.revoke_address(member=world.members["assistant"])
    secret = calendars.make_address(member=world.members["photographer"])
    moved = links.signed(sitting).replace(":", "x:", 1)
    intake = Intake.objects.get(sitting=sitting)
    return [
        Key("link to answer", links.signed(sitting), frozenset({"answer"})),
        Key("link to answer, altered", moved, nothing),
        Key("link to the questions", good, INTAKE),
        Key("link to the questions, a newer one was made", dead, nothing),
        Key("secret of the questions, unsigned", intake.secret, nothing),
        Key("secret of a calendar", secret, frozenset({"calendar_feed"})),
        Key("secret of a calendar, revoked", revoked, nothing),
        Key("digest of that secret, as it is kept", feed.digest(secret), nothing),
    ]


def ask_keys(world: World) -> Iterator[Asked]:
    """Each key at each door that a key opens: it opens its own and no other."""
    for key in keys_of(world):
        for name, blank in LINKED.items():
            status = Client().get(reverse(name, kwargs={blank: key.text})).status_code
            yield _held(name, key.held, "get", status, (200,) if name in key.opens else (404, 410))


def without_a_line() -> list[str]:
    """Addresses that no line is about, lines about no address, and views that say other roles than their line."""
    said = {address.name: set(address.allowed_roles) for address in every_address()}
    held: dict[str, set[str]] = {name: set(line.roles) for name, line in TABLE.items()}
    held |= {name: {"anyone"} for name in OPEN_TO_ALL}
    return sorted(name for name in said.keys() | held.keys() if said.get(name) != held.get(name))


def everything(world: World) -> Iterator[Asked]:
    """The whole table. What an address writes is taken back."""
    for name, line in TABLE.items():
        with transaction.atomic():
            yield from list(ask(world.afresh(), name, line))
            transaction.set_rollback(True)
    with transaction.atomic():
        yield from list(ask_keys(world.afresh()))
        transaction.set_rollback(True)


def rows(asked: Iterable[Asked]) -> Iterator[str]:
    """The table as text: an address a line, what each was answered, and whose it is."""
    routes = {address.name: address.route for address in every_address()}
    found: dict[str, dict[str, list[str]]] = {}
    for one in asked:
        found.setdefault(one.name, {}).setdefault(one.who, []).append(f"{one.status}{'!' if one.wrong else ''}")
    people = (*EVERY_ROLE, OTHER, *NOBODY, STRANGER)
    yield " | ".join(("address", *people, "whose"))
    for name, by in found.items():
        whose = TABLE[name].whose if name in TABLE else OPEN_TO_ALL[name]
        cells = [" ".join(dict.fromkeys(by.get(who, ["as the assistant"]))) for who in people]
        if name in OPEN_TO_ALL:
            cells = [f"{who}: {' '.join(statuses)}" for who, statuses in by.items()]
        yield " | ".join((routes[name], *cells, whose))
    for name in OPEN_TO_ALL.keys() - found.keys():
        yield f"{routes[name]} | {OPEN_TO_ALL[name]}"
