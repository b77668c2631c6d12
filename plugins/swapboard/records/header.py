"""A post: a header of `Key: value` lines, an empty line, then Markdown.

Our own reader, because Markdown's and Pelican's know no keys with spaces and
no line numbers.
"""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field

from swapboard.problems import WARNING, Problem, did_you_mean

LARGEST_POST = 256 * 1024
LONGEST_HEADER_LINE = 2_000
# Markdown's emphasis takes time by the square of a line's length.
LONGEST_BODY_LINE = 20_000

_LINE_END = re.compile(r"\r\n|\n|\r")
_KEY = re.compile(r"([^\s:#>*\-][^:]*?)[ \t]*:(.*)", re.DOTALL)
# A key and what people type in place of the colon, the full-width one too.
_NEARLY_KEY = re.compile(r"([^=：;]*?)\s*[=：;](.*)", re.DOTALL)
_DATED = re.compile(r"\d[\d./-]{3,}(?![^\s:])")
_CONTROLS = "\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff"
_NOT_IN_HEADER = re.compile(f"[{_CONTROLS}\u2028\u2029\u202a-\u202e\u2066-\u2069]")
_NOT_IN_BODY = re.compile(f"[{_CONTROLS}]")


@dataclass(frozen=True, slots=True)
class Keys:
    """The keys of one kind of post, as they are written; `instead` names, for a
    word that people try, the key that it should be; `dated` allows lines that
    begin with a date."""

    known: tuple[str, ...]
    instead: dict[str, str] = field(default_factory=dict)
    dated: bool = False


@dataclass(frozen=True, slots=True)
class Field:
    """A key and its value; each line of the value after the first is the next
    line of the file."""

    key: str
    value: str
    line: int


@dataclass(frozen=True, slots=True)
class Header:
    """A post taken apart: fields by key in lower case, in the order of the file."""

    path: str
    fields: dict[str, Field]
    dated: tuple[Field, ...]
    body: str
    body_line: int


def read_header(path: str, text: str, keys: Keys) -> tuple[Header, list[Problem]]:
    """Take a post apart.

    The first empty line ends the header. Keys are matched without regard to
    case; a line indented by four spaces or a tab goes on with the one above.
    Lines end at CR, LF or both, and nowhere else. Text is given in NFC.
    """
    empty = Header(path, {}, (), "", 0)
    if len(text) > LARGEST_POST // 4 and len(text.encode(errors="replace")) > LARGEST_POST:
        must = "must be at most 256 kB"
        fix = "shorten the text; pictures belong in photos/."
        return empty, [Problem(path, 0, "", must, None, fix)]
    lines = _LINE_END.split(text.removeprefix("\ufeff"))
    reader = _Reader(path, keys)
    end = reader.header(lines)
    body = reader.body(lines, end + 1)
    return Header(path, reader.fields, tuple(reader.dated), body, end + 2), reader.problems


class _Reader:
    """The lines of one post, read from the top."""

    def __init__(self, path: str, keys: Keys) -> None:
        self.path = path
        self.known = {key.casefold(): key for key in keys.known}
        self.keys = keys
        self.fields: dict[str, Field] = {}
        self.dated: list[Field] = []
        self.problems: list[Problem] = []
        self._key, self._line, self._parts = "", 0, []
        self._open, self._stray = False, -1

    def problem(self, line: int, key: str, must: str, got: str | None, fix: str) -> None:
        self.problems.append(Problem(self.path, line, key, must, got, fix))

    def header(self, lines: list[str]) -> int:
        """Read to the first empty line; its index, or the number of lines."""
        if lines[0].rstrip() in ("---", "+++"):
            fix = "begin with a line like Title: Night heron, and end the lines with an empty one."
            self.problem(1, "", "must begin with Key: value lines", lines[0], fix)
            return self._skip_fence(lines)
        if not lines[0].strip():
            self._late_header(lines)
        for index, line in enumerate(lines):
            if not line.strip():
                self._close()
                return index
            self._header_line(index + 1, line)
        self._close()
        return len(lines)

    def _skip_fence(self, lines: list[str]) -> int:
        marks = (i for i, line in enumerate(lines) if i and line.strip() == lines[0].strip())
        return next(marks, len(lines))

    def _late_header(self, lines: list[str]) -> None:
        first = next((i for i, line in enumerate(lines) if line.strip()), None)
        key = None if first is None else _KEY.match(lines[first])
        if key and key[1].casefold() in self.known:
            fix = "take out the empty lines above it."
            self.problem(first + 1, key[1], "must stand on the first line", lines[first], fix)

    def _header_line(self, number: int, line: str) -> None:
        if len(line) > LONGEST_HEADER_LINE:
            self._close()
            fix = "shorten it, or move it below the empty line that ends the header."
            must = f"must be at most {LONGEST_HEADER_LINE} characters on a line"
            return self.problem(number, self._key, must, line, fix)
        if not line.isascii():
            line = unicodedata.normalize("NFC", line)
        if line.startswith(("    ", "\t")) and self._key:
            self._clean(number, line)
            self._parts.append(line.strip())
            return None
        self._close()
        if _DATED.match(line):
            return self._dated_line(number, line)
        if key := _KEY.fullmatch(line):
            return self._key_line(number, key[1], key[2])
        fix = self._stray_fix(number, line)
        # Of lines that follow each other one report is enough: it is one paragraph.
        stray, self._stray, self._key = self._stray, number, ""
        if stray != number - 1:
            must = "must be a header line like Title: Night heron"
            self.problem(number, "", must, line, fix)
        return None

    def _stray_fix(self, number: int, line: str) -> str:
        """What a line that is none of a header was most likely meant to be."""
        text = line.strip()
        if found := _NEARLY_KEY.match(text):
            key, value = self.known.get(found[1].casefold()), found[2].strip()
            if key and value:
                return f"write it with a plain colon: {key}: {value}"
        if number == 1 and text != line.rstrip():
            return "take out the spaces or the tab before it."
        words = text.split()
        for count in range(min(3, len(words) - 1), 0, -1):
            if key := self.known.get(" ".join(words[:count]).casefold()):
                return f"put a colon after the key: {key}: {' '.join(words[count:])}"
        if number == 1:
            return "begin with a line like Title: Night heron; the text comes after an empty line."
        if self.keys.dated and len(words) < 4:
            return f"begin it with its day if it says what happened, like 2026-09-28: {text}"
        return (
            "put an empty line above it if the text begins here, or indent it by four spaces if "
            "it goes on with the line above."
        )

    def _key_line(self, number: int, written: str, value: str) -> None:
        spelt = " ".join(written.split())
        fold = spelt.casefold()
        self._key, self._line, self._open = self.known.get(fold, spelt), number, False
        if fold not in self.known:
            return self._unknown(number, spelt, fold)
        if fold in self.fields:
            fix = f"keep one of them; the first is on line {self.fields[fold].line}."
            self.problem(number, self._key, "must stand only once", value.strip(), fix)
            return None
        self._clean(number, value)
        self._parts, self._open = [value.strip()], True
        return None

    def _unknown(self, number: int, spelt: str, fold: str) -> None:
        instead = self.keys.instead.get(fold)
        fix = f'write "{instead}" instead.' if instead else did_you_mean(spelt, self.keys.known)
        if not fix and " " in spelt and self.fields:
            fix = "put an empty line above it if the text begins here, or "
        if not fix.endswith((".", "?")):
            fix += f"take it out, or use one of: {', '.join(sorted(self.keys.known))}."
        self.problem(number, spelt, "must be a key that this kind of post has", spelt, fix)

    def _dated_line(self, number: int, line: str) -> None:
        self._clean(number, line)
        mark = _DATED.match(line)[0]
        if not self.keys.dated:
            fix = "take the line out; only offers and calls have lines that begin with a date."
            self.problem(number, mark, "must be a key, not a date", line, fix)
        self._key, self._line = mark, number
        self._parts = [line[len(mark) :].strip().removeprefix(":").strip()]
        self._open = self.keys.dated

    def _clean(self, number: int, text: str) -> None:
        if text.isascii() and text.isprintable():
            return
        if bad := _NOT_IN_HEADER.search(text):
            fix = "type the line anew: it holds a character that cannot be seen."
            must = "must hold no hidden control characters"
            self.problem(number, self._key, must, f"U+{ord(bad[0]):04X}", fix)

    def _close(self) -> None:
        if not self._open:
            return
        self._open = False
        made = Field(self._key, "\n".join(self._parts).strip("\n"), self._line)
        if self._key.casefold() in self.known:
            # A value that begins on the line below its key is counted from there.
            shift = 1 if len(self._parts) > 1 and not self._parts[0] else 0
            made = Field(made.key, made.value, made.line + shift)
            self.fields[self._key.casefold()] = made
        else:
            self.dated.append(made)

    def _warn_of_keys(self, lines: list[str], start: int) -> None:
        """Point out a text that begins with a key: the header ended above it unawares."""
        index = next((i for i in range(start, len(lines)) if lines[i].strip()), len(lines))
        key = _KEY.fullmatch(lines[index]) if self.fields and index < len(lines) else None
        fold = key[1].casefold() if key else ""
        if fold in self.known and fold not in self.fields:
            must = "stands below an empty line, which ends the header, so it is shown as text"
            fix = "take out the empty line above it."
            self.problems.append(Problem(self.path, index + 1, self.known[fold], must,
                                         lines[index].strip(), fix, WARNING))  # fmt: skip

    def body(self, lines: list[str], start: int) -> str:
        """The text from line `start` on."""
        self._warn_of_keys(lines, start)
        for number, line in enumerate(lines[start:], start=start + 1):
            if len(line) > LONGEST_BODY_LINE:
                must = f"must be at most {LONGEST_BODY_LINE} characters on a line"
                self.problem(number, "", must, line, "break the line into paragraphs.")
        # HTML forbids NEL; where it comes from, it ends a line.
        body = "\n".join(lines[start:]).replace("\x85", " ")
        if bad := _NOT_IN_BODY.search(body):
            number = start + 1 + body.count("\n", 0, bad.start())
            fix = "type the line anew: it holds a character that cannot be seen."
            must, got = "must hold no control characters", f"U+{ord(bad[0]):04X}"
            self.problem(number, "", must, got, fix)
        return body.strip("\n")


def write_post(fields: Iterable[tuple[str, str]], body: str = "") -> str:
    """The text of a post; `read_header` gives the same fields and body back.

    Values hold no empty lines; their lines after the first are indented.
    """
    lines = []
    for key, value in fields:
        first, *rest = value.split("\n")
        lines.append(f"{key}: {first}".rstrip())
        lines += [f"    {line}" for line in rest]
    text = "\n".join(lines) + "\n"
    return f"{text}\n{body.strip(chr(10))}\n" if body else text
