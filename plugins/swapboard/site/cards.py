"""Plugin: each card's page, the list of all cards, and one per theme and medium."""

from collections.abc import Iterator

from pelican import signals

from swapboard.site.generator import BoardGenerator
from swapboard.site.run import Page
from swapboard.views.cards import card_lists, card_page, facet_lists


class CardsGenerator(BoardGenerator):
    """cards.html, themes.html, media.html, themes/, media/ and cards/NAME.html."""

    section = "cards"

    def pages(self) -> Iterator[Page]:
        showing = self.run.showing
        for path, view in card_lists(showing):
            yield Page(path, "cards.html", view)
        for path, facets in facet_lists(showing):
            yield Page(path, "facets.html", facets)
        for name in sorted(showing.board.cards):
            yield Page(f"cards/{name}.html", "card.html", card_page(showing, name))


def _generators(_pelican: object) -> type[CardsGenerator]:
    return CardsGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
