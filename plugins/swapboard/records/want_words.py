"""The words that wants are read with: a board's themes, media, makers and cards."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from swapboard.problems import Suggestions
from swapboard.vocabulary.spelling import bare

# What a sentence may call each kind, in the order in which bare words are looked up.
KINDS = {
    "theme": "theme",
    "themes": "theme",
    "medium": "medium",
    "media": "medium",
    "maker": "maker",
    "makers": "maker",
    "card": "card",
    "cards": "card",
}
_TOKEN = re.compile(r"[^\W_]+(?:['’][^\W_]+)*|[,;]")


@dataclass(frozen=True, slots=True)
class Token:
    """A word of a sentence: folded, and as it was written."""

    word: str
    written: str


def tokens_of(text: str) -> list[Token]:
    """The words and commas of a sentence; other marks only part words."""
    tokens: list[Token] = []
    for found in _TOKEN.finditer(text):
        written = found[0]
        if written in ",;":
            tokens.append(Token(",", ","))
        else:
            # "children's" folds to two words but was written once.
            folded = bare(written).split()
            tokens += (Token(word, "" if i else written) for i, word in enumerate(folded))
    while tokens and tokens[-1].word == ",":
        tokens.pop()
    return tokens


class WantWords:
    """Names by kind, found longest first.

    `names` gives for each kind pairs of (what people may write, the name meant);
    where two pairs fold alike the first one counts.
    """

    def __init__(self, names: Mapping[str, Iterable[tuple[str, str]]]) -> None:
        self._names: dict[str, dict[tuple[str, ...], str]] = {}
        self._longest: dict[str, dict[str, int]] = {}
        for kind, pairs in names.items():
            self._add(kind, pairs)
        self._suggestions = Suggestions(self._all_names(), cutoff=0.8)

    def _add(self, kind: str, pairs: Iterable[tuple[str, str]]) -> None:
        known = self._names[kind] = {}
        longest = self._longest[kind] = {}
        for spelling, name in pairs:
            words = tuple(token.word for token in tokens_of(spelling) if token.word != ",")
            if words and words not in known:
                known[words] = name
                longest[words[0]] = max(longest.get(words[0], 0), len(words))

    def _all_names(self) -> set[str]:
        return {name for known in self._names.values() for name in known.values()}

    def longest(
        self, tokens: list[Token], at: int, kinds: tuple[str, ...]
    ) -> tuple[str, str, int] | None:
        """(kind, name, number of words) of the longest name that begins here."""
        if at >= len(tokens):
            return None
        best = None
        for kind in kinds:
            most = self._longest.get(kind, {}).get(tokens[at].word, 0)
            here = [token.word for token in tokens[at : at + most]]
            for length in range(len(here), best[2] if best else 0, -1):
                if name := self._names[kind].get(tuple(here[:length])):
                    best = (kind, name, length)
                    break
        return best

    def example(self) -> str:
        """A want that this board can read, with its own words."""
        kinds = [
            f"{kind} {min(self._names[kind].values())}"
            for kind in ("theme", "medium")
            if self._names.get(kind)
        ]
        return " and ".join(kinds) + ", up to 2" if kinds else "anything, up to 2"

    def suggest(self, text: str) -> str:
        """A "did you mean" for the first word that is like a name but none, or ""."""
        starts = {word for longest in self._longest.values() for word in longest}
        unknown = (t.word for t in tokens_of(text) if len(t.word) > 3 and t.word not in KINDS)
        near = (self._suggestions.near(word) for word in unknown if word not in starts)
        return next(filter(None, near), "")
