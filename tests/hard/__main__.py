"""`python -m tests.hard forms|files|kills|load|race|size|gone [--long]`: the house under hard treatment, one row of
figures each, with exit status 1 where something broke. Belongs here: the command. On PostgreSQL: `--postgres`."""

from __future__ import annotations

import logging
import os
import sys
import tempfile
import time
from contextlib import nullcontext
from pathlib import Path
from typing import Any

from tests.hard import rows


def with_database(work: Any) -> Any:
    """In a fresh database, as the tests make theirs."""
    import django

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    django.setup()
    from django.conf import settings
    from django.test import utils

    from tests import planned_once

    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]  # as in the suite
    settings.WHITENOISE_AUTOREFRESH = True
    logging.disable()  # a line for each of twenty thousand answers
    utils.setup_test_environment()
    planned_once.begin()
    made = utils.setup_databases(verbosity=0, interactive=False)
    try:
        return work()
    finally:
        utils.teardown_databases(made, verbosity=0)
        planned_once.end()


def forms(long: bool) -> list[str]:
    def work() -> Any:
        from django.db import transaction

        from tests import access_walk
        from tests.access_world import make_world
        from tests.hard import form_fuzz

        with tempfile.TemporaryDirectory() as folder, access_walk.apart(Path(folder)), transaction.atomic():
            found = form_fuzz.fuzz(make_world(), each=120 if long else 2, number=1, each_role=long)
            transaction.set_rollback(True)
        return found

    found = with_database(work)
    answers = ", ".join(f"{status}: {count}" for status, count in sorted(found.answers.items()))
    halves = sum("parts" in what or "and yet" in what for what in found.faults)
    print(f"form fuzz | {found.forms} forms, {found.posts} posts | answers {answers} | half-saved: {halves}")
    return [f"{what}\n    {example}" for what, example in found.faults.items()]


def files(long: bool) -> list[str]:
    import django

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    django.setup()
    from tests.hard import file_fuzz

    found = file_fuzz.fuzz(each=800 if long else 25, number=2, heavy=long)
    crashes = sum(count for outcome, count in found.outcomes.items() if outcome.endswith("crash"))
    told = f"slowest {found.slowest_s:.1f} s, memory up by {found.memory_mb:.0f} MB"
    print(f"file fuzz | {found.files} files | crashes: {crashes} | {told}")
    if found.memory_mb > file_fuzz.MOST_MEMORY_MB:
        found.faults["memory"] = told
    return [f"{what}\n    {example}" for what, example in found.faults.items()]


def kills(long: bool) -> list[str]:
    """In a house of its own in a folder of its own: what is killed is a real server on a real database."""
    until = time.monotonic() + float(os.environ.get("HARD_MINUTES", "60")) * 60
    with rows.new_house():
        from tests.hard import kills as killing

        found = killing.run(rounds=50 if long else 2, posts=1_000 if long else 120, number=1, until=until)
    answered = ", ".join(f"{what} {count}" for what, count in sorted(found.answered.items()))
    lost = sum("lost" in said for said in found.faults)
    told = f"refused {found.refused}, not answered {found.in_flight}, told of an outage {found.outages}"
    print(f"kill -9 in writes | {found.rounds} rounds | saved: {answered}; {told} | lost: {lost}")
    return found.faults


NAMES = {
    "forms": forms, "files": files, "kills": kills, "load": rows.load, "race": rows.race, "size": rows.size,
    "gone": rows.gone,
}  # fmt: skip


def main(arguments: list[str]) -> int:
    names = [one for one in arguments if not one.startswith("--")]
    if len(names) != 1 or names[0] not in NAMES or set(arguments) - set(names) - {"--long", "--postgres"}:
        print(f"usage: python -m tests.hard {'|'.join(NAMES)} [--long] [--postgres]", file=sys.stderr)
        return 2
    from tests import postgres

    with postgres.server() if "--postgres" in arguments else nullcontext({}) as there:
        os.environ.update(there)
        wrong = NAMES[names[0]]("--long" in arguments)
    print(*wrong, f"faults: {len(wrong)}", sep="\n")
    return min(len(wrong), 1)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
