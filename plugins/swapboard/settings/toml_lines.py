"""Where each key of a TOML file stands: the standard library's reader does not say."""

import re

_TABLE = re.compile(r"\s*\[\[?\s*([^\[\]]+?)\s*\]\]?\s*(#.*)?$")
_KEY = re.compile(r"""\s*((?:[\w-]+|"[^"]*"|'[^']*')(?:\s*\.\s*(?:[\w-]+|"[^"]*"|'[^']*'))*)\s*=""")
_FENCE = re.compile(r'"""|\'\'\'')


def lines_of_keys(text: str) -> dict[str, int]:
    """Line numbers from 1, by dotted name ("board.name"), tables included.

    The text has already been read as TOML without error. Keys within inline
    tables count under the line of the table.
    """
    lines: dict[str, int] = {}
    table, fence = "", ""
    for number, line in enumerate(text.replace("\r\n", "\n").split("\n"), start=1):
        if fence:
            fence = "" if fence in line else fence
            continue
        if heading := _TABLE.match(line):
            table = _dotted(heading[1])
            lines.setdefault(table, number)
        elif key := _KEY.match(line):
            name = _dotted(key[1])
            for depth in range(1, name.count(".") + 2):
                part = ".".join(name.split(".")[:depth])
                lines.setdefault(f"{table}.{part}" if table else part, number)
            fence = _opened(line[key.end() :])
    return lines


def _dotted(name: str) -> str:
    return re.sub(r"\s*\.\s*", ".", name).replace('"', "").replace("'", "")


def _opened(value: str) -> str:
    """The mark of a many-line text that begins in this value and goes on, or ""."""
    fences = _FENCE.findall(value)
    return fences[0] if len(fences) % 2 else ""
