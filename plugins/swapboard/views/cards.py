"""Pages of cards: each card, the list of all, and a list per theme and medium."""

from collections.abc import Iterator
from itertools import islice

from swapboard.facets.filter_index import filter_index
from swapboard.facets.grouping import Group, page_path
from swapboard.facets.paging import sheets
from swapboard.views.likings import likings
from swapboard.views.matches import card_likers
from swapboard.views.offers import OFFERS_WITH_CARDS, offers_with
from swapboard.views.offers import list_path as offers_path
from swapboard.views.pages import CardList, CardPage, FacetList, SeriesPlace
from swapboard.views.showing import Showing
from swapboard.views.swap_lists import SWAPS_WITH_CARDS, list_path, swaps_with
from swapboard.views.types import Facet

INDEX_PATH = "data/cards.js"
OTHERS_AT_MOST = 8
NEIGHBOURS = 2  # of a series, on either side
LIKERS_AT_MOST = 5


def card_page(showing: Showing, name: str) -> CardPage:
    """What a card's own page shows."""
    card = showing.board.cards[name]
    siblings = (n for n in showing.cards_by_maker[card.maker] if n != name)
    in_offers = showing.offers_by_card.get(name, []) if "offers" in showing.sections else []
    likers = card_likers(showing, name)
    return CardPage(
        tile=showing.tile(name),
        back=showing.picture(name, "back"),
        body=showing.writing(card.body),
        date=card.date,
        made=card.made,
        made_on=card.made_on,
        themes=showing.facet_links("themes", card.themes),
        media=showing.facet_links("media", card.media),
        series=card.series,
        day=card.day,
        wants=likings(showing.board, card.wants),
        offers=tuple(showing.offer(offer) for offer in in_offers),
        others=showing.tiles(islice(siblings, OTHERS_AT_MOST)),
        neighbours=_neighbours(showing, name),
        swaps=showing.swaps_by_card.get(name, ()),
        likers=likers[:LIKERS_AT_MOST],
        more_likers=len(likers) > LIKERS_AT_MOST,
        swaps_path=showing.swaps_path(card.maker) if likers else "",
    )


def card_lists(showing: Showing) -> Iterator[tuple[str, CardList]]:
    """Every list of cards, as (path, view)."""
    everything = Group("", "cards.html", tuple(showing.order))
    yield from _list_pages(showing, "all", everything)
    for group in showing.themes:
        yield from _list_pages(showing, "theme", group)
    for group in showing.media:
        yield from _list_pages(showing, "medium", group)


def facet_lists(showing: Showing) -> Iterator[tuple[str, FacetList]]:
    """The lists of themes and of media, as (path, view)."""
    yield "themes.html", FacetList("theme", _with_samples(showing, showing.themes))
    yield "media.html", FacetList("medium", _with_samples(showing, showing.media))


def card_index(showing: Showing) -> str:
    """The script that the filter loads."""
    cards = showing.board.cards
    return filter_index(
        [
            (
                showing.tile(name),
                showing.facet_links("themes", cards[name].themes),
                showing.facet_links("media", cards[name].media),
            )
            for name in showing.order
        ]
    )


def _list_pages(showing: Showing, about: str, group: Group) -> Iterator[tuple[str, CardList]]:
    themes, media = _facets(showing.themes), _facets(showing.media)
    offers = offers_with(showing, group.cards) if group.name else ()
    swaps = swaps_with(showing, group.cards) if group.name else ()
    more = max(0, len(swaps) - SWAPS_WITH_CARDS)
    more_offers = max(0, len(offers) - OFFERS_WITH_CARDS)
    own = (group.path, group.name) if group.name else ("index.html", showing.settings.board.name)
    feed = showing.feed(*own)
    for sheet in sheets(group.cards, showing.settings.lists.cards_per_page):
        newer = page_path(group.path, sheet.number + 1, sheet.of) if not sheet.is_newest else ""
        older = page_path(group.path, sheet.number - 1, sheet.of) if sheet.number > 1 else ""
        yield (
            page_path(group.path, sheet.number, sheet.of),
            CardList(
                about=about,
                name=group.name,
                cards=showing.tiles(sheet.items),
                count=len(group.cards) if sheet.is_newest else 0,
                number=sheet.number,
                pages=sheet.of if sheet.is_newest else 0,
                newer=newer,
                older=older,
                themes=themes if sheet.is_newest else (),
                media=media if sheet.is_newest else (),
                index=INDEX_PATH if sheet.is_newest and "filters" in showing.sections else "",
                offers=offers[:OFFERS_WITH_CARDS] if sheet.is_newest else (),
                more_offers=more_offers if sheet.is_newest else 0,
                offers_path=offers_path(group.path) if more_offers and sheet.is_newest else "",
                feed=feed if sheet.is_newest else None,
                swaps=swaps[:SWAPS_WITH_CARDS] if sheet.is_newest else (),
                more_swaps=more if sheet.is_newest else 0,
                swaps_path=list_path(group.path) if more and sheet.is_newest else "",
            ),
        )


def _facets(found: list[Group]) -> tuple[Facet, ...]:
    return tuple(Facet(group.name, group.path, len(group.cards)) for group in found)


def _with_samples(showing: Showing, found: list[Group]) -> tuple[Facet, ...]:
    """Each group with its newest card that has a picture and is no other group's sample,
    as far as there is one."""
    made, taken = [], set()
    for group in found:
        pictured = [name for name in group.cards if showing.picture(name)]
        chosen = next((name for name in pictured if name not in taken), None)
        chosen = chosen or next(iter(pictured or group.cards), None)
        taken.add(chosen)
        sample = showing.tile(chosen) if chosen else None
        made.append(Facet(group.name, group.path, len(group.cards), sample))
    return tuple(made)


def _neighbours(showing: Showing, name: str) -> tuple[SeriesPlace, ...]:
    """The cards around this one in its series, itself among them; none for a lone card."""
    cards = showing.board.cards
    series = showing.cards_by_series.get(cards[name].series.casefold(), [])
    if len(series) < 2:
        return ()
    here = series.index(name)
    around = series[max(0, here - NEIGHBOURS) : here + NEIGHBOURS + 1]
    return tuple(SeriesPlace(cards[n].day, showing.tile(n), n == name) for n in around)
