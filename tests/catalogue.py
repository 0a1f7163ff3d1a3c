"""A catalogue as a translator would hand it in, made in a test. Belongs here: writing one and having the house know of
it. Not here: a language of every sentence (`pseudo`)."""

from __future__ import annotations

import struct
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from django.conf import settings
from django.utils import translation
from django.utils.translation import trans_real

from studio import languages


def write(path: Path, said: dict[str, str]) -> None:
    """The sentences in the binary form that gettext reads."""
    said = {"": "Content-Type: text/plain; charset=UTF-8\n"} | said
    pairs = [(a.encode(), b.encode()) for a, b in sorted(said.items())]
    tables, texts, at = [b"", b""], b"", 28 + 16 * len(pairs)
    for side in (0, 1):
        for pair in pairs:
            tables[side] += struct.pack("<II", len(pair[side]), at + len(texts))
            texts += pair[side] + b"\0"
    head = struct.pack("<7I", 0x950412DE, 0, len(pairs), 28, 28 + 8 * len(pairs), 0, 0)
    path.parent.mkdir(parents=True)
    path.write_bytes(head + tables[0] + tables[1] + texts)


@contextmanager
def kept(folder: Path, language: str, said: dict[str, str]) -> Iterator[None]:
    """Inside, the house has that catalogue besides the language its sentences are written in."""
    write(folder / translation.to_locale(language) / "LC_MESSAGES" / "django.mo", said)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(settings, "LOCALE_PATHS", [folder])
        patch.setattr(trans_real, "_translations", {})
        languages.known.cache_clear()
        try:
            with translation.override(settings.LANGUAGE_CODE):
                yield
        finally:
            languages.known.cache_clear()
