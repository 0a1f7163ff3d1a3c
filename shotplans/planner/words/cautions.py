"""The usual cautions, each said where a plan raises it, with its number where it has one."""

from __future__ import annotations

from studio.tongue import noop

CAUTIONS: dict[str, str] = {
    "stands": noop(
        "Stands: a leg under the load, a sandbag on the column ({bag} kg at least for light {letter}); makers' "
        "instructions come first."
    ),
    "falling": noop("A light that falls is let fall: move people, not hands; the heaviest here is {kg} kg."),
    "lifting": noop("{kg} kg is a load for two or a trolley: look at the way first."),
    "boom": noop(
        "Boom: {weight} kg on its short end before the arm goes out, not at the height of faces; safety cord, end flagged, "
        "never over a sitter unless secured."
    ),
    "cables": noop("Cables flat, taped or covered, away from the sitter's path, a loop at each stand's foot."),
    "low_ceiling": noop(
        "The ceiling leaves {gap} cm over light {letter}: raise it slowly, with somebody watching its top."
    ),
    "flash": noop(
        "Flash: ask about flashing light before the sitting; no bursts above three a second. Medical advice is the "
        "sitter's own clinician's."
    ),
    "no_flash": noop(
        "No flash for anyone who asked for none: flash heads off at the wall and triggers out; steady light proved flicker-free at "
        "the shutter used."
    ),
    "hot": noop(
        "Modelling and steady lamps are hot: nothing of cloth or paper on them, cool before packing; {modifier} takes at "
        "most {watts} W, the lamp of {head} has {lamp} W."
    ),
    "hot_near": noop(
        "The lamp of light {letter} comes within {distance} m of {what}: a lamp that runs hot wants {clear} m from cloth, "
        "paper and people."
    ),
    "load": noop(
        "Flash heads draw several times their average while recycling: {peak} A at once on {circuit}. Local electrical rules "
        "and licensed people come first."
    ),
    "stagger": noop(
        "{circuit} would see {peak} A with all its heads recycling at once, more than its breaker's {breaker} A: let them recycle "
        "one after the other, then it is {staggered} A."
    ),
    "load_unknown": noop(
        "The room's circuits are not known: the heads draw {watts} W together and up to {peak} A while recycling; ask "
        "what each socket hangs on."
    ),
    "battery": noop(
        "Light {letter} lives on a battery: a charge is good for about {frames} frames at this power; the spare stays in reach, "
        "charged."
    ),
    "recycle": noop("Light {letter} is ready again {ready} s after a frame: wait for it, or the next frame is dark."),
    "older": noop(
        "Older sitters: firm chair with arms, its seat 45 to 48 cm high, dry floor, help offered not imposed, seated first; nothing "
        "boomed overhead."
    ),
    "infant": noop(
        "Infants and toddlers: an adult within arm's reach, a warm room with the heater away, nothing boomed overhead, nothing to "
        "climb."
    ),
    "children": noop(
        "Children in the picture: {clear} m at least between them and a lamp that runs hot, stands bagged before they come in, "
        "a grown-up beside the set."
    ),
    "wheelchair": noop(
        "A wheelchair in the picture: a clear way of 0.9 m to the mark and 1.5 m to turn, no cable across it; nobody leans on "
        "the chair or moves it unasked."
    ),
    "haze": noop(
        "Haze, flame and blades: a written plan, the least that reads, air in and out, the owner of the alarm told, no detector "
        "switched off, a look at the floor for slipping; edges blunt."
    ),
    "panel": noop("Panels catch people and draughts: weight their stands."),
    "hearing": noop("Light on the photographer's own face, hand signs agreed before, everybody faced when spoken to."),
    "low_vision": noop(
        "House lights full until seated, the path clear, the set described; an arm offered, never taken."
    ),
    "tremor": noop("Hands rest on a base; a short exposure freezes what still moves."),
    "sensory": noop("A quiet slot, beeps off, the first flash shown beforehand, a pause whenever it is asked for."),
    "standing": noop("Standing pictures last and short: {minutes} minutes at most, a chair beside the set."),
    "light_clothes": noop("Light clothes: feather or flag the key off the cloth, and keep it under clipping."),
    "shiny_clothes": noop("Shiny cloth or metal: look for hot spots in the test frame, flag them."),
    "pattern": noop("Fine stripes or bold patterns: look at the test frame, have a plain second piece ready."),
    "bare_arms": noop("Bare arms: the arm away from the key, angled, so that the face stays the lightest place."),
    "dark": noop("House lights full until everybody is seated."),
}
