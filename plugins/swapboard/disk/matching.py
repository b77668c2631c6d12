"""A board's proposed swaps, found, checked and reported."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from swapboard.disk.load import load_board
from swapboard.matching.certificate import complaints
from swapboard.matching.market import market_of
from swapboard.matching.match import match
from swapboard.matching.types import Proposals
from swapboard.problems import Problem, errors


@dataclass(frozen=True, slots=True)
class Matched:
    """What is proposed, None where the board has errors; and the board's problems."""

    proposals: Proposals | None
    problems: Sequence[Problem]


def match_board(folder: Path, rings: int | None = None, today: date | None = None) -> Matched:
    """Match the board in `folder`; `rings` is its setting if left out.

    Raises RuntimeError where the checker refuses what was found: that is a fault of
    the program, and nothing is to be shown.
    """
    loaded = load_board(folder, today)
    if errors(loaded.problems):
        return Matched(None, loaded.problems)
    swaps = loaded.settings.swaps
    market = market_of(loaded.board, loaded.today, swaps.offer_days)
    proposals = match(market, rings or swaps.rings, swaps.match_seconds)
    wrong = complaints(loaded.board, proposals, loaded.today, swaps.offer_days)
    if wrong:
        raise RuntimeError("the proposed swaps failed their check: " + "; ".join(wrong[:5]))
    return Matched(proposals, loaded.problems)
