"""The front page, the keeper's own pages, and what stands around every page."""

from swapboard.views.calls import call_list
from swapboard.views.pages import HomePage, WrittenPage
from swapboard.views.showing import Showing
from swapboard.views.types import BoardView, Link

NEWEST = 9  # as many as a pocket page holds
SHOWN = (
    "cards", "calls", "offers", "makers", "swaps", "feeds", "compose", "calendar",
    "announcements",
)


def home_page(showing: Showing) -> HomePage:
    """What the front page shows."""
    board = showing.board
    has_calls, has_cards = "calls" in showing.sections, "cards" in showing.sections
    return HomePage(
        about=showing.settings.board.about,
        calls=call_list(showing).open if has_calls else (),
        newest=showing.tiles(showing.order[:NEWEST]) if has_cards else (),
        counts=(len(board.cards), len(board.makers), len(board.calls), len(board.offers)),
        feed=showing.feed("index.html", showing.settings.board.name),
    )


def written_page(showing: Showing, name: str) -> WrittenPage:
    """What one of the keeper's own pages shows."""
    page = showing.board.pages[name]
    return WrittenPage(page.title, showing.writing(page.body))


def around(showing: Showing, direction: str) -> BoardView:
    """What every page shows of the board; `direction` is "ltr" or "rtl"."""
    own = showing.settings.board
    pages = showing.board.pages
    return BoardView(
        name=own.name,
        about=own.about,
        address=own.address,
        language=own.language,
        direction=direction,
        pages=tuple(Link(pages[name].title, f"pages/{name}.html") for name in sorted(pages)),
        sections=tuple(section for section in SHOWN if section in showing.sections),
        mail=own.mail,
        time_zone=own.time_zone,
    )
