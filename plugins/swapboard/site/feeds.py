"""Plugin: Atom feeds of the board, each theme, each medium and each maker."""

import hashlib
from typing import Any

from pelican import signals

from swapboard.facets.feeds import MOST_ENTRIES, Feed, atom
from swapboard.site.generator import BoardGenerator
from swapboard.views.feeds import feeds


class FeedsGenerator(BoardGenerator):
    """feeds/board.xml, feeds/themes/, feeds/media/ and feeds/makers/"""

    def generate_output(self, writer: Any) -> None:
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
