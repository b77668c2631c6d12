"""Pages of offers: each offer, and the list by what has become of them."""

from collections import Counter
from collections.abc import Iterable, Iterator

from swapboard.facets.grouping import page_path
from swapboard.facets.paging import sheets
from swapboard.records.rounds import parcels_of_round
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
OVER = ("complete", "ended")
FIRST_PAGE = "offers.html"
OFFERS_PER_PAGE = 40


def offer_page(showing: Showing, name: str) -> OfferPage:
    """What an offer's own page shows."""
    offer = showing.board.offers[name]
    tile = showing.offer(name)
    by, card = None, None
    if tile.state == OfferState.OVERTAKEN:
        taken = showing.overtaken[name]
        by = Link(showing.board.offers[taken.by].title, showing.path("offers", taken.by))
        card = Link(showing.board.cards[taken.card].title, showing.path("cards", taken.card))
    others = (one for one in parcels_of_round(showing.board, offer) if one.name != name)
    parcels = tuple(Link(one.title, showing.path("offers", one.name)) for one in others)
    return OfferPage(tile, showing.moments(offer), showing.writing(offer.body), by, card, parcels)


def offer_lists(showing: Showing) -> Iterator[tuple[str, OfferList]]:
    """The list of all offers, as (path, view) of each of its pages.

    What can still change comes first and what is over last, each the latest first:
    an offer that ends then moves no older one to another page.
    """
    offers = showing.board.offers
    tiles = (showing.offer(name) for name in showing.offer_order)
    order = sorted(tiles, key=lambda tile: _group(tile) in OVER)
    live = [tile for tile in order if _group(tile) != "ended"]
    themes = facets_of(link for tile in live for link in tile.themes)
    media = facets_of(link for tile in live for link in tile.media)
    for sheet in sheets(order, OFFERS_PER_PAGE):
        newest = sheet.is_newest
        yield (
            page_path(FIRST_PAGE, sheet.number, sheet.of),
            OfferList(
                offers=_grouped(sheet.items),
                lines=tuple((t.name, showing.moments(offers[t.name])) for t in sheet.items),
                themes=themes if newest else (),
                media=media if newest else (),
                number=sheet.number,
                newer="" if newest else page_path(FIRST_PAGE, sheet.number + 1, sheet.of),
                older=page_path(FIRST_PAGE, sheet.number - 1, sheet.of) if sheet.number > 1 else "",
            ),
        )


def offers_with(showing: Showing, cards: tuple[str, ...]) -> tuple[OfferTile, ...]:
    """Offers that hold one of `cards` and have not ended, the latest first."""
    if "offers" not in showing.sections:
        return ()
    held = {offer for card in cards for offer in showing.offers_by_card.get(card, ())}
    tiles = (showing.offer(name) for name in showing.offer_order if name in held)
    return tuple(tile for tile in tiles if _group(tile) != "ended")


def _group(tile: OfferTile) -> str:
    return GROUPS[OfferState(tile.state)]


def _grouped(tiles: Iterable[OfferTile]) -> tuple[tuple[str, tuple[OfferTile, ...]], ...]:
    grouped: dict[str, list[OfferTile]] = {group: [] for group in GROUPS.values()}
    for tile in tiles:
        grouped[_group(tile)].append(tile)
    return tuple((group, tuple(found)) for group, found in grouped.items() if found)


def facets_of(links: Iterable[Link]) -> tuple[Facet, ...]:
    """The themes or media that several tiles carry and that have a page, the most
    frequent first; ties by name."""
    counted = Counter(link for link in links if link.path)
    made = (Facet(link.text, link.path, count) for link, count in counted.items())
    return tuple(sorted(made, key=lambda facet: (-facet.count, facet.text.casefold(), facet.path)))
