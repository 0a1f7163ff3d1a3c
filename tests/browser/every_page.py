"""`python -m tests.browser.every_page [--out DIR]`: every page of the demo, in every role that may open it, at every
width, with a picture of each where DIR is named, and a table. Some minutes. Belongs here: the command. Not here: what
it runs (`every_width`)."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

import pytest

OUT = "TENTHSTOP_PICTURES"  # as `every_width` reads it

if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m tests.browser.every_page", description=__doc__)
    parser.add_argument("--out", type=Path, help="where the pictures go")
    asked, more = parser.parse_known_args()
    if asked.out:
        asked.out.mkdir(parents=True, exist_ok=True)
        os.environ[OUT] = str(asked.out.resolve())
    raise SystemExit(pytest.main([str(Path(__file__).with_name("every_width.py")), "-s", "-q", *more]))
