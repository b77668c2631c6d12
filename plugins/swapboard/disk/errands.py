"""`today`: the errands of a board, from its posts and its private tables."""

import os
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from swapboard.disk.erasing import DAYS_KEPT, Erasure, addresses_to_erase
from swapboard.disk.load import Loaded, load_board
from swapboard.disk.matching import match_board
from swapboard.disk.private_tables import read_mails
from swapboard.disk.proposing import open_offers
from swapboard.matching.as_offers import offered_already
from swapboard.matching.wants import WantIndex
from swapboard.problems import Problem, errors
from swapboard.records.names import Names
from swapboard.records.types import Board
from swapboard.taking.fit import find_maker
from swapboard.today.calls import call_errands
from swapboard.today.offers import offer_errands
from swapboard.today.proposals import proposal_errands
from swapboard.today.types import Errand, by_urgency
from swapboard.today.words import Mailing


@dataclass(frozen=True, slots=True)
class Today:
    """The errands of a day, the addresses known of each maker, and the board's problems;
    `reader` is the name of whom they are for among the makers."""

    day: date
    reader: str
    errands: tuple[Errand, ...]
    mails: dict[str, list[str]]
    problems: tuple[Problem, ...]


def errands_of(
    folder: Path, today: date | None = None, proposals: bool = True, reader: str = ""
) -> Today:
    """What there is to do on a day, all of it, or only what concerns the maker `reader`.

    Posts with an error are left out, and named; the board proposes swaps (with `proposals`)
    only while it has none.
    """
    loaded = load_board(folder, today)
    if not os.path.isfile(folder / "board.toml"):
        return Today(loaded.today, "", (), {}, tuple(loaded.problems))
    mails, wrong = read_mails(folder)
    board, settings = loaded.board, loaded.settings
    between_two = offer_errands(board, loaded.today, settings, _reasons(board))
    in_rounds = call_errands(board, loaded.today)
    to_erase = (_erase(erasure) for erasure in addresses_to_erase(loaded))
    errands = tuple(sorted((*between_two, *in_rounds, *to_erase), key=by_urgency))
    problems = [*loaded.problems, *wrong]
    if proposals and not errors(loaded.problems):
        errands += proposal_errands(_proposed(loaded), board, settings)
    known = {maker: sorted(addresses) for maker, addresses in sorted(mails.items())}
    if not reader:
        return Today(loaded.today, settings.board.keeper, errands, known, tuple(problems))
    bare = reader.removeprefix("makers/").removesuffix(".md")
    maker = find_maker(board, bare) or ""
    if not maker:
        fix = Names(board.makers).suggest(bare) or "name a file of makers/ without its ending."
        must = "must be a maker of this board"
        problems.append(Problem("makers", 0, "--for", must, reader, fix))
    theirs = tuple(errand for errand in errands if maker and _concerns(board, errand, maker))
    return Today(loaded.today, maker, theirs, known, tuple(problems))


def _concerns(board: Board, errand: Errand, maker: str) -> bool:
    """Whether it is a maker's to do, or theirs to wait for; what is for the keeper is not."""
    if maker in errand.who:
        return True
    if not errand.about:
        return errand.draft is not None and maker in errand.draft.to
    kind, _, name = errand.about.removesuffix(".md").partition("/")
    if kind == "calls":
        return bool(errand.who) and board.calls[name].host == maker
    offer = board.offers[name]
    return bool(errand.who) and maker in (offer.from_maker, offer.to_maker)


def _erase(erasure: Erasure) -> Errand:
    """For the keeper: an address that nobody needs any more."""
    what = (
        f"erase the address of {erasure.maker} from private/addresses.csv: "
        f"the call is over for {DAYS_KEPT} days, and no swap of theirs is open"
    )
    return Errand(None, f"calls/{erasure.call}.md", (), what, erasure.due)


def _proposed(loaded: Loaded) -> list[list[Mailing]]:
    matched = match_board(loaded.folder, None, loaded.today)
    waiting = open_offers(loaded)
    # What is on the board as an offer already waits for its answer there.
    swaps = [swap for swap in (matched.proposals.swaps if matched.proposals else ())
             if not offered_already(swap, waiting)]  # fmt: skip
    return [
        [
            Mailing(parcel.giver, parcel.taker, parcel.cards,
                    tuple(move.want.text for move in parcel.moves))
            for parcel in swap.parcels
        ]
        for swap in swaps
    ]  # fmt: skip


def _reasons(board: Board) -> dict[tuple[str, str], str]:
    """For each card of an offer, the first want of whoever gets it that it fills."""
    pairs = {
        (taker, card)
        for offer in board.offers.values()
        for taker, cards in ((offer.to_maker, offer.gives), (offer.from_maker, offer.asks))
        for card in cards
        if taker in board.makers and card in board.cards
    }
    cards = sorted({card for _, card in pairs})
    index = WantIndex([board.cards[card] for card in cards])
    numbers = {card: number for number, card in enumerate(cards)}
    found: dict[tuple[str, str], str] = {}
    for taker, card in sorted(pairs):
        likes = board.makers[taker].likes
        suits = (want.text for want in likes if numbers[card] in index.suits(want))
        if want := next(suits, ""):
            found[taker, card] = want
    return found
