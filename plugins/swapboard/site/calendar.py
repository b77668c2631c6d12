"""Plugin: calendars to subscribe to, of the board and of each call."""

import hashlib
from typing import Any

from pelican import signals

from swapboard.facets.calendar import BOARD_CALENDAR, CalendarDay, calendar, calendar_path
from swapboard.site.generator import BoardGenerator
from swapboard.views.calendar import board_days, call_days


class CalendarGenerator(BoardGenerator):
    """calendar.ics and calls/NAME.ics; a call without dates has none."""

    section = "calendar"

    def generate_output(self, writer: Any) -> None:
        showing = self.run.showing
        if "calls" not in self.run.sections:
            return
        name = showing.settings.board.name
        self._put(BOARD_CALENDAR, name, board_days(showing))
        for call in sorted(showing.board.calls):
            title = f"{name}: {showing.board.calls[call].title}"
            self._put(calendar_path(f"calls/{call}.html"), title, call_days(showing, call))

    def _put(self, path: str, name: str, days: tuple[CalendarDay, ...]) -> None:
        if days:
            address = self.run.showing.settings.board.address
            source = f"{self.run.recipe}\0{address}\0{name}\0{days!r}"
            self.run.staging.put(
                path,
                hashlib.sha256(source.encode("utf-8", "surrogatepass")).hexdigest(),
                lambda: calendar(name, days, address),
            )


def _generators(_pelican: object) -> type[CalendarGenerator]:
    return CalendarGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
