"""What is known of people is read by few, kept for a while, and gone without a trace when its day has come."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal
from io import StringIO

import pytest
from django.apps import apps
from django.core.management import call_command
from django.db import connection

from bookings import accounts, erasable, keeping
from bookings.actions import arrivals, comfort, erasure, letters, money
from bookings.actions import keeping as actions
from bookings.models import (
    Client,
    Consent,
    Erasure,
    NoteReading,
    Notes,
    NotesPurged,
    Sitter,
    Sitting,
    Stage,
    StageChange,
    Wish,
)
from bookings.refusals import Refusal
from shotplans.models import Plan
from studio import clock
from studio.models import Profile
from tests import lindenmere
from tests.bookings.agreeing import again, set_clock
from tests.pages import Visitor

MARK = "quexoloft"  # a word that stands nowhere else


@pytest.fixture
def askew(studio: None) -> Sitting:
    return lindenmere.sitting("askew")


def notes_page(sitting: Sitting, read: str = "") -> str:
    sitter = Sitter.objects.filter(sitting=sitting, notes__isnull=False).first()
    assert sitter is not None
    return f"/sittings/{sitting.number}/notes/{sitter.pk}/{read}"


def over(monkeypatch: pytest.MonkeyPatch, sitting: Sitting, days: float = 0) -> None:
    set_clock(monkeypatch, sitting.strike_ends_at + timedelta(days=days, minutes=1))


def delivered(sitting: Sitting) -> None:
    Sitting.objects.filter(pk=sitting.pk).update(stage=Stage.DELIVERED)
    StageChange.objects.create(sitting=sitting, at=clock.now(), stage_from=Stage.CHOSEN, stage_to=Stage.DELIVERED)


def texts() -> Iterator[tuple[str, str]]:
    """Every text and every JSON of every table, with where it stands."""
    with connection.cursor() as cursor:
        for table in connection.introspection.table_names(cursor):  # those of the index of words too
            cursor.execute(f'SELECT * FROM "{table}"')
            names = [column[0] for column in cursor.description]
            for row in cursor.fetchall():
                for name, value in zip(names, row, strict=True):
                    if isinstance(value, bytes | memoryview):
                        yield f"{table}.{name}", bytes(value).decode("utf-8", "ignore")
                    elif value is not None:
                        yield f"{table}.{name}", value if isinstance(value, str) else json.dumps(value, default=str)


def where_it_stands(word: str) -> list[str]:
    return sorted({place for place, text in texts() if word.lower() in text.lower()})


def test_feature_59_the_desk_adds_and_does_not_reopen_and_the_attempt_is_logged(askew: Sitting) -> None:
    maud, tobiah, harriet = (lindenmere.client_of(role) for role in ("front_desk", "photographer", "owner"))
    page = notes_page(askew)
    assert maud.get(page).status_code == 200  # to add, unread
    refused = maud.get(notes_page(askew, "read/"))
    assert refused.status_code == 403
    assert harriet.get(notes_page(askew, "read/")).status_code == 403
    assert tobiah.get(page).status_code == 200
    rows = [(row.by.short, row.refused) for row in NoteReading.objects.order_by("pk")]
    assert rows == [("MF", True), ("HV", True), ("TR", False)]
    log = Visitor(harriet).open("/readings/")
    assert log.html.count("! refused") == 2
    assert askew.number in log.words
    for said in ("deep lines", "usual lenses", "softer"):
        assert said not in log.words
    assert len(keeping.readings(refused=True)) == 2
    assert len(keeping.readings(number="L-9999")) == 0


def test_notes_are_read_from_booking_to_strike(askew: Sitting, monkeypatch: pytest.MonkeyPatch) -> None:
    tobiah, ines = lindenmere.client_of("photographer"), lindenmere.client_of("assistant")
    set_clock(monkeypatch, askew.strike_ends_at)
    assert tobiah.get(notes_page(askew)).status_code == 200
    assert ines.get(notes_page(askew)).status_code == 200
    over(monkeypatch, askew)
    refused = tobiah.get(notes_page(askew))
    assert refused.status_code == 403
    words = refused.content.decode()
    assert "until the set is struck" in words
    assert "give you the role" not in words
    assert ines.get(notes_page(askew)).status_code == 403
    page = tobiah.get(f"/sittings/{askew.number}/plans/1/")
    assert page.status_code == 200
    assert "smile lines" not in page.content.decode()
    assert NoteReading.objects.filter(refused=True).count() == 2
    Sitting.objects.filter(pk=askew.pk).update(stage=Stage.CANCELLED)
    set_clock(monkeypatch, askew.starts_at - timedelta(days=1))
    assert tobiah.get(notes_page(askew)).status_code == 403


def test_reading_a_plan_s_reasons_is_logged_too(askew: Sitting) -> None:
    lindenmere.client_of("photographer").get(f"/sittings/{askew.number}/plans/1/")
    assert [row.where for row in NoteReading.objects.all()] == ["plan"]


def test_a_plan_a_device_keeps_ahead_is_nobody_s_reading_and_comes_without_what_follows_from_notes(
    askew: Sitting,
) -> None:
    tobiah = lindenmere.client_of("photographer")
    ahead = tobiah.get(f"/sittings/{askew.number}/plans/1/", headers={"X-Keep": "yes"})
    assert not NoteReading.objects.exists()
    assert "What each follows from" not in ahead.content.decode()
    assert "X-On-Set" in ahead.headers
    assert "What each follows from" in tobiah.get(f"/sittings/{askew.number}/plans/1/").content.decode()


def test_feature_60_the_purge_day_takes_the_text_and_leaves_the_log_and_the_client_has_one_file(
    askew: Sitting, monkeypatch: pytest.MonkeyPatch
) -> None:
    lindenmere.client_of("photographer").get(notes_page(askew))
    harriet = lindenmere.client_of("owner")
    file = harriet.post(f"/clients/{askew.client_id}/copy/")
    with zipfile.ZipFile(io.BytesIO(file.content)) as archive:
        data = json.loads(archive.read("data.json"))
        page = archive.read("read-me.html").decode()
    assert data["client"][0]["name"] == "Ottoline and Bertram Askew"
    assert any(row.get("texture") == "deep lines" for row in data["notes"])
    assert [row["version"] for row in data["plans"]] == [1]
    assert "deep lines" in page
    over(monkeypatch, askew)
    delivered(askew)
    before = {p.pk: (p.fingerprint, p.document["setups"][0]["lights"]) for p in Plan.objects.of(askew)}
    set_clock(monkeypatch, clock.now() + timedelta(days=89))
    said = StringIO()
    call_command("purge_notes", stdout=said)
    assert "0 purged." in said.getvalue()
    set_clock(monkeypatch, clock.now() + timedelta(days=1))
    call_command("purge_notes", "--dry-run", stdout=said)
    assert Notes.objects.filter(sitter__sitting=askew).exists()
    call_command("purge_notes", stdout=said)
    call_command("purge_notes", stdout=said)  # again: nothing happens
    assert "2 purged." in said.getvalue()
    assert not Notes.objects.filter(sitter__sitting=askew).exists()
    assert not Wish.objects.filter(sitter__sitting=askew).exists()
    assert NotesPurged.objects.filter(sitting=askew).count() == 2
    assert NoteReading.objects.filter(sitting=askew).count() == 2  # the reading and the file
    for plan in Plan.objects.of(askew):
        assert (plan.fingerprint, plan.document["setups"][0]["lights"]) == before[plan.pk]
        assert plan.blanked_at is not None
        told = json.dumps([plan.request["sitters"], plan.document])
        for word in ("deep lines", "deep_lines", '"glasses": {', "wish", "softer", "smile"):
            assert word not in told, word
    tobiah = lindenmere.client_of("photographer")
    shown = tobiah.get(f"/sittings/{askew.number}/plans/1/").content.decode()
    assert "Blanked on" in shown
    assert "Make a new version before you build" not in shown
    assert tobiah.get(f"/sittings/{askew.number}/plans/1/setups/1.pdf").status_code == 200


@pytest.mark.parametrize(
    ("answer", "days", "gone"), [("yes", 4000, False), ("no", 0, True), ("withdrawn", 0, True), ("", 0, False)]
)
def test_the_answer_to_keep_them_decides(
    askew: Sitting, monkeypatch: pytest.MonkeyPatch, answer: str, days: int, gone: bool
) -> None:
    sitter = Sitter.objects.filter(sitting=askew, notes__isnull=False).first()
    assert sitter is not None
    if answer:
        Consent.objects.create(sitter=sitter, what="keep_notes", answer=answer, how="desk", at=clock.now())
    over(monkeypatch, askew)
    delivered(askew)
    over(monkeypatch, askew, days)
    found = {one.sitter.pk for one in keeping.due(clock.now(), Profile.get(), [askew])}
    assert (sitter.pk in found) is gone


def test_what_is_not_delivered_is_still_at_work(askew: Sitting, monkeypatch: pytest.MonkeyPatch) -> None:
    Sitting.objects.filter(pk=askew.pk).update(stage=Stage.PHOTOGRAPHED)
    over(monkeypatch, askew, days=400)
    assert keeping.due(clock.now(), Profile.get(), [askew]) == []


def test_a_no_after_the_sitting_takes_effect_at_once(askew: Sitting, monkeypatch: pytest.MonkeyPatch) -> None:
    sitter = Sitter.objects.filter(sitting=askew, notes__isnull=False).first()
    assert sitter is not None
    over(monkeypatch, askew)
    arrivals.answer(
        by=lindenmere.member("front_desk"), sitting=again(askew),
        answers={(sitter.pk, "keep_notes"): ("no", "")}, how="desk",
    )  # fmt: skip
    assert not Notes.objects.filter(sitter=sitter).exists()
    assert NotesPurged.objects.get().why == "no"


def planted(askew: Sitting) -> Client:
    """The Askews with the marker wherever words may stand."""
    client = askew.client
    client.name, client.note, client.email = f"{MARK} Askew", f"likes {MARK}", f"{MARK}@askew.example"
    client.save()
    maud = lindenmere.member("front_desk")
    Sitting.objects.filter(pk=askew.pk).update(purpose=f"for {MARK}")
    letters.write(sitting=askew, kind="other", to=client.email, subject=f"To {MARK}", body=f"Dear {MARK}", by=maud)
    money.take(by=maud, sitting=askew, kind="balance", amount=Decimal("12.50"), method="cash", note=f"from {MARK}")
    for words in erasable.WORDS:
        for name in words.fields:
            field = words.model._meta.get_field(name)
            if getattr(field, "max_length", 0) and field.max_length < len(MARK) + 2:
                continue
            words.of(client).update(**{name: MARK if name != "email" and name != "to" else f"{MARK}@askew.example"})
    sitter = Sitter.objects.filter(sitting=askew).first()
    assert sitter is not None
    Sitter.objects.filter(pk=sitter.pk).update(label=f"{MARK} O")
    plan = Plan.objects.of(askew).get()
    old = sitter.label
    tree = json.loads(json.dumps([plan.request, plan.document]).replace(old, f"{MARK} O"))
    Plan.objects.filter(pk=plan.pk).update(request=tree[0], document=tree[1], why=MARK)
    askew.brief.data = json.loads(json.dumps(askew.brief.data).replace(old, f"{MARK} O"))
    askew.brief.save()
    again(askew).save()  # what it is found by
    return client


def test_an_erased_client_stands_nowhere_and_the_accounts_stay_true(
    askew: Sitting, monkeypatch: pytest.MonkeyPatch
) -> None:
    client = planted(askew)
    Sitting.objects.filter(pk=askew.pk).update(stage=Stage.CLOSED)
    assert where_it_stands(MARK)
    account = accounts.of(again(askew))
    sums = (account.due, account.paid, [p.receipt_number for p in account.payments])
    harriet = Visitor(lindenmere.client_of("owner"))
    harriet.open(f"/clients/{client.pk}/erase/")
    refused = harriet.press("Erase this client", {"Who asked for it, and how": "by letter", "typed": "erase"})
    assert refused.status == 422
    assert f"Type erase K-{client.pk} exactly" in refused.words
    assert not Erasure.objects.exists()
    harriet.press("Erase this client", {"Who asked for it, and how": "by letter", "typed": f"erase K-{client.pk}"})
    assert "Erased. The receipt is for whoever asked." in harriet.page.words
    assert where_it_stands(MARK) == []
    assert where_it_stands("Ottoline") == where_it_stands("Bertram") == []
    account = accounts.of(again(askew))
    assert (account.due, account.paid, [p.receipt_number for p in account.payments]) == sums
    assert str(Client.objects.get(pk=client.pk)) == f"erased K-{client.pk}"
    receipt = lindenmere.client_of("owner").get(f"/clients/{client.pk}/erasure.pdf")
    assert receipt["Content-Type"] == "application/pdf"
    for path in (f"/sittings/{askew.number}/", f"/sittings/{askew.number}/plans/1/"):
        assert lindenmere.client_of("photographer").get(path).status_code == 200


def test_who_is_still_expected_is_not_erased_and_nobody_twice(askew: Sitting) -> None:
    harriet, words = lindenmere.member("owner"), f"erase K-{askew.client_id}"
    with pytest.raises(Refusal, match="is still to come"):
        erasure.erase(by=harriet, client=askew.client, typed=words, asked_by="by letter")
    Sitting.objects.filter(pk=askew.pk).update(stage=Stage.CANCELLED)
    with pytest.raises(Refusal, match="Say who asked"):
        erasure.erase(by=harriet, client=askew.client, typed=words, asked_by=" ")
    erasure.erase(by=harriet, client=askew.client, typed=words, asked_by="by letter")
    with pytest.raises(Refusal, match="erased already"):
        erasure.erase(by=harriet, client=askew.client, typed=words, asked_by="by letter")


def test_the_list_of_where_words_stand_holds_every_table_of_a_client() -> None:
    """A new table that hangs on a client or a sitting has a line in `erasable.WORDS`, or a reason here."""
    without_words = {"Claim", "Erasure", "LateReason_"}  # rooms and times; the erasure itself
    listed = {words.model.__name__ for words in erasable.WORDS}
    hanging = set()
    for model in apps.get_app_config("bookings").get_models():
        targets = {field.related_model for field in model._meta.get_fields() if field.many_to_one or field.one_to_one}
        if targets & {Client, Sitting, Sitter} and not model._meta.auto_created:
            hanging.add(model.__name__)
    assert hanging - listed - without_words == set()


def test_notes_purged_twice_at_once_are_purged_once(askew: Sitting) -> None:
    sitter = Sitter.objects.filter(sitting=askew, notes__isnull=False).first()
    assert sitter is not None
    assert [actions.purge(sitter, "day"), actions.purge(sitter, "day")] == [True, False]
    assert NotesPurged.objects.count() == 1
    comfort.add(sitter=sitter, notes={"skin": "tan"})
    assert actions.purge(sitter, "day") is True
