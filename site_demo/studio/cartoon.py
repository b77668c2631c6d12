"""A cartoon: the flat design of a picture, before a hand works it in its own medium.

Pieces go on from the back to the front. Motifs (in motifs/) are drawn about (0, 0),
some 200 px across, and are placed, turned, mirrored and scaled here.
"""

from dataclasses import dataclass, replace

import numpy as np

from .hands.tones import Study
from .line import rotated
from .sheet import blurred, colour, filled, shifted, stamped

Array = np.ndarray


@dataclass(frozen=True, slots=True)
class Piece:
    """Outlines of one colour. `angle` in degrees is the way a hand would stroke it, `shade` how
    round it is (0 flat to 1 a ball), `line` the contour's px in a drawn medium, 0 for none."""

    tint: str
    outlines: tuple[Array, ...]
    angle: float = 0.0
    shade: float = 0.5
    line: float = 2.0


Motif = list[Piece]


def piece(tint: str, *outlines, angle: float = 0.0, shade: float = 0.5,
          line: float = 2.0) -> Piece:
    """A piece from anything that is a list of points."""
    return Piece(tint, tuple(np.asarray(one, float) for one in outlines), angle, shade, line)


class Cartoon:
    """A card's ground colour and the pieces on it so far; `size` is (width, height) in card px."""

    def __init__(self, size: tuple[int, int], ground: str):
        self.size = size
        self.ground = ground
        self.pieces: list[Piece] = []

    def add(self, tint: str, *outlines, angle: float = 0.0, shade: float = 0.0,
            line: float = 2.0) -> None:
        """Put one piece in front."""
        self.pieces.append(piece(tint, *outlines, angle=angle, shade=shade, line=line))

    def place(self, motif: Motif, x: float, y: float, scale: float = 1.0, turn: float = 0.0,
              flip: bool = False) -> None:
        """Put a motif in front, its (0, 0) at (x, y); `flip` mirrors it left to right."""
        way = np.array([-scale if flip else scale, scale])
        for one in motif:
            outlines = tuple(rotated(outline * way, turn) + (x, y) for outline in one.outlines)
            angle = (180 - one.angle if flip else one.angle) + turn
            self.pieces.append(replace(one, outlines=outlines, angle=angle))

    def labels(self) -> tuple[Array, list[str]]:
        """Which colour shows at every place, int [height, width], and the colours by number."""
        tints = [self.ground]
        plate = np.zeros(self.size[::-1], np.int32)
        for one in self.pieces:
            if one.tint not in tints:
                tints.append(one.tint)
            plate[filled(self.size, *one.outlines) > 0.5] = tints.index(one.tint)
        return plate, tints

    def flat(self) -> Array:
        """The design in flat colour, float32 [height, width, 3]."""
        picture = np.empty((*self.size[::-1], 3), np.float32)
        picture[:] = colour(self.ground)
        for one in self.pieces:
            mask = filled(self.size, *one.outlines)[:, :, None]
            picture += (colour(one.tint) - picture) * mask
        return picture

    def study(self, tone=None) -> Study:
        """The design as a study in greys, darker where its colours are and rounded by `shade`."""
        study = Study(self.size, 1 - brightness(self.ground) if tone is None else tone)
        for one in self.pieces:
            for outline in one.outlines:
                mask = study.shape(outline, 1 - brightness(one.tint), one.line, one.angle)
                if one.shade > 0:
                    study.shade(mask, rounding(mask) * one.shade * 1.1)
        return study


def brightness(tint: str) -> float:
    """How light a colour looks, 0 to 1 (the luma weights of ITU-R BT.601)."""
    return float(colour(tint) @ np.array([0.299, 0.587, 0.114], np.float32))


def rounding(mask: Array, reach: float | None = None) -> Array:
    """Light on a rounded shape: about -0.5 (lit, top left) to 0.5 (dark, lower right)."""
    if reach is None:
        reach = float(np.clip(np.sqrt(mask.sum()) * 0.16, 3, 60))
    soft = blurred(mask, reach)
    return (shifted(soft, reach * 0.55, reach * 0.7) - soft) * mask * 1.3


def patch(size: tuple[int, int], outlines, room: float = 12.0):
    """The part of a card about some outlines: (slice down, slice across) and their mask in it."""
    points = np.vstack(outlines)
    low = np.clip(points.min(0) - room, 0, np.array(size) - 4).astype(int)
    high = np.clip(points.max(0) + room, low + 4, size).astype(int)
    plate = np.zeros((high - low)[::-1], np.uint8)
    for outline in outlines:
        stamped(plate, outline - low)
    return (slice(low[1], high[1]), slice(low[0], high[0])), plate.astype(np.float32) / 255
