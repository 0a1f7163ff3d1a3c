"""Kit: one table a kind, the same numbers as a brief on the command line, read by all and kept by the owner."""

from __future__ import annotations

from typing import Any

import annotated_types
import pytest
from django.db import models
from django.test import Client
from pytest_django import DjangoAssertNumQueries

from shotplans.planner import consistency
from shotplans.planner import kit as owned
from studio.forms.kit import own_fields
from studio.models import KIT, Head, KitItem, Modifier
from studio.models.quantities import Quantity, plain
from tests import cast
from tests.studio.forms import fields, opened

OWN_NAMES = {"dial_scale": "dial", "dial_step": "dial", "from_mount": "from_", "to_mount": "to"}
ALWAYS_ASKED = {"id", "label"}


def brief_class(section: str) -> Any:
    return owned.Kit.model_fields[section].annotation.__args__[0]


def in_a_brief(section: str, name: str) -> str:
    """What a brief calls it: the mass of a weight is its `kg`."""
    return "kg" if (section, name) == ("weights", "mass_kg") else OWN_NAMES.get(name, name)


@pytest.mark.parametrize("section", KIT)
def test_the_kit_asks_for_what_a_brief_may_say_and_nothing_else(section: str) -> None:
    asked = {in_a_brief(section, name) for name in own_fields(KIT[section])}
    assert asked == set(brief_class(section).model_fields) - ALWAYS_ASKED


@pytest.mark.parametrize("section", KIT)
def test_what_a_brief_cannot_do_without_the_form_cannot_either(section: str) -> None:
    needed = {name for name, field in brief_class(section).model_fields.items() if field.is_required()}
    table = KIT[section]._meta
    demanded = KIT[section].DEMANDED
    asked = {
        in_a_brief(section, n) for n in own_fields(KIT[section]) if n in demanded or not table.get_field(n).blank
    }
    assert needed - ALWAYS_ASKED <= asked


def bounds(annotation: Any) -> dict[str, float]:
    """Lower and upper bound of a number of the brief, found wherever pydantic's notation hides them."""
    found: dict[str, float] = {}
    for part in (annotation, *getattr(annotation, "__metadata__", ()), *getattr(annotation, "__args__", ())):
        for mark in getattr(part, "metadata", ()):
            if isinstance(mark, annotated_types.Ge):
                found["low"] = float(mark.ge)  # type: ignore[arg-type]
            if isinstance(mark, annotated_types.Le):
                found["high"] = float(mark.le)  # type: ignore[arg-type]
        if part is not annotation and not found:
            found = bounds(part)
    return found


@pytest.mark.parametrize("section", KIT)
def test_a_number_the_form_takes_is_a_number_the_planner_takes(section: str) -> None:
    for name in own_fields(KIT[section]):
        field = KIT[section]._meta.get_field(name)
        if isinstance(field, Quantity) and name != "dial_step":
            read = brief_class(section).model_fields[in_a_brief(section, name)]
            limits = bounds(read.annotation) | bounds(read)
            assert limits, name
            assert field.low >= limits["low"], name
            assert field.high <= limits["high"], name


@pytest.mark.parametrize("section", KIT)
def test_words_of_a_choice_are_the_brief_s_own(section: str) -> None:
    for name in own_fields(KIT[section]):
        field = KIT[section]._meta.get_field(name)
        assert isinstance(field, models.Field)
        if field.choices and name != "dial_scale":
            whole = str(brief_class(section).model_fields[name])
            assert all(f"'{value}'" in whole for value, _word in field.choices), name


@pytest.mark.django_db
@pytest.mark.parametrize("section", KIT)
def test_each_kind_is_entered_read_and_changed(section: str, owner: Client) -> None:
    url = f"/kit/section/{section}/new/"
    form = opened(owner, url) | {"code": f"{section}-1"}
    form |= {k: ("true" if v is True else str(v)) for k, v in cast.LEAST[section].items()}
    answer = owner.post(url, form)
    assert answer.status_code == 302, fields(answer.content.decode())
    assert answer.headers["Location"] == f"/kit/{section}-1/"
    page = owner.get(f"/kit/{section}-1/").content.decode()
    assert cast.LEAST[section]["label"] in page
    edit = f"/kit/{section}-1/edit/"
    assert owner.post(edit, opened(owner, edit) | {"state": "repair", "note": "loose"}).status_code == 302
    row = KIT[section].objects.get()
    assert (row.section, row.state, row.note, row.version, row.code) == (section, "repair", "loose", 2, f"{section}-1")
    assert not KitItem.objects.free().exists()


@pytest.mark.django_db
def test_every_number_is_read_with_its_unit() -> None:
    cast.make_kit("heads", "h400-1", energy_ws=400, recycle_s=1.2, duration_s=0.0006)
    page = cast.client_of(cast.make_member("assistant")).get("/kit/h400-1/").content.decode()
    for words in ("400 Ws", "f/64", "8 stops", "2.6 kg", "1.2 s", "0.0006 s", "bayonet S", "not known"):
        assert words in page
    assert "Change" not in page


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("section", "change", "says"),
    [
        ("heads", {"f_number_1m_iso100": ""}, "A plan cannot do without this number."),
        ("heads", {"light": "steady"}, "A plan cannot do without this number."),
        ("modifiers", {"shape": "rect"}, "A plan cannot do without this number."),
        ("stands", {"min_height_m": "4"}, "The lowest height lies above the highest."),
        ("lenses", {"min_focal_mm": "105"}, "The shortest focal length lies above the longest."),
        ("cameras", {"base_iso": "12800"}, "The base sensitivity lies above the highest."),
        ("backgrounds", {"reflectance": "85"}, "Give a number from 0 to 1 of the light."),
        ("heads", {"code": "no blanks please"}, "Letters, digits and hyphens only, no blanks."),
        ("heads", {"label": "   "}, "This field is required."),
    ],
)
def test_what_cannot_be_is_refused_with_a_sentence(
    section: str, change: dict[str, str], says: str, owner: Client
) -> None:
    url = f"/kit/section/{section}/new/"
    form = opened(owner, url) | {"code": "one"} | {k: str(v) for k, v in cast.LEAST[section].items()} | change
    answer = owner.post(url, form)
    assert answer.status_code == 200
    assert says in answer.content.decode()
    assert not KitItem.objects.exists()


@pytest.mark.django_db
def test_the_first_save_of_a_piece_wins(owner: Client) -> None:
    cast.make_kit("modifiers", "octa150-1")
    url = "/kit/octa150-1/edit/"
    first, second = opened(owner, url), opened(owner, url)
    assert owner.post(url, first | {"loss_stops": "2.8"}).status_code == 302
    page = owner.post(url, second | {"loss_stops": "3"}).content.decode()
    assert "Somebody else saved this" in page
    assert Modifier.objects.get().loss_stops == 2.8
    assert owner.post(url, fields(page)).status_code == 302
    assert Modifier.objects.get().loss_stops == 3.0


@pytest.mark.django_db
def test_unknown_pieces_and_sections_are_not_found(owner: Client) -> None:
    for url in ("/kit/nothing/", "/kit/nothing/edit/", "/kit/section/lamps/new/"):
        assert owner.get(url).status_code == 404


@pytest.mark.django_db
@pytest.mark.parametrize("junk", [{}, {"code": "\x00", "mass_kg": "inf", "light": "dark", "version": "-9" * 40}])
def test_junk_is_refused_and_never_breaks_the_page(owner: Client, junk: dict[str, str]) -> None:
    cast.make_kit("heads", "h400-1")
    for url in ("/kit/section/heads/new/", "/kit/h400-1/edit/"):
        assert owner.post(url, junk).status_code == 200
    assert Head.objects.get().version == 1


@pytest.mark.django_db
def test_the_list_asks_no_more_for_more_kit(
    owner: Client, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    for _ in range(5):
        for section in KIT:
            cast.make_kit(section)
    with django_assert_max_num_queries(9):
        owner.get("/kit/")


def test_a_number_is_written_as_a_person_writes_it() -> None:
    assert [plain(n) for n in (9.0, 0.0006, 0.000001, 2.65, 10_000_000, -1.5)] == [
        "9", "0.0006", "0.000001", "2.65", "10000000", "-1.5",
    ]  # fmt: skip


def entered(owner: Client, section: str, **values: object) -> str:
    """The page after a new piece is posted: the errors beside its fields, or nothing when it was kept."""
    url = f"/kit/section/{section}/new/"
    form = opened(owner, url) | {"code": "new-1"}
    form |= {k: str(v) for k, v in (cast.LEAST[section] | values).items()}
    answer = owner.post(url, form)
    return "" if answer.status_code == 302 else answer.content.decode()


@pytest.mark.django_db
def test_a_modifier_that_gives_more_light_than_the_tube_is_refused_beside_its_loss(owner: Client) -> None:
    cast.make_kit("heads", "h400-1", energy_ws=400)
    page = entered(owner, "modifiers", loss_stops=0)
    # By hand: f/64 is 250 x 64^2/100 = 10,240 lx s; a disc 1.5 m across has A/F = pi (1 + 0.75^2) = 4.909 m2, so
    # 50,266 lm s of the 24,000 that 400 Ws x 60 lm/W make: 1.07 stops too much.
    assert "the loss is at least 1.1 stops" in page
    assert "400 Ws head (h400-1)" in page
    assert "24,000 lumen seconds" in page
    assert page.index('name="loss_stops"') < page.index("the loss is at least") < page.index('name="mount"')
    assert not Modifier.objects.exists()
    assert entered(owner, "modifiers", loss_stops=1.1) == ""


@pytest.mark.django_db
def test_a_head_that_gives_more_light_than_its_energy_is_refused_beside_its_number(owner: Client) -> None:
    cast.make_kit("modifiers", "octa150-1", loss_stops=1.1)
    page = entered(owner, "heads", energy_ws=100)
    # By hand: 100 Ws make 6,000 lm s; f/64 less 1.1 stops asks 23,450: 1.966 stops too much, f/64 / 2^0.983 = f/32.4
    assert "f/32.3 at most" in page
    assert "150 cm octabox (octa150-1)" in page
    assert not Head.objects.exists()
    assert entered(owner, "heads", energy_ws=100, f_number_1m_iso100=32.3) == ""


@pytest.mark.django_db
def test_a_ring_that_joins_an_impossible_pair_is_refused(owner: Client) -> None:
    cast.make_kit("modifiers", "octa150-1", loss_stops=0)
    cast.make_kit("heads", "h400-1", energy_ws=400, mount="bayonet P")
    assert "mend those first" in entered(owner, "adapters")


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("head", "modifier"),
    [
        ({"energy_ws": 400, "mount": "bayonet P"}, {"loss_stops": 0}),  # they do not mount
        ({}, {"loss_stops": 0}),  # the energy is not known
        ({"energy_ws": 400}, {"loss_stops": 0, "kind": "dish"}),  # a dish may gather light to its axis
        ({"light": "steady", "lux_1m": 99999, "energy_ws": 1}, {"loss_stops": 0}),  # no energy is stored for a frame
    ],
)
def test_what_is_possible_or_not_known_is_kept(
    head: dict[str, object], modifier: dict[str, object], owner: Client
) -> None:
    cast.make_kit("heads", "h400-1", **head)
    assert entered(owner, "modifiers", **modifier) == ""


@pytest.mark.django_db
@pytest.mark.parametrize("loss", [0.9, 1.0, 1.1, 1.2])
def test_the_page_refuses_what_a_brief_is_refused_for(loss: float, owner: Client) -> None:
    cast.make_kit("heads", "h400-1", energy_ws=400)
    head = {"id": "h", "light": "flash", "f_number_1m_iso100": 64, "energy_ws": 400, "mount": "bayonet S"}
    front = {"id": "m", "kind": "octabox", "shape": "disc", "diameter_m": 1.5, "loss_stops": loss, "mount": "bayonet S"}
    told = consistency.faults({"kit": {"heads": [head], "modifiers": [front]}})
    refused = any("impossible" in text for _, text in told)
    assert (entered(owner, "modifiers", loss_stops=loss) != "") == refused
