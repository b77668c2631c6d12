"""A sheet of paper: text in millimetres from its top left, set to fit, never cut."""

import hashlib
import io
import time
from dataclasses import dataclass
from functools import cache
from typing import Any

from swapboard.vocabulary.paper import PAPER

POINT = 25.4 / 72  # millimetres
LEADING = 1.25
_LEAST = 4.0
_LIBRARYS_DAY = 946_684_800  # 2000-01-01
REGULAR, BOLD = "SwapboardSans", "SwapboardSans-Bold"


@dataclass(frozen=True, slots=True)
class Fonts:
    """Two TrueType fonts as bytes; they are embedded, in part, in every PDF."""

    regular: bytes
    bold: bytes


@cache
def _font(name: str, data: bytes) -> Any:
    """A font as the library has it; reading one takes longer than drawing a page."""
    from reportlab.pdfbase.ttfonts import TTFont

    return TTFont(name, io.BytesIO(data))


def _without_a_day(canvas: Any) -> None:
    """Have the library's own fixed day in the PDF; it would take one from the environment.

    Its day, and the digest that was begun with it, are replaced before anything is drawn.
    """
    stamp = canvas._doc._timeStamp
    stamp.t, stamp.lt = _LIBRARYS_DAY, time.gmtime(_LIBRARYS_DAY)
    stamp.YMDhms = tuple(stamp.lt)[:6]
    canvas._doc.signature = hashlib.md5(b"Swapboard", usedforsecurity=False)


class Sheet:
    """A PDF being drawn, page by page. Lengths are millimetres from the top left of the
    page, sizes of type are points."""

    def __init__(self, paper: str, fonts: Fonts, title: str) -> None:
        from reportlab.pdfbase import pdfmetrics
        from reportlab.pdfgen.canvas import Canvas

        self.width, self.height = PAPER[paper]
        self._out = io.BytesIO()
        size = (self.width / POINT, self.height / POINT)
        # Without invariant the clock would be in the bytes.
        self.canvas: Any = Canvas(self._out, pagesize=size, invariant=1, pageCompression=1)
        _without_a_day(self.canvas)
        self.canvas.setTitle(title)
        self.canvas.setCreator("Swapboard")
        for name, data in ((REGULAR, fonts.regular), (BOLD, fonts.bold)):
            pdfmetrics.registerFont(_font(name, data))

    def text(self, x: float, y: float, words: str, size: float, font: str = REGULAR) -> None:
        """One line; its baseline is `y` from the top."""
        self.canvas.setFont(font, size)
        self.canvas.drawString(x / POINT, (self.height - y) / POINT, words)

    def block(
        self, x: float, y: float, width: float, height: float, lines: list[str],
        size: float, font: str = REGULAR, whole_lines: bool = False,
    ) -> float:
        """Lines in a box, wrapped, and smaller where they would not fit it; gives how far
        from the top the last one ends."""
        size, wrapped = fit(lines, width, height, size, font, whole_lines)
        step = size * LEADING * POINT
        for number, line in enumerate(wrapped):
            self.text(x, y + step * number + size * POINT, line, size, font)
        return y + step * len(wrapped)

    def line(self, x: float, y: float, to_x: float, to_y: float, wide: float = 0.2) -> None:
        """A straight line, `wide` millimetres."""
        self.canvas.setLineWidth(wide / POINT)
        self.canvas.line(x / POINT, (self.height - y) / POINT,
                         to_x / POINT, (self.height - to_y) / POINT)  # fmt: skip

    def box(self, x: float, y: float, width: float, height: float, filled: bool = False) -> None:
        """A rectangle by its top left corner; an outline, or filled in black."""
        self.canvas.setLineWidth(0.25 / POINT)
        self.canvas.rect(x / POINT, (self.height - y - height) / POINT, width / POINT,
                         height / POINT, stroke=not filled, fill=filled)  # fmt: skip

    def next_page(self) -> None:
        """End this page and begin another."""
        self.canvas.showPage()

    def pdf(self) -> bytes:
        """The whole, once all is drawn."""
        self.canvas.save()
        return self._out.getvalue()


def fit(
    lines: list[str], width: float, height: float, size: float, font: str,
    whole_lines: bool = False,
) -> tuple[float, list[str]]:
    """The largest size in points, at most `size`, at which the lines fit a box, and the
    lines as they are wrapped for it. With `whole_lines` it shrinks before it wraps, down
    to 7 points, as the lines of an address should stay whole. Below what can be read
    it goes on until all is in the box, as nothing is ever cut."""
    trial, best = size, None
    while whole_lines and trial >= 7.0:
        if all(measure(line, trial, font) <= width for line in lines):
            best = trial
            break
        trial -= 0.5
    trial = best or size
    while True:
        wrapped = [part for line in lines for part in wrap(line, width, trial, font)]
        if len(wrapped) * trial * LEADING * POINT <= height or trial <= 1.0:
            return trial, wrapped
        trial -= 0.5 if trial > _LEAST else 0.25


def measure(text: str, size: float, font: str) -> float:
    """How wide a line is, in millimetres; the fonts are known once a sheet is begun."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    return stringWidth(text, font, size) * POINT


def wrap(line: str, width: float, size: float, font: str) -> list[str]:
    """A line in as many as it takes; broken between words, and within one only where it
    is wider than the box alone."""
    found, current = [], ""
    for word in line.split():
        trial = f"{current} {word}" if current else word
        if measure(trial, size, font) <= width:
            current = trial
            continue
        if current:
            found.append(current)
        current = ""
        for character in word:
            if current and measure(current + character, size, font) > width:
                found.append(current)
                current = ""
            current += character
    return [*found, current] if current or not found else found


def lacking(text: str, font: bytes) -> str:
    """The characters that a TrueType font has no picture of, each once, sorted."""
    from reportlab.pdfbase.ttfonts import TTFontFile

    known = TTFontFile(io.BytesIO(font)).charToGlyph
    return "".join(sorted({c for c in text if not c.isspace() and ord(c) not in known}))
