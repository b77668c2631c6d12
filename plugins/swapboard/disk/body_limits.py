"""Markdown that would take for ever, or too many levels, to make a page of.

A Markdown reader goes over the text anew for each bracket, and once more for
each level of nesting. Nobody who writes for people comes near these limits; a
text made to be in the way does, and is told so with its line.
"""

import re
from collections.abc import Iterator, Mapping

from swapboard.problems import Problem

LARGEST_BODY = 50_000
MOST_LINES = 2_000
MOST_LINES_TOGETHER = 500
MOST_OF_A_MARK = {"[": 500, "|": 5_000, "<!": 50, "<?": 50}
# Each of these has the reader look through the rest of its paragraph.
LOOKING_AHEAD = ("[", "`")
MOST_LOOKS = 4_000_000  # marks × characters of one paragraph
MOST_LEVELS = 12
LONGEST_DEFINITION = 2_000

# A text shorter than this cannot be beyond any of the limits.
_HARMLESS = MOST_LEVELS
_EMPTY_LINE = re.compile(r"^[ \t]*$", re.MULTILINE)
_MARK = r"(?:>|(?:[*+-]|\d{1,9}[.)])(?=[ \t]))"
_TOO_DEEP = re.compile(rf"^(?:[ \t]*{_MARK}){{{MOST_LEVELS + 1}}}", re.MULTILINE)
_TOO_FAR_IN = re.compile(
    rf"^(?=[ \t>]*{_MARK})(?:[ >]{{4}}|[ >]{{0,3}}\t){{{MOST_LEVELS + 1}}}", re.MULTILINE
)
_RULE = re.compile(r"[ \t]*([*_-])(?:[ \t]*\1)*[ \t]*")
_LONG_DEFINITION = re.compile(
    rf"^[ ]{{0,3}}\[[^\[\]\n]*\]:(?:[^\n]{{{LONGEST_DEFINITION}}}"
    rf"|[^\n]*\n[^\n]{{{LONGEST_DEFINITION}}}|[^\n]*\n[^\n]*\n[^\n]{{{LONGEST_DEFINITION}}})",
    re.MULTILINE,
)


def body_problems(texts: Mapping[str, str]) -> list[Problem]:
    """What is beyond the limits in the posts among `texts`, by their paths in the board.

    Cost grows with the length of the texts alone.
    """
    problems = []
    for path in sorted(texts):
        if path.endswith(".md"):
            text = texts[path].replace("\r\n", "\n").replace("\r", "\n")
            end = _EMPTY_LINE.search(text)
            if end and len(text) - end.end() > _HARMLESS:
                problems += _faults(path, text, end.end())
    return problems


def _faults(path: str, text: str, start: int) -> Iterator[Problem]:
    def fault(at: int, must: str, got: str, fix: str) -> Problem:
        return Problem(path, text.count("\n", 0, at) + 1, "", must, got, fix)

    size = len(text) - start
    if size > LARGEST_BODY:
        yield fault(start, f"must have a text of at most {LARGEST_BODY:,} characters",
                    f"{size:,}", "shorten it, or part it into several pages")
    deep = _first_deep(text, start)
    if deep >= 0:
        yield fault(deep, f"must nest quotes and lists at most {MOST_LEVELS} deep", "more",
                    "take out some of the marks at the beginning of the line")
    if (lines := text.count("\n", start)) > MOST_LINES:
        yield fault(start, f"must have a text of at most {MOST_LINES:,} lines", f"{lines:,}",
                    "shorten it, or part it into several pages")
    for mark, most in MOST_OF_A_MARK.items():
        if (count := text.count(mark, start)) > most:
            yield fault(_nth(text, mark, most + 1, start), f"must have at most {most:,} marks"
                        f" {mark}", f"{count:,}", "part the text into several pages")
    if definition := _LONG_DEFINITION.search(text, start):
        yield fault(definition.start(), "must have no address longer than"
                    f" {LONGEST_DEFINITION:,} characters", "a longer one", "use a shorter address")
    for at, block in _paragraphs(text, start):
        if (lines := block.count("\n")) > MOST_LINES_TOGETHER:
            yield fault(at, f"must have an empty line after at most {MOST_LINES_TOGETHER} lines",
                        f"{lines:,}", "part it by empty lines")
        marks = sum(map(block.count, LOOKING_AHEAD))
        if marks * len(block) > MOST_LOOKS:
            yield fault(at, "must have fewer marks [ and ` in a paragraph so long",
                        f"{marks:,} in {len(block):,} characters", "part it by empty lines")


def _first_deep(text: str, start: int) -> int:
    """Where the first line is that nests too deep; -1 where none does."""
    for pattern in (_TOO_DEEP, _TOO_FAR_IN):
        for found in pattern.finditer(text, start):
            line = text[found.start() :].partition("\n")[0]
            if not _RULE.fullmatch(line):  # * * * is a line across the page
                return found.start()
    return -1


def _nth(text: str, mark: str, number: int, start: int) -> int:
    """Where a mark stands for the last of `number` times; it does stand there so often."""
    at = start - 1
    for _ in range(number):
        at = text.find(mark, at + 1)
    return at


def _paragraphs(text: str, start: int) -> Iterator[tuple[int, str]]:
    """Each run of lines without an empty one, and where it begins."""
    begin = start
    for empty in _EMPTY_LINE.finditer(text, start):
        if empty.start() > begin:
            yield begin, text[begin : empty.start()]
        begin = min(empty.end() + 1, len(text))
    if begin < len(text):
        yield begin, text[begin:]
