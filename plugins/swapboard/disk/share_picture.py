"""The picture that goes with a link to a call where people share it."""

import io

from swapboard.printing.paper import Fonts

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
    _put(draw, _EDGE, 70, width, 50, [over], 28, fonts.regular, _QUIET)
    end = _put(draw, _EDGE, 130, width, 260, [title], 72, fonts.bold, _INK)
    _put(draw, _EDGE, end + 24, width, SIZE[1] - end - 74, lines, 32, fonts.regular, _QUIET)
    out = io.BytesIO()
    picture.save(out, "PNG", optimize=True)
    return out.getvalue()


def _put(draw, x, y, width, height, lines, size, font, colour) -> int:
    """Lines wrapped in a box, smaller where they would not fit it; where they end."""
    from PIL import ImageFont

    while True:
        face = ImageFont.truetype(io.BytesIO(font), size, layout_engine=ImageFont.Layout.BASIC)
        wrapped = [part for line in lines for part in _wrap(line, width, face)]
        step = round(size * 1.25)
        if len(wrapped) * step <= height or size <= 8:
            break
        size -= 2
    for number, line in enumerate(wrapped):
        draw.text((x, y + number * step), line, font=face, fill=colour)
    return y + len(wrapped) * step


def _wrap(line: str, width: int, face) -> list[str]:
    found, current = [], ""
    for word in line.split():
        trial = f"{current} {word}" if current else word
        if face.getlength(trial) <= width:
            current = trial
            continue
        found += [current] if current else []
        current = ""
        for character in word:
            if current and face.getlength(current + character) > width:
                found.append(current)
                current = ""
            current += character
    return [*found, current] if current else found
