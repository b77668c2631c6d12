"""Rounds: the offers in which three or four makers each mail to the next."""

from swapboard.records.types import Board, Offer


def parcels_of_round(board: Board, offer: Offer) -> tuple[Offer, ...]:
    """The offers of an offer's round, itself among them, in the order in which its makers
    mail; an offer between two makers alone.

    They belong together that go round the same way and were proposed on the same day.
    """
    if not offer.round:
        return (offer,)
    place = {maker: at for at, maker in enumerate(offer.round)}
    found = [other for other in board.offers.values() if _which(other) == _which(offer)]
    return tuple(sorted(found, key=lambda each: (place.get(each.from_maker, 0), each.name)))


def _which(offer: Offer) -> tuple:
    """The makers from the first by name on, and the day of the proposal."""
    if not offer.round:
        return ()
    at = offer.round.index(min(offer.round))
    day = offer.events[0].on if offer.events else None
    return (*offer.round[at:], *offer.round[:at]), day
