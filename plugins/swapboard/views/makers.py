"""Pages of makers: each maker, and the list of all."""

from swapboard.records.types import State
from swapboard.views.likings import likings
from swapboard.views.pages import MakerList, MakerPage
from swapboard.views.showing import Showing
from swapboard.views.types import Link, MakerTile

SAMPLE = 3
LIKES = 3


def maker_tile(showing: Showing, name: str) -> MakerTile:
    """A maker as they stand in a list, with a few of their newest cards."""
    maker = showing.board.makers[name]
    cards = showing.tiles(showing.cards_by_maker.get(name, ()))
    available = [tile for tile in cards if tile.state == State.AVAILABLE]
    return MakerTile(
        name=name,
        path=showing.path("makers", name),
        title=maker.title,
        country=maker.country,
        cards=len(cards),
        available=len(available),
        sample=tuple(available[:SAMPLE] or cards[:SAMPLE]),
        likes=likings(showing.board, maker.likes[:LIKES]),
    )


def maker_page(showing: Showing, name: str) -> MakerPage:
    """What a maker's own page shows. Households are never shown."""
    maker = showing.board.makers[name]
    return MakerPage(
        tile=maker_tile(showing, name),
        body=showing.writing(maker.body),
        media=showing.facet_links("media", maker.media),
        likes=likings(showing.board, maker.likes),
        rather_not=likings(showing.board, maker.rather_not),
        takes_up_to=maker.takes_up_to,
        links=maker.links,
        cards=showing.tiles(showing.cards_by_maker.get(name, ())),
        calls=tuple(
            Link(showing.board.calls[call].title, showing.path("calls", call))
            for call in showing.calls_by_maker.get(name, ())
        ),
        offers=tuple(showing.offer(offer) for offer in showing.offers_by_maker.get(name, ()))
        if "offers" in showing.sections
        else (),
        feed=showing.feed(f"makers/{name}.html", maker.title),
        swaps_path=showing.swaps_path(name),
    )


def maker_list(showing: Showing) -> MakerList:
    """All makers by name."""
    makers = showing.board.makers
    names = sorted(makers, key=lambda name: (makers[name].title.casefold(), name))
    return MakerList(tuple(maker_tile(showing, name) for name in names))
