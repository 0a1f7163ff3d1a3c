"""What the light of a sitting leaves in the database: the brief, its frozen plans, and what was really done."""

from shotplans.models.briefs import Brief
from shotplans.models.plans import Frozen, Plan
from shotplans.models.records import Change, Reading, Record

__all__ = ["Brief", "Change", "Frozen", "Plan", "Reading", "Record"]
