"""`python -m shotplans.light CASES.json`: print what the engine says to every case of a file.

Only reading the file, printing and the exit status: 0 all answered, 1 some not, 2 the file cannot be read.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from shotplans.light.cases import answer_all


class _Unreadable(Exception):
    """Why a file holds no cases; the message follows its name."""


def _read_cases(name: str) -> list[Any]:
    try:
        document = json.loads(Path(name).read_bytes().decode("utf-8"))
    except OSError as fault:
        raise _Unreadable(f"cannot be read ({fault.strerror})") from fault
    except (ValueError, RecursionError) as fault:
        raise _Unreadable(f"is not JSON in UTF-8 ({fault})") from fault
    cases = document.get("cases") if isinstance(document, dict) else document
    if not isinstance(cases, list):
        raise _Unreadable('holds no list of cases, expected {"cases": [...]}')
    return cases


def main(arguments: list[str]) -> int:
    if len(arguments) != 1:
        print("usage: python -m shotplans.light CASES.json", file=sys.stderr)
        return 2
    try:
        cases = _read_cases(arguments[0])
    except _Unreadable as fault:
        print(f"{arguments[0]}: {fault}", file=sys.stderr)
        return 2
    answers, sound = answer_all(cases)
    print(json.dumps(answers, indent=1, allow_nan=False))
    return 0 if sound else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
