"""From rows to the planner's input: what the demo put into rows comes out as the brief file had it."""

from __future__ import annotations

from typing import Any

import pytest

from bookings.actions import claims
from bookings.models import Notes
from shotplans import snapshot
from shotplans.planner import assumptions, codec, solve
from shotplans.planner.brief import Sitter
from studio.models import Circuit, KitItem, Window
from tests import lindenmere

NAMES = tuple(lindenmere.NUMBERS)


def understood(request: Any) -> dict[str, Any]:
    """The input with every stated default in it, pieces of kit by their id."""
    filled: dict[str, Any] = assumptions.fill(request)[0].model_dump(mode="json", by_alias=True)
    for section, pieces in filled["kit"].items():
        filled["kit"][section] = sorted(pieces, key=lambda piece: str(piece["id"]))
    return filled


def from_rows(name: str) -> dict[str, Any]:
    return understood(snapshot.request_for(lindenmere.sitting(name)))


def from_file(name: str) -> dict[str, Any]:
    return understood(codec.read_request(lindenmere.brief_file(name)))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("part", ["brief", "sitters", "room", "preferences", "corrections"])
def test_rows_give_each_part_of_the_input_as_the_file_has_it(studio: None, name: str, part: str) -> None:
    assert from_rows(name)[part] == from_file(name)[part]


@pytest.mark.parametrize("name", NAMES)
def test_rows_give_every_piece_of_kit_as_the_file_has_it(studio: None, name: str) -> None:
    rows, file = from_rows(name)["kit"], from_file(name)["kit"]
    assert rows.keys() == file.keys()
    for section, pieces in rows.items():
        for row, piece in zip(pieces, file[section], strict=True):
            assert row == piece


@pytest.mark.parametrize("state", ["charging", "repair", "lost"])
def test_a_piece_that_is_not_ready_is_not_planned_with(studio: None, state: str) -> None:
    whole = [m["id"] for m in from_rows("askew")["kit"]["modifiers"]]
    KitItem.objects.filter(code="octa150-1").update(state=state)
    assert [m["id"] for m in from_rows("askew")["kit"]["modifiers"]] == [one for one in whole if one != "octa150-1"]
    assert "octa150-1" in whole


def test_a_piece_another_sitting_holds_in_the_span_is_not_planned_with(studio: None) -> None:
    askew, dorrow = lindenmere.sitting("askew"), lindenmere.sitting("dorrow")
    boom = KitItem.objects.get(code="boom-1")
    before = [s["id"] for s in from_rows("askew")["kit"]["stands"]]
    assert "boom-1" in before
    claims.hold(sitting=dorrow, wanted=[claims.Wanted("kit", boom.pk, askew.spans.whole)])
    assert [s["id"] for s in from_rows("askew")["kit"]["stands"]] == [x for x in before if x != "boom-1"]


def test_a_piece_the_sitting_itself_holds_stays_in_its_plan(studio: None) -> None:
    assert lindenmere.sitting("askew").claims.filter(resource_kind="kit").exists()
    assert not snapshot.is_stale(lindenmere.plan("askew"))


def test_what_is_not_known_is_left_to_the_planners_stated_defaults(studio: None) -> None:
    sitter = lindenmere.sitting("dorrow").sitters.get()
    sitter.notes.delete()
    sitter.wishes.all().delete()
    tree = snapshot.tree_for(lindenmere.sitting("dorrow"))["sitters"][0]
    assert set(tree) <= {"label", "age_years", "height_cm", "posture", "central", "household", "relation", "wishes"}
    assert tree["wishes"] == []
    codec.understand(snapshot.tree_for(lindenmere.sitting("dorrow")))


def test_a_missing_camera_is_named_as_a_gap(studio: None) -> None:
    KitItem.objects.filter(section="cameras").update(state="repair")
    with pytest.raises(codec.Unreadable) as refused:
        snapshot.request_for(lindenmere.sitting("askew"))
    assert any("kit.cameras" in fault for fault in refused.value.faults)


def test_a_plan_is_stale_once_the_room_or_the_notes_or_the_kit_change(studio: None) -> None:
    room = lindenmere.sitting("askew").room
    room.ceiling_m = 2.9
    room.save()
    assert snapshot.is_stale(lindenmere.plan("askew"))
    notes = lindenmere.sitting("dorrow").sitters.get().notes
    notes.beard = "none"
    notes.save()
    assert snapshot.is_stale(lindenmere.plan("dorrow"))
    KitItem.objects.filter(code="boom-1").update(state="lost")
    assert snapshot.is_stale(lindenmere.plan("tarrant"))


def test_a_circuit_taken_out_makes_a_plan_stale(studio: None) -> None:
    circuit = Circuit.objects.filter(room=lindenmere.sitting("pellingham").room).last()
    circuit.delete()
    assert snapshot.is_stale(lindenmere.plan("pellingham"))


def test_a_rooms_windows_reach_the_planner_and_make_a_plan_stale(studio: None) -> None:
    room = lindenmere.sitting("askew").room
    Window.objects.create(room=room, wall="street side", width_m=1.4, height_m=1.8, sill_m=0.9)
    Window.objects.create(room=room, wall="yard")
    assert snapshot.tree_for(lindenmere.sitting("askew"))["room"]["windows"] == [
        {"wall": "street side", "width_m": 1.4, "height_m": 1.8, "sill_m": 0.9}, {"wall": "yard"},
    ]  # fmt: skip
    assert snapshot.is_stale(lindenmere.plan("askew"))


@pytest.mark.parametrize("note", ["shy", "broad_seat", "big_hair"])
def test_every_note_reaches_the_planner(studio: None, note: str) -> None:
    notes = lindenmere.sitting("dorrow").sitters.get().notes
    setattr(notes, note, True)
    notes.save()
    assert getattr(snapshot.request_for(lindenmere.sitting("dorrow")).sitters[0], note) is True


def test_the_planner_knows_every_note_by_a_name_of_its_own() -> None:
    """What a person's notes can say and the planner reads: nothing of it may be left behind on the way."""
    apart = {"glasses_lens", "may_remove", "clothes_tone", "bare_arms", "clothes_shiny", "clothes_pattern"}
    assert set(Notes.names()) - apart == set(snapshot.NOTES)
    assert set(snapshot.NOTES) <= set(Sitter.model_fields)


def test_what_no_plan_is_made_from_leaves_it_fresh(studio: None) -> None:
    sitting = lindenmere.sitting("askew")
    sitting.client.phone = "01632 960555"
    sitting.client.save()
    sitting.room.name = "The Long Room"
    sitting.room.save()
    assert not snapshot.is_stale(lindenmere.plan("askew"))


@pytest.mark.parametrize("name", NAMES)
def test_the_set_planned_from_rows_is_the_set_planned_from_the_file(studio: None, name: str) -> None:
    """Rows come sorted by code, the file as it was written: the order of the kit decides nothing."""
    made, read = lindenmere.plan(name).setups, solve.plan(codec.read_request(lindenmere.brief_file(name)))["setups"]
    for of_rows, of_file in zip(made, read, strict=True):
        for part in ("lights", "background", "camera", "meter_round"):
            assert of_rows[part] == of_file[part]
