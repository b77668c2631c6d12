"""board.toml as frozen dataclasses, one per table; unknown keys are refused.

`SETTINGS` documents every key: the docs and `board.toml` of a new board are
made from it, and a test holds them to it.
"""

import re
import tomllib
from dataclasses import dataclass, field
from typing import Any

from .problems import Problem, did_you_mean
from .settings_checks import CHECKS
from .toml_lines import lines_of_keys

PATH = "board.toml"
FORMAT = 1


@dataclass(frozen=True, slots=True)
class BoardSettings:
    """The table [board]."""

    name: str = "A swap board"
    address: str = ""
    about: str = ""
    keeper: str = "keeper"
    language: str = "en"
    time_zone: str = "UTC"
    paper: str = "A4"


@dataclass(frozen=True, slots=True)
class PhotoSettings:
    """The table [photos]."""

    largest_megabytes: int = 40
    largest_megapixels: int = 64


@dataclass(frozen=True, slots=True)
class SwapSettings:
    """The table [swaps]: house limits."""

    offer_days: int = 14
    cards_per_call_at_most: int = 50


@dataclass(frozen=True, slots=True)
class ListSettings:
    """The table [lists]."""

    cards_per_page: int = 45


@dataclass(frozen=True, slots=True)
class Words:
    """The table [words]: a keeper's own additions to the vocabulary."""

    media: tuple[str, ...] = ()
    same_as: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Settings:
    """A whole board.toml."""

    board: BoardSettings = BoardSettings()
    photos: PhotoSettings = PhotoSettings()
    swaps: SwapSettings = SwapSettings()
    lists: ListSettings = ListSettings()
    words: Words = Words()
    format: int = FORMAT
    lines: dict[str, int] = field(default_factory=dict, compare=False, repr=False)


TABLES: dict[str, type] = {
    "board": BoardSettings,
    "photos": PhotoSettings,
    "swaps": SwapSettings,
    "lists": ListSettings,
    "words": Words,
}

TEXT, WHOLE, LIST, PAIRS = "text", "whole number", "list of texts", "table of texts"


@dataclass(frozen=True, slots=True)
class Setting:
    """One key: its table ("" for the top of the file), type and sentence.

    `least` and `most` bound a whole number."""

    table: str
    key: str
    type: str
    sentence: str
    least: int = 0
    most: int = 0

    @property
    def default(self) -> Any:
        """What holds where the key is missing."""
        return FORMAT if not self.table else getattr(TABLES[self.table](), self.key)


SETTINGS: tuple[Setting, ...] = (
    Setting("", "format", WHOLE, "The form of this folder; always 1 for now.", 1, 1),
    Setting("board", "name", TEXT, "The board's name, as it stands on every page."),
    Setting("board", "address", TEXT, "Where the board is on the web; empty until you know."),
    Setting("board", "about", TEXT, "One or two sentences for the home page."),
    Setting("board", "keeper", TEXT, "Who keeps the board: the name of a file in makers/."),
    Setting("board", "language", TEXT, 'The language of the board, as a tag like "en" or "en-US".'),
    Setting("board", "time_zone", TEXT, 'Where the board\'s day begins, like "Europe/Vienna".'),
    Setting("board", "paper", TEXT, 'The paper that you print on: "A4" or "Letter".'),
    Setting("photos", "largest_megabytes", WHOLE, "A bigger photo file is refused.", 1, 500),
    Setting("photos", "largest_megapixels", WHOLE, "A photo of more pixels is refused.", 1, 400),
    Setting("swaps", "offer_days", WHOLE, "An offer unanswered so many days expires.", 1, 3650),
    Setting("swaps", "cards_per_call_at_most", WHOLE, "No call asks for more cards each.", 1, 1000),
    Setting("lists", "cards_per_page", WHOLE, "How many cards a list shows on a page.", 1, 1000),
    Setting("words", "media", LIST, "Media of your own, added to the board's."),
    Setting("words", "same_as", PAIRS, "Other words for a medium, each with the word it means."),
)


def read_settings(text: str) -> tuple[Settings, list[Problem]]:
    """board.toml's text as settings, and everything wrong with it.

    What cannot be used falls back to its default, so that reading goes on. A
    format other than 1 is one problem only: its keys may be unknown here.
    """
    text = text.removeprefix("\ufeff")
    try:
        data = tomllib.loads(text.replace("\r\n", "\n"))
    except (ValueError, RecursionError) as error:
        return Settings(), [_unreadable(text, error)]
    lines = lines_of_keys(text)
    found = data.get("format", FORMAT)
    if type(found) is not int or found != FORMAT:
        return Settings(lines=lines), [_other_format(found, lines.get("format", 0))]
    problems: list[Problem] = []
    tables = {}
    for name in data:
        if name not in TABLES and name != "format":
            problems.append(_unknown(name, "", lines, (*TABLES, "format")))
    for name, kind in TABLES.items():
        tables[name] = _read_table(name, kind, data.get(name, {}), lines, problems)
    return Settings(**tables, lines=lines), problems


def _read_table(name: str, kind: type, data: Any, lines: dict, problems: list[Problem]) -> Any:
    if not isinstance(data, dict):
        problems.append(
            _bad(name, lines, "must be a table", data, f"write its keys below a line [{name}].")
        )
        return kind()
    known = {setting.key: setting for setting in SETTINGS if setting.table == name}
    values = {}
    for key, value in data.items():
        if key not in known:
            problems.append(_unknown(key, name, lines, known))
            continue
        where = f"{name}.{key}"
        value = _typed(known[key], value, where, lines, problems)
        if value is not None and where in CHECKS:
            value = _checked(where, value, lines, problems)
        if value is not None:
            values[key] = value
    return kind(**values)


def _typed(setting: Setting, value: Any, where: str, lines: dict, problems: list) -> Any:
    """A value of the setting's type, or None and a problem."""
    must, good = f"must be a {setting.type}", value
    if setting.type == TEXT:
        fits, fix = _is_text(value, 2000), f'write it in quotes: {setting.key} = "…".'
    elif setting.type == WHOLE:
        must += f" from {setting.least} to {setting.most}"
        fits = type(value) is int and setting.least <= value <= setting.most
        fix = f"write {setting.key} = {setting.default}, or leave the line out."
    elif setting.type == LIST:
        fits = isinstance(value, list) and all(map(_is_word, value))
        fix = f'write {setting.key} = ["one", "another"], each at most 60 characters, no commas.'
        good = tuple(value) if fits else None
    else:
        fits = isinstance(value, dict) and all(map(_is_word, (*value, *value.values())))
        fix = f'write {setting.key} = {{ "other word" = "medium" }}.'
        good = tuple(sorted(value.items())) if fits else None
    if fits:
        return good
    problems.append(_bad(where, lines, must, value, fix))
    return None


def _is_text(value: Any, most: int) -> bool:
    return (
        isinstance(value, str)
        and len(value) <= most
        and all(c.isprintable() or c in "\n\u00ad\u200c\u200d" or c.isspace() for c in value)
    )


def _is_word(value: Any) -> bool:
    return _is_text(value, 60) and bool(value.strip()) and not set(value) & set(",\n")


def _checked(where: str, value: str, lines: dict, problems: list[Problem]) -> str | None:
    good, must, fix = CHECKS[where](value)
    if good is None:
        problems.append(_bad(where, lines, must, value, fix))
    return good


def _bad(where: str, lines: dict[str, int], must: str, got: Any, fix: str) -> Problem:
    key = where.rpartition(".")[2]
    line = lines.get(where, lines.get(where.partition(".")[0], 0))
    return Problem(PATH, line, key, must, str(got), fix)


def _unknown(key: str, table: str, lines: dict[str, int], known: Any) -> Problem:
    where = f"{table}.{key}" if table else key
    place = f"the table [{table}]" if table else "board.toml"
    fix = did_you_mean(key, known) or f"take it out; {place} knows {', '.join(sorted(known))}."
    return _bad(where, lines, f"must be a key that {place} knows", key, fix)


def _other_format(found: Any, line: int) -> Problem:
    fix = "this board was made for another version of the program: install that one."
    return Problem(PATH, line, "format", "must be 1", str(found), fix)


def _unreadable(text: str, error: Exception) -> Problem:
    at = re.search(r"at line (\d+)", str(error))
    line = int(at[1]) if at else len(text.splitlines()) or 1
    if isinstance(error, RecursionError):
        what = "brackets within brackets, too deep"
    else:
        what = re.sub(r" \(at .*\)$", "", str(error))
    fix = 'look at this line: texts stand in quotes, like name = "My board".'
    return Problem(PATH, line, "", "must be readable as TOML", what, fix)
