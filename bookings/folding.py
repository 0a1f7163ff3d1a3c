"""Text as it is looked for. Belongs here: names without accents and case, telephone numbers as digits, and whether two
of them are the same. Pure: both databases then compare the same plain text. Not here: looking (`find`)."""

from __future__ import annotations

import unicodedata

# Letters that Unicode does not take apart, as people without them on their keys write them; the dotless i and the
# curled apostrophes by number, for they look like what they stand for.
_PLAIN = str.maketrans(
    {"ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ħ": "h"}
    | {"\u0131": "i", "\u2019": "'", "\u02bc": "'"}
)
_UNSEEN = {"Cc", "Cf", "Cs"}
_OF_NUMBERS = frozenset("+-/.() ")
# The shortest numbers a country dials have seven digits (value from memory): so many are compared from behind, for
# what stands before them may be a zero or the code of a country.
SAME_DIGITS = 7


def fold(text: str) -> str:
    """Lower case, without accents, points and whatever is not seen, words one blank apart."""
    apart = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).casefold())
    kept = "".join(letter for letter in apart if letter.isspace() or not _left_out(letter))
    return " ".join(kept.translate(_PLAIN).split())


def _left_out(letter: str) -> bool:
    return bool(unicodedata.combining(letter)) or unicodedata.category(letter) in _UNSEEN


def digits(text: str) -> str:
    """The digits alone, whatever script they are written in."""
    return "".join(str(unicodedata.decimal(letter)) for letter in text if unicodedata.decimal(letter, None) is not None)


def is_number(text: str) -> bool:
    """Whether somebody typed a part of a telephone number and nothing else."""
    folded = fold(text)
    return len(digits(folded)) >= 3 and all(letter in _OF_NUMBERS or letter.isdecimal() for letter in folded)


def number_key(text: str) -> str:
    """What two writings of one telephone number have in common."""
    return digits(text)[-SAME_DIGITS:]


def searched(name: str, email: str, phone: str) -> str:
    """One text a client is found by, a line each: every word begins after a blank, the number is one word."""
    return f"{name_line(name)}{email_line(email)} {digits(phone)}"


def name_line(name: str) -> str:
    return f" {fold(name)} \n"


def email_line(email: str) -> str:
    return f" {fold(email)} \n"


def words_line(text: str) -> str:
    """Words as they are looked for, each after a blank; nothing where there are none."""
    folded = fold(text)
    return f" {folded} " if folded else ""


def phrases(folded: str) -> list[str]:
    """What stands in a line that is meant: every word, one of two letters where a word begins; a number is one word
    however it is spaced, and its end is enough. None is shorter than three letters, which an index wants."""
    if is_number(folded):
        number = digits(folded)
        return [number if len(number) < SAME_DIGITS else number_key(number)]
    words = [word if len(word) > 2 else f" {word}" for word in folded.split() if len(word) > 1]
    return words or ([f" {folded}"] if len(folded) > 1 else [])
