"""Plugin: Atom feeds of the board, each theme, each medium and each maker."""

import hashlib
from collections.abc import Iterator
from typing import Any

from pelican import signals

from swapboard.facets.feeds import MOST_ENTRIES, Feed, atom
from swapboard.site.generator import BoardGenerator
from swapboard.site.run import Page
from swapboard.views.feeds import feeds, feeds_page


class FeedsGenerator(BoardGenerator):
    """feeds.html, feeds/board.xml, feeds/themes/, feeds/media/ and feeds/makers/"""

    section = "feeds"

    def pages(self) -> Iterator[Page]:
        yield Page("feeds.html", "feeds.html", feeds_page(self.run.showing))

    def generate_output(self, writer: Any) -> None:
        super().generate_output(writer)
        own = self.run.showing.settings.board
        for feed in feeds(self.run.showing):
            shown = Feed(feed.path, feed.page, feed.title, feed.entries[:MOST_ENTRIES])
            source = f"{self.run.recipe}\0{own.address}\0{own.language}\0{shown!r}"
            self.run.staging.put(
                feed.path,
                hashlib.sha256(source.encode("utf-8", "surrogatepass")).hexdigest(),
                lambda feed=shown: atom(feed, own.address, own.language).encode("utf-8"),
            )


def _generators(_pelican: object) -> type[FeedsGenerator]:
    return FeedsGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
