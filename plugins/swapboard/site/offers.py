"""Plugin: each offer's page, and the list by what has become of them."""

from collections.abc import Iterator

from pelican import signals

from swapboard.site.generator import BoardGenerator
from swapboard.site.run import Page
from swapboard.views.offers import offer_lists, offer_page


class OffersGenerator(BoardGenerator):
    """offers.html, its older pages, and offers/NAME.html."""

    section = "offers"

    def pages(self) -> Iterator[Page]:
        showing = self.run.showing
        for path, view in offer_lists(showing):
            yield Page(path, "offers.html", view)
        for name in sorted(showing.board.offers):
            yield Page(f"offers/{name}.html", "offer.html", offer_page(showing, name))


def _generators(_pelican: object) -> type[OffersGenerator]:
    return OffersGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
