"""Swaps that the board proposes, each with the mail that asks its makers."""

from collections.abc import Sequence

from swapboard.records.types import Board
from swapboard.settings import Settings
from swapboard.today.types import Errand
from swapboard.today.words import Mailing, Writer

_NUMBERS = {3: "three", 4: "four"}


def proposal_errands(
    swaps: Sequence[Sequence[Mailing]], board: Board, settings: Settings
) -> tuple[Errand, ...]:
    """An errand for each swap, in the order given; they concern no post yet, so `about`
    is ""."""
    writer = Writer(board, settings)
    return tuple(
        Errand(None, "", (), _in_words(swap), None, writer.proposal(swap))
        for swap in swaps
    )


def _in_words(swap: Sequence[Mailing]) -> str:
    told = "; ".join(
        f"{mailing.giver} mails {', '.join(mailing.cards)} to {mailing.taker}" for mailing in swap
    )
    makers = " ".join(mailing.giver for mailing in swap)
    all_of_them = "both" if len(swap) == 2 else f"all {_NUMBERS[len(swap)]}"
    return f"{told}; when {all_of_them} say yes: swapboard propose {makers} --agreed"
