"""Lists to work through with a pencil: a pick list."""

from dataclasses import dataclass

from swapboard.printing.paper import BOLD, LEADING, POINT, REGULAR, Fonts, Sheet, fit

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
    """Sections one after the other; none is parted from its heading, and pages are
    numbered. Every line is wrapped, none is cut."""
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
        first = section.ticks[:1] or section.notes[:1]
        self._room(sum(self._high(t, s) for t, s in [(section.heading, _HEAD),
                                                     *((one, _TEXT) for one in first)]) + 4)
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
        self.y = self.sheet.block(_EDGE + indent, self.y, width, 1000, [text], size, font) + 1

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
