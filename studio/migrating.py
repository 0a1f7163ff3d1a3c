"""Making many tables in one step of a migration. Belongs here: the operation. Not here: any table."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.db.backends.base.schema import BaseDatabaseSchemaEditor
from django.db.migrations.operations.base import Operation
from django.db.migrations.operations.models import CreateModel
from django.db.migrations.state import ProjectState


class CreateTogether(Operation):
    """All these tables, whole, with their indexes and constraints.

    After each `CreateModel` Django builds anew every model that is tied to it; where all hang together, as here,
    that is most of them each time, and an empty database waits a quarter of a minute. Here they are built once.
    A field may point at a table further down: the database is told of such ties after the last table.
    """

    reversible = True

    def __init__(self, tables: Sequence[CreateModel]) -> None:
        self.tables = tables

    def state_forwards(self, app_label: str, state: ProjectState) -> None:
        vars(state).pop("apps", None)  # built again, with all of them, by whoever asks next
        for table in self.tables:
            table.state_forwards(app_label, state)

    def database_forwards(
        self, app_label: str, schema_editor: BaseDatabaseSchemaEditor, from_state: ProjectState, to_state: ProjectState
    ) -> None:
        for table in self.tables:
            table.database_forwards(app_label, schema_editor, from_state, to_state)

    def database_backwards(
        self, app_label: str, schema_editor: BaseDatabaseSchemaEditor, from_state: ProjectState, to_state: ProjectState
    ) -> None:
        for table in reversed(self.tables):
            table.database_backwards(app_label, schema_editor, from_state, to_state)

    def describe(self) -> str:
        return f"Create {len(self.tables)} tables together"

    def deconstruct(self) -> tuple[str, list[Any], dict[str, Any]]:
        return type(self).__name__, [self.tables], {}
