"""Plugin: each swap call's page, the list of open and closed ones, and the pages on which
their deals are verified."""

from collections.abc import Iterator
from typing import Any

from pelican import signals

from swapboard.disk.announced import IN_SITE, as_text, dates_of
from swapboard.site.generator import BoardGenerator
from swapboard.site.run import Page
from swapboard.views.call_deals import proof_files, verify_page
from swapboard.views.calls import call_list, call_page


class CallsGenerator(BoardGenerator):
    """calls.html, calls/NAME.html, verify/NAME.html with the proof beside it, and
    data/calls.json, the dates as they are announced."""

    section = "calls"

    def pages(self) -> Iterator[Page]:
        showing = self.run.showing
        yield Page("calls.html", "calls.html", call_list(showing))
        for name, call in sorted(showing.board.calls.items()):
            yield Page(f"calls/{name}.html", "call.html", call_page(showing, name))
            if view := verify_page(showing, call):
                yield Page(f"verify/{name}.html", "verify.html", view)

    def generate_output(self, writer: Any) -> None:
        super().generate_output(writer)
        if self.section in self.run.sections:
            board = self.run.showing.board
            self.run.put_bytes(IN_SITE, as_text(dates_of(board)).encode("utf-8"))
            for _, call in sorted(board.calls.items()):
                for path, text in proof_files(call).items():
                    self.run.put_bytes(path, text.encode("utf-8", "surrogatepass"))


def _generators(_pelican: object) -> type[CallsGenerator]:
    return CallsGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
