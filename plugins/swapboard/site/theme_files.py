"""The theme's own files as a site has them: one style sheet, scripts, the icon."""

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

SHEET = "theme/site.css"
FIRST = ("tokens", "reset", "base")
LAST = ("pages", "print")
NOT_PUBLIC = "fix"  # the keeper's page for putting corners right is no page of the site
# A comment, a string, a mark that needs no space around it, or space. A space before ":" or
# around ">" and "+" can matter in CSS; one after ":" cannot.
_SPARED = re.compile(
    r"(?P<comment>/\*.*?\*/)|(?P<string>\"[^\"]*\"|'[^']*')"
    r"|\s*(?P<mark>[{};,])\s*|(?P<colon>:)\s+|\s+",
    re.S,
)


def theme_files(static: Path) -> Iterator[tuple[str, bytes]]:
    """(path in the site, bytes) of each file made of the theme's folder `static`, sorted.

    All style sheets become one, so that a page waits for a single file.
    """
    found = {SHEET: style_sheet(static / "css")}
    for file in static.rglob("*"):
        is_public = not file.name.startswith((".", NOT_PUBLIC))
        if file.is_file() and is_public and file.suffix != ".css":
            found[f"theme/{file.relative_to(static).as_posix()}"] = file.read_bytes()
    yield from sorted(found.items())


def style_sheet(folder: Path) -> bytes:
    """The sheets of `folder` as one: tokens, reset and base, components by name, pages and
    print; comments and spaces, which only people need, are left out."""
    found = {file.stem: file for file in folder.glob("*.css")}
    components = sorted(
        name for name in found.keys() - {*FIRST, *LAST} if not name.startswith(NOT_PUBLIC)
    )
    order = [name for name in (*FIRST, *components, *LAST) if name in found]
    css = "\n".join(found[name].read_text("utf-8") for name in order)
    return _packed_sheet(css)


@lru_cache(maxsize=2)  # the preview makes the same sheet for every build
def _packed_sheet(css: str) -> bytes:
    return (_SPARED.sub(_packed, css).strip() + "\n").encode("utf-8")


def _packed(match: re.Match[str]) -> str:
    string, comment, mark, colon = match.group("string", "comment", "mark", "colon")
    return "" if comment else string or mark or colon or " "
