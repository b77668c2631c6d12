"""Private fields that must never stand on the site: street, postcode, phone, e-mail.

Only typed fields of the tables in private/ count: a name or a town is public
knowledge on a board, and would make every build fail.
"""

import csv
import hashlib
import os
import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from html import unescape
from pathlib import Path
from urllib.parse import unquote

from swapboard.disk.private_tables import table_of
from swapboard.disk.trouble import problem_of
from swapboard.problems import Problem

_FIELDS = {
    "street": "street", "street 2": "street", "address": "street", "address 2": "street",
    "street address": "street", "address 1": "street", "address line 1": "street",
    "address line 2": "street", "line 1": "street", "line 2": "street",
    "postcode": "postcode", "post code": "postcode", "postal code": "postcode",
    "zip": "postcode", "zip code": "postcode",
    "phone": "phone", "telephone": "phone", "mobile": "phone", "phone number": "phone",
    "e-mail": "e-mail", "email": "e-mail", "mail": "e-mail", "e-mail address": "e-mail",
    "email address": "e-mail",
}
_TABLE_ENDINGS = (".csv", ".tsv")
_TAG = re.compile(r"<(?:[^>\"']|\"[^\"]*\"|'[^']*')*>")
# Soft hyphens and joiners: nobody sees them, and they would part a word in two.
_UNSEEN = dict.fromkeys(map(ord, "\u00ad\u200b\u200c\u200d\u2060\ufeff"))
_WORD = re.compile(r"[^\W_]+", re.UNICODE)
# An address as people spell it for people: "ada (at) vale [dot] example", "ada at vale.example".
# The bare word counts only before a name with a dot in it: "Ada at Vale. Example …" is prose.
_BRACKETED = r"\s{0,9}[\[({<]\s{0,9}%s\s{0,9}[\])}>]\s{0,9}"
_DOT = re.compile(_BRACKETED % "dot" + r"|(?<=[^\W_])\s{1,9}dot\s{1,9}(?=[^\W_])", re.IGNORECASE)
_AT = re.compile(
    _BRACKETED % "at" + r"|(?<=[^\W_])\s{1,9}at\s{1,9}(?=[\w-]+\.[^\W_])", re.IGNORECASE
)
_DIGITS = re.compile(r"\+?\d(?:[\s\-./()\u00a0\u2009\u202f]{0,3}\d){6,}")


@dataclass(frozen=True, slots=True)
class PrivateField:
    """One value to look for: as words without case, accents or punctuation
    (a phone number as its digits), and where it is kept."""

    kind: str
    words: tuple[str, ...]
    path: str
    line: int
    town: tuple[str, ...] = ()


def private_fields(board: Path) -> tuple[list[PrivateField], list[Problem]]:
    """Every typed field in private/*.csv of `board`."""
    fields: list[PrivateField] = []
    problems: list[Problem] = []
    for path in _tables(board, problems):
        try:
            if not os.path.isfile(board / path):
                raise OSError("not a file")
            text = (board / path).read_text("utf-8-sig")
            fields += _fields_of(path, text)
        except (OSError, UnicodeDecodeError, csv.Error) as error:
            problems.append(
                Problem(path, 0, "", "must be a readable table in UTF-8", _in_words(error),
                        "save it again as CSV in UTF-8; nothing is published while it cannot be"
                        " compared with the site")
            )
    return fields, problems


def _tables(board: Path, problems: list[Problem]) -> list[str]:
    """Every table below private/, links followed, by its path in the board."""
    found = []

    def refused(error: OSError) -> None:
        place = os.path.relpath(error.filename or board / "private", board).replace(os.sep, "/")
        if not isinstance(error, FileNotFoundError) or place != "private":
            problems.append(replace(problem_of(error, place), path=place))

    for folder, _, names in os.walk(board / "private", onerror=refused):
        inner = os.path.relpath(folder, board).replace(os.sep, "/")
        found += [f"{inner}/{name}" for name in names if name.lower().endswith(_TABLE_ENDINGS)]
    return sorted(found)


def _in_words(error: Exception) -> str:
    if isinstance(error, UnicodeDecodeError):
        return "another encoding"
    return (error.strerror if isinstance(error, OSError) else None) or str(error)


def fingerprint(fields: Iterable[PrivateField]) -> str:
    """A digest that changes when there is something else to look for."""
    rows = sorted((f.kind, f.words, f.town) for f in fields)
    return hashlib.sha256(repr(rows).encode()).hexdigest()


def told_of(field: PrivateField, path: str, line: int = 0) -> Problem:
    """What is said of a private field that stands in `path`: its kind and the two
    places, never its value."""
    return Problem(
        path, line, "", f"would show a {field.kind} from {field.path}:{field.line}", None,
        "take it out of the post that it stands in; addresses go by mail, between the two"
        " who swap",
    )


class LeakScan:
    """Looks for all fields in a text at once; cost grows with the text alone."""

    def __init__(self, fields: Iterable[PrivateField]) -> None:
        self._by_start: dict[str, list[tuple[str, PrivateField]]] = {}
        self._phones: list[PrivateField] = []
        for field in fields:
            if field.kind == "phone":
                self._phones.append(field)
            else:
                joined = "".join(field.words)
                for start in {joined[:1], joined[:2]}:
                    self._by_start.setdefault(start, []).append((joined, field))
        self._phone_digits = {field.words[0][-7:] for field in self._phones}

    def found_in(self, text: str) -> list[PrivateField]:
        """The fields that stand in `text`, which may be HTML, each once."""
        found: dict[PrivateField, None] = {}
        plain = unescape(text)
        readings = {plain, _TAG.sub("", text), _TAG.sub(" ", text)}
        if "%" in plain:  # a link to a mail has it percent-encoded (RFC 3986)
            readings.add(unquote(plain))
        readings = {unescape(reading) for reading in readings}
        for reading in readings | set(map(_as_address, readings)):
            words = words_of(reading)
            for place, word in enumerate(words):
                for joined, field in self._by_start.get(word[:2], ()):
                    if joined.startswith(word) and self._stands(joined, field, words, place):
                        found[field] = None
            for field in self._phones_in(reading):
                found[field] = None
        return list(found)

    @staticmethod
    def _stands(joined: str, field: PrivateField, words: list[str], place: int) -> bool:
        """Whether the words from `place` on are the field's, however they are parted:
        AB1 2CD is AB12CD as well."""
        text = ""
        for word in words[place : place + len(joined)]:
            text += word
            if not joined.startswith(text) or text == joined:
                break
        if text != joined:
            return False
        if not field.town:
            return True
        near = words[max(0, place - 6) : place + 8]
        return any(word in near for word in field.town)

    def _phones_in(self, text: str) -> Iterator[PrivateField]:
        if not self._phones:
            return
        for match in _DIGITS.finditer(text):
            digits = re.sub(r"\D", "", match[0])
            if not any(tail in digits for tail in self._phone_digits):
                continue
            yield from (field for field in self._phones if field.words[0] in digits)


def _as_address(text: str) -> str:
    """The text with the signs of a mail address where they are written as words."""
    return _AT.sub("@", _DOT.sub(".", text.translate(_UNSEEN)))


def words_of(text: str) -> list[str]:
    """Words without case or accents: "12, Lärchen-Weg" is 12, larchen, weg."""
    folded = unicodedata.normalize("NFKD", text.translate(_UNSEEN).casefold())
    return _WORD.findall("".join(c for c in folded if not unicodedata.combining(c)))


def _fields_of(path: str, text: str) -> Iterator[PrivateField]:
    for line, values in table_of(text).cells():
        town = tuple(words_of(values.get("town") or values.get("city") or ""))
        for key, value in values.items():
            if kind := _FIELDS.get(key):
                # An address in one cell has a line for the street and one for the town.
                for part in value.splitlines() if kind == "street" else [value]:
                    yield from _field(kind, part, path, line, town)


def _field(
    kind: str, value: str, path: str, line: int, town: tuple[str, ...]
) -> Iterator[PrivateField]:
    """The field to look for, where it says enough to be told from chance."""
    if kind == "phone":
        digits = re.sub(r"\D", "", value)
        # The national number: prefixes are written in many ways, the rest in one.
        if len(digits) >= 7:
            yield PrivateField(kind, (digits[-8:] if len(digits) > 8 else digits,), path, line)
        return
    words = tuple(words_of(value))
    if kind == "e-mail" and "@" not in value:
        return
    if len("".join(words)) < 4:
        return
    short = kind == "postcode" and "".join(words).isdigit() and len("".join(words)) < 7
    if short and not town:
        return
    if kind == "street" and len(words) == 1 and words[0].isdigit():
        return
    # A short number alone (1010, 2026) is a year or a count as often as a
    # postcode: it counts where the town stands beside it.
    yield PrivateField(kind, words, path, line, town if short else ())
