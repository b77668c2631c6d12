"""Pages of offers: each offer, and the list by what has become of them."""

from collections import Counter
from collections.abc import Iterable

from swapboard.records.types import OfferState
from swapboard.views.pages import OfferList, OfferPage
from swapboard.views.showing import Showing
from swapboard.views.types import Facet, Link, OfferTile

# What a visitor looks for: who may still be answered, what is under way, what is over.
GROUPS = {
    OfferState.PROPOSED: "open",
    OfferState.AGREED: "agreed",
    OfferState.ON_THEIR_WAY: "on their way",
    OfferState.COMPLETE: "complete",
    OfferState.DECLINED: "ended",
    OfferState.WITHDRAWN: "ended",
    OfferState.EXPIRED: "ended",
    OfferState.OVERTAKEN: "ended",
    OfferState.LOST: "ended",
}


def offer_page(showing: Showing, name: str) -> OfferPage:
    """What an offer's own page shows."""
    offer = showing.board.offers[name]
    tile = showing.offer(name)
    by, card = None, None
    if tile.state == OfferState.OVERTAKEN:
        taken = showing.overtaken[name]
        by = Link(showing.board.offers[taken.by].title, showing.path("offers", taken.by))
        card = Link(showing.board.cards[taken.card].title, showing.path("cards", taken.card))
    return OfferPage(tile, showing.moments(offer), showing.writing(offer.body), by, card)


def offer_list(showing: Showing) -> OfferList:
    """All offers by what has become of them, the latest first within each group."""
    grouped: dict[str, list[OfferTile]] = {group: [] for group in GROUPS.values()}
    for name in showing.offer_order:
        tile = showing.offer(name)
        grouped[GROUPS[OfferState(tile.state)]].append(tile)
    live = [tile for group, tiles in grouped.items() if group != "ended" for tile in tiles]
    return OfferList(
        offers=tuple((group, tuple(tiles)) for group, tiles in grouped.items() if tiles),
        themes=_facets(link for tile in live for link in tile.themes),
        media=_facets(link for tile in live for link in tile.media),
        lines=tuple((n, showing.moments(o)) for n, o in showing.board.offers.items()),
    )


def offers_with(showing: Showing, cards: tuple[str, ...]) -> tuple[OfferTile, ...]:
    """Offers that hold one of `cards` and have not ended, the latest first."""
    if "offers" not in showing.sections:
        return ()
    held = {offer for card in cards for offer in showing.offers_by_card.get(card, ())}
    tiles = (showing.offer(name) for name in showing.offer_order if name in held)
    return tuple(tile for tile in tiles if GROUPS[OfferState(tile.state)] != "ended")


def _facets(links: Iterable[Link]) -> tuple[Facet, ...]:
    counted = Counter(link for link in links if link.path)
    made = (Facet(link.text, link.path, count) for link, count in counted.items())
    return tuple(sorted(made, key=lambda facet: (-facet.count, facet.text.casefold(), facet.path)))
