"""Rows of the house. Belongs here: their names in one place, so that others import from `studio.models`."""

from studio.models.backups import Backup
from studio.models.cameras import CameraBody, Lens
from studio.models.consumables import Consumable, CountChange
from studio.models.doors import DoorChange, RecoveryCode, SecondStep, SignInTries
from studio.models.entries import Entry
from studio.models.grip import Background, Riser, Seat, Stand, Weight
from studio.models.hours import DaysOff, HoursChange, Week, WeekDay, Weekday
from studio.models.kit import KitChange, KitItem
from studio.models.kit_lists import KitList
from studio.models.lighting import Adapter, Flag, Head, Modifier, Panel, Trigger
from studio.models.profile import Profile
from studio.models.quantities import Units
from studio.models.rooms import Circuit, Room, Surface, Window
from studio.models.staff import Member, MemberRole, Role

# The table of each section of the kit, in the order of the brief.
KIT: dict[str, type[KitItem]] = {
    str(kind.SECTION): kind
    for kind in (
        Head,
        Modifier,
        Adapter,
        Stand,
        Panel,
        Weight,
        Flag,
        Trigger,
        Background,
        CameraBody,
        Lens,
        Seat,
        Riser,
    )
}

__all__ = [
    "KIT",
    "Adapter",
    "Background",
    "Backup",
    "CameraBody",
    "Circuit",
    "Consumable",
    "CountChange",
    "DaysOff",
    "DoorChange",
    "Entry",
    "Flag",
    "Head",
    "HoursChange",
    "KitChange",
    "KitItem",
    "KitList",
    "Lens",
    "Member",
    "MemberRole",
    "Modifier",
    "Panel",
    "Profile",
    "RecoveryCode",
    "Riser",
    "Role",
    "Room",
    "Seat",
    "SecondStep",
    "SignInTries",
    "Stand",
    "Surface",
    "Trigger",
    "Units",
    "Week",
    "WeekDay",
    "Weekday",
    "Weight",
    "Window",
]
