"""What is wrong between values of an input, and what is expected: told by path, one line a fault."""

from __future__ import annotations

from studio.tongue import noop

REPEATED = {
    "name": noop("{name} is a name that is already given, expected a different one for each"),
    "label": noop("{name} is a label that is already given, expected a different one for each"),
    "id": noop("{name} is an id that is already given, expected a different one for each"),
    "sitter": noop("{name} is a sitter that is already given, expected a different one for each"),
}
UNKNOWN: dict[str, tuple[str, str]] = {
    "sitter": (
        noop("{name} is no sitter, expected one of {known}"),
        noop("{name} is no sitter, expected none: there is no sitter"),
    ),
    "set-up": (
        noop("{name} is no set-up, expected one of {known}"),
        noop("{name} is no set-up, expected none: there is no set-up"),
    ),
    "other sitter": (
        noop("{name} is no other sitter, expected one of {known}"),
        noop("{name} is no other sitter, expected none: there is no other sitter"),
    ),
    "head": (
        noop("{name} is no head, expected one of {known}"),
        noop("{name} is no head, expected none: there is no head"),
    ),
    "modifier": (
        noop("{name} is no modifier, expected one of {known}"),
        noop("{name} is no modifier, expected none: there is no modifier"),
    ),
    "rule": (
        noop("{name} is no rule, expected one of {known}"),
        noop("{name} is no rule, expected none: there is no rule"),
    ),
    "number": (
        noop("{name} is no number of {of}, expected one of {known}"),
        noop("{name} is no number of {of}, expected none: there is no number of {of}"),
    ),
}
SECOND = {
    "corrections": noop("a second correction of {head} with {modifier}, expected one a pair"),
    "beams": noop("a second measured beam of {head} with {modifier}, expected one a pair"),
}
RATED = {
    "flash": noop("missing, expected a number: a flash head is rated by it"),
    "steady": noop("missing, expected a number: a steady head is rated by it"),
}
SIZED = {
    "disc": noop("missing, expected a number: a disc is sized by it"),
    "rect": noop("missing, expected a number: a rect is sized by it"),
}
