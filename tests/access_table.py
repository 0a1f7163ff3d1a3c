"""`python -m tests.access_table`: every address asked as everybody there is, as a table, and the number of surprises,
with exit status 1 where there are any. Belongs here: the command. Not here: what is asked (`access_walk`) and what is
expected (`access_lines`)."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path

import django


def main() -> int:
    """In a fresh database, as the tests make theirs; how many surprises there were."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    django.setup()
    from django.conf import settings
    from django.test import utils

    from tests import planned_once

    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]  # as in the suite
    settings.WHITENOISE_AUTOREFRESH = True
    utils.setup_test_environment()
    planned_once.begin()
    made = utils.setup_databases(verbosity=0, interactive=False)
    try:
        with tempfile.TemporaryDirectory() as folder:
            return printed(Path(folder))
    finally:
        utils.teardown_databases(made, verbosity=0)
        planned_once.end()


def printed(folder: Path) -> int:
    from django.db import transaction

    from studio.addresses import every_address
    from tests import access_walk
    from tests.access_world import make_world

    with access_walk.apart(folder), transaction.atomic():
        asked = list(access_walk.everything(make_world()))
        transaction.set_rollback(True)
    surprises = [f"{one.name}, {one.who}, {one.how}: {one.wrong}" for one in asked if one.wrong]
    surprises += [f"{name}: no line, or another than its view" for name in access_walk.without_a_line()]
    print(*access_walk.rows(asked), *surprises, sep="\n")
    print(f"{len(list(every_address()))} addresses, asked {len(asked)} times, surprises: {len(surprises)}")
    return len(surprises)


if __name__ == "__main__":
    sys.exit(min(main(), 1))
