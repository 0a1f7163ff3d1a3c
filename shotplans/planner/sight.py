"""Who is hidden behind whom, from the lens and from a light: the bodies of a pose held against `light.overlap`.

Belongs here: bodies as arrays, and the share of each face that is lost. How people are moved until nobody is hidden
is in `rows`; what a plan says of it in `check_people`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.light import overlap
from shotplans.planner import anatomy
from shotplans.planner.people import Seated

F = NDArray[np.float64]
Indices = NDArray[np.intp]
CLEAR_SHARE = 0.03  # a face of which no more is hidden counts as clear: the edge of a cheek, one place of the sample
BEFORE_M = 0.05  # nearer to the lens by this much is before
BESIDE_M = 1.2  # farther to the side nothing of a body comes between, however near the lens
HEAD_BALL_M = 0.105  # a grown-up's head with hair as a ball, for shadows: between its half breadth and its half height


@dataclass(frozen=True)
class Bodies:
    """The people of a picture as arrays over n: bridges of noses, builds in metres."""

    face: F
    head_half: F
    face_half: F
    face_under: F
    neck_under: F
    tips_under: F
    half_breadth: F


@dataclass(frozen=True)
class Lost:
    """What each face loses, 0 to 1, and the index of the one that takes most of it (-1 where nothing is lost)."""

    share: F
    by: Indices


def bodies(seated: Sequence[Seated]) -> Bodies:
    """The bodies of people as they are placed; shoulders as broad as the body's turn leaves them."""
    builds = [s.person.build for s in seated]
    turned = np.abs(np.cos(np.radians([s.body_deg for s in seated])))
    across = np.array([b.shoulders_m for b in builds]) * turned + np.array([b.chest_m for b in builds]) * (1 - turned)
    return Bodies(
        face=np.array([s.face_m for s in seated], dtype=np.float64),
        head_half=np.array([b.head_half_m for b in builds]),
        face_half=np.array([b.face_half_m for b in builds]),
        face_under=np.array([b.face_under_eyes_m for b in builds]),
        neck_under=np.array([b.neck_under_eyes_m for b in builds]),
        tips_under=np.array([b.tips_under_eyes_m for b in builds]),
        half_breadth=np.maximum(across / 2, anatomy.HALF_NECK_M + 0.01),
    )


def _sunflower(count: int) -> F:
    """Places spread evenly over a unit disc, each for an equal share of its area; the same on both sides."""
    n = np.arange(count // 2)
    out, turn = np.sqrt((n + 0.5) / len(n)), n * np.pi * (3 - np.sqrt(5))
    half = np.stack([out * np.cos(turn), out * np.sin(turn)], axis=1)
    return np.concatenate([half, half * [-1.0, 1.0]])


SAMPLE = _sunflower(64)


def hidden(who: Bodies, lens: F, since: int = 0) -> Lost:
    """Share of each face that bodies nearer to the lens hide from it; faces before `since` are left at 0."""
    at, before = _pairs(who, lens, since)
    n = len(who.face)
    taken = np.zeros((n, len(SAMPLE)), dtype=bool)
    each = np.zeros((n, n))
    if len(at):
        middle = who.face[at] - np.stack([0 * who.face_under[at], who.face_under[at], 0 * who.face_under[at]], axis=1)
        points = np.repeat(middle[:, None, :], len(SAMPLE), axis=1)
        points[..., :2] += who.face_half[at][:, None, :] * SAMPLE
        head = who.face[before] - [0.0, 0.003, 0.08]
        gone = overlap.behind_ellipsoid(lens, points, head[:, None, :], who.head_half[before][:, None, :])
        neck = who.face[before] - np.stack([0 * who.neck_under[before], who.neck_under[before],
                                            np.full(len(before), 0.10)], axis=1)  # fmt: skip
        gone |= overlap.behind_shoulders(
            lens,
            points,
            neck[:, None, :],
            who.half_breadth[before][:, None],
            (who.tips_under - who.neck_under)[before][:, None],
            anatomy.HALF_NECK_M,
        )
        np.logical_or.at(taken, at, gone)
        each[at, before] = gone.mean(axis=1)
    return Lost(taken.mean(axis=1), _most(each))


def _pairs(who: Bodies, lens: F, since: int) -> tuple[Indices, Indices]:
    """Faces with those who stand nearer to the lens and near enough to the line to matter."""
    z = who.face[:, 2]
    reach = np.maximum(lens[2] - z, 0.1)
    aside = np.abs((who.face[:, 0] - lens[0]) / reach - ((who.face[:, 0] - lens[0]) / reach)[:, None]) * reach.mean()
    at, before = np.nonzero((z[None, :] > z[since:, None] + BEFORE_M) & (aside[since:] < BESIDE_M / 2))
    return at + since, before


def _most(each: F) -> Indices:
    return np.where(each.max(axis=1, initial=0.0) > 0, each.argmax(axis=1), -1).astype(np.intp)


# Places of a face where a shadow is looked for, in half breadths and half heights of it: middle, cheeks, brow, chin.
SHADOW_PLACES = np.array([(0.0, 0.0), (-0.6, 0.0), (0.6, 0.0), (0.0, 0.7), (0.0, -0.7)])


def shaded(who: Bodies, light: F, diameter_m: float) -> Lost:
    """Share of a source that each face loses to the heads of others, the mean of five places of the face."""
    n = len(who.face)
    middle = who.face - np.stack([0 * who.face_under, who.face_under, 0 * who.face_under], axis=1)
    points = np.repeat(middle[:, None, :], len(SHADOW_PLACES), axis=1)
    points[..., :2] += who.face_half[:, None, :] * SHADOW_PLACES
    radius = HEAD_BALL_M * who.head_half[:, 0] / anatomy.build_of(1.69, 40.0).head_half_m[0]
    ball = who.face - [0.0, 0.0, 0.08]
    to_light = light - who.face
    along = np.einsum("ik,jk->ij", to_light, ball) - np.einsum("ik,ik->i", to_light, who.face)[:, None]
    nearer = (along > 0) & ~np.eye(n, dtype=bool) & (np.linalg.norm(ball[None] - who.face[:, None], axis=-1) > 0.25)
    at, by = np.nonzero(nearer)
    each = np.zeros((n, n))
    if len(at):
        lost = overlap.source_hidden(points[at], light, diameter_m, ball[by][:, None, :], radius[by][:, None])
        each[at, by] = np.asarray(lost).mean(axis=1)
    return Lost(np.minimum(each.sum(axis=1), 1.0), _most(each))
