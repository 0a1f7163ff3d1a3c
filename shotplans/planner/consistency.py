"""What the classes cannot say of one value alone. Belongs here: labels unique and existing, minimum before
maximum, a flash with its f-number, light that is possible. It reads the raw tree, so that every fault is
found at once."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Any

from shotplans.light.heads import LUMENS_PER_WATT, flash_exposure_1m_lxs, full_power_limit_lxs
from shotplans.light.sources import disc_factor, rect_factor
from shotplans.planner.json_text import Fault, Path, spelt
from shotplans.planner.kit import Kit
from shotplans.planner.rules import RULES, House, crossed
from shotplans.planner.words.faults import RATED, REPEATED, SECOND, SIZED, UNKNOWN
from studio.tongue import gettext as _

Entry = dict[str, Any]
DIFFUSE = ("octabox", "box", "strip", "umbrella_through", "umbrella_back", "lantern")
MOST_SETTINGS = 10_000
KIT_LISTS = tuple(Kit.model_fields)
ORDERED = (
    (("kit", "lenses"), "min_focal_mm", "max_focal_mm"),
    (("kit", "lenses"), "max_aperture", "min_aperture"),
    (("kit", "cameras"), "base_iso", "max_iso"),
    (("kit", "stands"), "min_height_m", "max_height_m"),
)


def faults(tree: Any) -> list[Fault]:
    """Every fault that lies between values; parts that are not there or of another type are passed over."""
    return [fault for check in CHECKS for fault in check(tree)]


def _at(tree: Any, *keys: str) -> Any:
    for key in keys:
        tree = tree.get(key) if isinstance(tree, dict) else None
    return tree


def _entries(tree: Any, *keys: str) -> Iterator[tuple[Path, Entry]]:
    found = _at(tree, *keys)
    for i, entry in enumerate(found if isinstance(found, list) else ()):
        if isinstance(entry, dict):
            yield (*keys, i), entry


def _number(entry: Entry, key: str) -> float | None:
    value = entry.get(key)
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def _text(entry: Entry, key: str) -> str | None:
    value = entry.get(key)
    return value if isinstance(value, str) else None


def _known(tree: Any, key: str, *keys: str) -> list[str]:
    return [name for _path, entry in _entries(tree, *keys) if (name := _text(entry, key)) is not None]


def _repeated(named: Iterator[tuple[Path, str]], what: str) -> Iterator[Fault]:
    first: dict[str, Path] = {}
    for path, name in named:
        if name in first:
            yield path, _(REPEATED[what]).format(name=spelt(name))
        first.setdefault(name, path)


def _labels_are_different(tree: Any) -> Iterator[Fault]:
    for keys, key, what in (
        (("brief", "setups"), "name", "name"),
        (("sitters",), "label", "label"),
        (("room", "circuits"), "label", "label"),
    ):
        named = ((path, _text(entry, key)) for path, entry in _entries(tree, *keys))
        yield from _repeated(_with(named, key), what)
    every = ((path, _text(entry, "id")) for part in KIT_LISTS for path, entry in _entries(tree, "kit", part))
    yield from _repeated(_with(every, "id"), "id")


def _with(named: Iterator[tuple[Path, str | None]], key: str) -> Iterator[tuple[Path, str]]:
    return (((*path, key), name) for path, name in named if name is not None)


def _labels_exist(tree: Any) -> Iterator[Fault]:
    people = _known(tree, "label", "sitters")
    for path, setup in _entries(tree, "brief", "setups"):
        named = setup.get("people")
        texts = [(i, n) for i, n in enumerate(named if isinstance(named, list) else ()) if isinstance(n, str)]
        for i, name in texts:
            if name not in people:
                yield (*path, "people", i), _unknown(name, "sitter", people)
        yield from _repeated((((*path, "people", i), name) for i, name in texts), "sitter")
    arrangements = _known(tree, "name", "brief", "setups")
    for path, shot in _entries(tree, "brief", "shots"):
        named, setup_name = shot.get("who"), _text(shot, "setup")
        for i, name in enumerate(named if isinstance(named, list) else ()):
            if isinstance(name, str) and name not in people:
                yield (*path, "who", i), _unknown(name, "sitter", people)
        if setup_name is not None and setup_name not in arrangements:
            yield (*path, "setup"), _unknown(setup_name, "set-up", arrangements)
    for path, sitter in _entries(tree, "sitters"):
        other = _text(sitter, "keep_with")
        others = [label for label in people if label != sitter.get("label")]
        if other is not None and other not in others:
            yield (*path, "keep_with"), _unknown(other, "other sitter", others)
    for of in SECOND:
        yield from _of_pairs(tree, of)


def _of_pairs(tree: Any, of: str) -> Iterator[Fault]:
    """What is known of a head with a modifier: of those that are there, and once."""
    heads, modifiers = _known(tree, "id", "kit", "heads"), _known(tree, "id", "kit", "modifiers")
    pairs: set[tuple[str, str]] = set()
    for path, correction in _entries(tree, of):
        head, modifier = _text(correction, "head"), _text(correction, "modifier")
        if head is not None and head not in heads:
            yield (*path, "head"), _unknown(head, "head", heads)
        if modifier is not None and modifier not in modifiers:
            yield (*path, "modifier"), _unknown(modifier, "modifier", modifiers)
        if head is not None and modifier is not None:
            if (head, modifier) in pairs:
                yield path, _(SECOND[of]).format(head=spelt(head), modifier=spelt(modifier))
            pairs.add((head, modifier))


def _unknown(name: str, what: str, known: list[str], of: str = "") -> str:
    shown = ", ".join(known[:20]) + (", ..." if len(known) > 20 else "")
    some, none = UNKNOWN[what]
    return (_(some) if known else _(none)).format(name=spelt(name), known=shown, of=of)


def _minimum_comes_first(tree: Any) -> Iterator[Fault]:
    for keys, low, high in ORDERED:
        for path, entry in _entries(tree, *keys):
            a, b = _number(entry, low), _number(entry, high)
            if a is not None and b is not None and a > b:
                yield (
                    (*path, low),
                    _("{low} is more than {key} {high}, expected at most {key}").format(
                        low=f"{a:g}", key=high, high=f"{b:g}"
                    ),
                )


def _numbers_that_go_together(tree: Any) -> Iterator[Fault]:
    for path, head in _entries(tree, "kit", "heads"):
        needed = {"flash": "f_number_1m_iso100", "steady": "lux_1m"}.get(str(head.get("light")))
        if needed is not None and head.get(needed) is None:
            yield (*path, needed), _(RATED[head["light"]])
        yield from _dial(path, head)
    for path, modifier in _entries(tree, "kit", "modifiers"):
        sizes = {"disc": ("diameter_m",), "rect": ("width_m", "height_m")}.get(str(modifier.get("shape")), ())
        for key in sizes:
            if modifier.get(key) is None:
                yield (*path, key), _(SIZED[modifier["shape"]])


def _dial(path: Path, head: Entry) -> Iterator[Fault]:
    dial = head.get("dial")
    if not isinstance(dial, dict):
        return
    step = _number(dial, "step")
    by_energy = dial.get("scale") == "watt_seconds"
    span = _number(head, "energy_ws" if by_energy else "range_stops")
    if by_energy and head.get("energy_ws") is None:
        yield (*path, "energy_ws"), _("missing, expected a number: the dial counts watt-seconds")
    if step is not None and span is not None and step > 0 and span / step > MOST_SETTINGS:
        said = _("{step} makes {count} settings of {span}, expected at most {most}").format(
            step=f"{step:g}", count=f"{span / step:,.0f}", span=f"{span:g}", most=f"{MOST_SETTINGS:,}"
        )
        yield (*path, "dial", "step"), said


def _rules_are_there(tree: Any) -> Iterator[Fault]:
    """A studio's own numbers: of rules that exist, each within its range and once, a lower end under its upper one."""
    kept: dict[tuple[str, str], float] = {}
    places: dict[tuple[str, str], Path] = {}
    for path, change in _entries(tree, "rules"):
        rule, name, value = _text(change, "rule"), _text(change, "number"), _number(change, "value")
        if rule is None or name is None or value is None:
            continue
        if rule not in RULES:
            yield (*path, "rule"), _unknown(rule, "rule", list(RULES))
        elif name not in RULES[rule].numbers:
            yield (*path, "number"), _unknown(name, "number", list(RULES[rule].numbers), spelt(rule))
        elif (rule, name) in kept:
            said = _("a second value for {name} of {rule}, expected one")
            yield path, said.format(name=spelt(name), rule=spelt(rule))
        else:
            number = RULES[rule].numbers[name]
            if not number.low <= value <= number.high:
                said = _("is {value}, expected {low} to {high} {unit}").format(
                    value=f"{value:g}", low=f"{number.low:g}", high=f"{number.high:g}", unit=number.unit
                )
                yield (*path, "value"), said
            kept[rule, name], places[rule, name] = value, path
    for rule, low, high in crossed(House(kept)):
        at = places.get((rule, low)) or places[rule, high]
        said = _("puts {low} of {rule} above {high}, expected at most that")
        yield (*at, "value"), said.format(low=spelt(low), rule=spelt(rule), high=spelt(high))


def _light_is_possible(tree: Any) -> Iterator[Fault]:
    """H A / F against the stored energy, for each flash and each diffuse front that can be mounted on it."""
    rings = {(_text(ring, "from"), _text(ring, "to")) for _path, ring in _entries(tree, "kit", "adapters")}
    heads = [head for _path, head in _entries(tree, "kit", "heads") if head.get("light") == "flash"]
    for path, modifier in _entries(tree, "kit", "modifiers"):
        front = _front(modifier)
        loss = _number(modifier, "loss_stops")
        if modifier.get("kind") not in DIFFUSE or front is None or loss is None:
            continue
        said: set[str] = set()  # heads of the same make fail alike: once is enough
        for head in heads:
            on, to = _text(head, "mount"), _text(modifier, "mount")
            if on == to or (on, to) in rings:
                text = _impossible(head, loss, *front)
                if text is not None and text not in said:
                    said.add(text)
                    with_head = _("with head {head} {impossible}").format(
                        head=spelt(str(head.get("id"))), impossible=text
                    )
                    yield (*path, "loss_stops"), with_head


def _front(modifier: Entry) -> tuple[float, float] | None:
    """Area in m2 and configuration factor at 1 m on the axis."""
    if modifier.get("shape") == "disc":
        across = _number(modifier, "diameter_m")
        if across is None or not 0 < across <= 100:
            return None
        return math.pi * across**2 / 4, float(disc_factor(1.0, across))
    wide, high = _number(modifier, "width_m"), _number(modifier, "height_m")
    if wide is None or high is None or not (0 < wide <= 100 and 0 < high <= 100):
        return None
    return wide * high, float(rect_factor(1.0, wide, high))


def _impossible(head: Entry, loss: float, area: float, factor: float) -> str | None:
    n, energy = _number(head, "f_number_1m_iso100"), _number(head, "energy_ws")
    if n is None or energy is None or not (0 < n <= 1000 and 0 < energy <= 100_000 and -10 <= loss <= 20):
        return None
    light = float(flash_exposure_1m_lxs(n, loss))
    if light <= float(full_power_limit_lxs(energy, area, factor)):
        return None
    claimed, stored = light * area / factor, energy * LUMENS_PER_WATT
    least = loss + math.ceil(10 * math.log2(claimed / stored)) / 10
    return _(
        "that light is impossible: f/{n} less {loss} stops is H = {light} lx s at 1 m; H x A / F = {light} x {area} m2 "
        "/ {factor} = {claimed} lm s, and {energy} Ws x {per_watt} lm/W = {stored} lm s; expected a loss of at least "
        "{least} stops"
    ).format(
        n=f"{n:g}", loss=f"{loss:g}", light=f"{light:,.0f}", area=f"{area:.3f}", factor=f"{factor:.3f}",
        claimed=f"{claimed:,.0f}", energy=f"{energy:g}", per_watt=f"{LUMENS_PER_WATT:g}", stored=f"{stored:,.0f}",
        least=f"{least:.1f}",
    )  # fmt: skip


CHECKS: tuple[Callable[[Any], Iterator[Fault]], ...] = (
    _labels_are_different,
    _labels_exist,
    _minimum_comes_first,
    _numbers_that_go_together,
    _rules_are_there,
    _light_is_possible,
)
