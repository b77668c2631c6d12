"""Markdown as plain text, for paper and for mails: the words without their marks."""

from functools import cache
from html.parser import HTMLParser
from typing import Any

_BLOCKS = frozenset("p h1 h2 h3 h4 h5 h6 blockquote pre table hr ul ol dl div".split())
_LINES = frozenset("li tr dt dd br".split())
# What is struck out holds no more, and what a page would not show is not said here either.
_UNSAID = frozenset("del s script style template title head".split())
_BULLET, _INDENT = "•", "  "


def plain_words(markdown: str) -> str:
    """`markdown` as text: an empty line between paragraphs, a line for each item of a list.

    A link to an address on the web keeps it, in brackets behind its words; one to a page
    of the board keeps its words alone. A text that the Markdown library cannot make sense
    of stays as it is written; its page says so.
    """
    if not markdown.strip():
        return ""
    try:
        html = _reader().reset().convert(markdown)
    except Exception:  # it has raised anything, for one odd text or another
        return markdown.strip()
    words = _Words()
    words.feed(html)
    words.close()
    return words.text()


@cache
def _reader() -> Any:
    """One for all texts: making it takes longer than reading most of them."""
    from markdown import Markdown

    return Markdown(extensions=["sane_lists", "smarty", "tables"], output_format="html")


class _Words(HTMLParser):
    """Collects the lines of a text; `apart` says whether an empty one comes before."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self._found: list[tuple[bool, str]] = []
        self._line, self._mark, self._apart = "", "", True
        self._lists: list[int | None] = []
        self._links: list[tuple[str, int]] = []
        self._unsaid: list[str] = []
        self._as_it_is = False

    def text(self) -> str:
        """All lines, once everything was fed."""
        self._end(True)
        lines = [("\n" if apart and number else "") + line
                 for number, (apart, line) in enumerate(self._found)]  # fmt: skip
        return "\n".join(lines)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "pre":
            self._end(not self._lists)
            self._as_it_is = True
        if tag in _UNSAID:
            self._unsaid.append(tag)
        if tag in ("ul", "ol"):
            # A list within an item goes on in the next line.
            self._end(not self._lists)
            start = dict(attrs).get("start") or "1"
            number = int(start) if start.isascii() and start.isdigit() else 1
            self._lists.append(number if tag == "ol" else None)
        elif tag in _BLOCKS:
            self._end(not self._lists)
        elif tag in _LINES:
            self._end(False)
        if tag == "li" and self._lists:
            number = self._lists[-1]
            self._mark = _INDENT * (len(self._lists) - 1)
            self._mark += f"{_BULLET} " if number is None else f"{number}. "
            self._lists[-1] = None if number is None else number + 1
        elif tag in ("td", "th") and self._line.strip():
            self._line = self._line.rstrip() + ", "
        elif tag == "a":
            self._links.append((dict(attrs).get("href") or "", len(self._line)))

    def handle_endtag(self, tag: str) -> None:
        if self._unsaid and self._unsaid[-1] == tag:
            self._unsaid.pop()
        if tag in ("ul", "ol") and self._lists:
            self._end(False)
            self._lists.pop()
            self._apart = self._apart or not self._lists
        elif tag in _BLOCKS:
            self._end(not self._lists)
            self._as_it_is = self._as_it_is and tag != "pre"
        elif tag == "a" and self._links:
            self._line += _address(*self._links.pop(), self._line)

    def handle_data(self, data: str) -> None:
        if self._unsaid:
            return
        if not self._as_it_is:
            self._line += data
            return
        for number, line in enumerate(data.split("\n")):
            if number:
                self._end(False)
            self._line += line

    def _end(self, apart: bool) -> None:
        """The line is done; `apart` says that the next one begins a paragraph."""
        words = self._line.rstrip() if self._as_it_is else " ".join(self._line.split())
        if words:
            self._found.append((self._apart, self._mark + words))
            self._mark = " " * len(self._mark)
            self._apart = False
        self._line = ""
        self._links = [(address, 0) for address, _ in self._links]
        self._apart = self._apart or apart
        if not self._lists:
            self._mark = ""


def _address(address: str, start: int, line: str) -> str:
    """What is said behind the words of a link that began at `start` of the line."""
    bare = address.removeprefix("mailto:")
    on_the_web = address.startswith(("https://", "http://", "mailto:"))
    return f" ({bare})" if on_the_web and line[start:].strip() != bare else ""
