"""A pose card as it is read: the studio's own come with the request. Field names are those of the file."""

from __future__ import annotations

from typing import Literal

from shotplans.planner.fields import Label, Part, Sentence

Kind = Literal[
    "standing", "seated", "seated_firm", "wheelchair", "baby", "small_child", "child", "couple", "couple_older",
    "three", "four_five", "group", "children", "hands", "profile",
]  # fmt: skip


class PoseCard(Part):
    """One way to pose one kind of picture: a base line, a caution, and what helps in between."""

    kind: Kind
    name: Label
    base: Sentence
    caution: Sentence
    weight: Sentence = ""
    turn: Sentence = ""
    hands: Sentence = ""
    chin: Sentence = ""
    eyes: Sentence = ""
    seat: Sentence = ""
