"""Plugin: the page on which an offer is composed, and its data."""

from typing import Any

from pelican import signals

from swapboard.site.generator import BoardGenerator
from swapboard.site.run import Page
from swapboard.views.compose import COMPOSE_PATH, INDEX_PATH, compose_index, compose_page


class ComposeGenerator(BoardGenerator):
    """compose.html and data/compose.js."""

    section = "compose"

    def generate_output(self, writer: Any) -> None:
        if self.section in self.run.sections:
            showing = self.run.showing
            self.run.put_page(Page(COMPOSE_PATH, "compose.html", compose_page(showing)))
            self.run.put_bytes(INDEX_PATH, compose_index(showing).encode("utf-8"))


def _generators(_pelican: object) -> type[ComposeGenerator]:
    return ComposeGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
