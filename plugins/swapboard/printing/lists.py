"""Lists to work through with a pencil: a pick list."""

from dataclasses import dataclass

from swapboard.printing.paper import BOLD, LEADING, POINT, REGULAR, Fonts, Sheet, fit
from swapboard.printing.reading_order import FROM_LEFT

_EDGE = 15.0
_TEXT, _HEAD, _TITLE = 10.0, 12.0, 18.0
_BOX = 3.5


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with lines to tick off below it, and notes without a box."""

    heading: str
    ticks: tuple[str, ...]
    notes: tuple[str, ...] = ()


def tick_list(title: str, under: str, sections: list[Section], paper: str, fonts: Fonts) -> bytes:
    """Sections one after the other; none is parted that fits a page, and none from its
    heading; pages are numbered. Every line is wrapped, none is cut."""
    drawn = _Pages(Sheet(paper, fonts, title), title, under)
    for section in sections:
        drawn.section(section)
    return drawn.pdf()


class _Pages:
    def __init__(self, sheet: Sheet, title: str, under: str) -> None:
        self.sheet, self.title, self.page = sheet, title, 1
        self.inner = sheet.width - 2 * _EDGE
        self.y = _EDGE
        self._put(title, _TITLE, BOLD)
        if under:
            self._put(under, _TEXT)
        self.y += 3

    def section(self, section: Section) -> None:
        whole = 4 + self._high(section.heading, _HEAD)
        whole += sum(self._high(tick, _TEXT, _BOX + 2) for tick in section.ticks)
        whole += sum(self._high(note, _TEXT) for note in section.notes)
        first = section.ticks[:1] or section.notes[:1]
        least = 4 + self._high(section.heading, _HEAD) + sum(self._high(t, _TEXT) for t in first)
        self._room(whole if whole <= self.sheet.height - 2 * _EDGE - 5 else least)
        self.y += 2
        self.sheet.line(_EDGE, self.y, _EDGE + self.inner, self.y)
        self.y += 2
        self._put(section.heading, _HEAD, BOLD)
        for tick in section.ticks:
            self._room(self._high(tick, _TEXT, _BOX + 2))
            self.sheet.box(_EDGE, self.y + 0.4, _BOX, _BOX)
            self._put(tick, _TEXT, indent=_BOX + 2)
        for note in section.notes:
            self._room(self._high(note, _TEXT))
            self._put(note, _TEXT)

    def pdf(self) -> bytes:
        self._number()
        return self.sheet.pdf()

    def _put(self, text: str, size: float, font: str = REGULAR, indent: float = 0) -> None:
        width = self.inner - indent
        used, lines = fit([text], width, 1000, size, font)
        for number, line in enumerate(lines, 1):
            # A name in letters from the right does not turn the words of the list around.
            at = self.y + (used + (number - 1) * used * LEADING) * POINT
            self.sheet.text(_EDGE + indent, at, FROM_LEFT + line, used, font)
        self.y += len(lines) * used * LEADING * POINT + 1

    def _high(self, text: str, size: float, indent: float = 0) -> float:
        used, lines = fit([text], self.inner - indent, 1000, size, BOLD)
        return len(lines) * used * LEADING * POINT + 1

    def _room(self, needed: float) -> None:
        if self.y + needed <= self.sheet.height - _EDGE - 5:
            return
        self._number()
        self.sheet.next_page()
        self.page += 1
        self.y = _EDGE

    def _number(self) -> None:
        self.sheet.text(_EDGE, self.sheet.height - 9, f"{self.page}", 8)
