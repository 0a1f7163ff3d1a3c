"""What holds for every test. Belongs here: rules of the run itself. Things a test is made of live beside
the test."""

import gc
import os
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.db import connections
from django.utils import timezone
from hypothesis import HealthCheck
from hypothesis import settings as settings_of_hypothesis

from studio import clock
from tests import migrated_once, planned_once

# Files or folders that take half a minute or more, the longest first.
LONG = (
    "tests/browser/test_every_page", "tests/browser/test_offline", "tests/browser/test_new_sitting", "test_house",
    "tests/planner/test_laws", "test_demo_command", "tests/browser/", "bookings/test_races", "test_access",
    "planner/test_reasons", "planner/test_properties", "tests/hard/", "tests/shotplans/", "tests/trips/",
    "tests/sheets/", "tests/planner/",
)  # fmt: skip
HOUSE_TIME = datetime(2026, 11, 28, 9, 0, tzinfo=UTC)

# A busy machine draws slowly; that is no fault of what is tested.
settings_of_hypothesis.register_profile(
    "house", deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
settings_of_hypothesis.load_profile("house")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--rows", action="store_true", help="only tests that keep rows: for another database")


def pytest_configure(config: pytest.Config) -> None:
    """Signing in costs a quarter of a second of hashing; pages are served from the files as they lie."""
    planned_once.begin()
    # Every process of a run would otherwise compile the whole house anew: two minutes of two cores.
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    # It is the week before the days that tests book, whatever year it is, and time goes on from there.
    began = timezone.now()
    clock.now = lambda: clock.stands() or HOUSE_TIME + (timezone.now() - began)
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    settings.WHITENOISE_AUTOREFRESH = True
    settings.STORAGES["staticfiles"]["BACKEND"] = "django.contrib.staticfiles.storage.StaticFilesStorage"


def pytest_unconfigure() -> None:
    """The plans of the run go with it."""
    planned_once.end()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """The long files first: one of them begun last keeps a core waiting."""
    if config.getoption("--rows"):
        without = [item for item in items if not _keeps_rows(item)]
        config.hook.pytest_deselected(items=without)
        items[:] = [item for item in items if _keeps_rows(item)]
    items.sort(key=lambda item: next((n for n, name in enumerate(LONG) if name in item.nodeid), len(LONG)))


def _keeps_rows(item: pytest.Item) -> bool:
    """Whether a test needs the database of the run; the one that starts another run of its own does not count."""
    asked = {"db", "transactional_db", "django_db_setup"} & set(getattr(item, "fixturenames", ()))
    marked = item.get_closest_marker("django_db") is not None
    return (bool(asked) or marked) and "test_postgresql" not in item.nodeid


def pytest_collection_finish() -> None:
    """Six thousand tests and what they import stay for good: the collector need not look through them each time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(10_000, 20, 20)


@pytest.fixture(scope="session")
def django_db_modify_db_settings(
    django_db_modify_db_settings_parallel_suffix: None, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Each process has its own. With SQLite it is a file: threads that race for it must meet in the same one."""
    if connections["default"].vendor == "sqlite":
        name = str(tmp_path_factory.mktemp("database") / "test.sqlite3")
        connections["default"].settings_dict["TEST"]["NAME"] = name


@pytest.fixture(scope="session")
def django_db_keepdb(request: pytest.FixtureRequest, django_db_modify_db_settings: None) -> bool:
    """Whether the migrated database of an earlier run could be taken."""
    cache = getattr(request.config, "cache", None)  # not under `-p no:cacheprovider`
    if connections["default"].vendor != "sqlite" or cache is None:
        return False
    return migrated_once.fetch(cache.mkdir("migrated"), Path(connections["default"].settings_dict["TEST"]["NAME"]))


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup: None, django_db_blocker: Any) -> None:
    """As it comes, and kept for the next run."""
    with django_db_blocker.unblock():
        migrated_once.keep(connections["default"])


@pytest.hookimpl(wrapper=True, trylast=True)
def pytest_runtest_makereport(item: pytest.Item, call: pytest.CallInfo[None]):
    """Under CI a skipped test has not been run, and what has not been run is not known to work."""
    report = yield
    if os.environ.get("CI") == "true" and report.skipped and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid}: skipped under CI=true ({report.longrepr})"
    return report


@pytest.fixture(autouse=True)
def plans_are_read_anew() -> None:
    """What one test wrote in a plan's tree is not what the next one reads: the house itself never writes there
    (`tests/shotplans/test_frozen.py`)."""
    frozen = sys.modules.get("shotplans.models.frozen")
    if frozen is not None:
        frozen.read.cache_clear()
