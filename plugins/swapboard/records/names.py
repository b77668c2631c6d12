"""Names are file stems: which are fit for a file and a web address, and whose they are."""

import re
import unicodedata
from collections.abc import Iterable, Iterator

from swapboard.problems import Problem, Suggestions
from swapboard.vocabulary import slug
from swapboard.vocabulary.spelling import RESERVED_NAMES

LONGEST_NAME = 100
_MOST_BYTES = 200
_FIT = re.compile(r"[^\W_](?:[\w.-]*[\w-])?")


def name_of(path: str, ending: str = ".md") -> str:
    """The name that a file gives: its stem, in NFC."""
    return unicodedata.normalize("NFC", path.rpartition("/")[2].removesuffix(ending))


def title_of(name: str) -> str:
    """A title made from a name: "night-heron" is "Night heron"."""
    words = re.sub(r"[-_.]+", " ", name).strip() or name
    return words[0].upper() + words[1:]


def name_problem(path: str, ending: str = ".md") -> Problem | None:
    """What makes a name unfit: on Windows, in a web address or by its length."""
    name = name_of(path, ending)
    letters = "".join(c for c in name if unicodedata.category(c)[0] != "M")
    must = ""
    if not name or len(name) > LONGEST_NAME or len(name.encode(errors="replace")) > _MOST_BYTES:
        must = f"must have a name of 1 to {LONGEST_NAME} characters"
    elif name.casefold().partition(".")[0] in RESERVED_NAMES:
        must = "must not have a name that Windows keeps for itself"
    elif not _FIT.fullmatch(letters):
        must = "must have a name of letters, digits, hyphens, underscores and inner dots"
    if not must:
        return None
    return Problem(path, 0, "", must, name, f"rename the file to {slug(name)[:60]}{ending}.")


def name_clashes(paths: Iterable[str]) -> Iterator[Problem]:
    """A problem for each file whose name another of its kind, earlier in sorted
    order, already has: after slugging, so case, accents and NFC do not tell apart."""
    first: dict[str, str] = {}
    for path in sorted(paths):
        key = slug(name_of(path))
        if key in first:
            must = "must have a name of its own; case and accents do not count"
            fix = f"rename it: {first[key]} has the same web address."
            yield Problem(path, 0, "", must, name_of(path), fix)
        else:
            first[key] = path


class Names:
    """The names of one kind on a board, those of unreadable files too."""

    def __init__(self, names: Iterable[str]) -> None:
        self._all = frozenset(names)
        self._by_slug = {slug(name): name for name in sorted(self._all, reverse=True)}
        self._suggestions = Suggestions(self._all)

    def __contains__(self, name: str) -> bool:
        return name in self._all

    def __iter__(self) -> Iterator[str]:
        return iter(sorted(self._all))

    def find(self, text: str) -> str | None:
        """The name meant: as written, or but for case, accents and spaces; else None."""
        return text if text in self._all else self._by_slug.get(slug(text))

    def suggest(self, text: str) -> str:
        """A "did you mean" sentence, or ""."""
        return self._suggestions.near(text)
