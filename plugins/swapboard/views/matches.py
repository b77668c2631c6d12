"""Who could swap with whom, maker by maker and card by card; lists are in `swap_lists`."""

from swapboard.matching.types import WorthWriting
from swapboard.views.likings import liked, liking
from swapboard.views.pages import CardLiker, MakerSwaps, Writable
from swapboard.views.showing import Showing

PICTURED = 12  # of those worth writing to
NAMED = 120
CARDS_EACH_WAY = 3


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
        CardLiker(showing.maker(liker.maker), liker.both, liking(showing.board, liker.want))
        for liker in showing.matching.likers.get(name, ())
    )


def _writable(showing: Showing, one: WorthWriting, most: int) -> Writable:
    return Writable(
        maker=showing.maker(one.other),
        path=showing.swaps_path(one.other),
        both=one.both,
        gets=liked(showing.board, showing.tile, one.gets[:most]),
        gives=liked(showing.board, showing.tile, one.gives[:most]),
        gets_count=len(one.gets),
        gives_count=len(one.gives),
    )
