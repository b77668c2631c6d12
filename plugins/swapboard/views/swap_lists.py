"""Lists of proposed swaps: all of them, and those with cards of a theme or a medium."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from swapboard.facets.grouping import Group
from swapboard.facets.paging import sheets
from swapboard.matching.report import verdict
from swapboard.matching.types import Level
from swapboard.views.offers import Facets, facets_of
from swapboard.views.pages import Aim, SwapList, SwapMakers
from swapboard.views.showing import Showing
from swapboard.views.types import Facet, Link, SwapTile

FIRST_PAGE = "swaps.html"
MAKERS_PAGE = "swaps.makers.html"
SWAPS_PER_PAGE = 24
SWAPS_WITH_CARDS = 6
"""So many stand below the cards of a theme or medium; if there are more they have a list."""
MAKERS_AT_MOST = 120
_CODES = {
    "cards that move": "moved", "cards in rings": "rings", "liking": "liking", "parcels": "parcels"
}


def swap_lists(showing: Showing) -> Iterator[tuple[str, SwapList]]:
    """swaps.html and its further sheets, then the lists by theme and by medium of which
    there are more than fit below their cards, as (path, view)."""
    assert showing.matching is not None
    everything, makers = showing.swaps, _makers(showing)
    proposals = showing.matching.proposals
    is_many = len(makers) > MAKERS_AT_MOST
    first = SwapList(
        swaps=(),
        aims=_aims(proposals.levels) if everything else (),
        rings=proposals.rings,
        makers=() if is_many else makers,
        makers_path=MAKERS_PAGE if is_many else "",
        late=proposals.late and bool(everything),
    )
    facets = _facets(everything)
    yield from _sheets(FIRST_PAGE, everything, first, facets)
    for about, group, tiles in _facet_swaps(showing):
        view = SwapList((), (), proposals.rings, (), about=about, name=group.name)
        yield from _sheets(list_path(group.path), tiles, view, facets)


def swap_makers(showing: Showing) -> SwapMakers | None:
    """Everybody who has a page of swaps, where they are too many for swaps.html."""
    makers = _makers(showing)
    return SwapMakers(makers) if len(makers) > MAKERS_AT_MOST else None


def swaps_with(showing: Showing, cards: Sequence[str]) -> tuple[SwapTile, ...]:
    """The proposed swaps that hold one of some cards, in their order."""
    held = {id(tile) for card in cards for tile in showing.swaps_by_card.get(card, ())}
    return tuple(tile for tile in showing.swaps if id(tile) in held) if held else ()


def list_path(page: str) -> str:
    """Where the swaps with cards of a theme's or medium's page have a list of their own. A
    dot keeps it apart from every name: slugs hold none."""
    return page.removesuffix(".html") + ".swaps.html"


def _facet_swaps(showing: Showing) -> Iterator[tuple[str, Group, tuple[SwapTile, ...]]]:
    if "cards" not in showing.sections:
        return
    for about, groups in (("theme", showing.themes), ("medium", showing.media)):
        for group in groups:
            tiles = swaps_with(showing, group.cards)
            if len(tiles) > SWAPS_WITH_CARDS:
                yield about, group, tiles


def _sheets(
    first: str, tiles: Sequence[SwapTile], view: SwapList, facets: Facets
) -> Iterator[tuple[str, SwapList]]:
    """The sheets of a list; the first is `view` with its swaps and its facets."""
    cut = sheets(tiles, SWAPS_PER_PAGE)
    here = {link for tile in tiles for link in (*tile.themes, *tile.media)}
    for number, sheet in enumerate(cut, start=1):
        shown = view if number == 1 else replace(
            view, aims=(), makers=(), makers_path="", late=False
        )
        themes, media = (
            tuple(facet for link, facet in of_kind if link in here and number == 1)
            for of_kind in facets
        )
        yield (
            _path(first, number),
            replace(
                shown, swaps=sheet.items, themes=themes, media=media, count=len(tiles),
                number=number, newer=_path(first, number - 1) if number > 1 else "",
                older=_path(first, number + 1) if number < len(cut) else "",
            ),
        )  # fmt: skip


def _path(first: str, number: int) -> str:
    return first if number == 1 else f"{first.removesuffix('.html')}.page-{number}.html"


def _facets(tiles: Sequence[SwapTile]) -> Facets:
    """The themes and the media of all swaps, each with how many these are and with the page
    where they all are."""
    kinds = (facets_of(link for tile in tiles for link in tile.themes),
             facets_of(link for tile in tiles for link in tile.media))  # fmt: skip
    return tuple([(Link(facet.text, facet.path), _placed(facet)) for facet in of] for of in kinds)


def _placed(facet: Facet) -> Facet:
    is_long = facet.count > SWAPS_WITH_CARDS
    path = list_path(facet.path) if is_long else f"{facet.path}#swaps"
    return replace(facet, path=path)


def _makers(showing: Showing) -> tuple[Link, ...]:
    named = [(showing.maker(name).text, showing.swaps_path(name)) for name in showing.board.makers]
    made = sorted((text.casefold(), path, text) for text, path in named if path)
    return tuple(Link(text, path) for _, path, text in made)


def _aims(levels: Sequence[Level]) -> tuple[Aim, ...]:
    """The levels as aims; fairness is one aim, as good as the worst known of its levels."""
    aims = [
        Aim(_CODES[level.name], (level.value,), *verdict(level))
        for level in levels
        if level.name in _CODES
    ]
    fair = [level for level in levels if level.name not in _CODES]
    if fair:
        doubtful = next((level for level in fair if not level.proven), fair[-1])
        aims.append(Aim("fairness", tuple(level.value for level in fair), *verdict(doubtful)))
    return tuple(aims)
