"""Rounds: the offers in which three or four makers each mail to the next."""

from collections.abc import Iterable, Iterator

from swapboard.records.types import Board, Offer


def parcels_of_round(board: Board, offer: Offer) -> tuple[Offer, ...]:
    """The offers of an offer's round, itself among them, in the order in which its makers
    mail; an offer between two makers alone.

    They belong together that go round the same way and were proposed on the same day.
    """
    if not offer.round:
        return (offer,)
    which = _which(offer)
    place = {maker: at for at, maker in enumerate(offer.round)}
    found = [one for one in board.offers.values() if one.round and _which(one) == which]
    return tuple(sorted(found, key=lambda each: (place.get(each.from_maker, 0), each.name)))


def lacking_parcels(offers: Iterable[Offer]) -> Iterator[tuple[Offer, tuple[str, str]]]:
    """Each offer of a round that is not whole, with the first two makers, by the order in
    its own line, between whom no parcel goes."""
    parcels = [offer for offer in offers if offer.round]
    there: dict[tuple, set[tuple[str, str]]] = {}
    for one in parcels:
        there.setdefault(_which(one), set()).add((one.from_maker, one.to_maker))
    for one in parcels:
        ways = zip(one.round, [*one.round[1:], *one.round[:1]], strict=True)
        if way := next((way for way in ways if way not in there[_which(one)]), None):
            yield one, way


def _which(offer: Offer) -> tuple:
    """The makers of a round from the first by name on, and the day of the proposal."""
    at = offer.round.index(min(offer.round))
    day = offer.events[0].on if offer.events else None
    return (*offer.round[at:], *offer.round[:at]), day
