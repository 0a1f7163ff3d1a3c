"""The kit as a file, out and in: what goes out comes in again unchanged, and nothing is written before it is said."""

from __future__ import annotations

import io
from typing import Any

import pytest
from django.test import Client

from studio import kit_list, sent_lists
from studio.actions import kit_lists
from studio.models import KIT, Head, KitChange, KitItem, KitList, Modifier
from tests import cast

pytestmark = pytest.mark.django_db


def sent(owner: Client, content: str | bytes, name: str = "kit.csv") -> str:
    """The address of the page a list comes to."""
    file = io.BytesIO(content.encode() if isinstance(content, str) else content)
    file.name = name
    answer = owner.post("/kit/of-all/list/", {"file": file})
    assert answer.status_code == 302, answer.content.decode()
    return str(answer.headers["Location"])


def table(owner: Client) -> bytes:
    return b"".join(owner.get("/kit/of-all/kit.csv").streaming_content)  # type: ignore[attr-defined]


def rows() -> dict[str, dict[str, Any]]:
    return {row.code: dict(zip(kit_list.columns(), kit_list.cells(row), strict=True))
            for kind in KIT.values() for row in kind.objects.all()}  # fmt: skip


def test_all_sections_go_out_and_come_in_again_the_same(owner: Client) -> None:
    for section in KIT:
        more = {"case": "Case 1", "serial": "-QB;1", "bought_on": "2019-05-02", "mass_kg": 1.25}
        cast.make_kit(section, f"{section}-1", note="=cmd, \"quoted\"\nand so on", **more)
    cast.make_kit("seats", "seats-2", state="repair", mass_kg=None, arms=None)
    before, out = rows(), table(owner)
    page = owner.get(sent(owner, out)).content.decode()
    assert f"{len(KIT) + 1} lines: 0 to be added, 0 to be changed, {len(KIT) + 1} as they are, 0 wrong." in page
    KitItem.objects.all().delete()
    url = sent(owner, out)
    assert f"{len(KIT) + 1} to be added" in owner.get(url).content.decode()
    assert not KitItem.objects.exists(), "nothing is written before it is said"
    assert owner.post(url).status_code == 302
    assert rows() == before
    assert table(owner) == out
    list_row = KitList.objects.exclude(brought_in_at=None).get()
    assert (bytes(list_row.content), list_row.added) == (b"", len(KIT) + 1)
    assert owner.post(url).status_code == 302, "twice is once"
    assert KitItem.objects.count() == len(before)


def test_a_line_changes_only_what_its_columns_say(owner: Client) -> None:
    cast.make_kit("heads", "h400-1", case="Case 1", energy_ws=400)
    url = sent(owner, "Section;Code;kg;state\nheads;h400-1;2,75;repair\n")
    page = owner.get(url).content.decode()
    assert "line 2: 400 Ws head (h400-1): state ready → repair, mass 2.6 → 2.75" in page
    owner.post(url)
    head = Head.objects.get()
    assert (head.mass_kg, head.state, head.case, head.energy_ws) == (2.75, "repair", "Case 1", 400)
    assert KitChange.objects.get().why == "from a list"


def test_every_fault_is_told_with_its_line_and_the_rest_may_be_brought_in(owner: Client) -> None:
    cast.make_kit("seats", "chair-1")
    url = sent(owner, "\n".join((
        "section,code,label,mass_kg,mount,range_stops,f_number_1m_iso100,diameter_m,flicker_free,bought_on",
        "heads,h-1,A head,2.6,bayonet S,8,64,,,",
        "heads,h-2,A head,nan,bayonet S,8,64,,,",
        "heads,h-3,A head,,bayonet S,8,64,,,",
        "heads,h-4,A head,2.6,bayonet S,8,64,1.5,,",
        "heads,h-5,A head,2.6,bayonet S,8,64,,perhaps,",
        "heads,h-6,A head,2.6,bayonet S,8,64,,,31.12.2019",
        "heads,no blanks,A head,2.6,bayonet S,8,64,,,",
        "heads,h-1,A head,2.6,bayonet S,8,64,,,",
        "lamps,l-1,A lamp,1,,,,,,",
        "heads,chair-1,A head,2.6,bayonet S,8,64,,,",
        "heads,h-7,A head",
        "heads,h-8,,2.6,bayonet S,8,-64,,,",
    )))  # fmt: skip
    page = owner.get(url).content.decode()
    assert "12 lines: 1 to be added, 0 to be changed, 0 as they are, 11 wrong." in page
    for words in (
        "line 3: mass: “nan” is no number.", "line 4: mass: A plan cannot do without this number.",
        "line 5: diameter_m: Nothing of this section has that", "line 6: free of flicker: Say yes or no.",
        "line 7: bought on:", "line 8: code:", "line 9: “h-1” stands in line 2 already.",
        "line 10: There is no section “lamps”.", "line 11: “chair-1” is a piece of another section: seats.",
        "line 12: 3 columns, and the headings are 10.", "line 13: name: This field cannot be blank.",
    ):  # fmt: skip
        assert words in page, words
    assert owner.post(url).status_code == 422
    assert KitItem.objects.count() == 1
    assert owner.post(url, {"leave_out": "1"}).status_code == 302
    assert sorted(KitItem.objects.values_list("code", flat=True)) == ["chair-1", "h-1"]


def test_light_that_cannot_be_is_refused_beside_what_the_same_list_brings(owner: Client) -> None:
    url = sent(owner, "\n".join((
        "section,code,label,mass_kg,mount,range_stops,f_number_1m_iso100,energy_ws,kind,shape,diameter_m,loss_stops",
        "heads,h-1,A head,2.6,bayonet S,8,64,400,,,,",
        "modifiers,o-1,An octabox,2.2,bayonet S,,,,octabox,disc,1.5,0",
    )))  # fmt: skip
    assert owner.post(url).status_code == 422
    assert not KitItem.objects.exists()
    assert not KitList.objects.exclude(brought_in_at=None).exists()


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"\xff\xfe\x00", "some of its letters cannot be read"),
        (b"label,mass_kg\nhead,1\n", "No column is called “section”."),
        (b"section,code,code\n", "Two columns are “code”"),
        (b'section,code\nheads,"h-1\n' + b"x\n" * 11_000, "a quote is opened and never closed"),
        (b"   \n", "The file is empty"),
    ],
)
def test_a_file_that_is_no_list_of_kit_says_why(content: bytes, says: str, owner: Client) -> None:
    answer = owner.get(sent(owner, content))
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert not KitItem.objects.exists()


def test_a_list_nobody_confirms_is_gone_the_next_time() -> None:
    by = cast.make_member("owner")
    old = kit_lists.send_in(by=by, file_name="old.csv", content=b"section,code\n")
    KitList.objects.update(at=old.at - 2 * sent_lists.KEPT_FOR)
    kit_lists.send_in(by=by, file_name="new.csv", content=b"section,code\n")
    assert [row.file_name for row in KitList.objects.all()] == ["new.csv"]
    assert not Modifier.objects.exists()
