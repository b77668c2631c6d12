"""Plugin: the board's proposed swaps, and for each maker who could swap with them."""

from collections.abc import Iterator

from pelican import signals

from swapboard.site.generator import BoardGenerator
from swapboard.site.run import Page
from swapboard.views.matches import maker_swaps, makers_with_swaps
from swapboard.views.swap_lists import MAKERS_PAGE, swap_lists, swap_makers


class SwapsGenerator(BoardGenerator):
    """swaps.html, its further sheets, the lists by theme and medium, and swaps/MAKER.html."""

    section = "swaps"

    def pages(self) -> Iterator[Page]:
        showing = self.run.showing
        for path, view in swap_lists(showing):
            yield Page(path, "swaps.html", view)
        if makers := swap_makers(showing):
            yield Page(MAKERS_PAGE, "swap_makers.html", makers)
        for name in makers_with_swaps(showing):
            yield Page(f"swaps/{name}.html", "maker_swaps.html", maker_swaps(showing, name))


def _generators(_pelican: object) -> type[SwapsGenerator]:
    return SwapsGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
