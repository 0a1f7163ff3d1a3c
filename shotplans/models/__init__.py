"""What the light of a sitting leaves in the database: the brief, its frozen plans, what was really done; and
the rules as this studio keeps them."""

from shotplans.models.as_shot import Built, SetPhoto
from shotplans.models.beams import MeasuredBeam
from shotplans.models.briefs import Brief
from shotplans.models.frames import Frame, FrameCheck, FrameTie, Reference, SmallPicture
from shotplans.models.packing import PackingTap, ToSeeTo
from shotplans.models.plans import Frozen, Plan
from shotplans.models.records import CameraSet, Change, Reading, Record
from shotplans.models.retired import Retired
from shotplans.models.rules import OwnNumber, RuleEdit, in_force, unit_words
from shotplans.models.sample import Sample, kit_for
from shotplans.models.set_taps import BufferChange, SetTap
from shotplans.models.shots import OwnPoseCard, PoseCardEdit, ShotList, ShotListEdit
from shotplans.models.standards import STANDARD_WORDS, CompanyStandard, StandardEdit, standard_said

__all__ = [
    "STANDARD_WORDS",
    "Brief",
    "BufferChange",
    "Built",
    "CameraSet",
    "Change",
    "CompanyStandard",
    "Frame",
    "FrameCheck",
    "FrameTie",
    "Frozen",
    "MeasuredBeam",
    "OwnNumber",
    "OwnPoseCard",
    "PackingTap",
    "Plan",
    "PoseCardEdit",
    "Reading",
    "Record",
    "Reference",
    "Retired",
    "RuleEdit",
    "Sample",
    "SetPhoto",
    "SetTap",
    "ShotList",
    "ShotListEdit",
    "SmallPicture",
    "StandardEdit",
    "ToSeeTo",
    "in_force",
    "kit_for",
    "standard_said",
    "unit_words",
]
