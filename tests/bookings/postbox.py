"""A real mail server on this machine, for tests. Belongs here: taking letters in, refusing, being slow or away. Letters
are read back with the standard library alone."""

from __future__ import annotations

import email
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from email import policy
from email.message import EmailMessage
from typing import Any

from aiosmtpd.controller import Controller
from django.conf import settings
from django.test import override_settings

from tests.ports import free_port


class Postbox:
    """What has arrived; `refuses` answers an address with a line of its own."""

    def __init__(self) -> None:
        self.raw: list[bytes] = []
        self.refuses: dict[str, str] = {}
        self.on_letter: Callable[[], None] = lambda: None

    async def handle_RCPT(self, server: Any, session: Any, envelope: Any, address: str, options: Any) -> str:
        if address in self.refuses:
            return self.refuses[address]
        envelope.rcpt_tos.append(address)
        return "250 OK"

    async def handle_DATA(self, server: Any, session: Any, envelope: Any) -> str:
        self.raw.append(envelope.original_content)
        self.on_letter()
        return "250 OK"

    @property
    def letters(self) -> list[EmailMessage]:
        return [email.message_from_bytes(raw, policy=policy.default) for raw in self.raw]  # type: ignore[misc]

    @property
    def addresses(self) -> list[str]:
        return [str(letter["To"]) for letter in self.letters]


@contextmanager
def mail_goes_to(port: int, timeout: float = 5) -> Iterator[None]:
    with override_settings(
        EMAIL_BACKEND="django.core.mail.backends.smtp.EmailBackend",
        EMAIL_URL="smtp://127.0.0.1",
        EMAIL_FROM=settings.EMAIL_FROM or "desk@lindenmere.example",
        EMAIL_HOST="127.0.0.1",
        EMAIL_PORT=port,
        EMAIL_TIMEOUT=timeout,
    ):
        yield


@contextmanager
def open_postbox() -> Iterator[Postbox]:
    box, port = Postbox(), free_port()
    controller = Controller(box, hostname="127.0.0.1", port=port)
    controller.start()
    try:
        with mail_goes_to(port):
            yield box
    finally:
        controller.stop()
