"""Pages of offers: each offer, and the list by what has become of them."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

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
OFFERS_WITH_CARDS = 6
"""So many stand below the cards of a theme or medium; if there are more they have a list."""
Facets = tuple[list[tuple[Link, Facet]], ...]


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
    tiles = tuple(showing.offer(name) for name in showing.offer_order)
    yield from _sheets(showing, FIRST_PAGE, tiles, OfferList(()), _facets(tiles))


def facet_offer_lists(showing: Showing) -> Iterator[tuple[str, OfferList]]:
    """The lists by theme and by medium of which there are more than fit below their cards."""
    if "cards" not in showing.sections:
        return
    facets = _facets(tuple(showing.offer(name) for name in showing.offer_order))
    for about, groups in (("theme", showing.themes), ("medium", showing.media)):
        for group in groups:
            found = offers_with(showing, group.cards)
            if len(found) > OFFERS_WITH_CARDS:
                view = OfferList((), about=about, name=group.name)
                yield from _sheets(showing, list_path(group.path), found, view, facets)


def list_path(page: str) -> str:
    """Where the offers with cards of a theme's or medium's page have a list of their own. A
    dot keeps it apart from every name: slugs hold none."""
    return page.removesuffix(".html") + ".offers.html"


def _sheets(
    showing: Showing, first: str, tiles: Sequence[OfferTile], view: OfferList, facets: Facets
) -> Iterator[tuple[str, OfferList]]:
    order = sorted(tiles, key=lambda tile: _group(tile) in OVER)
    live = [tile for tile in order if _group(tile) != "ended"]
    here = {link for tile in live for link in (*tile.themes, *tile.media)}
    themes, media = (
        tuple(facet for link, facet in of_kind if link in here) for of_kind in facets
    )
    offers = showing.board.offers
    for sheet in sheets(order, OFFERS_PER_PAGE):
        newest = sheet.is_newest
        yield (
            page_path(first, sheet.number, sheet.of),
            replace(
                view,
                offers=_grouped(sheet.items),
                lines=tuple((t.name, showing.moments(offers[t.name])) for t in sheet.items),
                themes=themes if newest else (),
                media=media if newest else (),
                number=sheet.number,
                newer="" if newest else page_path(first, sheet.number + 1, sheet.of),
                older=page_path(first, sheet.number - 1, sheet.of) if sheet.number > 1 else "",
            ),
        )


def _facets(tiles: Sequence[OfferTile]) -> Facets:
    """The themes and the media of the offers that have not ended, each with how many these
    are and with the page where they all are."""
    live = [tile for tile in tiles if _group(tile) != "ended"]
    kinds = (facets_of(link for tile in live for link in tile.themes),
             facets_of(link for tile in live for link in tile.media))  # fmt: skip
    return tuple([(Link(facet.text, facet.path), _placed(facet)) for facet in of] for of in kinds)


def _placed(facet: Facet) -> Facet:
    is_long = facet.count > OFFERS_WITH_CARDS
    return replace(facet, path=list_path(facet.path)) if is_long else facet


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
