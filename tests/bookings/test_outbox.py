"""Letters go out once, through a real mail server, whatever happens on the way."""

from __future__ import annotations

import socket
import threading
from collections.abc import Iterator
from datetime import timedelta
from io import StringIO

import pytest
from django.core.management import CommandError, call_command
from django.db import connection
from django.test import override_settings

from bookings.actions import letters, outbox
from bookings.actions.letters import Enclosed
from bookings.letter_refusals import SentAlready
from bookings.models import Letter, Stage
from studio import clock
from studio.models import Profile
from tests.bookings.agreeing import again, set_clock
from tests.bookings.making import at, make_house
from tests.bookings.postbox import Postbox, mail_goes_to, open_postbox
from tests.ports import free_port

State = Letter.State


@pytest.fixture(scope="module")
def _box() -> Iterator[Postbox]:
    with open_postbox() as box:
        yield box


@pytest.fixture
def box(_box: Postbox) -> Iterator[Postbox]:
    _box.raw.clear()
    _box.refuses.clear()
    yield _box
    _box.on_letter = lambda: None


@pytest.fixture(autouse=True)
def moment(db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    set_clock(monkeypatch, at(10))
    Profile(pk=1, studio_name="Lindenmere Portraits").save()


def write(to: str = "askew@quillbridge.example", **said: object) -> Letter:
    given = {"kind": "other", "subject": "Your sitting", "body": "Dear Askews,\n\nsee you soon.\n", "by": None}
    return letters.write(to=to, **(given | said))  # type: ignore[arg-type]


def kept(letter: Letter) -> Letter:
    return Letter.objects.get(pk=letter.pk)


def test_a_letter_arrives_as_it_was_written_in_any_script(box: Postbox) -> None:
    Profile.objects.update(studio_name="Łindenmere Портреты 肖像")
    body = "Liebe Zoë,\n\n" + "ß" * 1200 + "\n.\nשלום, Ἀθηνᾶ 😀\n"  # noqa: RUF001
    letter = write(subject="Ваш сеанс\r\nBcc: thief@example.org", body=body)
    outbox.send_due()
    (arrived,) = box.letters
    assert arrived["Subject"] == "Ваш сеанс Bcc: thief@example.org"
    assert arrived["Bcc"] is None
    assert arrived["From"].addresses[0].display_name == "Łindenmere Портреты 肖像"
    assert arrived.get_content().replace("\r\n", "\n") == body
    assert arrived["Message-ID"] == letter.message_id
    assert "T" in kept(letter).sent_at.isoformat()
    assert all(len(line) <= 998 for line in box.raw[0].split(b"\r\n"))


def test_what_lies_in_a_letter_arrives_and_can_be_read_again_afterwards(box: Postbox) -> None:
    letter = write(attachments=[Enclosed("receipt.pdf", "application/pdf", b"%PDF-1.4 \x00\xff")])
    outbox.send_due()
    (part,) = box.letters[0].iter_attachments()
    assert (part.get_filename(), part.get_content_type()) == ("receipt.pdf", "application/pdf")
    assert part.get_content() == bytes(kept(letter).attachments.get().content) == b"%PDF-1.4 \x00\xff"


def test_one_key_writes_one_letter(box: Postbox) -> None:
    first, second = write(once_key="confirmation:1"), write(once_key="confirmation:1", body="other")
    assert first == second
    assert Letter.objects.count() == 1
    assert write() != write()


def test_a_second_round_sends_nothing_again(box: Postbox) -> None:
    write()
    assert len(outbox.send_due().sent) == 1
    assert outbox.send_due().sent == []
    assert len(box.raw) == 1


def test_a_refused_address_does_not_stop_the_others_and_is_said_in_words(box: Postbox) -> None:
    box.refuses["nobody@quillbridge.example"] = "550 5.1.1 no such mailbox"
    wrong, right = write("nobody@quillbridge.example"), write()
    done = outbox.send_due()
    assert [kept(wrong).state, kept(right).state] == [State.GIVEN_UP, State.SENT]
    assert "nobody@quillbridge.example: 550 5.1.1 no such mailbox" in kept(wrong).last_error
    assert done.failed == [wrong]
    assert box.addresses == ["askew@quillbridge.example"]


def test_refused_for_now_it_waits_twice_as_long_each_time_and_then_asks_a_person(
    box: Postbox, monkeypatch: pytest.MonkeyPatch
) -> None:
    box.refuses["askew@quillbridge.example"] = "451 4.7.1 later"
    letter, waits = write(), []
    for _try in range(outbox.TRIES):
        now = kept(letter).due_at
        set_clock(monkeypatch, now)
        outbox.send_due()
        waits.append((kept(letter).due_at - now) // timedelta(minutes=1))
    assert waits[:4] == [2, 4, 8, 16]
    assert kept(letter).state == State.GIVEN_UP
    box.refuses.clear()
    letters.send_again(letter=letter)
    outbox.send_due()
    assert kept(letter).state == State.SENT


def test_with_no_server_there_letters_wait_and_go_out_later_once(box: Postbox, monkeypatch: pytest.MonkeyPatch) -> None:
    first, second = write(), write()
    with mail_goes_to(free_port()), pytest.raises(CommandError):
        call_command("send_due_letters", stdout=StringIO(), stderr=StringIO())
    assert kept(first).state == kept(second).state == State.WAITING
    assert "cannot be reached" in kept(first).last_error
    assert kept(first).due_at == at(10, 2)
    assert kept(second).tries == 0
    assert box.raw == []
    set_clock(monkeypatch, at(10, 2))
    for _round in range(2):
        call_command("send_due_letters", stdout=StringIO())
    assert len(box.raw) == 2
    assert kept(first).state == kept(second).state == State.SENT


def test_a_server_that_says_nothing_is_not_waited_for_long() -> None:
    with socket.socket() as silent:
        silent.bind(("127.0.0.1", 0))
        silent.listen(1)
        letter = write()
        with mail_goes_to(silent.getsockname()[1], timeout=0.2):
            assert outbox.send_due().server_away
    assert kept(letter).state == State.WAITING


def test_with_no_mail_server_set_letters_wait_to_be_printed_and_that_is_no_failure() -> None:
    letter, out = write(), StringIO()
    with override_settings(EMAIL_URL=""):
        call_command("send_due_letters", stdout=out)
    assert "1 letters wait" in out.getvalue()
    assert kept(letter).state == State.WAITING
    assert kept(letter).tries == 0


def test_a_stop_between_sending_and_marking_sends_once_more_under_the_same_id_and_never_a_third_time(
    box: Postbox, monkeypatch: pytest.MonkeyPatch
) -> None:
    letter = write()

    def stop(*args: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(outbox, "_mark_sent", stop)
        for n in range(2):
            with pytest.raises(KeyboardInterrupt):
                outbox.send_due()
            assert outbox.send_due().sent == []  # leased: nobody sends it meanwhile
            set_clock(patch, at(11 + n))
    set_clock(monkeypatch, at(13))
    outbox.send_due()
    assert [str(one["Message-ID"]) for one in box.letters] == [letter.message_id] * 2
    assert kept(letter).state == State.GIVEN_UP
    assert "may have gone out" in kept(letter).last_error


@pytest.mark.django_db(transaction=True)
def test_two_rounds_at_once_send_each_letter_once(box: Postbox) -> None:
    for n in range(6):
        write(f"client{n}@quillbridge.example")
    start, wrong = threading.Barrier(2), []

    def round_() -> None:
        try:
            start.wait()
            outbox.send_due()
        except Exception as error:
            wrong.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=round_) for _ in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert wrong == []
    assert sorted(box.addresses) == [f"client{n}@quillbridge.example" for n in range(6)]
    assert {letter.state for letter in Letter.objects.all()} == {State.SENT}


def test_what_comes_too_late_to_be_of_use_is_not_sent(box: Postbox) -> None:
    letter = write(useless_at=at(9))
    outbox.send_due()
    assert kept(letter).state == State.WITHDRAWN
    assert box.raw == []


def test_what_is_out_is_neither_sent_again_nor_handed_over(box: Postbox) -> None:
    letter = write()
    outbox.send_due()
    with pytest.raises(SentAlready):
        letters.send_again(letter=letter)


def test_the_command_lapses_holds_and_foretells_without_doing(
    box: Postbox, monkeypatch: pytest.MonkeyPatch
) -> None:
    Profile.objects.all().delete()
    house = make_house()
    set_clock(monkeypatch, at(9, days=-9))
    held = house.book()
    write(sitting=held, to="askew@quillbridge.example")
    set_clock(monkeypatch, at(9, days=-1))
    out = StringIO()
    call_command("send_due_letters", "--dry-run", stdout=out)
    assert f"would let the hold of {held.number} lapse" in out.getvalue()
    assert "would send: letter" in out.getvalue()
    assert "askew" not in out.getvalue()
    assert again(held).stage == Stage.HELD
    assert box.raw == []
    call_command("send_due_letters", stdout=out)
    assert again(held).stage == Stage.ENQUIRY
    assert len(box.raw) == 1
    assert clock.now() == at(9, days=-1)
