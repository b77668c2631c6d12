"""Plugin: the data that the filter on the cards pages works on."""

from typing import Any

from pelican import signals

from swapboard.site.generator import BoardGenerator
from swapboard.views.cards import INDEX_PATH, card_index


class FilterGenerator(BoardGenerator):
    """data/cards.js"""

    section = "cards"

    def generate_output(self, writer: Any) -> None:
        if self.section in self.run.sections:
            self.run.put_bytes(INDEX_PATH, card_index(self.run.showing).encode("utf-8"))


def _generators(_pelican: object) -> type[FilterGenerator]:
    return FilterGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
