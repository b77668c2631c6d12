"""What has become of an offer and where each card stands, from dated lines alone."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from swapboard.records.call_phase import opened_on
from swapboard.records.types import Board, Card, Offer, OfferState, State


@dataclass(frozen=True, slots=True)
class Side:
    """How far one maker's side of a swap is: two flags, independent of the other's."""

    maker: str
    cards: tuple[str, ...]
    mailed: bool
    received: bool


def sides(offer: Offer) -> tuple[Side, Side]:
    """Both sides of an offer, the proposer's first."""
    done = {(event.what, event.by) for event in offer.events}
    return tuple(
        Side(maker, cards, ("mailed", maker) in done, ("received", maker) in done)
        for maker, cards in ((offer.from_maker, offer.gives), (offer.to_maker, offer.asks))
    )


def written_state(offer: Offer) -> OfferState:
    """What the dated lines say, without regard to the day or to other offers: never EXPIRED
    or OVERTAKEN."""
    happened = {event.what for event in offer.events}
    both = sides(offer)
    if "declined" in happened:
        return OfferState.DECLINED
    if "withdrawn" in happened:
        return OfferState.WITHDRAWN
    # In a round only one of the two gets something by this offer.
    if all(side.received for side in (both[1:] if offer.round else both)):
        return OfferState.COMPLETE
    if "lost" in happened:
        return OfferState.LOST
    if any(side.mailed for side in both):
        return OfferState.ON_THEIR_WAY
    return OfferState.AGREED if "agreed" in happened else OfferState.PROPOSED


def offer_state(offer: Offer, today: date, days: int) -> OfferState:
    """What has become of an offer by a day.

    It has expired when nobody answered within `days` days of its proposal; the
    last of these days still counts.
    """
    state = written_state(offer)
    waited = (today - offer.events[0].on).days if offer.events else 0
    return OfferState.EXPIRED if state == OfferState.PROPOSED and waited > days else state


def holds(offer: Offer) -> tuple[tuple[str, State], ...]:
    """The cards that an offer has spoken for or moved, with their state, sorted.

    Agreed and on their way: spoken for. Complete: traded. Lost: what arrived is
    traded, the rest stays spoken for until its maker types a State.
    """
    state = written_state(offer)
    if state in (OfferState.AGREED, OfferState.ON_THEIR_WAY):
        return tuple(sorted((card, State.SPOKEN_FOR) for card in (*offer.gives, *offer.asks)))
    if state == OfferState.COMPLETE:
        return tuple(sorted((card, State.TRADED) for card in (*offer.gives, *offer.asks)))
    if state == OfferState.LOST:
        first, second = sides(offer)
        return tuple(
            sorted(
                (card, State.TRADED if other.received else State.SPOKEN_FOR)
                for side, other in ((first, second), (second, first))
                for card in side.cards
            )
        )
    return ()


def standing(board: Board, today: date, days: int) -> dict[str, tuple[State, int]]:
    """Each card's state and the copies of it still free, by name.

    An offer's word goes before the card's own State; a card of an edition is
    available while a copy is free. Offers that are left out of the board keep
    their word. Free copies are 0 in any state but available.
    """
    spoken: Counter[str] = Counter()
    traded: Counter[str] = Counter()
    # Only what is proposed expires, and a proposal holds no card: the day changes nothing here.
    words = [claims(offer, board.cards) for offer in board.offers.values()]
    words += [left_out.holds for left_out in board.left_out]
    for card, state in (pair for word in words for pair in word):
        (traded if state == State.TRADED else spoken)[card] += 1
    return {
        name: _dealt(board, card) or _stands(card, spoken[name], traded[name])
        for name, card in board.cards.items()
    }


def claims(offer: Offer, cards: Mapping[str, Card]) -> tuple[tuple[str, State], ...]:
    """What an offer `holds`, less the cards of a lost one whose maker typed a State:
    after a loss the two settle it between them and say so."""
    held = holds(offer)
    if written_state(offer) != OfferState.LOST:
        return held
    return tuple(
        (card, state)
        for card, state in held
        if state == State.TRADED or card not in cards or "state" not in cards[card].lines
    )


def _dealt(board: Board, card: Card) -> tuple[State, int] | None:
    """Where a card stands that was sent in for a call: it goes to whom it is dealt."""
    if not card.call:
        return None
    call = board.calls.get(card.call)
    opened = call is not None and opened_on(call) is not None
    return (State.TRADED if opened else State.SPOKEN_FOR), 0


def _stands(card: Card, spoken: int, traded: int) -> tuple[State, int]:
    free = card.copies_left - spoken - traded
    if free <= 0:
        return (State.SPOKEN_FOR if spoken else State.TRADED), 0
    return card.state, free if card.state == State.AVAILABLE else 0
