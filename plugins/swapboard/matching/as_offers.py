"""Proposed swaps as offers: which swap is meant, its posts, and whether it is offered already."""

from collections.abc import Collection, Sequence
from datetime import date

from swapboard.matching.types import Swap
from swapboard.records.names import name_of
from swapboard.records.new_offer import NewOffer, offer_post
from swapboard.records.types import Board, Offer


def swaps_between(swaps: Sequence[Swap], makers: Sequence[str]) -> list[Swap]:
    """The swaps of just these makers, in whatever order they are named.

    Of rings of the same makers, which can go round in two ways or more, only those that
    go round as named, if there is one.
    """
    same = [swap for swap in swaps if sorted(swap.makers) == sorted(makers)]
    turns = {(*makers[at:], *makers[:at]) for at in range(len(makers))}
    return [swap for swap in same if swap.makers in turns] or same


def offers_of(swap: Swap, first: str, board: Board, today: date, agreed: bool) -> dict[str, str]:
    """The posts that hold a swap, by path: one offer between two makers, made by `first`;
    for a ring one for each parcel. All are proposed today, and with `agreed` agreed too."""
    parcels = list(swap.parcels)
    at = next((i for i, parcel in enumerate(parcels) if parcel.giver == first), 0)
    parcels = [*parcels[at:], *parcels[:at]]
    makers = tuple(parcel.giver for parcel in parcels)
    if len(parcels) == 2:
        made = [NewOffer(*makers, parcels[0].cards, parcels[1].cards)]
    else:
        made = [NewOffer(p.giver, p.taker, p.cards, round=makers) for p in parcels]
    steps = ("proposed", "agreed") if agreed else ("proposed",)
    posts: dict[str, str] = {}
    for offer in made:
        path, text = offer_post(offer, board, today, steps=steps, also_taken=map(name_of, posts))
        posts[path] = text
    return posts


def offered_already(swap: Swap, open_offers: Collection[Offer]) -> list[Offer]:
    """The open offers that hold every card of a swap on its way; none where one is missing."""
    moves = {(move.giver, move.taker, move.card) for p in swap.parcels for move in p.moves}
    holding = [offer for offer in open_offers if _moves(offer) <= moves]
    found = set().union(*map(_moves, holding))
    return holding if found == moves else []


def _moves(offer: Offer) -> set[tuple[str, str, str]]:
    return {
        *((offer.from_maker, offer.to_maker, card) for card in offer.gives),
        *((offer.to_maker, offer.from_maker, card) for card in offer.asks),
    }
