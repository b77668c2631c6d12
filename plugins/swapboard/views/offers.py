"""Pages of offers: each offer, and the list by what has become of them."""

from swapboard.records.types import OfferState
from swapboard.views.showing import Showing
from swapboard.views.types import OfferList, OfferPage, OfferTile


def offer_page(showing: Showing, name: str) -> OfferPage:
    """What an offer's own page shows."""
    offer = showing.board.offers[name]
    return OfferPage(showing.offer(name), showing.moments(offer), showing.writing(offer.body))


def offer_list(showing: Showing) -> OfferList:
    """All offers by state, the latest first within each; states with none are left out."""
    by_state: dict[str, list[OfferTile]] = {}
    for name in showing.offer_order:
        tile = showing.offer(name)
        by_state.setdefault(tile.state, []).append(tile)
    return OfferList(
        tuple((s.value, tuple(by_state[s.value])) for s in OfferState if s.value in by_state)
    )
