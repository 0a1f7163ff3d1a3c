"""The meter card: every reading of the round with its target, what is off for it, and boxes to write in."""

from __future__ import annotations

from io import BytesIO

import pdfplumber
import pytest

from shotplans.sheets import meter_card, meter_round
from shotplans.sheets.meter_round import MeterCard
from studio.paper.page import ACTUAL_MM
from tests.sheets import examples
from tests.sheets.reading import boxes, faults, words_of


def cards(name: str) -> tuple[MeterCard, ...]:
    return meter_round.cards(examples.planned(name)[0], examples.heading(name))


@pytest.mark.parametrize("name", examples.NAMES)
def test_the_card_holds_every_reading_of_the_round_once(name: str) -> None:
    document, _ = examples.planned(name)
    for card, setup in zip(cards(name), document["setups"], strict=True):
        steps = [*card.alone, *card.setting, *card.all_on]
        faces = [face for row in card.faces for face in row.faces]
        numbered = {one.number: one.target for one in [*steps, *faces]}
        assert numbered == {step["step"]: step["target"]["shown"] for step in setup["meter_round"]}
        assert [step.number for step in card.setting] == [s["step"] for s in setup["meter_round"] if s["sets_camera"]]
        words = words_of(meter_card.render(card))
        assert all(target in words for target in numbered.values())


def test_a_light_is_read_alone_with_the_others_off_and_flagged() -> None:
    first = cards("askew")[0].alone[0]
    assert first.lights == "A alone, B and C off and flagged."
    assert first.place == "Between the faces, in their plane, at eye height, dome to the camera."
    assert cards("askew")[0].alone[2].place == "At the crown, dome to the light."
    assert cards("askew")[0].setting[0].lights == "A and B on, C off and flagged."
    assert cards("tarrant")[0].alone[0].lights == "A alone, C off and flagged. Panels out."
    assert cards("tarrant")[0].setting[0].lights == "A alone, C off and flagged. Panels in."


def test_faces_stand_as_the_camera_sees_them() -> None:
    document, _ = examples.planned("pellingham")
    places = {s["label"]: (s["row"], s["face_m"][0]) for s in document["setups"][0]["sitters"]}
    rows = cards("pellingham")[0].faces
    assert [row.name for row in rows] == ["Back row", "Front row"]
    for row in rows:
        assert len({places[face.label][0] for face in row.faces}) == 1
        across = [places[face.label][1] for face in row.faces]
        assert across == sorted(across)
    assert places[rows[0].faces[0].label][0] > places[rows[1].faces[0].label][0]


def test_a_ground_with_its_own_light_has_nine_places() -> None:
    assert cards("askew")[0].ground is None
    card = cards("marrowfield")[1]
    assert card.ground is not None
    assert to_write_in(card) == boxes_without(card) + 9


def to_write_in(card: MeterCard) -> int:
    return len(boxes(meter_card.render(card), ACTUAL_MM))


def boxes_without(card: MeterCard) -> int:
    """Two for each reading, one for each face."""
    return 2 * len([*card.alone, *card.setting, *card.all_on]) + sum(len(row.faces) for row in card.faces)


def test_every_reading_has_two_boxes_and_every_face_one() -> None:
    for name in ("askew", "pellingham", "tarrant"):
        card = cards(name)[0]
        assert to_write_in(card) == boxes_without(card)


def test_targets_are_read_at_a_metre_and_the_camera_off_a_stand() -> None:
    with pdfplumber.open(BytesIO(meter_card.render(cards("askew")[0]))) as read:
        words = read.pages[0].extract_words(extra_attrs=["size"], x_tolerance=1.5)
    assert {round(w["size"]) for w in words if w["text"] == "1/200"} == {30}
    assert 20 in {round(w["size"]) for w in words if w["text"] == "f/2.8"}
    assert min(w["size"] for w in words) >= 10.5


def test_long_names_break_and_are_whole() -> None:
    document, _ = examples.planned("pellingham")
    setup = document["setups"][0]
    steps = [s for s in setup["meter_round"] if s["place"].endswith("face")]
    labels = [f"Wilhelmina-Theodora Featherstonehaugh the {n}th" for n in range(len(steps))]
    for step, label in zip(steps, labels, strict=True):
        old = step["place"].removeprefix("at ").removesuffix("'s face")
        next(s for s in setup["sitters"] if s["label"] == old)["label"] = label
        step["place"] = f"at {label}'s face"
    data = meter_card.render(meter_round.cards(document, examples.heading())[0])
    assert list(faults(data)) == []
    assert all(f"{n}th" in words_of(data).split() for n in range(len(labels)))  # to the last word of each


def test_a_setup_without_light_has_no_card() -> None:
    document, _ = examples.planned("askew")
    document["setups"][0] |= {"camera": None, "lights": [], "meter_round": []}
    assert meter_round.cards(document, examples.heading()) == ()


def test_equal_content_gives_equal_bytes() -> None:
    assert meter_card.render(cards("askew")[0]) == meter_card.render(cards("askew")[0])
