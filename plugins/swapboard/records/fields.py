"""The values of a post's fields: text, dates, numbers, lists, choices, with problems."""

import re
from collections.abc import Iterator, Mapping
from datetime import date
from typing import TypeVar

from swapboard.problems import WARNING, Problem, did_you_mean
from swapboard.records.header import Field, Header
from swapboard.vocabulary import tidy

Choice = TypeVar("Choice")

EARLIEST, LATEST = date(1900, 1, 1), date(2200, 12, 31)
_ISO_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
_SEPARATORS = re.compile(r"[,;\n]")
DATE_FIX = "write year, month and day in numbers, like 2026-09-28."


def parse_date(text: str) -> date | None:
    """A day of the calendar written 2026-09-28, years 1900 to 2200, or None."""
    if not _ISO_DATE.fullmatch(text) or not text.isascii():
        return None
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return None
    return day if EARLIEST <= day <= LATEST else None


_IN_NUMBERS = re.compile(r"(\d{1,4})\s*([./-])\s*(\d{1,2})\s*\2\s*(\d{1,4})\.?", re.ASCII)
_MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec".split()
_IN_WORDS = re.compile(r"(\d{1,2})\.?(?:st|nd|rd|th)?\s+([a-z]{3})[a-z]*\.?,?\s+(\d{4})", re.ASCII)
_MONTH_FIRST = re.compile(
    r"([a-z]{3})[a-z]*\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})", re.ASCII
)


def date_fix(text: str) -> str:
    """How to mend a date: its own day in the right form where that is beyond doubt."""
    days = {day for day in map(parse_date, _readings(text.strip().lower())) if day}
    return f"write {days.pop()}." if len(days) == 1 else DATE_FIX


def _readings(text: str) -> Iterator[str]:
    """A date's possible readings as year-month-day: with dots the day comes first,
    with strokes either the day or the month."""
    if found := _IN_NUMBERS.fullmatch(text):
        first, mark, second, third = found.groups()
        if len(first) == 4:
            yield f"{first}-{second:0>2}-{third:0>2}"
        else:
            yield f"{third}-{second:0>2}-{first:0>2}"
            if mark != ".":
                yield f"{third}-{first:0>2}-{second:0>2}"
    month = ""
    if found := _IN_WORDS.fullmatch(text):
        day, month, year = found.groups()
    elif found := _MONTH_FIRST.fullmatch(text):
        month, day, year = found.groups()
    if month in _MONTHS:
        yield f"{year}-{_MONTHS.index(month) + 1:02}-{day:0>2}"


class Fields:
    """A header's fields read one by one; what is wrong gathers in `problems`.

    A method gives its default for a field that is missing or cannot be read.
    """

    def __init__(self, header: Header, problems: list[Problem]) -> None:
        self.path = header.path
        self.problems = problems
        self._fields = header.fields

    def __contains__(self, key: str) -> bool:
        return key.casefold() in self._fields

    def get(self, key: str) -> Field | None:
        """The field, or None where it is missing; an empty one is a problem."""
        field = self._fields.get(key.casefold())
        if field is not None and not field.value:
            self.bad(field, "must not be empty", fix="write its value, or take the line out.")
            return None
        return field

    def line(self, key: str) -> int:
        """The line of a field, 0 where it is missing."""
        field = self._fields.get(key.casefold())
        return field.line if field else 0

    def lines(self, header: Header) -> dict[str, int]:
        """The line of each field and of the body, by key in lower case."""
        lines = {key: field.line for key, field in self._fields.items()}
        return lines | {"body": header.body_line}

    def bad(
        self, field: Field, must: str, got: str | None = None, fix: str = "", line: int = 0
    ) -> None:
        """Report what is wrong with a field."""
        shown = got if got is not None else field.value or None
        problem = Problem(self.path, line or field.line, field.key, must, shown, fix)
        self.problems.append(problem)

    def warn(self, line: int, key: str, must: str, got: str | None, fix: str) -> None:
        """Report what does not stop a build."""
        self.problems.append(Problem(self.path, line, key, must, got, fix, WARNING))

    def missing(self, key: str, must: str, fix: str) -> None:
        """Report a field that has to be there."""
        self.problems.append(Problem(self.path, 0, key, must, None, fix))

    def text(self, key: str, default: str = "", most: int = 300) -> str:
        """One line of text, its spaces tidied."""
        if (field := self.get(key)) is None:
            return default
        text = tidy(field.value)
        if len(text) <= most:
            return text
        self.bad(field, f"must be at most {most} characters", fix="shorten it.")
        return default

    def day(self, key: str) -> date | None:
        """A date, or None."""
        if (field := self.get(key)) is None:
            return None
        day = parse_date(field.value)
        if day is None:
            self.bad(field, "must be a date like 2026-09-28", fix=date_fix(field.value))
        return day

    def whole(self, key: str, least: int, most: int, default: int | None = None) -> int | None:
        """A whole number from `least` to `most`."""
        if (field := self.get(key)) is None:
            return default
        if re.fullmatch(r"[0-9]{1,9}", field.value) and least <= int(field.value) <= most:
            return int(field.value)
        self.bad(
            field,
            f"must be a whole number from {least} to {most}",
            fix=f"write a number, like {max(least, 1)}.",
        )
        return default

    def choice(self, key: str, choices: Mapping[str, Choice], default: Choice) -> Choice:
        """One of a few words, without regard to case."""
        if (field := self.get(key)) is None:
            return default
        word = tidy(field.value).casefold()
        if word in choices:
            return choices[word]
        words = " · ".join(choices)
        fix = did_you_mean(word, choices) or f"write one of: {words}."
        self.bad(field, f"must be one of: {words}", fix=fix)
        return default

    def items(self, key: str, most: int = 30, longest: int = 80) -> Iterator[tuple[str, int]]:
        """Each item of a list and its line; items stand between commas or on lines
        of their own, and one named twice counts once."""
        if (field := self.get(key)) is None:
            return
        seen: set[str] = set()
        line = field.line
        separators = [*_SEPARATORS.findall(field.value), ""]
        for raw, separator in zip(_SEPARATORS.split(field.value), separators, strict=True):
            item = tidy(raw)
            if len(item) > longest:
                must = f"must hold names of at most {longest} characters"
                self.bad(field, must, item, "shorten it, or put commas between them.", line)
            elif item and item.casefold() not in seen:
                seen.add(item.casefold())
                if len(seen) > most:
                    fix = "keep the ones that matter most."
                    self.bad(field, f"must name at most {most}", item, fix, line)
                    return
                yield item, line
            line += separator == "\n"

    def sentences(self, key: str, most: int = 50) -> Iterator[tuple[str, int]]:
        """Each line of a field that holds one thing a line, with its number."""
        if (field := self.get(key)) is None:
            return
        for index, raw in enumerate(field.value.split("\n")):
            if index >= most:
                fix = "keep the ones that matter most."
                return self.bad(
                    field, f"must have at most {most} lines", raw, fix, field.line + index
                )
            if sentence := tidy(raw):
                yield sentence, field.line + index
        return None
