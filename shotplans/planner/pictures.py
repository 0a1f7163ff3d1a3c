"""Which pictures are wanted: each set-up's own, what sentences ask for, and combinations of a family worth proposing.

Belongs here: who is in which picture, in no order of shooting yet. Not here: order and minutes (`shotlist`).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from shotplans.planner import names, relations
from shotplans.planner.brief import Brief, Sitter
from shotplans.planner.relations import Family
from shotplans.planner.words.joined import both
from shotplans.planner.words.poses import PROPOSED
from studio.tongue import gettext as _

Entry = Mapping[str, Any]
CLOSER = 3  # fewer than this out of a group are taken nearer


@dataclass(frozen=True)
class Picture:
    """One picture wanted: `code` says what asks for it (set, asked, proposed), `card` a pose card chosen by hand."""

    setup: str
    who: tuple[str, ...]
    framing: str
    words: str
    must: bool
    code: str = "asked"
    card: str | None = None


@dataclass(frozen=True)
class Cast:
    """The set-ups with the people in them, and who is who."""

    brief: Brief
    setups: Sequence[Entry]
    people: Mapping[str, Sitter]
    in_turn: frozenset[str]

    def members(self, setup: Entry) -> tuple[str, ...]:
        return tuple(p["label"] for p in setup["sitters"])

    @property
    def main(self) -> Entry | None:
        """The set-up with the most people: sentences that name no other are for it."""
        filled = [s for s in self.setups if s["sitters"]]
        return max(filled, key=lambda s: len(s["sitters"]), default=None)

    def framing(self, name: str, who: Sequence[str]) -> str:
        """The set-up's; one or two out of a group are taken nearer."""
        asked = str(next(s.framing for s in self.brief.setups if s.name == name))
        return "three_quarter" if asked == "group" and len(who) < CLOSER else asked


def wanted(cast: Cast) -> list[Picture]:
    """The photographer's own list where there is one; else set-ups, sentences and, for a family, its combinations."""
    if cast.brief.shots:
        return list(_own(cast))
    named = [s["name"] for s in cast.setups if _names(cast.brief.must, s)]
    main = cast.main
    found: list[Picture] = []
    for setup in cast.setups:
        everybody, name = cast.members(setup), setup["name"]
        if name in cast.in_turn:
            found += _in_turn(cast, setup)
        elif everybody and name not in named and not (setup is main and cast.brief.must):
            found.append(Picture(name, everybody, cast.framing(name, everybody), "", True, "set"))
    sentences = [(str(s), True) for s in cast.brief.must] + [(str(s), False) for s in cast.brief.wished]
    for sentence, must in sentences:
        if not _said_in_turn(cast, sentence, must):
            found += _asked(cast, sentence, must)
    if _lists_combinations(cast):
        found += proposals(cast, found)
    return _once(found)


def _in_turn(cast: Cast, setup: Entry) -> Iterator[Picture]:
    """One of each; what must be and names nobody (a reference frame first) is said to the first of them."""
    name, everybody = setup["name"], cast.members(setup)
    said = " ".join(str(s) for s in cast.brief.must if setup is cast.main and _said_in_turn(cast, str(s), True))
    for n, who in enumerate(everybody):
        yield Picture(name, (who,), cast.framing(name, (who,)), "" if n else said, True, "set")


def _said_in_turn(cast: Cast, sentence: str, must: bool) -> bool:
    """Whether a sentence is for all who come in turn, and so no picture of all of them at once."""
    main = cast.main
    if main is None or main["name"] not in cast.in_turn or not must:
        return False
    who = cast.members(main)
    other = any(s is not main and _names((sentence,), s) for s in cast.setups)
    return not other and len(picked(sentence, who, relations.family(()))[0][0]) == len(who)


def proposals(cast: Cast, listed: Sequence[Picture]) -> list[Picture]:
    """What is worth taking beside what is listed: a family's combinations, or another mood and framing."""
    main = cast.main
    if main is None or main["name"] in cast.in_turn:
        return []
    who = cast.members(main)
    people = [cast.people[w] for w in who]
    known = relations.family(people)
    taken = {(p.setup, frozenset(p.who)) for p in listed}
    if len(who) > 2:
        found = [Picture(main["name"], w, cast.framing(main["name"], w), words, False, "proposed")
                 for w, words in combinations(known, who) if (main["name"], frozenset(w)) not in taken]  # fmt: skip
        return _once(found)
    said = " ".join(p.words for p in listed).casefold()
    codes = _moods(cast.brief, len(who))
    framing = cast.framing(main["name"], who)
    return [Picture(main["name"], who, framing, _(PROPOSED[c]), False, "proposed") for c in codes if not _has(c, said)]


def combinations(known: Family, who: Sequence[str]) -> list[tuple[tuple[str, ...], str]]:
    """Every sensible set of a family with its words: all, the young, households, the old, the old with the young,
    brothers and sisters, couples."""
    if not known.is_family:
        return []
    old = known.grandparents
    young = tuple(w for w in known.generations[-1] if w in known.children) if known.generations else ()
    found: list[tuple[tuple[str, ...], str]] = [(tuple(who), _(PROPOSED["everyone"]))]
    if len(young) > 1:
        found.append((young, _(PROPOSED["grandchildren" if old else "children"])))
    if len(known.households) > 1:
        found += [(w, _(PROPOSED["household"]).format(name=n)) for n, w in known.households if len(w) > 1]
    if len(old) > 1:
        found.append((old, _(PROPOSED["oldest"])))
    if old and young:
        together = {*old, *young}
        found.append((tuple(w for w in who if w in together), _(PROPOSED["with_grandchildren"])))
    if known.siblings:
        found.append((known.siblings, _(PROPOSED["siblings"]).format(names=both(known.siblings))))
    found += [(c, _(PROPOSED["couple"]).format(names=both(c))) for c in known.couples if len(who) > 2]
    return found


def picked(sentence: str, who: Sequence[str], known: Family) -> list[tuple[tuple[str, ...], str]]:
    """The people a sentence speaks of, once for each picture it asks for; everybody where it names nobody."""
    said = sentence.casefold()
    if re.search(r"\b(each|every|both) household|\bhouseholds\b", said) and known.households:
        return [(w, _(PROPOSED["household"]).format(name=n)) for n, w in known.households]
    found = {w for w in who if names.has(said, w)}
    young = set(known.generations[-1]) & set(known.children) if known.generations else set()
    old, named = set(known.grandparents), bool(found)
    if "grandchildren" in said or (re.search(r"\bchildren\b", said) and not named):
        found |= young
    if "grandparents" in said:
        found |= old or (set(known.generations[0]) if known.generations else set())
    if re.search(r"\bleaders\b", said):
        found |= set(known.leaders)
    if re.search(r"\bparents\b", said):
        found |= _parents(found, known) if named else _elders(known)
    for name, members in known.households:
        if names.has(said, name):
            found |= set(members)
    return [(tuple(w for w in who if w in found) or tuple(who), sentence)]


def _parents(named: set[str], known: Family) -> set[str]:
    """The generation before the oldest of those named."""
    for n, generation in enumerate(known.generations):
        if named & set(generation):
            return set(known.generations[n - 1]) if n else set()
    return set()


def _elders(known: Family) -> set[str]:
    """Whoever is of the generation before the children."""
    return set(known.generations[-2]) if len(known.generations) > 1 else set()


def _asked(cast: Cast, sentence: str, must: bool) -> Iterator[Picture]:
    main = cast.main
    setup = next((s for s in cast.setups if s is not main and s["sitters"] and _names((sentence,), s)), main)
    if setup is None or not setup["sitters"]:
        return
    who = cast.members(setup)
    known = relations.family([cast.people[w] for w in who])
    for people, words in picked(sentence, who, known):
        yield Picture(setup["name"], people, cast.framing(setup["name"], people), words, must)


def _own(cast: Cast) -> Iterator[Picture]:
    """The photographer's rows; a row without a set-up goes to the first that holds its people."""
    for row in cast.brief.shots:
        who = tuple(w for w in cast.people if w in row.who)
        named = [s for s in cast.setups if s["name"] == row.setup]
        holds = [s for s in cast.setups if set(who) <= set(cast.members(s)) and s["sitters"]]
        setup = next(iter([*named, *holds, *([cast.main] if cast.main else [])]), None)
        if setup is None or not (who or setup["sitters"]):
            continue
        people = who or cast.members(setup)
        framing = str(row.framing or cast.framing(setup["name"], people))
        yield Picture(setup["name"], people, framing, row.words, bool(row.must), "asked", row.card)


def _names(sentences: Sequence[str], setup: Entry) -> bool:
    """Whether a sentence begins with or is the name of a set-up."""
    name = str(setup["name"]).casefold()
    return any(str(s).casefold().removesuffix(".").startswith(name) for s in sentences)


def _lists_combinations(cast: Cast) -> bool:
    main = cast.main
    asked = bool(cast.brief.must or cast.brief.wished)
    return asked and main is not None and relations.family([cast.people[w] for w in cast.members(main)]).is_family


def _moods(brief: Brief, count: int) -> tuple[str, ...]:
    if count > 1:
        return ("look", "each_other", "listening", "laugh", "hands", "tighter")
    page = brief.copy_space in ("left", "right")
    if brief.standard is not None:
        return ("look", "approachable")
    return ("look", "laugh", "tighter", "looser", "hands", "profile", *(("words",) if page else ()))


HINTS = {"each_other": "each other", "tighter": "tight", "looser": "room around", "hands": "hands", "look": "lens",
         "approachable": "second", "listening": "listening", "laugh": "laugh", "profile": "profile",
         "words": "words"}  # fmt: skip


def _has(code: str, said: str) -> bool:
    return HINTS[code] in said or _(PROPOSED[code]).casefold() in said


def _once(found: Sequence[Picture]) -> list[Picture]:
    """The same people by a household's name and by their own are one picture: the sentence stays, a must stays one."""
    kept: list[Picture] = []
    for one in found:
        same = next((n for n, p in enumerate(kept) if _alike(p, one)), None)
        if same is None:
            kept.append(one)
            continue
        first = kept[same]
        words = one.words if _is_household(first) and not _is_household(one) else first.words
        kept[same] = replace(first, words=words, must=first.must or one.must)
    return kept


def _alike(a: Picture, b: Picture) -> bool:
    if (a.setup, set(a.who)) != (b.setup, set(b.who)):
        return False  # one sentence written twice asks for two pictures
    return _is_household(a) or _is_household(b) or "proposed" in (a.code, b.code)


def _is_household(picture: Picture) -> bool:
    start, end = _(PROPOSED["household"]).split("{name}")
    return picture.words.startswith(start) and picture.words.endswith(end) and bool(picture.words)
