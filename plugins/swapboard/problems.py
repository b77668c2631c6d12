"""Problems: what is wrong with a board, where, and how to mend it.

Every floor reports what it cannot use as a `Problem` and goes on, so that one
run names everything there is to mend.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import SequenceMatcher, get_close_matches

ERROR = "error"
WARNING = "warning"

_MOST_KEPT = 1000


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing to mend.

    `path` is relative to the board folder, with forward slashes; `line` counts
    from 1 and is 0 where the whole file is meant; `field` is the key as the
    keeper wrote it, or "" for the whole file; `must` says what the value has
    to be; `got` what was found (None where there is nothing to quote); `fix`
    is one plain sentence that says what to do. An `ERROR` stops a build, a
    `WARNING` does not.
    """

    path: str
    line: int
    field: str
    must: str
    got: str | None
    fix: str
    severity: str = ERROR

    def __str__(self) -> str:
        place = f"{self.path}:{self.line}" if self.line else self.path
        field = f" {self.field}:" if self.field else ""
        got = "" if self.got is None else f' (got "{_short(self.got)}")'
        return f"{place}:{field} {self.must}{got}. Fix: {self.fix}"


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """Each problem once: errors before warnings, then by path, line and field."""
    return sorted(
        set(problems),
        key=lambda p: (p.severity != ERROR, p.path, p.line, p.field, p.must, p.got or "", p.fix),
    )


def errors(problems: Iterable[Problem]) -> list[Problem]:
    """Only the problems that stop a build."""
    return [problem for problem in problems if problem.severity == ERROR]


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A sentence naming the closest known word, or "" when nothing is close.

    Compared without regard to case; ties go to the first in sorted order.
    """
    return Suggestions(known).near(word)


class Suggestions:
    """`did_you_mean` for a list that is asked many times.

    A comparison costs about 10 µs for each known word, so answers are kept, and
    after `most` comparisons (of the first ten words at least) none is looked
    for: a list wrong from top to bottom is not mended word by word. Without
    `most` there is no end to it: for short lists that outlive one reading, whose
    answers must not depend on what was asked before.
    """

    def __init__(
        self, known: Iterable[str], most: int | None = 100_000, cutoff: float = 0.6
    ) -> None:
        self._known = known
        self._cutoff = cutoff
        self._most = most
        self._by_fold: dict[str, str] | None = None
        self._answers: dict[str, str] = {}

    def near(self, word: str) -> str:
        """The sentence, or ""."""
        asked = word.casefold()[:100]
        if asked not in self._answers:
            if self._most is None:
                if len(self._answers) >= _MOST_KEPT:
                    self._answers.clear()
            elif len(self._answers) >= max(10, self._most // max(1, len(self._folds()))):
                return ""
            self._answers[asked] = self._look(asked)
        return self._answers[asked]

    def _folds(self) -> dict[str, str]:
        if self._by_fold is None:
            self._by_fold = {name.casefold(): name for name in sorted(self._known, reverse=True)}
        return self._by_fold

    def _look(self, asked: str) -> str:
        by_fold = self._folds()
        # difflib ranks equal ratios by the word itself, the last first: reading the
        # best few and choosing anew makes the tie-break our own.
        close = get_close_matches(asked, by_fold, n=5, cutoff=self._cutoff)
        if not close:
            return ""
        best = min(close, key=lambda fold: (-_ratio(asked, fold), fold))
        return f'did you mean "{by_fold[best]}"?'


def _ratio(asked: str, fold: str) -> float:
    return SequenceMatcher(None, fold, asked).ratio()


def _short(text: str, most: int = 80) -> str:
    """Text on one line without control characters, cut where it is long."""
    line = "".join(c if c.isprintable() else " " for c in text)
    return line if len(line) <= most else line[: most - 1] + "…"
