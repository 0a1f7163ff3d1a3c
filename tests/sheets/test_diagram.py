"""The drawing as marks, and the same marks on screen."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations, pairwise
from math import dist
from xml.etree import ElementTree

import pytest

from shotplans.sheets import diagram, ruler, scene, svg
from shotplans.sheets.labels import Placer
from studio.paper.primitives import Box, Circle, Drawing, Hatch, Line, Polyline, Text
from tests.sheets import examples

SIZES = ((121.0, 118.0), (121.0, 99.0), (100.0, 150.0), (190.0, 200.0))


@cache
def scenes() -> tuple[scene.Scene, ...]:
    found = [s.scene for name in examples.NAMES for s in examples.sheets(name)]
    return tuple(s for s in (*found, examples.crowded().scene) if s)


@cache
def drawings() -> tuple[Drawing, ...]:
    return tuple(diagram.draw(one, *size) for one in scenes() for size in SIZES)


def test_labels_overlap_neither_each_other_nor_the_frame() -> None:
    for drawing in drawings():
        frame = Box(0, 0, drawing.width, drawing.height)
        for one, other in combinations(drawing.texts, 2):
            assert not one.box.overlaps(other.box), (drawing.title, one.text, other.text)
        assert [t.text for t in drawing.texts if not frame.holds(t.box)] == []


def test_every_light_is_lettered_in_both_views_and_everybody_is_marked() -> None:
    for one in scenes():
        drawing = diagram.draw(one, *SIZES[0])
        texts = [t.text for t in drawing.texts]
        for source in one.sources:
            assert source.letter in texts
            assert f"{source.letter} {source.centre_height_m:.2f}" in texts
        wanted = [str(n) for n, _ in enumerate(one.people, start=1)]
        if not diagram.numbered(one):
            wanted = [p.label for p in one.people]
        elif len(one.people) == 40:  # four rows of ten: the ends of each
            wanted = ["1", "10", "11", "20", "21", "30", "31", "40"]
        assert [w for w in wanted if w not in texts] == []


def test_nothing_is_drawn_beyond_the_frame() -> None:
    for drawing in drawings():
        for mark in drawing.marks:
            if isinstance(mark, Line):
                points = [mark.start, mark.end]
            elif isinstance(mark, Polyline | Hatch):
                points = list(mark.points)
            elif isinstance(mark, Circle):
                points = [mark.centre]
            else:
                continue
            assert all(-0.01 <= x <= drawing.width + 0.01 for x, _ in points), (drawing.title, mark)
            assert all(-0.01 <= y <= drawing.height + 0.01 for _, y in points), (drawing.title, mark)


def test_no_text_is_smaller_than_3_2_millimetres() -> None:
    assert min(text.size for drawing in drawings() for text in drawing.texts) >= diagram.SMALLEST_TEXT_MM


def test_a_modifier_is_drawn_at_its_true_size() -> None:
    one = examples.sheets("askew")[0].scene
    assert one is not None
    laid = ruler.lay(one, 121.0, 118.0)
    drawing = diagram.draw(one, 121.0, 118.0)
    above, before = (m for m in drawing.marks if isinstance(m, Polyline) and m.part == "light-A" and m.weight == 0.5)
    widest = max(dist(a, b) for a, b in combinations(above.points, 2))
    assert widest == pytest.approx(
        1500 / laid.scale, rel=0.01
    )  # the 150 cm octabox: its level diameter is not foreshortened
    assert len(before.points) == len(above.points)


def test_the_drawing_is_to_the_scale_it_names() -> None:
    one = examples.sheets("askew")[0].scene
    assert one is not None
    laid = ruler.lay(one, 121.0, 118.0)
    camera, mark = laid.plan(0.0, one.camera.distance_m), laid.plan(0.0, 0.0)
    assert dist(camera, mark) == pytest.approx(one.camera.distance_m * 1000 / laid.scale)
    assert camera[1] > mark[1]  # the camera is below, so that left on the sheet is camera left
    assert laid.plan(0.7, 0.0)[0] == laid.elevation(0.7, 1.0)[0]  # one ruler for both views
    assert f"1:{laid.scale}" in " ".join(t.text for t in diagram.draw(one, 121.0, 118.0).texts)


def test_grid_lines_are_half_a_metre_apart() -> None:
    one = examples.sheets("dorrow")[0].scene
    assert one is not None
    drawing = diagram.draw(one, 121.0, 118.0)
    grid = [m for m in drawing.marks if isinstance(m, Line) and m.part == "grid"]
    across = sorted({round(m.start[0], 3) for m in grid if m.start[0] == m.end[0]})
    gaps = [b - a for a, b in pairwise(across)]
    assert gaps == pytest.approx([500 / drawing.scale] * len(gaps), abs=0.002)


def test_hatching_stays_inside_its_polygon() -> None:
    hatch = Hatch(((0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (0.0, 4.0)), 1.0, 45.0, 0.1)
    lines = list(hatch.lines())
    assert lines
    for point in (p for line in lines for p in line):
        assert -1e-9 <= point[0] <= 10 + 1e-9
        assert -1e-9 <= point[1] <= 4 + 1e-9


def test_a_label_without_room_is_left_out_rather_than_set_over_another() -> None:
    placer = Placer(Box(0, 0, 12, 6))
    assert placer.place("A", 4.0, (6.0, 3.0))
    assert placer.place("long words", 4.0, (6.0, 3.0)) == ()


def test_the_svg_has_attributes_only_and_words_for_screen_readers() -> None:
    for one in scenes():
        text = svg.render(diagram.draw(one, 121.0, 118.0), "one")
        tree = ElementTree.fromstring(text)
        assert "style" not in {name for element in tree.iter() for name in element.attrib}
        assert not re.search(r"<style|<script|\son\w+=", text)
        assert tree.attrib["viewBox"] == "0 0 121 118"
        title, description = tree.find("title"), tree.find("desc")
        assert title is not None
        assert description is not None
        assert all(f"{source.distance_m:.2f} m" in (description.text or "") for source in one.sources)
        assert tree.attrib["aria-labelledby"] == f"{title.attrib['id']} {description.attrib['id']}"
        shown = [e for e in tree.iter() if e.tag == "text"]
        assert min(float(e.attrib["font-size"]) for e in shown) >= 3.2


def test_a_name_with_angle_brackets_is_text_in_the_svg() -> None:
    drawing = Drawing(10, 10, 50, "<b>", "a & b", (Text((5, 5), "<i>", 3.2, part='"x'),))
    tree = ElementTree.fromstring(svg.render(drawing))
    assert tree.findtext("title") == "<b>"
    assert tree.findtext("text") == "<i>"
