"""All that a board holds of one maker: what `export` hands over and `forget` takes away."""

import csv
import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from swapboard.disk.announced import OUTLASTS
from swapboard.disk.load import Loaded
from swapboard.disk.private_tables import Table, split_rows, table_of
from swapboard.disk.trouble import problem_of
from swapboard.problems import Problem, did_you_mean
from swapboard.records.types import Card
from swapboard.vocabulary import slug


@dataclass(frozen=True, slots=True)
class OneMaker:
    """A maker's posts, pictures and private rows, by path in the board.

    `photos` show their cards alone, `shared_photos` those of others too; `private` has
    their rows of each table and the rows without them; `mentions` are private files of
    another kind that name them."""

    name: str
    names: frozenset[str]
    cards: tuple[str, ...]
    offers: tuple[str, ...]
    hosts: tuple[str, ...]
    lists: tuple[str, ...]
    photos: tuple[str, ...]
    shared_photos: tuple[str, ...]
    private: dict[str, tuple[Table, Table]]
    mentions: tuple[str, ...]


def find_maker(loaded: Loaded, asked: str) -> tuple[OneMaker | None, list[Problem]]:
    """Everything of the maker `asked` (the name of a file in makers/, or their name)."""
    board = loaded.board
    titles = {slug(maker.title): name for name, maker in board.makers.items()}
    name = asked if asked in board.makers else titles.get(slug(asked), slug(asked))
    cards = tuple(card for card, one in board.cards.items() if one.maker == name)
    known = {name, *(slug(board.makers[name].title) for _ in [0] if name in board.makers)}
    private, mentions, problems = _private_of(loaded.folder, frozenset(known))
    lists = tuple(
        call for call, one in board.calls.items() if any(p.maker == name for p in one.people)
    )
    found = OneMaker(
        name, frozenset(known), cards,
        tuple(offer for offer, one in board.offers.items()
              if name in (one.from_maker, one.to_maker, *one.round)),
        tuple(call for call, one in board.calls.items() if one.host == name),
        lists, *_photos(list(board.cards.values()), name), private, mentions,
    )  # fmt: skip
    if name not in board.makers and not (cards or lists or private):
        fix = did_you_mean(asked, board.makers) or "name a file of makers/ without its ending."
        return None, [Problem("makers", 0, "", "must be a maker of this board", asked, fix)]
    return found, problems


def _photos(cards: list[Card], name: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    theirs, others = set(), set()
    for card in cards:
        used = {f"photos/{spot.file}" for spot in (card.photo, card.back) if spot}
        (theirs if card.maker == name else others).update(used)
    return tuple(sorted(theirs - others)), tuple(sorted(theirs & others))


def _private_of(
    board: Path, names: frozenset[str]
) -> tuple[dict[str, tuple[Table, Table]], tuple[str, ...], list[Problem]]:
    tables, mentions, problems = {}, [], []
    for path in _private_files(board):
        try:
            text = (board / path).read_text("utf-8-sig")
            if path.endswith((".csv", ".tsv")):
                theirs, others = split_rows(table_of(text), names)
                if len(theirs.rows) > 1:
                    tables[path] = theirs, others
            elif any(name in text for name in names):
                mentions.append(path)
        except OSError as error:
            problems.append(problem_of(error, path))
        except (UnicodeDecodeError, csv.Error):
            fix = "look into it yourself, or save it again as CSV in UTF-8."
            problems.append(Problem(path, 0, "", "must be readable in UTF-8", None, fix))
    return tables, tuple(mentions), problems


def _private_files(board: Path) -> Iterator[str]:
    for folder, folders, names in os.walk(board / "private"):
        folders.sort()
        inner = os.path.relpath(folder, board).replace(os.sep, "/")
        found = (f"{inner}/{name}" for name in sorted(names))
        yield from (path for path in found if path != OUTLASTS)
