"""`python -m tests.browser.every_page [--out DIR] [--pseudo] [--width N]`: every page of the demo, in every role that
may open it, at every width or one, with a picture of each where DIR is named, and a table; with --pseudo in a language
two fifths longer. Some minutes. Belongs here: the command. Not here: what it runs (`every_width`).
"""

from __future__ import annotations

import argparse
import os
from pathlib import Path

import pytest

OUT, LONG, ONE = "TENTHSTOP_PICTURES", "TENTHSTOP_PSEUDO", "TENTHSTOP_WIDTH"  # as `every_width` reads them

if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m tests.browser.every_page", description=__doc__)
    parser.add_argument("--out", type=Path, help="where the pictures go")
    parser.add_argument("--pseudo", action="store_true", help="in the pseudo-language")
    parser.add_argument("--width", type=int, help="at this width alone, in pixels")
    asked, more = parser.parse_known_args()
    if asked.out:
        asked.out.mkdir(parents=True, exist_ok=True)
        os.environ[OUT] = str(asked.out.resolve())
    os.environ |= {LONG: "1"} if asked.pseudo else {}
    os.environ |= {ONE: str(asked.width)} if asked.width else {}
    raise SystemExit(pytest.main([str(Path(__file__).with_name("every_width.py")), "-s", "-q", *more]))
