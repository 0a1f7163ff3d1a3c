"""A house in a folder of its own, served as a studio serves it: by gunicorn, styles and scripts collected, packed and
named by their content, nothing in debug. Belongs here: building one of the three houses and serving it. Not here:
what is looked at (`looks`, `tests.bench.paint`)."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

from tests.ports import free_port

ROOT = Path(__file__).parents[2]
HOUSES = ("demo", "empty", "full")


class Served(NamedTuple):
    """A house that answers."""

    url: str
    world: Any  # `tests.access_world.World`; of an empty house its sitting and plan are None
    addresses: list[Any]  # `everywhere.Address`


@contextmanager
def served(house: str) -> Iterator[Served]:
    """The house, built and answering; gone afterwards."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "static").mkdir()
        os.environ |= {"TENTHSTOP_DATA": folder, "DJANGO_SETTINGS_MODULE": "studio.settings"}
        os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"  # the browser's driver keeps a loop of events in this thread
        manage = [sys.executable, "manage.py", "collectstatic", "--noinput", "-v", "0"]
        subprocess.run(manage, cwd=ROOT, env=os.environ, check=True)
        import django
        from django.core.management import call_command

        django.setup()
        call_command("migrate", verbosity=0, skip_checks=True)
        world, addresses = _built(house)
        with _answering() as url:
            yield Served(url, world, addresses)


def _built(house: str) -> tuple[Any, list[Any]]:
    from tests import cast, extremes
    from tests.access_world import World
    from tests.browser import everywhere

    if house == "empty":
        members = extremes.empty()
        signed_in = {role: cast.client_of(member).cookies for role, member in members.items()}
        empty: Any = World(members, None, None, None, signed_in)  # type: ignore[arg-type]
        return empty, list(everywhere.bare_addresses())
    world = everywhere.build()
    if house == "full":
        crowded = extremes.crowd(world.sitting)
        return world, list(everywhere.addresses(world, crowded))
    return world, list(everywhere.addresses(world))


@contextmanager
def _answering() -> Iterator[str]:
    port = free_port()
    command = [sys.executable, "-m", "gunicorn", "studio.wsgi", "--bind", f"127.0.0.1:{port}", "--threads", "4",
               "--timeout", "120", "--log-level", "error"]  # fmt: skip
    server = subprocess.Popen(command, cwd=ROOT, env=os.environ, stderr=subprocess.DEVNULL)
    url = f"http://localhost:{port}"
    try:
        for _ in range(200):
            try:
                urllib.request.urlopen(f"{url}/sign-in/", timeout=5)
                break
            except OSError:
                time.sleep(0.1)
        yield url
    finally:
        server.terminate()
        server.wait(20)
