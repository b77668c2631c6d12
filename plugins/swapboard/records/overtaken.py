"""Proposals whose cards went elsewhere while nobody had answered them."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from swapboard.records.standing import claims, offer_state, written_state
from swapboard.records.types import Board, Card, Offer, OfferState, State

Claims = dict[str, list[tuple[Offer, State]]]


@dataclass(frozen=True, slots=True)
class Overtaking:
    """What overtook a proposal: the offer `by` spoke for the last copy of `card` on a day."""

    by: str
    card: str
    on: date


def claims_by_card(offers: Iterable[Offer], cards: Mapping[str, Card]) -> Claims:
    """For each card the offers that hold or have moved it, the first agreed first."""
    claimed: Claims = defaultdict(list)
    for offer in sorted(offers, key=lambda each: (agreed_on(each), each.path)):
        for name, state in claims(offer, cards):
            claimed[name].append((offer, state))
    return claimed


def agreed_on(offer: Offer) -> date:
    """The day on which an offer was agreed; the last day there is where it was not."""
    return min((event.on for event in offer.events if event.what == "agreed"), default=date.max)


def overtaking(offer: Offer, card: Card | None, claimed: Claims) -> Overtaking | None:
    """What took the last copy of a card on the day of the proposal or later, or None.

    A card that was gone before was asked for in vain: that is no overtaking.
    """
    holders = claimed.get(card.name, []) if card else []
    if not card or not 0 < card.copies_left <= len(holders):
        return None
    taker = holders[card.copies_left - 1][0]
    on = agreed_on(taker)
    return Overtaking(taker.name, card.name, on) if _proposed_on(offer) <= on else None


def overtaken(board: Board) -> dict[str, Overtaking]:
    """The proposals that were overtaken, by name, each with the earliest overtaking; of
    several on one day the first card by name."""
    claimed = claims_by_card(board.offers.values(), board.cards)
    found: dict[str, Overtaking] = {}
    for name, offer in board.offers.items():
        if written_state(offer) != OfferState.PROPOSED:
            continue
        named = (board.cards.get(card) for card in (*offer.gives, *offer.asks))
        all_of_it = filter(None, (overtaking(offer, card, claimed) for card in named))
        if first := min(all_of_it, key=lambda each: (each.on, each.card), default=None):
            found[name] = first
    return found


def last_day(offer: Offer, days: int) -> date:
    """The last day on which a proposal can be answered before it expires."""
    try:
        return _proposed_on(offer) + timedelta(days)
    except OverflowError:
        return date.max


def states(board: Board, today: date, days: int) -> dict[str, OfferState]:
    """What has become of each offer by a day, by name.

    As `offer_state` has it, and a proposal is OVERTAKEN where one of its cards was
    spoken for by another offer before it expired.
    """
    found = {name: offer_state(offer, today, days) for name, offer in board.offers.items()}
    for name, taken in overtaken(board).items():
        if taken.on <= last_day(board.offers[name], days):
            found[name] = OfferState.OVERTAKEN
    return found


def _proposed_on(offer: Offer) -> date:
    return offer.events[0].on if offer.events else date.min
