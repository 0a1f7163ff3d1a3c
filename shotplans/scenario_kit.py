"""How the demo's studio keeps its kit: cases, serial numbers, ages, tests, what is used up. Belongs here: the invented
house's own words. Not here: the numbers plans are made of (the example briefs)."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from django.utils import timezone

from studio import clock
from studio.actions import kit
from studio.models import Consumable, Head, KitItem, Member

CASES = {
    "heads": "Case 1, heads", "triggers": "Case 1, heads", "adapters": "Case 2, rings", "modifiers": "Long bag 1",
    "stands": "Stand bag", "flags": "Flat bag", "panels": "Flat bag", "cameras": "Case 3, camera",
    "lenses": "Case 3, camera",
}  # fmt: skip
# Of those whose brief asks for no mass, weighed with their covers.
MASSES = {
    "ring-p-s-1": 0.3, "shaft-s-1": 0.35, "shaft-s-2": 0.35, "shaft-p-1": 0.35, "panel-1": 3.1, "panel-2": 3.1,
    "panel-3": 3.1, "flag-1": 0.6, "flag-2": 0.6, "trigger-1": 0.1, "trigger-2": 0.1, "grey270": 6.5,
    "white270": 6.5, "dark300": 7.0, "canvas450": 16.0, "camera-1": 0.95, "lens85": 0.6, "lens50-70": 0.9,
    "lens105": 0.75, "chair46-1": 6.2, "chair46-2": 6.2, "chair46-3": 6.2, "stool50-1": 3.4, "stool50-2": 3.4,
    "stool65-1": 4.1, "riser20-1": 5.5,
}  # fmt: skip
TESTED_EVERY = timedelta(days=365)
CONSUMABLES = (
    ("Gaffer tape, black, 50 mm", "rolls", 4, 2, "Case 2, rings"),
    ("Marking tape, white, 12 mm", "rolls", 1, 1, "Case 2, rings"),
    ("Grey paper, 2.7 m", "rolls", 2, 1, ""),
    ("Amber correction gel, half", "sheets", 6, 3, "Flat bag"),
    ("AA cells", "cells", 18, 12, "Case 1, heads"),
    ("Lens tissue", "packets", 5, 2, "Case 3, camera"),
)


# Taken along where there is no socket; on the demo's day they charge, so that no plan of it reckons with them.
BATTERY_HEADS, BATTERY = ("b250-1", "b250-2"), {
    "label": "250 Ws battery head", "light": "flash", "energy_ws": 250, "range_stops": 8, "f_number_1m_iso100": 45,
    "rated_with": "standard_reflector", "dial_scale": "stops", "dial_step": 0.1, "mount": "bayonet P", "mass_kg": 2.3,
    "kelvin": 5600, "duration_s": 0.0007, "duration_kind": "t0.5", "recycle_s": 1.5, "modelling_watts": 20,
    "battery_ws": 90_000, "battery_full_power_shots": 340,
}  # fmt: skip


def _charge(day: date) -> None:
    """Two heads came back from the joinery's workshop the evening before, nearly empty."""
    evening = timezone.make_aware(datetime.combine(day - timedelta(days=1), time(18, 10)))
    for code in BATTERY_HEADS:
        Head(code=code, **BATTERY).save()
    with clock.standing(evening):
        for piece in KitItem.objects.filter(code__in=BATTERY_HEADS):
            ines = Member.objects.get(user__username="ines")
            kit.change_state(by=ines, piece=piece, state="charging", why="back from the joinery's workshop")


def keep(day: date) -> str:
    """Fill in what the briefs do not say of the kit there is; on `day` one head's test lies twelve days ahead, the
    steady head's was three days ago."""
    _charge(day)
    for n, piece in enumerate(KitItem.objects.order_by("section", "code")):
        piece.case = CASES.get(piece.section, "")
        piece.mass_kg = MASSES.get(piece.code, piece.mass_kg)
        piece.bought_on = day - timedelta(days=400 + 97 * (n % 17))
        if piece.section in ("heads", "cameras", "lenses"):
            piece.serial = f"QB-{4100 + 37 * n}"
        if piece.section == "heads":
            piece.next_test_on = day + TESTED_EVERY - timedelta(days=31 * n % 300)
        piece.save()
    KitItem.objects.filter(code="h400-2").update(next_test_on=day + timedelta(days=12))
    KitItem.objects.filter(code="steady350-1").update(next_test_on=day - timedelta(days=3))
    Consumable.objects.bulk_create(
        Consumable(name=name, unit=unit, count=count, low_mark=low, case=case)
        for name, unit, count, low, case in CONSUMABLES
    )
    return f"kit: {KitItem.objects.count()} pieces in {len(set(CASES.values()))} cases, {len(CONSUMABLES)} consumables"
