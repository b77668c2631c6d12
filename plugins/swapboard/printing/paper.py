"""A sheet of paper: text in millimetres from its top left, set to fit, never cut."""

import hashlib
import io
import time
import unicodedata
from dataclasses import dataclass
from functools import cache
from typing import Any

from swapboard.printing.reading_order import FROM_LEFT, FROM_RIGHT, as_drawn, from_the_right
from swapboard.vocabulary.paper import PAPER

# The fonts asked for a letter that a line's own lacks, as the last sheet begun has them.
_ASKED: list[str] = []

POINT = 25.4 / 72  # millimetres
LEADING = 1.25
_LEAST = 4.0
_LIBRARYS_DAY = 946_684_800  # 2000-01-01
REGULAR, BOLD, _OWN = "SwapboardSans", "SwapboardSans-Bold", "SwapboardOwn"
# Scripts whose letters change or move by their neighbours; only the Arabic ones are joined
# here (`reading_order`). Blocks of The Unicode Standard 16.0, their first and last characters.
_JOINED_SCRIPTS = (
    (0x0700, 0x074F), (0x07C0, 0x085F), (0x0900, 0x0DFF), (0x0F00, 0x109F), (0x1780, 0x18AF),
    (0x1900, 0x1BFF), (0xA800, 0xA8FF), (0xA980, 0xAAFF), (0xABC0, 0xABFF), (0x10A00, 0x10A5F),
    (0x10F30, 0x11FFF),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Fonts:
    """TrueType fonts as bytes; they are embedded, in part, in every PDF. `own`, where there
    is one, is asked for letters that the others lack."""

    regular: bytes
    bold: bytes
    own: bytes = b""


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
        _ASKED[:] = [REGULAR]
        if fonts.own:
            # The library keeps the first font of a name, and takes fonts of one name for one.
            own = f"{_OWN}-{hashlib.sha256(fonts.own).hexdigest()[:16]}"
            _font(own, fonts.own).face.name = own.encode()
            pdfmetrics.registerFont(_font(own, fonts.own))
            _ASKED[:] = [own, REGULAR]

    def text(self, x: float, y: float, words: str, size: float, font: str = REGULAR) -> None:
        """One line; its baseline is `y` from the top."""
        for run, face in _runs(words, font):
            self.canvas.setFont(face, size)
            self.canvas.drawString(x / POINT, (self.height - y) / POINT, run)
            x += _wide(run, size, face)

    def block(
        self, x: float, y: float, width: float, height: float, lines: list[str],
        size: float, font: str = REGULAR, whole_lines: bool = False,
    ) -> float:
        """Lines in a box, wrapped, and smaller where they would not fit it; those read from
        the right begin at its right edge. Gives how far from the top the last one ends."""
        size, wrapped = fit(lines, width, height, size, font, whole_lines)
        step = size * LEADING * POINT
        for number, line in enumerate(wrapped):
            inset = width - measure(line, size, font) if from_the_right(line) else 0.0
            self.text(x + inset, y + step * number + size * POINT, line, size, font)
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
    return sum(_wide(run, size, face) for run, face in _runs(text, font))


def _wide(run: str, size: float, face: str) -> float:
    from reportlab.pdfbase.pdfmetrics import stringWidth

    return stringWidth(run, face, size) * POINT


def _runs(text: str, font: str) -> list[tuple[str, str]]:
    """A line as it is drawn, in runs of one font each: the first that has the letter."""
    drawn = as_drawn(text)
    if drawn.isascii():
        return [(drawn, font)]
    from reportlab.pdfbase.pdfmetrics import getFont

    known = [(name, getFont(name).face.charToGlyph) for name in (font, *_ASKED)]
    return runs_of(drawn, known)


def runs_of(drawn: str, known: list[tuple[Any, Any]]) -> list[tuple[str, Any]]:
    """Text in runs of one font each, by (font, the codes that it has); what no font has
    goes to the first, which draws its sign for that."""
    found: list[tuple[str, Any]] = []
    for character in drawn:
        name = next((n for n, codes in known if ord(character) in codes), known[0][0])
        if found and (found[-1][1] == name or unicodedata.combining(character)):
            found[-1] = (found[-1][0] + character, found[-1][1])
        else:
            found.append((character, name))
    return found


def wrap(line: str, width: float, size: float, font: str) -> list[str]:
    """A line in as many as it takes; broken between words, and within one only where it
    is wider than the box alone. Each part is read the way that the line is."""
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
    parts = [*found, current] if current or not found else found
    right = from_the_right(line)
    mark = FROM_RIGHT if right else FROM_LEFT
    return [part if from_the_right(part) == right else mark + part for part in parts]


def lacking(text: str, fonts: Fonts) -> str:
    """The characters that no font has a picture of, or that would have to be joined in a
    way that is not known here, each once, sorted."""
    if text.isascii():
        return ""
    codes = [codes_in(font) for font in (fonts.regular, fonts.own) if font]
    missing = {c for c in text if _is_joined(ord(c))}
    for line in text.splitlines():
        missing |= {c for c in as_drawn(line) if not c.isspace()
                    and not any(ord(c) in known for known in codes)}  # fmt: skip
    return "".join(sorted(missing))


def _is_joined(code: int) -> bool:
    return any(first <= code <= last for first, last in _JOINED_SCRIPTS)


def is_font(data: bytes) -> bool:
    """Whether these are a TrueType font that can be embedded."""
    try:
        _font(_OWN, data)
    except Exception:  # the library says so in many ways
        return False
    return True


@cache
def codes_in(font: bytes) -> frozenset[int]:
    """The code points that a TrueType font has a picture of."""
    return frozenset(_font(REGULAR, font).face.charToGlyph)
