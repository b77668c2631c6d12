"""All posts of a board as first read, while their references are being checked."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from swapboard.problems import ERROR, Problem, did_you_mean
from swapboard.records.call import read_call
from swapboard.records.card import UNKNOWN_MEDIUM, read_card
from swapboard.records.deal_file import ENDING as DEAL_ENDING
from swapboard.records.deal_file import read_deal
from swapboard.records.deal_types import DealRecord
from swapboard.records.maker import read_maker
from swapboard.records.names import Names, name_clashes, name_of
from swapboard.records.offer import read_offer
from swapboard.records.page import read_page
from swapboard.records.people import ENDING, read_people
from swapboard.records.types import Person
from swapboard.settings import PATH, Settings

READERS = {
    "cards": read_card,
    "makers": read_maker,
    "calls": read_call,
    "offers": read_offer,
    "pages": read_page,
}
BESIDE_CALLS = (ENDING, DEAL_ENDING)
_POST = re.compile(r"([a-z]+)/[^/]+\.md")


@dataclass(slots=True)
class Drafts:
    """Records by kind and name, good or not, and every problem found so far.

    `good` holds, by kind, those without an error; `names` those of every file,
    so that a reference to a broken post is not called unknown. `beside` are
    records that lost their name to another file.
    """

    settings: Settings
    records: dict[str, dict[str, Any]] = field(default_factory=dict)
    names: dict[str, Names] = field(default_factory=dict)
    people: dict[str, tuple[Person, ...]] = field(default_factory=dict)
    deals: dict[str, DealRecord] = field(default_factory=dict)
    beside: list[Any] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    broken: set[str] = field(default_factory=set)
    unreadable: set[str] = field(default_factory=set)

    def add(self, problem: Problem) -> None:
        """Keep a problem; an error marks its file as broken.

        While board.toml is broken nobody knows what media the keeper has added.
        """
        if problem.must == UNKNOWN_MEDIUM and PATH in self.broken:
            return
        self.problems.append(problem)
        if problem.severity == ERROR:
            self.broken.add(problem.path)

    def good(self, kind: str) -> Iterator[Any]:
        """The records of a kind whose files have no error so far, by name."""
        return (r for r in list(self.records[kind].values()) if r.path not in self.broken)


def read_drafts(
    texts: Mapping[str, str],
    settings: Settings,
    problems: Iterable[Problem] = (),
    unread: Iterable[str] = (),
) -> Drafts:
    """Read every post and every list of people, each for itself.

    `problems` are those of board.toml; `unread` are files whose text nobody has.
    """
    # A picture or a stray file without text is no record to leave out.
    unread = {path for path in unread if path == PATH or path.partition("/")[0] in READERS}
    drafts = Drafts(settings, {kind: {} for kind in READERS}, broken=set(unread))
    for problem in problems:
        drafts.add(problem)
    paths = {kind: [] for kind in READERS}
    lists = []
    for path in sorted({*texts, *unread}):
        kind = _POST.fullmatch(path)
        if path.startswith("calls/") and path.endswith(BESIDE_CALLS) and path.count("/") == 1:
            lists.append(path)
        elif kind and kind[1] in READERS:
            paths[kind[1]].append(path)
        elif path != PATH and path in texts:
            drafts.add(_stray(path))
    for kind, found in paths.items():
        _read_kind(drafts, kind, found, texts)
    for path in lists:
        if path in texts:
            _read_beside(drafts, path, texts[path])
    # What is wrong within a file leaves its words in doubt; what is wrong between
    # files, found later, does not.
    drafts.unreadable = set(drafts.broken)
    return drafts


def _read_kind(drafts: Drafts, kind: str, paths: list[str], texts: Mapping[str, str]) -> None:
    drafts.names[kind] = Names(map(name_of, paths))
    paths = [path for path in paths if path in texts]
    clashes = {problem.path: problem for problem in name_clashes(paths)}
    read = READERS[kind]
    records = {}
    for path in paths:
        record, problems = read(path, texts[path], drafts.settings)
        for problem in problems:
            drafts.add(problem)
        if path in clashes:
            drafts.add(clashes[path])
            drafts.beside.append(record)
        else:
            records[record.name] = record
    drafts.records[kind] = dict(sorted(records.items()))


def _read_beside(drafts: Drafts, path: str, text: str) -> None:
    """A call's list of people, or its deal."""
    is_deal = path.endswith(DEAL_ENDING)
    found, problems = (read_deal if is_deal else read_people)(path, text)
    for problem in problems:
        drafts.add(problem)
    name = name_of(path, DEAL_ENDING if is_deal else ENDING)
    if name in drafts.names["calls"]:
        if found is not None:
            (drafts.deals if is_deal else drafts.people)[name] = found
        return
    must = "must lie beside the call of the same name"
    fix = drafts.names["calls"].suggest(name) or f"add calls/{name}.md, or rename this file."
    drafts.add(Problem(path, 0, "", must, name, fix))


def _stray(path: str) -> Problem:
    folder, slash, rest = path.partition("/")
    must = "must be a file that a board has"
    fix = "posts are NAME.md in cards, makers, calls, offers or pages: move or rename it."
    if slash and folder not in READERS and (hint := did_you_mean(folder, READERS)):
        fix = f"{hint} Rename the folder."
    elif folder in READERS and "/" not in rest and "." in rest:
        fix = f"rename it to {folder}/{rest.rpartition('.')[0]}.md, or take it out of this folder."
    return Problem(path, 0, "", must, None, fix)
