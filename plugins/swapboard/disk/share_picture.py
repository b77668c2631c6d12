"""The picture that goes with a link to a call where people share it."""

import io
from typing import Any

from swapboard.printing.paper import Fonts, codes_in, runs_of
from swapboard.printing.reading_order import as_drawn

SIZE = (1200, 630)  # pixels; the proportion that ogp.me's readers show (common practice)
_EDGE = 80
_PAPER, _INK, _QUIET, _CARD = (236, 238, 235), (28, 30, 30), (88, 94, 92), (252, 252, 250)


def share_picture(title: str, over: str, lines: list[str], fonts: Fonts) -> bytes:
    """A PNG of 1200 × 630 pixels; the same words give the same bytes.

    The title gets smaller until all of it fits; a row of card-shaped blanks stands
    for the swap.
    """
    from PIL import Image, ImageDraw

    picture = Image.new("RGB", SIZE, _PAPER)
    draw = ImageDraw.Draw(picture)
    for number in range(3):
        left, top = SIZE[0] - 410 + number * 62, 120 + number * 62
        # Five by seven, as the cards are.
        draw.rectangle((left + 6, top + 8, left + 206, top + 288), fill=(205, 208, 204))
        draw.rectangle((left, top, left + 200, top + 280), fill=_CARD, outline=(190, 194, 190))
    width = SIZE[0] - 410 - _EDGE - 40
    plain, bold = (fonts.regular, fonts.own), (fonts.bold, fonts.own, fonts.regular)
    _put(draw, _EDGE, 70, width, 50, [over], 28, plain, _QUIET)
    end = _put(draw, _EDGE, 130, width, 260, [title], 72, bold, _INK)
    _put(draw, _EDGE, end + 24, width, SIZE[1] - end - 74, lines, 32, plain, _QUIET)
    out = io.BytesIO()
    picture.save(out, "PNG", optimize=True)
    return out.getvalue()


class _Face:
    """One size of a row of fonts, of which the first that has a letter draws it."""

    def __init__(self, fonts: tuple[bytes, ...], size: int) -> None:
        from PIL import ImageFont

        basic = ImageFont.Layout.BASIC
        self._fonts = [
            (ImageFont.truetype(io.BytesIO(font), size, layout_engine=basic), font)
            for font in fonts if font
        ]  # fmt: skip

    def runs(self, line: str) -> list[tuple[str, Any]]:
        """The line as it is drawn, in runs of one font."""
        drawn = as_drawn(line)
        if drawn.isascii():
            return [(drawn, self._fonts[0][0])]
        return runs_of(drawn, [(face, codes_in(font)) for face, font in self._fonts])

    def width(self, line: str) -> float:
        """In pixels."""
        return sum(face.getlength(run) for run, face in self.runs(line))


def _put(draw, x, y, width, height, lines, size, fonts, colour) -> int:
    """Lines wrapped in a box, smaller where they would not fit it; where they end."""
    while True:
        face = _Face(fonts, size)
        wrapped = [part for line in lines for part in _wrap(line, width, face)]
        step = round(size * 1.25)
        if len(wrapped) * step <= height or size <= 8:
            break
        size -= 2
    for number, line in enumerate(wrapped):
        at = float(x)
        for run, font in face.runs(line):
            draw.text((round(at), y + number * step + size), run, font=font, fill=colour,
                      anchor="ls")  # fmt: skip
            at += font.getlength(run)
    return y + len(wrapped) * step


def _wrap(line: str, width: int, face: _Face) -> list[str]:
    found, current = [], ""
    for word in line.split():
        trial = f"{current} {word}" if current else word
        if face.width(trial) <= width:
            current = trial
            continue
        found += [current] if current else []
        current = ""
        for character in word:
            if current and face.width(current + character) > width:
                found.append(current)
                current = ""
            current += character
    return [*found, current] if current else found
