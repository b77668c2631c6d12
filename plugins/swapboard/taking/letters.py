"""A file's bytes → the letters in it: a mail, a mailbox of several, or pasted text."""

import re
from collections.abc import Iterator

from swapboard.problems import Problem
from swapboard.taking.mail import read_mail
from swapboard.taking.parts import sort_of_picture
from swapboard.taking.plain import is_safe_to_compose
from swapboard.taking.types import Letter

LARGEST_LETTER = 40_000_000
"""bytes: some photos as phones take them, in base64."""
LARGEST_BOX = 200_000_000
MOST_LETTERS = 1000
LARGEST_TEXT = 256 * 1024

# RFC 4155, "The application/mbox Media Type", 2005.
_SEPARATOR = re.compile(
    rb"(?:\A|(?<=\n\n)|(?<=\n\r\n))From \S{1,320} [^\r\n]{0,60}\d\d:\d\d[^\r\n]{0,60}\r?\n"
)
_HEADER = re.compile(rb"[!-9;-~]{1,80}:[^\n]*(?:\n[ \t][^\n]*)*(?:\n|\Z)")
# What a mail has and a pasted form has not.
_OF_MAILS = frozenset(
    b"mime-version content-type received return-path subject date message-id".split()
)


def read_letters(data: bytes, where: str) -> tuple[list[Letter], list[Problem]]:
    """The letters in a file's bytes, and what is wrong with those that cannot be read.

    Sizes are capped before anything is taken apart: 40 MB for a letter, 256 kB for its
    text, 200 MB and 1,000 letters for a mailbox.
    """
    if refused := _refused(data, where):
        return [], [refused]
    if not _SEPARATOR.match(data):
        letter, problems = _read_one(data, where)
        return ([letter] if letter else []), problems
    letters, problems = [], []
    for number, one in enumerate(_of_box(data), start=1):
        if number > MOST_LETTERS:
            fix = "take it in parts."
            must = f"must hold at most {MOST_LETTERS} mails"
            return [], [Problem(where, 0, "", must, None, fix)]
        letter, wrong = _read_one(one, f"{where}, mail {number}")
        letters += [letter] if letter else []
        problems += wrong
    return letters, problems


def _refused(data: bytes, where: str) -> Problem | None:
    most = LARGEST_BOX if _SEPARATOR.match(data) else LARGEST_LETTER
    if not data.strip():
        fix = "save the mail again, or paste its text."
        return Problem(where, 0, "", "must hold a mail or a text", "nothing", fix)
    if len(data) > most:
        return _too_large(where, most, len(data))
    if sort_of_picture(data):
        fix = "for a picture of cards use: swapboard add card PHOTO"
        return Problem(where, 0, "", "must be a mail or a text", "a picture", fix)
    return None


def _too_large(where: str, most: int, size: int) -> Problem:
    fix = "ask for fewer or smaller pictures at a time, and for a short text."
    must = f"must be at most {most // 1_000_000} MB"
    return Problem(where, 0, "", must, f"{size / 1e6:.1f} MB", fix)


def _of_box(data: bytes) -> Iterator[bytes]:
    """The mails of a mailbox; a line that was quoted because it began with "From " is
    given back as it was."""
    starts = [(found.start(), found.end()) for found in _SEPARATOR.finditer(data)]
    ends = [start for start, _ in starts[1:]] + [len(data)]
    for (_, begin), end in zip(starts, ends, strict=True):
        yield re.sub(rb"(?m)^>(>*From )", rb"\1", data[begin:end])


def _read_one(data: bytes, where: str) -> tuple[Letter | None, list[Problem]]:
    if len(data) > LARGEST_LETTER:
        return None, [_too_large(where, LARGEST_LETTER, len(data))]
    if is_mail(data):
        return read_mail(data, where)
    if len(data) > LARGEST_TEXT:
        must, fix = "must be at most 256 kB of text", "keep the form and a short note."
        return None, [Problem(where, 0, "", must, f"{len(data) / 1e6:.1f} MB", fix)]
    return _pasted(data, where)


def is_mail(data: bytes) -> bool:
    """Whether bytes begin with a header that only mails have (RFC 5322, 2008)."""
    at, names = 0, set()
    while found := _HEADER.match(data, at):
        names.add(found[0].partition(b":")[0].lower())
        at = found.end()
    is_over = at >= len(data) or data[at : at + 1] == b"\n" or data[at : at + 2] == b"\r\n"
    return is_over and bool(names & _OF_MAILS)


def _pasted(data: bytes, where: str) -> tuple[Letter | None, list[Problem]]:
    marked = data[:2] in (b"\xff\xfe", b"\xfe\xff")
    try:
        text = data.decode("utf-16" if marked else "utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        got = f"byte 0x{data[error.start]:02x}"
        fix = "save the text again with the encoding UTF-8."
        return None, [Problem(where, line, "", "must be text in UTF-8", got, fix)]
    if "\x00" in text or not is_safe_to_compose(text):
        fix = "save the mail as .eml, or paste its text."
        return None, [Problem(where, 0, "", "must be a mail or a text", "something else", fix)]
    return Letter(where, (text,)), []
