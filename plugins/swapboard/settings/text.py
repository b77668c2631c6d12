"""The settings as people read them: the table in the docs, a new board's file."""

import json
from typing import Any

from swapboard.settings.tables import LIST, PAIRS, SETTINGS, TEXT, Setting


def settings_reference() -> str:
    """Every key as one Markdown table, in the order of the file."""
    rows = ["| table | key | type | default | what it is |", "|---|---|---|---|---|"]
    for setting in SETTINGS:
        table = f"`[{setting.table}]`" if setting.table else "top of the file"
        kind = setting.type
        if setting.most > setting.least:
            kind += f", {setting.least} to {setting.most}"
        default = _toml(setting, setting.default)
        rows.append(f"| {table} | `{setting.key}` | {kind} | `{default}` | {setting.sentence} |")
    return "\n".join(rows) + "\n"


def starter_toml(
    name: str,
    address: str = "",
    keeper: str = "keeper",
    about: str = "",
    language: str = "en",
    time_zone: str = "UTC",
    paper: str = "A4",
) -> str:
    """A new board's board.toml: every key, each under its sentence."""
    given = {
        "name": name,
        "address": address,
        "about": about,
        "keeper": keeper,
        "language": language,
        "time_zone": time_zone,
        "paper": paper,
    }
    lines: list[str] = []
    table = ""
    for setting in SETTINGS:
        if setting.table != table:
            table = setting.table
            lines += ["", f"[{table}]"]
        value = given.get(setting.key, setting.default) if table == "board" else setting.default
        lines += [f"# {setting.sentence}", f"{setting.key} = {_toml(setting, value)}"]
    return "\n".join(lines) + "\n"


def _toml(setting: Setting, value: Any) -> str:
    if setting.type == TEXT:
        return _quoted(value)
    if setting.type == LIST:
        return "[" + ", ".join(map(_quoted, value)) + "]"
    if setting.type == PAIRS:
        pairs = ", ".join(f"{_quoted(word)} = {_quoted(medium)}" for word, medium in value)
        return f"{{ {pairs} }}" if pairs else "{}"
    return str(value)


def _quoted(text: str) -> str:
    # TOML's basic strings are JSON's, but for the delete character.
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")
