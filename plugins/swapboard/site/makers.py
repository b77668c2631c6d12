"""Plugin: each maker's page, and the list of makers."""

from collections.abc import Iterator

from pelican import signals

from swapboard.site.generator import BoardGenerator
from swapboard.site.run import Page
from swapboard.views.makers import maker_list, maker_page


class MakersGenerator(BoardGenerator):
    """makers.html and makers/NAME.html."""

    section = "makers"

    def pages(self) -> Iterator[Page]:
        showing = self.run.showing
        yield Page("makers.html", "makers.html", maker_list(showing))
        for name in sorted(showing.board.makers):
            yield Page(f"makers/{name}.html", "maker.html", maker_page(showing, name))


def _generators(_pelican: object) -> type[MakersGenerator]:
    return MakersGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
