"""Which release this is. Belongs here: its number, as the project says it. Not here: the state of the tables
(`studio.backup.schema`)."""

from __future__ import annotations

from importlib import metadata


def version() -> str:
    """Such as 0.1.0; where the project is run without having been installed, nothing is known."""
    try:
        return metadata.version("tenthstop")
    except metadata.PackageNotFoundError:
        return "unknown"
