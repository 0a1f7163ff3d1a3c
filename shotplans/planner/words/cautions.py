"""The usual cautions, each said where a plan raises it."""

from __future__ import annotations

CAUTIONS: dict[str, str] = {
    "stands": "Stands: a leg under the load, a sandbag on it; makers' instructions come first.",
    "boom": "Boom: counterweight before the arm goes out, safety cord, end flagged, never over a sitter unless secured.",
    "cables": "Cables flat, taped or covered, away from the sitter's path, a loop at each stand's foot.",
    "flash": "Flash: ask about flashing light before the sitting; no bursts above three a second. Medical advice is the "
    "sitter's own clinician's.",
    "no_flash": "No flash for anyone who asked for none: flash heads off at the wall and triggers out; steady light proved flicker-free at "
    "the shutter used.",
    "hot": "Modelling and steady lamps are hot: nothing of cloth or paper on them, cool before packing; {modifier} takes at "
    "most {watts} W.",
    "load": "Flash heads draw several times their average while recycling: stagger them; local electrical rules and licensed "
    "people come first.",
    "older": "Older sitters: firm chair with arms, dry floor, help offered not imposed, seated first; nothing boomed overhead.",
    "infant": "Infants and toddlers: an adult within arm's reach, nothing boomed overhead, nothing to climb.",
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
    "flicker": "{head} is not known to be free of flicker: try it at the shutter used before the sitter comes.",
    "dark": "House lights full until everybody is seated.",
}
