"""The usual cautions, each said where a plan raises it, with its number where it has one."""

from __future__ import annotations

CAUTIONS: dict[str, str] = {
    "stands": "Stands: a leg under the load, a sandbag on the column ({bag} kg at least for light {letter}); makers' "
    "instructions come first.",
    "falling": "A light that falls is let fall: move people, not hands; the heaviest here is {kg} kg.",
    "lifting": "{kg} kg is a load for two or a trolley: look at the way first.",
    "boom": "Boom: {weight} kg on its short end before the arm goes out, not at the height of faces; safety cord, end flagged, "
    "never over a sitter unless secured.",
    "cables": "Cables flat, taped or covered, away from the sitter's path, a loop at each stand's foot.",
    "low_ceiling": "The ceiling leaves {gap} cm over light {letter}: raise it slowly, with somebody watching its top.",
    "flash": "Flash: ask about flashing light before the sitting; no bursts above three a second. Medical advice is the "
    "sitter's own clinician's.",
    "no_flash": "No flash for anyone who asked for none: flash heads off at the wall and triggers out; steady light proved flicker-free at "
    "the shutter used.",
    "hot": "Modelling and steady lamps are hot: nothing of cloth or paper on them, cool before packing; {modifier} takes at "
    "most {watts} W, the lamp of {head} has {lamp} W.",
    "hot_near": "The lamp of light {letter} comes within {distance} m of {what}: a lamp that runs hot wants {clear} m from cloth, "
    "paper and people.",
    "load": "Flash heads draw several times their average while recycling: {peak} A at once on {circuit}. Local electrical rules "
    "and licensed people come first.",
    "stagger": "{circuit} would see {peak} A with all its heads recycling at once, more than its breaker's {breaker} A: let them recycle "
    "one after the other, then it is {staggered} A.",
    "load_unknown": "The room's circuits are not known: the heads draw {watts} W together and up to {peak} A while recycling; ask "
    "what each socket hangs on.",
    "battery": "Light {letter} lives on a battery: a charge is good for about {frames} frames at this power; the spare stays in reach, "
    "charged.",
    "recycle": "Light {letter} is ready again {ready} s after a frame: wait for it, or the next frame is dark.",
    "older": "Older sitters: firm chair with arms, its seat 45 to 48 cm high, dry floor, help offered not imposed, seated first; nothing "
    "boomed overhead.",
    "infant": "Infants and toddlers: an adult within arm's reach, a warm room with the heater away, nothing boomed overhead, nothing to "
    "climb.",
    "children": "Children in the picture: {clear} m at least between them and a lamp that runs hot, stands bagged before they come in, "
    "a grown-up beside the set.",
    "wheelchair": "A wheelchair in the picture: a clear way of 0.9 m to the mark and 1.5 m to turn, no cable across it; nobody leans on "
    "the chair or moves it unasked.",
    "haze": "Haze, flame and blades: a written plan, the least that reads, air in and out, the owner of the alarm told, no detector "
    "switched off, a look at the floor for slipping; edges blunt.",
    "panel": "Panels catch people and draughts: weight their stands.",
    "hearing": "Light on the photographer's own face, hand signs agreed before, everybody faced when spoken to.",
    "low_vision": "House lights full until seated, the path clear, the set described; an arm offered, never taken.",
    "tremor": "Hands rest on a base; a short exposure freezes what still moves.",
    "sensory": "A quiet slot, beeps off, the first flash shown beforehand, a pause whenever it is asked for.",
    "standing": "Standing pictures last and short: {minutes} minutes at most, a chair beside the set.",
    "light_clothes": "Light clothes: feather or flag the key off the cloth, and keep it under clipping.",
    "shiny_clothes": "Shiny cloth or metal: look for hot spots in the test frame, flag them.",
    "pattern": "Fine stripes or bold patterns: look at the test frame, have a plain second piece ready.",
    "bare_arms": "Bare arms: the arm away from the key, angled, so that the face stays the lightest place.",
    "dark": "House lights full until everybody is seated.",
}
