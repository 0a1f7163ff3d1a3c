"""Frames in a real browser at 390 pixels: a raw cut in the page, a line for what was not read, nothing too small."""

from __future__ import annotations

from pathlib import Path

import pytest

from shotplans.models import Frame
from tests.browser.conftest import Desk
from tests.records import filming
from tests.shotplans.filmed import make_set

TOO_SMALL = """() => [...document.querySelectorAll("main button, main a")].filter(
    (e) => e.offsetParent && e.getBoundingClientRect().height < 44).map((e) => e.textContent)"""


# How large each part of what is sent is: the browser tells nobody the size of a file it sends.
WEIGH = """window.sent = []; const plain = window.fetch; window.fetch = (to, how) => {
    for (const part of (how.body || new FormData()).values()) if (part instanceof Blob) window.sent.push(part.size);
    return plain(to, how); };"""


@pytest.mark.django_db(transaction=True)
def test_a_raw_is_cut_in_the_page_and_every_odd_file_has_its_line(desk: Desk, tmp_path: Path) -> None:
    there = make_set(one_setup=True)
    (tmp_path / "LQ_0001.DNG").write_bytes(filming.raw(filming.entries(f=2.8), size=30_000_000))
    (tmp_path / "letter.jpg").write_bytes(b"Dear Maud")
    page = desk.sign_in("ines", width=390)
    page.add_init_script(WEIGH)
    page.goto(f"{desk.address}/sittings/{there.sitting.number}/frames/")
    page.set_input_files("[name=files]", [str(path) for path in sorted(tmp_path.iterdir())])
    page.get_by_role("button", name="Read", exact=True).click()
    page.get_by_text("letter.jpg: no camera data read").wait_for()
    assert sorted(page.evaluate("sent")) == [9, 9, 1 << 20, 1 << 20]  # both ends of each, a letter's nine bytes twice
    page.get_by_role("link", name="Show what they make").click()
    page.get_by_text("4 stops over").wait_for()
    frame = Frame.objects.get()
    # The same folder again: of what is in already, nothing is sent.
    page.set_input_files("[name=files]", [str(path) for path in sorted(tmp_path.iterdir())])
    page.get_by_role("button", name="Read", exact=True).click()
    page.get_by_text("1 here already").wait_for()
    page.get_by_text("letter.jpg: no camera data read").wait_for()
    assert sorted(page.evaluate("sent")) == [9, 9]
    assert (frame.name, frame.size, frame.f_number) == ("LQ_0001.DNG", 30_000_000, 2.8)
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    assert page.evaluate(TOO_SMALL) == []
    assert desk.wrong == []
