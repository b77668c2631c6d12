"""Wants: short sentences about what somebody would like, read without a syntax to learn.

theme birds and medium linocut, up to 2, dearly
card night-heron or river-fox
maker ines-okafor but not theme cats
birds, linocut, no cats
"""

import unicodedata
from dataclasses import dataclass, field

from swapboard.records.types import Part, Want
from swapboard.records.want_words import KINDS, Token, WantWords, tokens_of
from swapboard.vocabulary import tidy

DEARLY, USUAL, IF_NEED_BE = 3, 2, 1
_MOST_CARDS = 99
_LONGEST = 300
_NUMBERS = {
    word: number
    for number, word in enumerate(
        ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"), start=1
    )
}
_EXCLUDING = (("but", "not"), ("but", "no"), ("and", "not"), ("and", "no"))
_STOPS = frozenset(["or", "and", "but", "not", "no", "dearly", "up", "if", ","])


class _Unreadable(Exception):
    """The sentence does not follow the grammar from here."""


@dataclass(slots=True)
class _Reading:
    """What has been read of a sentence, and the words still to read."""

    tokens: list[Token]
    words: WantWords
    at: int = 0
    all_of: list[Part] = field(default_factory=list)
    none_of: list[Part] = field(default_factory=list)
    up_to: int = 1
    weight: int = USUAL
    said: tuple[str, ...] = ()

    def peek(self, *words: str) -> bool:
        return self.said[self.at : self.at + len(words)] == words

    def take(self, *words: str) -> bool:
        if self.peek(*words):
            self.at += len(words)
            return True
        return False

    @property
    def done(self) -> bool:
        return self.at >= len(self.tokens)


def parse_want(text: str, line: int, words: WantWords) -> Want:
    """A sentence as a want; one that cannot be read keeps its text and is not understood.

    Names are looked up longest first, so that "black and white" may be a theme;
    a bare word is a theme before a medium, a medium before a maker, a maker
    before a card, where names are of one length. A theme named as such
    ("theme dragons") need not be on the board yet.
    """
    shown = tidy(text)
    tokens = tokens_of(unicodedata.normalize("NFC", shown)) if len(shown) <= _LONGEST else []
    reading = _Reading(tokens, words, said=tuple(token.word for token in tokens))
    try:
        _sentence(reading)
    except _Unreadable:
        return Want(shown, line, understood=False)
    return Want(
        shown,
        line,
        tuple(reading.all_of),
        tuple(reading.none_of),
        reading.up_to,
        reading.weight,
    )


def _sentence(reading: _Reading) -> None:
    # How the part before was excluded: "" not at all, "but" after "but not", "no" by itself.
    mode = ""
    while True:
        if not _qualifier(reading):
            mode = _part(reading, mode)
        if reading.done:
            break
        mode = _joint(reading, mode)
    if not reading.all_of:
        if not reading.none_of:
            raise _Unreadable
        reading.all_of.append(Part("anything"))


def _joint(reading: _Reading, mode: str) -> str:
    """Read what stands between two parts; the mode of the next one."""
    comma = reading.take(",")
    if any(reading.take(*words) for words in _EXCLUDING):
        return "but"
    if not comma and reading.take("but"):
        # "anything but cats" can mean only one thing, "birds but cats" nothing.
        if reading.all_of == [Part("anything")]:
            return "but"
        raise _Unreadable
    if _at_qualifier(reading):
        return mode
    if comma and (reading.peek("no") or reading.peek("not")):
        return ""
    # After "but not birds and cats" nobody knows whether cats are wanted.
    if mode == "but" or (mode == "no" and not comma):
        raise _Unreadable
    if not reading.take("and") and not comma:
        raise _Unreadable
    return ""


def _at_qualifier(reading: _Reading) -> bool:
    return reading.peek("dearly") or reading.peek("if", "need", "be") or reading.peek("up", "to")


def _qualifier(reading: _Reading) -> bool:
    if reading.take("dearly"):
        reading.weight = DEARLY
    elif reading.take("if", "need", "be"):
        reading.weight = IF_NEED_BE
    elif reading.peek("up", "to"):
        reading.at += 2
        reading.up_to = _number(reading)
    else:
        return False
    return True


def _number(reading: _Reading) -> int:
    word = "" if reading.done else reading.tokens[reading.at].word
    if word.isascii() and word.isdigit() and len(word) < 4:
        number = int(word)
    else:
        number = _NUMBERS.get(word, 0)
    if not 1 <= number <= _MOST_CARDS:
        raise _Unreadable
    reading.at += 1
    return number


def _part(reading: _Reading, mode: str) -> str:
    """Read one part into the right list; the mode in which it was read."""
    if not mode and (reading.take("no") or reading.take("not")):
        mode = "no"
    into = reading.none_of if mode else reading.all_of
    if reading.take("anything"):
        if mode:
            raise _Unreadable
        into.append(Part("anything"))
        return mode
    # A theme called one, or not wanted, need not be on the board yet.
    free = bool(mode)
    if kind := _kind(reading):
        free = free or kind == "theme"
        names = [_named(reading, kind, free)]
    else:
        kind, name = _bare(reading, free)
        names = [name]
    while reading.take("or"):
        if _kind(reading) not in ("", kind):
            raise _Unreadable
        names.append(_named(reading, kind, free))
    part = Part(kind, tuple(dict.fromkeys(names)))
    if part not in into:
        into.append(part)
    return mode


def _kind(reading: _Reading) -> str:
    """The kind that the next word names, where a name follows it; else ""."""
    if reading.done or reading.at + 1 >= len(reading.tokens):
        return ""
    kind = KINDS.get(reading.tokens[reading.at].word, "")
    if kind and reading.tokens[reading.at + 1].word not in (",", "or"):
        reading.at += 1
        return kind
    return ""


def _named(reading: _Reading, kind: str, free: bool) -> str:
    found = reading.words.longest(reading.tokens, reading.at, (kind,))
    if found is None:
        # "birds or linocut" mixes two kinds: a medium is no new theme.
        is_medium = reading.words.longest(reading.tokens, reading.at, ("medium",))
        if kind != "theme" or not free or is_medium:
            raise _Unreadable
        return _new_theme(reading)
    _, name, length = found
    reading.at += length
    return name


def _bare(reading: _Reading, free: bool) -> tuple[str, str]:
    found = reading.words.longest(reading.tokens, reading.at, tuple(dict.fromkeys(KINDS.values())))
    if found is None:
        if not free:
            raise _Unreadable
        # Not wanting what nobody has made yet is easily granted.
        return "theme", _new_theme(reading)
    kind, name, length = found
    reading.at += length
    return kind, name


def _new_theme(reading: _Reading) -> str:
    """A theme that no card has yet: the words up to the next joint."""
    start = reading.at
    while not reading.done and reading.tokens[reading.at].word not in _STOPS:
        reading.at += 1
    if reading.at == start:
        raise _Unreadable
    written = (token.written for token in reading.tokens[start : reading.at])
    return " ".join(filter(None, written))
