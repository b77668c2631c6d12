"""board.toml's text → settings, or problems."""

import re
import tomllib
from typing import Any

from swapboard.problems import Problem, did_you_mean
from swapboard.settings.checks import CHECKS
from swapboard.settings.tables import (
    FORMAT,
    LIST,
    PATH,
    SETTINGS,
    TABLES,
    TEXT,
    WHOLE,
    Setting,
    Settings,
)
from swapboard.settings.toml_lines import lines_of_keys


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
    there = text.splitlines()[line - 1 : line]
    if there and re.search("[“”„‘’«»]", there[0]):
        fix = 'use straight quotes on this line, like name = "My board".'
    return Problem(PATH, line, "", "must be readable as TOML", what, fix)
