"""Pages of cards: each card, the list of all, and a list per theme and medium."""

from collections.abc import Iterator

from swapboard.facets.filter_index import filter_index
from swapboard.facets.grouping import Group, page_path
from swapboard.facets.paging import sheets
from swapboard.views.showing import Showing
from swapboard.views.types import CardList, CardPage, Facet

INDEX_PATH = "data/cards.js"
OTHERS_AT_MOST = 8


def card_page(showing: Showing, name: str) -> CardPage:
    """What a card's own page shows."""
    card = showing.board.cards[name]
    siblings = [n for n in showing.cards_by_maker[card.maker] if n != name]
    in_offers = showing.offers_by_card.get(name, []) if "offers" in showing.sections else []
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
        wants=tuple(want.text for want in card.wants),
        offers=tuple(showing.offer(offer) for offer in in_offers),
        others=showing.tiles(siblings[:OTHERS_AT_MOST]),
    )


def card_lists(showing: Showing) -> Iterator[tuple[str, CardList]]:
    """Every list of cards, as (path, view)."""
    everything = Group("", "cards.html", tuple(showing.order))
    yield from _list_pages(showing, "all", everything)
    for group in showing.themes:
        yield from _list_pages(showing, "theme", group)
    for group in showing.media:
        yield from _list_pages(showing, "medium", group)


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
            ),
        )


def _facets(found: list[Group]) -> tuple[Facet, ...]:
    return tuple(Facet(group.name, group.path, len(group.cards)) for group in found)
