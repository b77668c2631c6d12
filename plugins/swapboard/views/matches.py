"""Pages of who could swap with whom: what is proposed, and each maker's own part of it."""

from collections.abc import Sequence

from swapboard.matching.report import verdict
from swapboard.matching.types import Level, Move, WorthWriting
from swapboard.views.offers import facets_of
from swapboard.views.pages import Aim, CardLiker, MakerSwaps, SwapList, Writable
from swapboard.views.showing import Showing
from swapboard.views.types import LikedCard, Link, SwapTile

PICTURED = 12  # of those worth writing to
NAMED = 120
CARDS_EACH_WAY = 3
_CODES = {
    "cards that move": "moved", "cards in rings": "rings", "liking": "liking", "parcels": "parcels"
}


def swap_list(showing: Showing) -> SwapList:
    """What swaps.html shows."""
    assert showing.matching is not None
    proposals = showing.matching.proposals
    named = [(showing.maker(name).text, showing.swaps_path(name)) for name in showing.board.makers]
    made = [(text.casefold(), path, text) for text, path in named if path]
    return SwapList(
        swaps=showing.swaps,
        aims=_aims(proposals.levels) if proposals.swaps else (),
        rings=proposals.rings,
        makers=tuple(Link(text, path) for _, path, text in sorted(made)),
        themes=facets_of(link for tile in showing.swaps for link in tile.themes),
        media=facets_of(link for tile in showing.swaps for link in tile.media),
    )


def maker_swaps(showing: Showing, name: str) -> MakerSwaps:
    """What swaps/NAME.html shows of the maker `name`."""
    assert showing.matching is not None
    found = showing.matching.people[name].worth_writing
    return MakerSwaps(
        maker=showing.maker(name),
        swaps=showing.swaps_by_maker.get(name, ()),
        worth_writing=tuple(_writable(showing, one, CARDS_EACH_WAY) for one in found[:PICTURED]),
        others=tuple(_writable(showing, one, 0) for one in found[PICTURED:NAMED]),
        left_out=max(0, len(found) - NAMED),
    )


def makers_with_swaps(showing: Showing) -> list[str]:
    """Names of the makers who have a page of their own here, sorted."""
    return [name for name in sorted(showing.board.makers) if showing.swaps_path(name)]


def card_likers(showing: Showing, name: str) -> tuple[CardLiker, ...]:
    """Everyone who might swap for a card: first who has a card that it could go for."""
    if showing.matching is None:
        return ()
    return tuple(
        CardLiker(showing.maker(liker.maker), liker.both, liker.want.text)
        for liker in showing.matching.likers.get(name, ())
    )


def swaps_with(showing: Showing, cards: Sequence[str]) -> tuple[SwapTile, ...]:
    """The proposed swaps that hold one of some cards, in their order."""
    held = {id(tile) for card in cards for tile in showing.swaps_by_card.get(card, ())}
    return tuple(tile for tile in showing.swaps if id(tile) in held) if held else ()


def _writable(showing: Showing, one: WorthWriting, most: int) -> Writable:
    return Writable(
        maker=showing.maker(one.other),
        path=showing.swaps_path(one.other),
        both=one.both,
        gets=_liked(showing, one.gets[:most]),
        gives=_liked(showing, one.gives[:most]),
        gets_count=len(one.gets),
        gives_count=len(one.gives),
    )


def _liked(showing: Showing, moves: Sequence[Move]) -> tuple[LikedCard, ...]:
    return tuple(LikedCard(showing.tile(move.card), move.want.text) for move in moves)


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
