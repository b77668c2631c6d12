"""Plugin: the board's proposed swaps, and for each maker who could swap with them."""

from collections.abc import Iterator

from pelican import signals

from swapboard.site.generator import BoardGenerator
from swapboard.site.run import Page
from swapboard.views.matches import maker_swaps, makers_with_swaps, swap_list


class SwapsGenerator(BoardGenerator):
    """swaps.html and swaps/MAKER.html."""

    section = "swaps"

    def pages(self) -> Iterator[Page]:
        showing = self.run.showing
        yield Page("swaps.html", "swaps.html", swap_list(showing))
        for name in makers_with_swaps(showing):
            yield Page(f"swaps/{name}.html", "maker_swaps.html", maker_swaps(showing, name))


def _generators(_pelican: object) -> type[SwapsGenerator]:
    return SwapsGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
