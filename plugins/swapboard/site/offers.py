"""Plugin: each offer's page, and the list by what has become of them."""

from collections.abc import Iterator
from itertools import chain

from pelican import signals

from swapboard.site.generator import BoardGenerator
from swapboard.site.run import Page
from swapboard.views.offers import facet_offer_lists, offer_lists, offer_page


class OffersGenerator(BoardGenerator):
    """offers.html, its older pages, the lists by theme and medium, and offers/NAME.html."""

    section = "offers"

    def pages(self) -> Iterator[Page]:
        showing = self.run.showing
        for path, view in chain(offer_lists(showing), facet_offer_lists(showing)):
            yield Page(path, "offers.html", view)
        for name in sorted(showing.board.offers):
            yield Page(f"offers/{name}.html", "offer.html", offer_page(showing, name))


def _generators(_pelican: object) -> type[OffersGenerator]:
    return OffersGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
