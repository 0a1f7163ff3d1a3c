"""Files that travel beside the tables: pictures that rows name, and the secret key in a sealed backup. Belongs here:
which they are, where they lie, and putting them in place. Not here: the file they travel in.

The secret key signs the links in letters that went out; it goes along where the backup is sealed, so that they open
after a restore. In a plain file it would let whoever finds it sign in as anybody, so there it stays out.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings

SECRET = "secret_key"


@dataclass(frozen=True)
class Kept:
    """One file: its name in the data folder, with `/` between folders, and where it lies."""

    name: str
    path: Path


def kept(*, sealed: bool) -> Iterator[Kept]:
    """Every file there is now, one after the other."""
    for folder in settings.KEPT_FOLDERS:
        for place, _folders, names in os.walk(data() / folder):
            for name in sorted(names):
                path = Path(place) / name
                yield Kept(path.relative_to(data()).as_posix(), path)
    if sealed and (data() / SECRET).is_file():
        yield Kept(SECRET, data() / SECRET)


def in_the_way() -> list[str]:
    """Folders that hold files already."""
    return [folder for folder in settings.KEPT_FOLDERS if any(_files(data() / folder))]


def fits(name: str) -> bool:
    """Whether a name leads to where files of this studio lie, and nowhere else."""
    parts = name.split("/")
    plain = all(part not in ("", ".", "..") and "\\" not in part and "\0" not in part for part in parts)
    return name == SECRET or (plain and len(parts) > 1 and parts[0] in settings.KEPT_FOLDERS)


def put_in_place(staged: Path) -> None:
    """Move what was unpacked to where it belongs, by renaming; what is there is empty."""
    for folder in settings.KEPT_FOLDERS:
        if (staged / folder).is_dir():
            shutil.rmtree(data() / folder, ignore_errors=True)
            os.rename(staged / folder, data() / folder)
    if (staged / SECRET).is_file():
        os.chmod(staged / SECRET, 0o600)
        os.replace(staged / SECRET, data() / SECRET)


def data() -> Path:
    """The data folder, as the settings say now."""
    return Path(settings.DATA_DIR)


def _files(folder: Path) -> Iterator[str]:
    for _place, _folders, names in os.walk(folder):
        yield from names
