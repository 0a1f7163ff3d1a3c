"""Every form of every page, sent with junk. Belongs here: finding the forms, sending, and holding what comes of it: no
answer is a fault of ours, what is refused changes nothing, what is kept is kept in one transaction and breaks no
constraint. Not here: what is put in (`drawn`)."""

from __future__ import annotations

import inspect
import re
import sys
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlencode

from django import forms
from django.contrib import messages
from django.db import IntegrityError, connection, transaction
from django.test import Client
from django.urls import Resolver404, resolve, reverse
from hypothesis import HealthCheck, Phase, given, seed, settings

from bookings import intake_links, links
from bookings.actions import intake as intakes
from bookings.models import Sitting, Stage
from studio.access import EVERY_ROLE
from studio.addresses import every_address
from tests.access_lines import TABLE
from tests.access_world import World
from tests.hard import drawn
from tests.hard.forms_found import Field, Form, read

# Each post of these plans light or builds a house: a few say as much as many.
DEAR = {"make_plan", "make_sample", "take_sample_away", "what_if", "export_file", "test_frame", "send_test_frame"}
SLOWEST_S = 2.0  # of this process's own time: a busy machine is no fault of a page
BOUNDARY = "tenthstop-hard"
# Kept although nothing was done: what a session remembers, that somebody asked for notes or guessed at the door.
KEPT_ANYWAY = {"django_session", "bookings_notereading", "studio_entry", "studio_signintries"}
# So are these, while the rest of their tables is looked at: that somebody came in, that a link was opened.
NOTED_ANYWAY = ('UPDATE "auth_user" SET "last_login" =', 'UPDATE "bookings_intake" SET "opened_at" =')
SHOWN_ONCE = {"make_address", "answer"}  # answers with a page, at 200, what it made: an address, thanks
# A brief is kept before the plan of it is reckoned: each is whole, and a reckoning holds up nobody.
PARTS = {"make_sample": 2, "again": 2}
WRITE = re.compile(r'\s*(?:INSERT INTO|UPDATE|DELETE FROM|REPLACE INTO|INSERT OR \w+ INTO)\s+"(\w+)"', re.I)


@dataclass
class Found:
    """What came of it."""

    posts: int = 0
    forms: int = 0
    answers: Counter[int] = field(default_factory=Counter)
    faults: dict[str, str] = field(default_factory=dict)  # by what and where, with an example
    sent_to: set[str] = field(default_factory=set)

    aloud: bool = False  # a long run says each as it is found

    def fault(self, what: str, example: str) -> None:
        if self.aloud and what not in self.faults:
            print(what, example, sep="\n    ", file=sys.stderr, flush=True)
        self.faults.setdefault(what, example)


class Watch:
    """Which tables a request writes to, and in how many transactions of its own."""

    def __init__(self) -> None:
        self.depth = len(connection.savepoint_ids)
        self.tables: set[str] = set()
        self.within: set[str] = set()

    def __call__(self, execute: Any, sql: str, params: Any, many: bool, context: Any) -> Any:
        found = WRITE.match(sql)
        if found and found[1] not in KEPT_ANYWAY and not sql.startswith(NOTED_ANYWAY):
            self.tables.add(found[1])
            held = connection.savepoint_ids[self.depth :]
            self.within.add(held[0] if held and held[0] else f"bare {len(self.within)}: {found[1]}")
        return execute(sql, params, many, context)


def forms_of(world: World, *, each_role: bool) -> Iterator[tuple[str, str, str, list[Form]]]:
    """Address by address with what it is filled in with in place: its name, who asks, where, and the forms found
    there. Rows made for one address are taken back before the next."""
    for name, line in TABLE.items():
        roles = [role for role in EVERY_ROLE if role in line.roles - line.refused]
        with transaction.atomic():
            url = reverse(name, kwargs=line.fill(world.afresh()))
            if line.post:
                yield name, roles[0], url, [unseen(name, url)]
            for role in roles if each_role or name in ("sitting", "client") else roles[:1]:
                if not line.post:
                    answer = world.browser_of(role).get(url)
                    is_page = answer.status_code == 200 and "html" in answer.get("Content-Type", "")
                    yield name, role, url, read(url, answer.content.decode()) if is_page else []
            transaction.set_rollback(True)
    with transaction.atomic():
        Sitting.objects.filter(pk=world.sitting.pk).update(stage=Stage.CONFIRMED)
        intake = intake_links.signed(intakes.make_link(sitting=world.sitting))
        told = {"sign_in": {}, "answer": {"signed": links.signed(world.sitting)}, "intake": {"signed": intake}}
        for name, values in told.items():
            url = reverse(name, kwargs=values)
            yield name, "stranger", url, read(url, Client().get(url).content.decode())
        transaction.set_rollback(True)


def unseen(name: str, url: str) -> Form:
    """A form for what only takes posts, from the names its view's module asks for: scripts send such forms."""
    view = inspect.unwrap(next(one.view for one in every_address() if one.name == name))
    module = sys.modules[view.__module__]
    names = re.findall(r'POST(?:\.get|\.getlist)?[\[(]"(\w+)"', inspect.getsource(module))
    form = Form(url, "post", {one: Field(one, "text", "1") for one in names})
    for made in vars(module).values():
        if isinstance(made, type) and issubclass(made, forms.BaseForm):
            for called, asked in getattr(made, "base_fields", {}).items():
                form.fields.setdefault(called, Field(called, getattr(asked.widget, "input_type", "text"), "1"))
    return form


def fuzz(world: World, *, each: int, number: int, each_role: bool) -> Found:
    """Each form `each` times; the same number draws the same."""
    found, known = Found(aloud=each > 10), set()
    for name, role, _url, here in forms_of(world, each_role=each_role):
        browser = world.browser_of(role)
        browser.raise_request_exception = True
        for form in here:
            if form.key in known or not _is_ours(form):
                continue
            known.add(form.key)
            found.forms += 1
            found.sent_to.add(resolve(form.action.split("?")[0]).url_name)
            dear = name in DEAR or resolve(form.action.split("?")[0]).url_name in DEAR
            _send_drawn(browser, form, 1 if dear else each, number + len(known), found)
    return found


def _is_ours(form: Form) -> bool:
    with suppress(Resolver404):
        return form.method != "dialog" and resolve(form.action.split("?")[0]).url_name != "sign_out"
    return False


def _send_drawn(browser: Client, form: Form, times: int, number: int, found: Found) -> None:
    @seed(number)
    @settings(
        max_examples=times, database=None, deadline=None, phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(drawn.posts(form))
    def each(sent: list[tuple[str, Any]]) -> None:
        send(browser, form, sent, found)

    each()


def send(browser: Client, form: Form, sent: list[tuple[str, Any]], found: Found) -> None:
    """One form once; what it did is looked at and taken back."""
    found.posts += 1
    said = f"{form.method} {form.action} {[(name, str(value)[:60]) for name, value in sent]!r}"
    where = resolve(form.action.split("?")[0]).url_name
    cookies = browser.cookies.copy()
    began = time.process_time()
    with transaction.atomic():
        watch = Watch()
        try:
            with connection.execute_wrapper(watch):
                answer = _asked(browser, form, sent)
            took = time.process_time() - began
        except Exception as error:
            found.fault(_place(where, error), f"{said}\n{''.join(traceback.format_exception(error)[-4:])}")
            found.answers[500] += 1
            transaction.set_rollback(True)
            browser.cookies = cookies
            return
        found.answers[answer.status_code] += 1
        if answer.status_code >= 500:
            found.fault(f"{where}: {answer.status_code}", said)
        if took > SLOWEST_S and where not in DEAR:
            found.fault(f"{where}: slow", f"{took:.1f} s: {said}")
        with suppress(KeyError):
            _hold(where, form, answer, watch, said, found)
        shows_it = where in SHOWN_ONCE and answer.status_code == 200
        looked_at = watch.tables and _is_refused(form, answer) and not shows_it
        after = _rows(watch.tables) if looked_at else None
        transaction.set_rollback(True)
    if after is not None and after != _rows(watch.tables):
        changed = sorted(table for table, rows in after.items() if rows != _rows([table])[table])
        found.fault(f"{where}: {answer.status_code}, and yet changed {', '.join(changed)}", said)
    browser.cookies = cookies


def _hold(where: str, form: Form, answer: Any, watch: Watch, said: str, found: Found) -> None:
    """What was kept was kept whole."""
    if len(watch.within) > PARTS.get(where, 1):
        found.fault(f"{where}: written in {len(watch.within)} parts", f"{sorted(watch.within)}, {said}")
    if watch.tables:
        try:
            connection.check_constraints(table_names=sorted(watch.tables))
        except IntegrityError as error:
            found.fault(f"{where}: {str(error)[:120]}", said)


def _is_refused(form: Form, answer: Any) -> bool:
    """A page again instead of an address to go on to, or an address with an error to be said there; a mere look,
    whatever it shows."""
    if form.method == "get" or answer.status_code >= 400:
        return True
    if answer.status_code == 200:
        return "html" in answer.get("Content-Type", "")
    said = getattr(answer.wsgi_request, "_messages", None)
    return any(one.level >= messages.ERROR for one in getattr(said, "_queued_messages", ()))


def _rows(tables: Any) -> dict[str, list[str]]:
    rows = {}
    with connection.cursor() as cursor:
        for table in tables:
            cursor.execute(f'SELECT * FROM "{table}"')
            rows[table] = sorted(map(repr, cursor.fetchall()))
    return rows


def _place(where: str, error: BaseException) -> str:
    """The last line of ours that it came through."""
    frames = [one for one in traceback.extract_tb(error.__traceback__) if "site-packages" not in one.filename]
    ours = [one for one in frames if "/tests/" not in one.filename and "/lib/python" not in one.filename]
    last = (ours or frames)[-1]
    return f"{where}: {type(error).__name__} {str(error)[:80]} at {last.filename.rsplit('/', 2)[-1]}:{last.lineno}"


def _asked(browser: Client, form: Form, sent: list[tuple[str, Any]]) -> Any:
    as_text = [(name, value.name if isinstance(value, drawn.Sent) else value) for name, value in sent]
    query = urlencode([(n.encode(errors="surrogatepass"), v.encode(errors="surrogatepass")) for n, v in as_text])
    if form.method == "get":
        return browser.get(f"{form.action.split('?')[0]}?{query[:20_000]}")
    if not form.sends_files:
        return browser.post(form.action, query, content_type="application/x-www-form-urlencoded")
    body = b"".join(_part(name, value) for name, value in sent) + f"--{BOUNDARY}--\r\n".encode()
    return browser.post(form.action, body, content_type=f"multipart/form-data; boundary={BOUNDARY}")


def _part(name: str, value: Any) -> bytes:
    head, content = f'form-data; name="{name}"', value
    if isinstance(value, drawn.Sent):
        head, content = f'{head}; filename="{value.name}"', value.content
    raw = content if isinstance(content, bytes) else content.encode(errors="surrogatepass")
    told = head.encode(errors="surrogatepass")
    return b"--%s\r\nContent-Disposition: %s\r\n\r\n%s\r\n" % (BOUNDARY.encode(), told, raw)
