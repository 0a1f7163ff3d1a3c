"""Groups of one to forty: everybody once, no two bodies meeting, nobody lifted who may not be, every face to be seen.

Covers rows, arrange, households, sight, groups, cures and poses of several. Sizes of bodies are in test_anatomy.py,
hiding itself in tests/light/test_overlap.py.
"""

from __future__ import annotations

import time
from dataclasses import replace
from itertools import combinations, pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shotplans.light import falloff, lenses
from shotplans.planner import anatomy, arrange, groups, poses, rows, sight
from shotplans.planner.people import Pose, Seated, Stage, persons
from shotplans.planner.shots import frames_for
from tests.planner import briefs
from tests.planner.sets import Tree, broken, filled, meter, solved, told
from tests.planner.truths import people as truths

ACROSS_M = 5.2  # the demo's Long Room less its keep-out strips
GROUP = briefs.setup("natural", "group")
FEW = briefs.kit_of(heads=("h400-1", "h400-2"), modifiers=("octa150-1", "umb180"), lenses=("lens50-70",),
                    backgrounds=("canvas450",))  # fmt: skip


def stood(sitters: list[Tree], across_m: float = ACROSS_M, **kit: Any) -> Pose:
    """The pose a set-up of these people gets, before any light."""
    tree = briefs.request(GROUP, sitters, kit=briefs.studio_kit() | kit)
    request = filled(tree)
    who = persons(request.sitters, request.brief.setups[0].people, request.kit.seats, False)
    return poses.poses(who, request.brief.setups[0], across_m, request)[0]


def of_size(emitter: Any, diameter_m: float) -> Any:
    """The same head behind a small round front that sends its light as wide as a cloth."""
    front = {"shape": "disc", "diameter_m": diameter_m, "beam_deg": 120.0, "core_stops": 0.0, "grid_deg": None}
    return replace(emitter, modifier=emitter.modifier.model_copy(update=front))


def numbered(count: int) -> list[Tree]:
    return [p | {"label": f"Person {n + 1}"} for n, p in enumerate(briefs.family(count))]


def adults(count: int, posture: str = "standing", **notes: Any) -> list[Tree]:
    return [briefs.sitter(f"Guest {n + 1}", posture=posture, **notes) for n in range(count)]


def place(pose: Pose, label: str) -> Seated:
    return next(s for s in pose.seated if s.person.label == label)


def bodies_meet(a: Seated, b: Seated) -> bool:
    """Whether two footprints overlap: ellipses of shoulders and chest as turned, walked round in two hundred points."""
    ring = np.linspace(0, 2 * np.pi, 200)
    across, deep = a.person.build.shoulders_m / 2 * np.cos(ring), a.person.build.chest_m / 2 * np.sin(ring)
    one, other = np.radians(a.body_deg), np.radians(b.body_deg)
    x = a.face_m[0] - b.face_m[0] + across * np.cos(one) + deep * np.sin(one)
    z = a.face_m[2] - b.face_m[2] - across * np.sin(one) + deep * np.cos(one)
    along, out = x * np.cos(other) - z * np.sin(other), x * np.sin(other) + z * np.cos(other)
    inside = (along / (b.person.build.shoulders_m / 2)) ** 2 + (out / (b.person.build.chest_m / 2)) ** 2
    return bool((inside < 1).any())


def on_a_lap(s: Seated) -> bool:
    return s.person.posture == "lap"


def faults(pose: Pose) -> list[str]:
    """What no arrangement may do, whatever it is asked."""
    found = [
        f"{a.person.label} stands in {b.person.label}"
        for a, b in combinations([s for s in pose.seated if not on_a_lap(s)], 2)
        if bodies_meet(a, b)
    ]
    for s in pose.seated:
        sitter = s.person.sitter
        spared = sitter.hip_or_back or sitter.stand_minutes is not None or (sitter.age_years or 40) >= 65
        if s.step and (spared or sitter.posture != "standing" or (sitter.age_years or 40) < 8 or sitter.low_vision):
            found.append(f"{s.person.label} on a step")
        if s.person.posture == "floor" and spared:
            found.append(f"{s.person.label} on the floor")
        if s.person.posture == "standing" and sitter.stand_minutes is not None and sitter.stand_minutes < 1:
            found.append(f"{s.person.label} stands")
        may = sitter.posture == "standing" and (sitter.stand_minutes or 9) < 1
        if sitter.posture in ("seated", "standing", "wheelchair") and s.person.posture != sitter.posture and not may:
            found.append(f"{s.person.label} is {s.person.posture} and asked for {sitter.posture}")
        if not s.step and not on_a_lap(s) and s.face_m[1] != pytest.approx(s.person.eye_m, abs=0.001):
            found.append(f"{s.person.label} is lifted by nothing")
    found += _wheels_at_an_end(pose)
    return found


def _wheels_at_an_end(pose: Pose) -> list[str]:
    out = []
    for row in {s.row for s in pose.seated}:
        line = sorted((s for s in pose.seated if s.row == row and not on_a_lap(s)), key=lambda s: s.face_m[0])
        others = [s for s in line if s.person.posture != "wheelchair"]
        ends = [s for s in (*line[:1], *line[-1:]) if s.person.posture == "wheelchair"]
        if len(others) >= 2 and ends:
            out.append(f"{ends[0].person.label} at the end of row {row}")
    return out


PEOPLE = {
    "two": numbered(2), "three": numbered(3), "four": numbered(4), "five": numbered(5), "seven": numbered(7),
    "nine": briefs.demo("pellingham")["sitters"], "twelve": numbered(12), "twenty": numbered(20),
    "thirty": numbered(30), "forty": numbered(40),
    "two wheelchairs": [*adults(2, "wheelchair"), *(p | {"label": f"Seat {p['label']}"} for p in adults(3, "seated")),
                        *(p | {"label": f"Tall {p['label']}"} for p in adults(4))],
    "three toddlers": [*(briefs.sitter(f"Small {n}", age_years=2, height_cm=86, posture="lap") for n in range(3)),
                       *adults(2, "seated"), *(p | {"label": f"Tall {p['label']}"} for p in adults(4))],
    "toddlers who stand": [*(briefs.sitter(f"Small {n}", age_years=3, height_cm=96, posture="standing")
                             for n in range(3)), *adults(3, "seated"),
                           *(p | {"label": f"Tall {p['label']}"} for p in adults(3))],
    "a carried child": [briefs.sitter("Small", age_years=1, height_cm=75, posture="lap"), *adults(4)],
}  # fmt: skip


@pytest.mark.parametrize("name", PEOPLE)
def test_everybody_is_placed_once_and_nobody_where_they_may_not(name: str) -> None:
    pose = stood(PEOPLE[name])
    assert sorted(s.person.label for s in pose.seated) == sorted(p["label"] for p in PEOPLE[name])
    assert faults(pose) == []


CLEAR = [name for name in PEOPLE if name not in ("thirty", "forty")]


@pytest.mark.parametrize("name", CLEAR)
def test_every_face_of_a_group_of_up_to_twenty_is_clear(name: str) -> None:
    pose = stood(PEOPLE[name])
    lens = arrange._lens(pose.seated, pose.stage or Stage(ACROSS_M))
    assert sight.hidden(sight.bodies(pose.seated), lens).share.max() <= sight.CLEAR_SHARE
    # By hand, with heads smaller than most: the eyes of nobody lie behind a head (truths.people)
    seen = tuple(lens - [0.0, 0.0, 0.0])
    assert not any(
        truths._blocked(seen, list(p.face_m), list(q.face_m)) for p in pose.seated for q in pose.seated
    )


def test_thirty_and_forty_people_lose_a_few_faces_in_a_narrow_room_and_none_in_a_wide_one() -> None:
    pose = stood(PEOPLE["forty"])
    lens = arrange._lens(pose.seated, pose.stage or Stage(ACROSS_M))
    lost = sight.hidden(sight.bodies(pose.seated), lens).share
    # The problem names those who are not clear and what would mend it: common practice, no source
    assert (lost > 0.1).sum() <= 3
    assert (lost > sight.CLEAR_SHARE).sum() <= 10
    wide = stood(PEOPLE["thirty"], 7.2)
    lens = arrange._lens(wide.seated, wide.stage or Stage(7.2))
    assert sight.hidden(sight.bodies(wide.seated), lens).share.max() <= sight.CLEAR_SHARE


@st.composite
def crowds(draw: st.DrawFn) -> list[Tree]:
    """One to fourteen people with notes that bear on where they may be."""
    found = []
    for n in range(draw(st.integers(1, 14))):
        age = draw(st.sampled_from([1, 3, 6, 10, 15, 30, 45, 66, 82]))
        grown = ["standing", "standing", "seated", "floor", "wheelchair"]
        postures = ["lap", "floor", "standing"] if age < 8 else grown
        notes: Tree = {"age_years": age, "posture": draw(st.sampled_from(postures)),
                       "hip_or_back": draw(st.sampled_from([False, False, True])),
                       "low_vision": draw(st.sampled_from([False, False, True])),
                       "central": draw(st.sampled_from([False, False, True])),
                       "household": draw(st.sampled_from([None, "Mill", "Weir"])),
                       "stand_minutes": draw(st.sampled_from([None, None, 5, 0.5]))}  # fmt: skip
        tall = {1: 75, 3: 96, 6: 115, 10: 138, 15: 165}.get(age, draw(st.integers(150, 200)))
        found.append(briefs.sitter(f"Guest {n + 1}", **notes) | {"height_cm": tall})
    return found


@settings(max_examples=25, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck))
@given(crowds(), st.sampled_from([1.6, 3.0, 5.2, 8.0]), st.integers(0, 3))
def test_no_crowd_meets_is_lost_or_stands_where_it_may_not(sitters: list[Tree], across_m: float, steps: int) -> None:
    risers = [{"id": f"step {n}", "height_m": 0.15 * (n + 1), "rating_kg": 120 * (n + 1)} for n in range(steps)]
    tree = briefs.request(GROUP, sitters, kit=briefs.studio_kit() | {"risers": risers})
    request = filled(tree)
    who = persons(request.sitters, request.brief.setups[0].people, request.kit.seats, False)
    pose = poses.group(who, poses.stage(request, "either", across_m))
    assert sorted(s.person.label for s in pose.seated) == sorted(p["label"] for p in sitters)
    assert faults(pose) == []
    for riser in risers:
        on = [s for s in pose.seated if s.step == riser["id"]]
        assert len(on) * rows.STEP_PERSON_KG <= riser["rating_kg"]
        assert all(s.face_m[1] == pytest.approx(s.person.eye_m + riser["height_m"], abs=0.001) for s in on)
    for axis in (0, 2):
        assert sum(s.face_m[axis] for s in pose.seated) == pytest.approx(0, abs=0.001 * len(sitters))


def one_plan(sitters: list[Tree], where: Tree | None = None, **more: Any) -> Any:
    return told(briefs.request(GROUP, sitters, where, **more))


def test_where_nobody_said_so_half_of_a_group_sits_the_eldest_first() -> None:
    open_ = [{"label": f"Guest {n}", "age_years": 20 + 10 * n} for n in range(7)]  # 20 to 80 years
    for count, seated in ((3, 3), (6, 4), (0, 0)):
        kit = briefs.studio_kit() | {"seats": briefs.studio_kit()["seats"][:count]}
        request = filled(briefs.request(GROUP, open_, kit=kit))
        sit = [s.label for s in request.sitters if s.posture == "seated"]
        assert sit == [f"Guest {n}" for n in range(7 - seated, 7)]  # half of seven rounded up, or the chairs there are
    sore = [p | {"hip_or_back": True} if p["label"] == "Guest 0" else p for p in open_]
    request = filled(briefs.request(GROUP, sore, kit=briefs.studio_kit() | {"seats": briefs.studio_kit()["seats"][:1]}))
    assert [s.label for s in request.sitters if s.posture == "seated"] == ["Guest 0"]
    alone = filled(briefs.request(briefs.setup("natural", "half"), open_[:2], kit=briefs.studio_kit() | {"seats": []}))
    assert [s.posture for s in alone.sitters] == ["seated", "seated"]


def test_hips_and_backs_get_a_chair_before_the_merely_old() -> None:
    sitters = [briefs.sitter("Old", age_years=90), briefs.sitter("Sore", age_years=30, hip_or_back=True)]
    chairs = [{"id": "chair", "height_m": 0.46, "arms": True}]
    pose = stood([*sitters, *adults(2)], seats=chairs)
    assert place(pose, "Sore").person.seat == "chair"
    assert place(pose, "Old").person.seat is None


@pytest.mark.parametrize("across_m", [1.6, 2.4, 3.6])
def test_rows_stay_within_the_width_there_is(across_m: float) -> None:
    pose = stood([p | {"household": None} for p in numbered(12)], across_m)
    # rows of a narrow room cannot all step to the side: half a place, 0.27 m, may be over where three stand abreast
    assert groups.width_m(pose.seated) <= across_m + 0.02


def test_a_step_without_a_rating_is_not_stood_on() -> None:
    box = {"id": "box", "height_m": 0.2}
    assert not any(s.step for s in stood(truths.STEPPED["sitters"], 2.1, risers=[box]).seated)
    rated = [box | {"rating_kg": 250}]
    lifted = [s.person.label for s in stood(truths.STEPPED["sitters"], 2.1, risers=rated).seated if s.step]
    assert 1 <= len(lifted) <= 2  # 250 kg at 100 kg each: by division
    assert all(name.startswith("Tall") for name in lifted)


def test_a_taller_row_stands_behind_a_shorter() -> None:
    pose = stood(adults(12), across_m=3.6)
    assert len({s.row for s in pose.seated}) > 1
    mixed = stood([p | {"height_cm": 150 + 4 * n} for n, p in enumerate(adults(12))], across_m=3.6)
    eyes = [[s.face_m[1] for s in mixed.seated if s.row == row] for row in sorted({s.row for s in mixed.seated})]
    assert all(max(a) <= min(b) for a, b in pairwise(eyes))


def test_broad_people_get_broad_places() -> None:
    narrow, broad = (stood(adults(4, height_cm=tall)) for tall in (155, 195))
    gaps = [sorted(s.face_m[0] for s in pose.seated) for pose in (narrow, broad)]
    least = [min(b - a for a, b in pairwise(xs)) for xs in gaps]
    # Bideltoid 0.283 of stature (ANSUR II, values.md A04 over A01) and a centimetre of cloth, 4 cm between
    assert least == [pytest.approx(0.2834 * 1.55 + 0.05, abs=0.005), pytest.approx(0.2834 * 1.95 + 0.05, abs=0.005)]


def test_children_under_school_age_stand_before_or_sit_on_a_knee() -> None:
    pose = stood(PEOPLE["toddlers who stand"])
    chairs = max(s.face_m[2] for s in pose.seated if s.person.posture == "seated")
    small = [s for s in pose.seated if s.person.label.startswith("Small")]
    assert all(s.face_m[2] >= chairs for s in small)
    laps = stood(PEOPLE["three toddlers"])
    knees = [s for s in laps.seated if on_a_lap(s)]
    chairs = [s.face_m[0] for s in laps.seated if s.person.posture == "seated"]
    # two chairs, three toddlers: each on a knee 15 cm to a side, no knee twice, common practice, no source
    assert all(min(abs(abs(k.face_m[0] - x) - 0.15) for x in chairs) < 0.002 for k in knees)
    assert len({round(k.face_m[0], 2) for k in knees}) == 3


def test_a_household_keeps_its_column_through_the_rows() -> None:
    sitters = [briefs.sitter(f"{home} {n}", posture=posture, household=home)
               for home in ("Mill", "Weir", "Ford") for n, posture in enumerate(("seated", "standing", "standing"))]
    pose = stood(sitters)
    for row in {s.row for s in pose.seated}:
        homes = [s.person.sitter.household for s in sorted(pose.seated, key=lambda s: s.face_m[0]) if s.row == row]
        assert sum(a != b for a, b in pairwise(homes)) == len(set(homes)) - 1  # side by side
    orders = [list(dict.fromkeys(s.person.sitter.household for s in sorted(pose.seated, key=lambda s: s.face_m[0])
                                 if s.row == row)) for row in (1, 2)]  # fmt: skip
    both = set(orders[0]) & set(orders[1])
    assert len(both) > 1
    assert [h for h in orders[0] if h in both] == [h for h in orders[1] if h in both]


def test_the_central_ones_sit_in_the_middle() -> None:
    sitters = [p | {"central": n in (5, 6)} for n, p in enumerate(adults(7, "seated"))]
    line = sorted(stood(sitters).seated, key=lambda s: s.face_m[0])
    where = [n for n, s in enumerate(line) if s.person.sitter.central]
    assert where in ([2, 3], [3, 4])  # the middle of seven is place 3: by count


def test_a_keep_with_stands_beside() -> None:
    sitters = [p | ({"keep_with": "Guest 1"} if n == 5 else {}) for n, p in enumerate(adults(6, "seated"))]
    line = [s.person.label for s in sorted(stood(sitters).seated, key=lambda s: s.face_m[0])]
    assert abs(line.index("Guest 6") - line.index("Guest 1")) == 1


def test_seats_beside_a_wheelchair_bring_the_eyes_level() -> None:
    tall = [briefs.sitter("Tall", height_cm=195), briefs.sitter("Short", height_cm=150)]
    seats = [{"id": f"s{h}", "height_m": h / 100} for h in (40, 43, 46, 49, 52)]
    pose = stood([briefs.sitter("Osric", posture="wheelchair"), *tall, *adults(2)], seats=seats)
    level = place(pose, "Osric").face_m[1]
    plain = stood([*tall, *adults(2)], seats=seats)

    def off(found: Pose) -> float:
        return sum(abs(place(found, name).face_m[1] - level) for name in ("Tall", "Short"))

    assert off(pose) < off(plain)


@pytest.mark.parametrize("counts", [(3, 5), (4, 4), (3, 4), (4, 5), (2, 2)])
def test_nobody_of_one_height_stands_behind_a_face(counts: tuple[int, int]) -> None:
    sitters = [p | {"label": f"Front {p['label']}"} for p in adults(counts[0], height_cm=175)]
    sitters += [p | {"label": f"Back {p['label']}"} for p in adults(counts[1], height_cm=176)]
    pose = stood(sitters, across_m=rows.width_m([s.person for s in stood(sitters, 9.0).seated]) * 0.6)
    front, back = ([s.face_m[0] for s in pose.seated if s.row == n] for n in (1, 2))
    # Eyes level with eyes: half a head and half a face must lie between, 0.09 and 0.07 m (ANSUR II A10, A11)
    assert min(abs(a - b) for a in front for b in back) > 0.16


def test_spaced_places_are_the_nearest_that_keep_their_distance() -> None:
    wanted, least = np.array([0.0, 0.1, 1.0]), np.array([0.5, 0.5])
    # By hand: the first two share their wish of 0.05 as 0.05 -+ 0.25, the third is free
    np.testing.assert_allclose(rows.spaced(wanted, least), [-0.2, 0.3, 1.0])
    rng = np.random.default_rng(1)
    for _ in range(20):
        wish, gap = rng.normal(size=6), rng.uniform(0.1, 0.6, 5)
        found = rows.spaced(wish, gap)
        assert (np.diff(found) >= gap - 1e-12).all()
        for _ in range(50):  # no other allowed row is nearer: least squares
            other = np.concatenate([[rng.normal()], np.zeros(5)])
            other[1:] = other[0] + np.cumsum(gap + rng.exponential(0.2, 5))
            assert np.square(found - wish).sum() <= np.square(other - wish).sum() + 1e-12


def test_a_profile_of_three_turns_every_head() -> None:
    for view, least in (("three_quarter", 35), ("profile", 85)):
        tree = briefs.request(briefs.setup("natural", "half", view=view), adults(3, "seated"))
        request = filled(tree)
        who = persons(request.sitters, request.brief.setups[0].people, request.kit.seats, False)
        for pose in poses.poses(who, request.brief.setups[0], ACROSS_M, request):
            assert all(abs(s.nose_deg) >= least for s in pose.seated)
            assert faults(pose) == []


def test_the_house_sets_how_far_apart_an_older_pair_sits() -> None:
    pair = [briefs.sitter("Edda", age_years=70), briefs.sitter("Ruan", age_years=50)]
    young = [p | {"age_years": 50} for p in pair]
    rule = {"rule": "older_pair", "number": "heads_apart_m", "value": 0.6}
    apart = []
    for people, changes in ((pair, []), (pair, [rule]), (young, [rule])):
        request = filled(briefs.request(briefs.setup("soft", "half"), people) | {"rules": changes})
        who = persons(request.sitters, request.brief.setups[0].people, request.kit.seats, False)
        a, b = poses.poses(who, request.brief.setups[0], ACROSS_M, request)[0].seated
        apart.append(abs(a.face_m[0] - b.face_m[0]))
    assert apart == [pytest.approx(0.45), pytest.approx(0.6), pytest.approx(0.45)]


def test_the_same_people_stand_the_same_way_twice() -> None:
    assert stood(PEOPLE["twelve"]).seated == stood(PEOPLE["twelve"]).seated


def test_a_group_is_stood_in_time() -> None:
    """Nine in under 50 ms and forty in under 200 ms of a core that has nothing else to do, on which a million squares
    are added up in 60 ms: less than one and four times as long; twice that here, for neighbours share caches."""
    for name, most in (("nine", 2), ("forty", 8)):
        times = min(_seconds(PEOPLE[name]) for _ in range(5)) / min(_reference_s() for _ in range(5))
        assert times < most, f"{name}: {times:.1f} times the reference"


def _reference_s() -> float:
    start = time.process_time()
    sum(n * n for n in range(1_000_000))
    return time.process_time() - start


def _seconds(sitters: list[Tree]) -> float:
    arrange._arranged.cache_clear()
    request = filled(briefs.request(GROUP, sitters))
    who = persons(request.sitters, request.brief.setups[0].people, request.kit.seats, False)
    start = time.process_time()
    pose = poses.poses(who, request.brief.setups[0], ACROSS_M, request)[0]
    sight.hidden(sight.bodies(pose.seated), np.array([0.0, 1.5, 5.0]))
    return time.process_time() - start


# Feature rows of the job's list, on the functions the planner uses


def point_spread(span_m: float, distance_m: float, bearing_deg: float) -> float:
    """The row's ends and middle under a bare source at face height, by the function the arrangement is judged with."""
    turn = np.radians(bearing_deg)
    row = np.array([[x, 1.4, 0.0] for x in (-span_m / 2, 0.0, span_m / 2)])
    light = np.array([distance_m * np.sin(turn), 1.4, distance_m * np.cos(turn)])
    return float(falloff.spread_stops(falloff.point_levels_stops(light, row)))


def test_feature_28_a_near_key_at_45_warns_of_two_stops_and_a_far_one_at_15_does_not() -> None:
    # job.md feature row 28 (span 3 m): 2 m at 45 is over 2 stops, 4 m at 15 is 0.5; row 33 prints 2.4 for the first
    assert point_spread(3.0, 2.0, 45.0) == pytest.approx(2.4, abs=0.05)
    assert point_spread(3.0, 4.0, 15.0) == pytest.approx(0.5, abs=0.05)
    assert point_spread(2.0, 3.0, 45.0) == pytest.approx(1.3, abs=0.1)  # row 32: 1.3 and 0.45
    assert point_spread(2.0, 3.0, 15.0) == pytest.approx(0.45, abs=0.05)
    # and the plan of such a group warns: the key ordered there by hand
    one = solved(briefs.request(GROUP, adults(6, height_cm=180)))
    xs = np.linspace(-1.5, 1.5, 6)
    row = replace(one.pose, seated=tuple(
        replace(s, face_m=(float(x), 1.6, 0.0), row=1) for s, x in zip(one.pose.seated, xs, strict=True)))  # fmt: skip
    small = of_size(one.lights[0].emitter, 0.18)

    def lit(distance: float, bearing: float) -> Any:
        turn = np.radians(bearing)
        at = (float(distance * np.sin(turn)), 1.6, float(distance * np.cos(turn)))
        bare = replace(one.lights[0], position=at, aim=(0.0, 1.6, 0.0), emitter=small, bearing_deg=bearing)
        return replace(one, pose=row, lights=(bare,), blocks=())

    near, far = (lit(2.0, 45.0), lit(4.0, 15.0))
    spread = [groups.spread_raw(meter(s), [np.array(p.face_m) for p in s.pose.seated]) for s in (near, far)]
    # the room's bounce and the dome's cosine take a part of what the bare law says
    assert spread[0] > 1.2
    assert spread[1] < 0.6
    assert "evenness" in broken(near)


def test_feature_29_the_sharp_zone_is_the_published_one_within_two_percent() -> None:
    # job.md feature row 29: 85 mm, 4 m, f/8: 1.06 m, and 0.70 for a big print, within 2 %
    for big, total in ((False, 1.06), (True, 0.70)):
        near, far = lenses.depth_of_field_m(85, 8.0, 4.0, lenses.blur_mm(36, 24, big))
        assert float(far - near) == pytest.approx(total, rel=0.02)


def test_feature_30_a_print_of_61_cm_shows_a_face_of_7_cm() -> None:
    # job.md feature row 30: a 61 cm print of a 1.9 m scene shows a 7 cm face
    assert f"{float(lenses.size_on_print(anatomy.HEAD_HEIGHT_M, 61.0, 1.9)):.0f}" == "7"
    plan = told(briefs.demo("pellingham"))
    values = next(v for code, v in plan.reasons if code == "print_face")
    field = plan.document["setups"][0]["expected"]["field_width_m"]
    assert float(values["face_cm"]) == pytest.approx(
        float(lenses.size_on_print(anatomy.HEAD_HEIGHT_M, float(values["print_cm"]), field)), abs=0.51
    )


def test_feature_38_twelve_people_take_six_frames() -> None:
    assert frames_for(12) == 6  # job.md feature row 38; blink research as reported in row 36
    shots = told(briefs.request(GROUP, numbered(12))).document["shots"]
    assert shots[0]["frames"] == 6


def test_the_camera_stands_where_the_picture_holds_every_elbow() -> None:
    plan = solved(briefs.request(GROUP, numbered(12)))
    edge = plan.camera.field_width_m / 2
    for s in plan.pose.together:
        # similar triangles from the lens: a face nearer than the mark takes more of the field
        reach = abs(s.face_m[0]) + rows.breadth_m(s.person) / 2
        assert reach * plan.camera.distance_m / (plan.camera.distance_m - s.face_m[2]) <= edge + 0.05
