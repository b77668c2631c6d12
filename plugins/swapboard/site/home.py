"""Plugin: the front page, the keeper's own pages, and the page for a wrong address."""

from collections.abc import Iterator

from pelican import signals

from swapboard.site.generator import BoardGenerator
from swapboard.site.run import NOT_FOUND, Page
from swapboard.views.home import home_page, written_page
from swapboard.views.pages import NotFound


class HomeGenerator(BoardGenerator):
    """index.html, pages/NAME.html and 404.html."""

    def pages(self) -> Iterator[Page]:
        showing = self.run.showing
        yield Page("index.html", "home.html", home_page(showing))
        yield Page(NOT_FOUND, "not-found.html", NotFound())
        for name in sorted(showing.board.pages):
            yield Page(f"pages/{name}.html", "written.html", written_page(showing, name))


def _generators(_pelican: object) -> type[HomeGenerator]:
    return HomeGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
