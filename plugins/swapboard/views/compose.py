"""The page on which a visitor writes an offer or a sign-up, and the data that it works on."""

from datetime import date

from swapboard.facets.composer_index import composer_index
from swapboard.records.call_phase import ANNOUNCED, SIGNING_UP
from swapboard.records.types import State
from swapboard.views.calls import call_list
from swapboard.views.pages import ComposePage
from swapboard.views.showing import Showing
from swapboard.views.types import CallTile
from swapboard.vocabulary.countries import countries_in

COMPOSE_PATH, INDEX_PATH = "compose.html", "data/compose.js"
SIGN_UP_PHASES = frozenset({ANNOUNCED, SIGNING_UP})


def compose_page(showing: Showing) -> ComposePage:
    """What compose.html shows before its script has run."""
    countries = countries_in(showing.settings.board.language)
    calls = tuple((call.name, call.title, opens) for call, opens in _open_calls(showing))
    return ComposePage(INDEX_PATH, countries.names, calls)


def compose_index(showing: Showing) -> str:
    """The script that the page loads: makers by public name, available cards newest first."""
    cards, makers = showing.board.cards, showing.board.makers
    by_name = sorted(makers, key=lambda name: (makers[name].title.casefold(), name))
    tiles = ((showing.tile(name), cards[name].maker) for name in showing.order)
    return composer_index(
        makers=[(name, makers[name].title) for name in by_name],
        cards=[(tile, maker) for tile, maker in tiles if tile.state == State.AVAILABLE],
        calls=[
            (call.name, call.title, call.send, opens, showing.board.calls[call.name].sign_up_by)
            for call, opens in _open_calls(showing)
        ],
    )


def _open_calls(showing: Showing) -> list[tuple[CallTile, date | None]]:
    """Calls that one may still sign up for, the soonest first, and the day that this begins
    where it has not."""
    if "calls" not in showing.sections:
        return []
    open_calls = [call for call in call_list(showing).open if call.phase in SIGN_UP_PHASES]
    days = {name: call.date for name, call in showing.board.calls.items()}
    return [(call, days[call.name] if call.phase == ANNOUNCED else None) for call in open_calls]
