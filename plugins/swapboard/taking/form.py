"""Lines → forms: a swap offer, a call sign-up, news of a swap."""

import re
from dataclasses import dataclass

from swapboard.problems import Problem, did_you_mean
from swapboard.taking.plain import lines_of
from swapboard.taking.types import Entry, Form

VERSION = "1"
MOST_FORMS = 50
_START = re.compile(r"(swap offer|call sign-up|swap news), form (\S{1,9})", re.IGNORECASE)
_KEY = re.compile(r"([A-Za-z]{2,16}(?: [a-z]{1,15})?) ?[:：](.*)", re.DOTALL)
_BULLET = re.compile(r"[-*•–] +")
_PICTURE = re.compile(r"picture\b", re.IGNORECASE)
_MARKS = " *_#"


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of form: its last line, the keys of one line, those with a list below."""

    name: str
    end: str
    keys: tuple[str, ...]
    lists: tuple[str, ...] = ()


KINDS = {
    "swap offer": Kind(
        "offer", "end of offer", ("Board", "From", "Country", "To", "Note"), ("Asks", "Gives")
    ),
    "call sign-up": Kind(
        "sign-up", "end of sign-up", ("Board", "Call", "From", "Country", "Cards", "Note")
    ),
    "swap news": Kind("news", "end of news", ("Board", "Offer", "By", "News", "On", "Note")),
}


def read_forms(text: str, where: str) -> tuple[list[Form], list[Problem]]:
    """Every form in a text, wherever it stands, and what is wrong with how it is written.

    Quoting, kinds of spaces and wrapped lines make no difference; the first and the
    last line of a form have to be there. A form that stands twice counts once.
    """
    lines = lines_of(text)
    forms: dict[tuple, Form] = {}
    problems: list[Problem] = []
    at = 0
    while at < len(lines):
        start = _START.fullmatch(lines[at].strip(_MARKS).rstrip("."))
        if start is None:
            at += 1
            continue
        kind = KINDS[start[1].lower()]
        if len(forms) >= MOST_FORMS:
            must = f"must hold at most {MOST_FORMS} forms"
            return [], [Problem(where, at + 1, "", must, None, "send them in parts.")]
        end = _end(lines, at, kind)
        if start[2] != VERSION:
            fix = "it was made for another version of the program."
            must = f"must be form {VERSION}"
            problems.append(Problem(where, at + 1, "", must, start[2], fix))
        elif end is None:
            must = f'must go on to a line "{kind.end.capitalize()}"'
            fix = "the mail was cut: ask for it anew, or add what is missing."
            problems.append(Problem(where, at + 1, "", must, None, fix))
        else:
            reader = _Reader(kind, where, at + 1)
            form = reader.read(_dedented(lines[at:end]))
            problems += reader.problems
            forms.setdefault(form.words, form)
        at = (at if end is None else end) + 1
    return list(forms.values()), problems


def _end(lines: list[str], start: int, kind: Kind) -> int | None:
    """The form's last line: the first that stands as far left as its first line does, so
    that a note, which is indented, may say the same words."""
    depth = _depth(lines[start])
    for at in range(start + 1, len(lines)):
        bare = lines[at].strip(_MARKS).rstrip(".").lower()
        if bare == kind.end and _depth(lines[at]) <= depth:
            return at
        if _START.fullmatch(bare) and _depth(lines[at]) <= depth:
            return None
    return None


def _depth(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _dedented(lines: list[str]) -> list[str]:
    depth = _depth(lines[0])
    return [line[min(depth, _depth(line)) :] for line in lines]


class _Reader:
    """The lines of one form, from the one after its first."""

    def __init__(self, kind: Kind, where: str, line: int) -> None:
        self.kind, self.where, self.line = kind, where, line
        self.known = {key.lower(): key for key in (*kind.keys, *kind.lists)}
        self.values: dict[str, list[Entry]] = {}
        self.problems: list[Problem] = []
        self._key = ""

    def read(self, lines: list[str]) -> Form:
        """The form; a line that is no key goes on with what is above it."""
        for number, line in enumerate(lines[1:], start=self.line + 1):
            self._one(number, line)
        values = {key: tuple(entries) for key, entries in self.values.items()}
        return Form(self.kind.name, self.where, self.line, values)

    def _one(self, number: int, line: str) -> None:
        if self._key == "note":
            self.values["note"].append(Entry(_outdented(line).rstrip(), number))
            return
        bare = line.strip()
        if not bare:
            return
        found = _KEY.fullmatch(bare)
        is_key = found and (found[1].lower() in self.known or found[1][0].isupper())
        if is_key and not (self._in_list() and (line.startswith("  ") or _PICTURE.match(bare))):
            return self._begin(number, found[1], found[2].strip())
        if self._in_list():
            return self._item(number, bare)
        if not self._key:
            self._bad(number, "", "must be a line like Board: …", bare, "take it out.")
        else:
            self.values[self._key].append(Entry(bare, number))
        return None

    def _in_list(self) -> bool:
        return self.known.get(self._key, "") in self.kind.lists

    def _begin(self, number: int, written: str, value: str) -> None:
        key = written.lower()
        if key not in self.known:
            fix = did_you_mean(written, self.known.values()) or "take the line out."
            self._bad(number, written, "must be a key that this form has", written, fix)
            return
        if key in self.values:
            self._bad(number, written, "must stand only once", value, "keep one of them.")
            return
        self._key = key
        self.values[key] = []
        if value and self._in_list():
            self._item(number, value)
        elif value or not self._in_list():
            self.values[key].append(Entry(value, number))

    def _item(self, number: int, bare: str) -> None:
        """An item of a list; what a mail program broke off from a picture's line goes
        back to it."""
        items = self.values[self._key]
        bare = _BULLET.sub("", bare, count=1) if _BULLET.match(bare) else bare
        follows = items and _PICTURE.match(items[-1].text) and not _PICTURE.match(bare)
        if follows and " " in bare:
            items[-1] = Entry(f"{items[-1].text} {bare}", items[-1].line)
        else:
            items.append(Entry(bare, number))

    def _bad(self, number: int, key: str, must: str, got: str, fix: str) -> None:
        self.problems.append(Problem(self.where, number, key, must, got, fix))


def _outdented(line: str) -> str:
    return line[min(4, _depth(line)) :]
