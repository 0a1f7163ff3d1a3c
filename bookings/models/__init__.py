"""Rows of the bookings. Belongs here: their names in one place, so that others import from `bookings.models`."""

from bookings.models.claims import Claim, ResourceKind
from bookings.models.clients import Client
from bookings.models.comfort import Notes, Wish
from bookings.models.history import SittingChange, StageChange
from bookings.models.kinds import Kind
from bookings.models.numbers import NumberSeries
from bookings.models.sitters import Sitter
from bookings.models.sittings import Sitting, Stage

__all__ = [
    "Claim",
    "Client",
    "Kind",
    "Notes",
    "NumberSeries",
    "ResourceKind",
    "Sitter",
    "Sitting",
    "SittingChange",
    "Stage",
    "StageChange",
    "Wish",
]
