"""Text as mail programs leave it → the lines that somebody wrote."""

import re
import unicodedata
from html import unescape

_LINE_END = re.compile("\r\n|[\n\r\x0b\x0c\x85\u2028\u2029]")
_SPACES = re.compile("[\t\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]")
# Marks of no width that mail programs put in; joiners stay, some scripts need them.
_NOTHING = re.compile("[\u200b\u2060\ufeff\u00ad]")
_HYPHENS = re.compile("[\u2010\u2011]")
_QUOTED = re.compile(r"(?: ?>)+ ?")

_PRE = re.compile(r"(<pre\b[^<>]*>|</pre\s*>)", re.IGNORECASE)
_BLOCK = r"(?:p|div|tr|li|h[1-6]|blockquote|ul|ol|table|pre|section|article)"
_ENDS_LINE = re.compile(rf"<(?:br|/{_BLOCK})\b[^<>]*>", re.IGNORECASE)
_BEGINS_LINE = re.compile(rf"<{_BLOCK}\b[^<>]*>", re.IGNORECASE)
_TAG = re.compile(r"<[^<>]*>")
_HTML_SPACE = re.compile(r"[ \t\r\n\f]+")


def is_safe_to_compose(text: str) -> bool:
    """Whether no letter carries more than 30 marks (Unicode Standard Annex #15, section
    13, stream-safe text): composing costs time by the square of them."""
    marks = 0
    for character in () if text.isascii() else text:
        marks = marks + 1 if unicodedata.combining(character) else 0
        if marks > 30:
            return False
    return True


def lines_of(text: str) -> list[str]:
    """Lines in NFC without the marks of quoting; every kind of space or hyphen is a plain
    one."""
    text = _HYPHENS.sub("-", _NOTHING.sub("", unicodedata.normalize("NFC", text)))
    return [_unquoted(_SPACES.sub(" ", line)) for line in _LINE_END.split(text)]


def _unquoted(line: str) -> str:
    found = _QUOTED.match(line)
    return line[found.end() :] if found else line


def unflowed(text: str, delete_space: bool = False) -> str:
    """The text of a mail whose type says format=flowed: lines that end in a space go on
    with the next of the same depth of quoting (RFC 3676, 2004, section 4)."""
    made: list[str] = []
    flowing, depth_before = False, 0
    for line in _LINE_END.split(text):
        bare = line.lstrip(">")
        depth = len(line) - len(bare)
        bare = bare.removeprefix(" ")
        if flowing and depth == depth_before:
            last = made[-1][:-1] if delete_space else made[-1]
            made[-1] = last + bare
        else:
            made.append(">" * depth + (" " if depth else "") + bare)
        flowing, depth_before = bare.endswith(" ") and bare != "-- ", depth
    return "\n".join(made)


def text_of_html(html: str) -> str:
    """The words of a web page, a line for each that it would show; for reading a form in
    it, not for showing. Costs time in proportion to its length."""
    parts = _PRE.split(html)
    kept = []
    is_pre = False
    for part in parts:
        if _PRE.fullmatch(part):
            is_pre = not part.startswith("</")
            kept.append(part)
        elif is_pre:
            kept.append(_LINE_END.sub("<br>", part).replace(" ", "\u00a0"))
        else:
            kept.append(_HTML_SPACE.sub(" ", part))
    text = _ENDS_LINE.sub("\n", "".join(kept))
    text = _TAG.sub("", _BEGINS_LINE.sub("\x02", text))
    text = re.sub(r"(^|\n)[ \x02]*\x02", r"\1", text).replace("\x02", "\n")
    return "\n".join(line.strip(" ") for line in unescape(text).split("\n"))
