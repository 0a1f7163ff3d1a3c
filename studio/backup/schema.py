"""Which state the tables are in. Belongs here: naming it by the migrations that made it, the models of that state, and
bringing an empty database to it. Not here: rows."""

from __future__ import annotations

from django.apps import apps as apps_of_today
from django.apps.registry import Apps
from django.db import connections
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader
from django.utils.translation import gettext as _

from studio.backup.faults import NotEmpty, Unusable

State = list[list[str]]  # [app, migration], in the order of the alphabet


def state_of(using: str) -> State:
    """The migrations that this database has seen, of apps that are installed."""
    loader = MigrationLoader(connections[using])
    return sorted([app, name] for app, name in _as_today(loader, set(loader.applied_migrations)))


def models_of(using: str, state: State) -> Apps:
    """The models as they were in a state; those of today where it is today's.

    Raises `Unusable` where a newer release made it.
    """
    loader = MigrationLoader(connections[using])
    known = _as_today(loader, {(app, name) for app, name in state})
    newer = [f"{app}.{name}" for app, name in sorted(known - set(loader.disk_migrations))]
    if newer:
        raise Unusable(
            _("A newer release made this backup: %(names)s is not known here. Install that release, then restore.")
            % {"names": ", ".join(newer)}
        )
    if known == _as_today(loader, set(loader.disk_migrations)):
        return apps_of_today
    found: Apps = loader.project_state(_ends(loader, known)).apps
    return found


def bring_to(using: str, state: State) -> bool:
    """Make the tables of that state in a database that has none, or not all of them yet; gives whether it had to."""
    loader = MigrationLoader(connections[using])
    known = _as_today(loader, {(app, name) for app, name in state})
    beyond = [f"{app}.{name}" for app, name in state_of(using) if (app, name) not in known]
    if beyond:
        raise NotEmpty(
            _("The tables here are newer than the backup (%(names)s). Make an empty database without tables, then "
              "restore: with SQLite move the file away, with PostgreSQL use createdb. Nothing was written.")
            % {"names": ", ".join(beyond)}
        )  # fmt: skip
    executor = MigrationExecutor(connections[using])
    wanted = _ends(executor.loader, known)
    made = bool(executor.migration_plan(wanted))
    if made:
        executor.migrate(wanted)
    return made


def _as_today(loader: MigrationLoader, known: set[tuple[str, str]]) -> set[tuple[str, str]]:
    """Migrations by the names they have now: where one took the place of several, its own."""
    for key, migration in loader.replacements.items():
        replaced = set(migration.replaces)
        if replaced <= known or key in known:
            known = known - replaced | {key}
    return {(app, name) for app, name in known if app in loader.migrated_apps}


def _ends(loader: MigrationLoader, known: set[tuple[str, str]]) -> list[tuple[str, str]]:
    """The last migrations of a state, those nothing else of it builds on in its own app."""
    nodes = loader.graph.node_map
    return [
        one for one in sorted(known) if one in nodes and not any(
            child.key in known and child.key[0] == one[0] for child in nodes[one].children
        )
    ]  # fmt: skip
