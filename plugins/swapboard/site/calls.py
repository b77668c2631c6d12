"""Plugin: each swap call's page, and the list of open and closed calls."""

from collections.abc import Iterator

from pelican import signals

from swapboard.site.generator import BoardGenerator
from swapboard.site.run import Page
from swapboard.views.calls import call_list, call_page


class CallsGenerator(BoardGenerator):
    """calls.html and calls/NAME.html."""

    section = "calls"

    def pages(self) -> Iterator[Page]:
        showing = self.run.showing
        yield Page("calls.html", "calls.html", call_list(showing))
        for name in sorted(showing.board.calls):
            yield Page(f"calls/{name}.html", "call.html", call_page(showing, name))


def _generators(_pelican: object) -> type[CallsGenerator]:
    return CallsGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
