"""A board's proposed swaps: found or known from before, checked either way."""

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from swapboard.disk.load import Loaded, load_board
from swapboard.disk.match_cache import keep, key_of, known
from swapboard.matching.certificate import complaints
from swapboard.matching.market import market_of
from swapboard.matching.types import Market, Matching, Proposals
from swapboard.problems import Problem, errors


@dataclass(frozen=True, slots=True)
class Matched:
    """What is proposed, None where the board has errors; and the board's problems."""

    proposals: Proposals | None
    problems: Sequence[Problem]


def match_board(folder: Path, rings: int | None = None, today: date | None = None) -> Matched:
    """Match the board in `folder`; `rings` is its setting if left out."""
    loaded = load_board(folder, today)
    if errors(loaded.problems):
        return Matched(None, loaded.problems)
    swaps = loaded.settings.swaps
    market = market_of(loaded.board, loaded.today, swaps.offer_days)
    proposals, wrong = proposed(loaded, market, rings or swaps.rings, swaps.match_seconds)
    return Matched(proposals, loaded.with_problems(wrong).problems)


def matching_of(loaded: Loaded) -> tuple[Matching | None, list[Problem]]:
    """All that a build says of who could swap with whom; None, and a problem, where
    what was found does not hold. A board without wants costs next to nothing."""
    swaps = loaded.settings.swaps
    market = market_of(loaded.board, loaded.today, swaps.offer_days)
    if not market.wishes:
        return Matching(Proposals(swaps.rings, (), ()), {}, {}), []
    proposals, wrong = proposed(loaded, market, swaps.rings, swaps.build_match_seconds)
    if proposals is None:
        return None, wrong
    from swapboard.matching.people import for_each_maker, likers_of_cards

    people = {page.maker: page for page in for_each_maker(market, proposals)}
    return Matching(proposals, people, likers_of_cards(market)), []


def proposed(
    loaded: Loaded, market: Market, rings: int, seconds: int
) -> tuple[Proposals | None, list[Problem]]:
    """The proposed swaps of a board, certified; None, and a problem, where they do not hold.

    What was found before is taken again where the market, the program and `rings` are
    the same and it was proven, or looked for at least as long. It is checked like
    anything new, and looked for anew where it does not hold.
    """
    key = key_of(market, rings)
    proposals = known(loaded, rings, key, seconds)
    if proposals is not None and not _complaints(loaded, proposals):
        return proposals, []
    from swapboard.matching.match import match

    proposals = match(market, rings, seconds)
    wrong = _complaints(loaded, proposals)
    if wrong:
        return None, [_does_not_hold(wrong)]
    with suppress(OSError):  # a folder that cannot be written to costs only time
        keep(loaded, proposals, key, seconds)
    return proposals, []


def _complaints(loaded: Loaded, proposals: Proposals) -> list[str]:
    return complaints(loaded.board, proposals, loaded.today, loaded.settings.swaps.offer_days)


def _does_not_hold(wrong: list[str]) -> Problem:
    return Problem(
        "board.toml", 0, "", "must give proposed swaps that pass their check",
        "; ".join(wrong[:3]),
        "this is a fault of the program, not of the board: please report it with the board; "
        "nothing was published",
    )
