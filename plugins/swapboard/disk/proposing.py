"""`propose`: a swap that the board proposes becomes an offer's post, or one for each parcel."""

import os
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from swapboard.disk.load import Loaded, load_board
from swapboard.disk.lock import BoardBusy, board_lock
from swapboard.disk.matching import match_board
from swapboard.disk.together import write_together
from swapboard.disk.trouble import problem_of
from swapboard.matching.as_offers import offered_already, offers_of, swaps_between
from swapboard.matching.types import Swap
from swapboard.problems import Problem, errors
from swapboard.records.board import read_board
from swapboard.records.names import Names
from swapboard.records.overtaken import states
from swapboard.records.types import Board, Offer, OfferState
from swapboard.taking.fit import find_maker


@dataclass(frozen=True, slots=True)
class Proposed:
    """The posts that were written, by path, and each in words."""

    posts: dict[str, str]
    words: tuple[str, ...]


def write_proposed(
    board: Path, makers: Sequence[str], agreed: bool = False, today: date | None = None
) -> tuple[Proposed | None, list[Problem]]:
    """Write the swap that the board proposes between `makers` as offers, all or none.

    The first maker named makes the offer to the other; a ring becomes one offer for each
    parcel. Refused where no such swap is proposed, or where it is on the board already.
    """
    matched = match_board(board, None, today)
    if matched.proposals is None or not os.path.isfile(board / "board.toml"):
        return None, errors(matched.problems)
    try:
        with board_lock(board / ".swapboard"):
            loaded = load_board(board, today)
            if errors(loaded.problems):
                return None, errors(loaded.problems)
            named, problems = _named(loaded.board, makers)
            if not problems:
                posts, problems = _posts(loaded, matched.proposals.swaps, named, agreed)
            if problems:
                return None, problems
            files = {path: text.encode("utf-8") for path, text in posts.items()}
            wrong = write_together(board, files, set(files))
            return (None, wrong) if wrong else (Proposed(posts, _words(posts, agreed)), [])
    except BoardBusy as busy:
        return None, [busy.problem]
    except OSError as error:
        return None, [problem_of(error, str(board))]


def open_offers(loaded: Loaded) -> list[Offer]:
    """The offers that wait for an answer."""
    found = states(loaded.board, loaded.today, loaded.settings.swaps.offer_days)
    return [loaded.board.offers[n] for n, state in found.items() if state == OfferState.PROPOSED]


def _named(board: Board, makers: Sequence[str]) -> tuple[list[str], list[Problem]]:
    named, problems = [], []
    for text in makers:
        bare = text.removeprefix("makers/").removesuffix(".md")
        if found := find_maker(board, bare):
            named.append(found)
            continue
        fix = Names(board.makers).suggest(bare) or "name a file of makers/ without its ending."
        problems.append(Problem("makers", 0, "", "must be a maker of this board", text, fix))
    if not problems and (len(named) < 2 or len(set(named)) < len(named)):
        must, fix = "must name two makers or more, each once", "see them with: swapboard match"
        problems.append(Problem("makers", 0, "", must, " ".join(makers), fix))
    return named, problems


def _posts(
    loaded: Loaded, swaps: Sequence[Swap], makers: list[str], agreed: bool
) -> tuple[dict[str, str], list[Problem]]:
    meant = swaps_between(swaps, makers)
    if not meant:
        return {}, [_no_such_swap(swaps, makers)]
    waiting = open_offers(loaded)
    posts: dict[str, str] = {}
    for swap in meant:
        if there := offered_already(swap, waiting):
            fix = "; ".join(f"swapboard offer {offer.name} agreed" for offer in there)
            must = "is on the board already, waiting for its yes"
            got = ", ".join(offer.path for offer in there)
            return {}, [Problem("offers", 0, "", must, got, f"when it has come, run: {fix}")]
        texts = {**loaded.texts.texts, **posts}
        board = read_board(texts, loaded.texts.photos, today=loaded.today)[0]
        posts |= offers_of(swap, makers[0], board, loaded.today, agreed)
    texts = {**loaded.texts.texts, **posts}
    after = read_board(texts, loaded.texts.photos, today=loaded.today)[2]
    return posts, errors(after)


def _no_such_swap(swaps: Sequence[Swap], makers: list[str]) -> Problem:
    """What is proposed to the first of them instead, as it can be typed."""
    theirs = [swap.makers for swap in swaps if makers[0] in swap.makers][:5]
    ways = "; ".join(f"swapboard propose {' '.join(names)}" for names in theirs)
    fix = f"proposed is: {ways}" if ways else "see what is proposed with: swapboard match"
    must = "must be the makers of a swap that the board proposes"
    return Problem("offers", 0, "", must, ", ".join(makers), fix)


def _words(posts: dict[str, str], agreed: bool) -> tuple[str, ...]:
    told = [f"{path}: {'agreed' if agreed else 'proposed'}" for path in posts]
    if agreed:
        return (*told, "Its cards are spoken for. To introduce the makers to each other: "
                "swapboard today --drafts")  # fmt: skip
    return (*told, "No card is spoken for until they agree. To ask for the yes: "
            "swapboard today --drafts")  # fmt: skip
