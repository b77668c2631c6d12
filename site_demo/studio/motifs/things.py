"""Made things: boats, houses, kitchen things, umbrellas, kites, lamps, bridges."""

import numpy as np

from ..cartoon import Motif, piece
from ..line import box, curve, ellipse, ribbon, rotated
from .creatures import closed


def umbrella(canopy: str, other: str, stick: str) -> Motif:
    """An open umbrella from the side, its handle down."""
    ribs = [(-100, 0), (-60, 0), (-20, 0), (20, 0), (60, 0), (100, 0)]
    top = (0, -96)
    gores = []
    for left, right in zip(ribs, ribs[1:], strict=False):
        middle = ((left[0] + right[0]) / 2, -16)
        rim = curve([right, middle, left])
        up = curve([left, (left[0] * 0.82, -58), top])
        down = curve([top, (right[0] * 0.82, -58), right])
        gores.append(np.vstack([up, down, rim]))
    return [piece(stick, ribbon(curve([(0, -110), (0, 40), (0, 104), (14, 122), (30, 108)]), 7)),
            piece(canopy, *gores[::2], angle=80), piece(other, *gores[1::2], angle=80)]


def kite(one: str, two: str, tail: str) -> Motif:
    """A kite in four fields with a bowed tail."""
    line = curve([(0, 100), (-24, 150), (16, 200), (-14, 250), (10, 290)])
    bows = [rotated(np.vstack([[(0, 0), (20, -9), (20, 9)], [(0, 0), (-20, 9), (-20, -9)]]), 20)
            + line[k] for k in (14, 26, 38, 50) if k < len(line)]
    return [piece(tail, ribbon(line, 3), shade=0, line=0), piece(tail, *bows, shade=0),
            piece(one, [(0, -100), (66, -22), (0, -22)], [(0, -22), (0, 100), (-66, -22)],
                  angle=60), piece(two, [(0, -100), (0, -22), (-66, -22)],
                                   [(0, -22), (66, -22), (0, 100)], angle=-60)]


def kettle(body: str, dark: str, knob: str) -> Motif:
    """A stout kettle, spout to the right, handle over the top."""
    return [piece(dark, ribbon(curve([(-62, -40), (-66, -110), (0, -140), (66, -110), (62, -40)]),
                               13)),
            piece(dark, closed((66, -10), (104, -40), (130, -72), (146, -64), (124, -10), (78, 40)),
                  angle=-50),
            piece(body, closed((-84, 30), (-76, -24), (-40, -56), (40, -56), (76, -24), (84, 30),
                               (70, 84), (-70, 84)), angle=90, shade=0.9),
            piece(dark, closed((-44, -52), (-30, -70), (30, -70), (44, -52), (0, -46))),
            piece(knob, ellipse(0, -78, 12, 11), shade=0.6)]


def cup(body: str, inside: str, stripe: str) -> Motif:
    """A cup on a saucer."""
    return [piece(stripe, ellipse(0, 62, 104, 17), shade=0.3),
            piece(body, ribbon(ellipse(72, 8, 30, 30, 0, -100, 110), 12)),
            piece(body, closed((-74, -44), (74, -44), (66, 20), (36, 58), (-36, 58), (-66, 20)),
                  angle=86, shade=0.8),
            piece(inside, ellipse(0, -44, 73, 16), shade=0),
            piece(stripe, ribbon(curve([(-70, -8), (0, 4), (70, -8)]), 10), shade=0)]


def jug(body: str, dark: str) -> Motif:
    """A jug, its lip to the left."""
    return [piece(dark, ribbon(curve([(56, -78), (112, -66), (104, 0), (58, 40)]), 16)),
            piece(body, closed((-74, -110), (-40, -100), (40, -100), (60, -104), (50, -60),
                               (76, 10), (70, 80), (40, 106), (-40, 106), (-70, 80), (-76, 10),
                               (-50, -60)), angle=86, shade=0.9),
            piece(dark, ellipse(-4, -100, 50, 9), shade=0)]


def lamp(shade: str, foot: str) -> Motif:
    """A table lamp."""
    return [piece(foot, ribbon([(0, -10), (0, 96)], 10), closed((-40, 104), (0, 84), (40, 104))),
            piece(shade, [(-38, -90), (38, -90), (70, -4), (-70, -4)], angle=90, shade=0.5)]


def street_lamp(iron: str, glow: str) -> Motif:
    """A street lamp, foot at (0, 250)."""
    return [piece(iron, ribbon([(0, 250), (0, -36)], 9), box(-16, 226, 16, 250),
                  box(-22, -42, 22, -34)),
            piece(glow, [(-20, -42), (-30, -104), (30, -104), (20, -42)], shade=0),
            piece(iron, [(-38, -104), (0, -138), (38, -104)],
                  ribbon([(-20, -42), (-30, -104)], 4), ribbon([(20, -42), (30, -104)], 4),
                  ribbon([(0, -42), (0, -104)], 3), ellipse(0, -140, 6, 6))]


def sail_boat(hull: str, sail: str, jib: str, mast: str) -> Motif:
    """A small sailing boat going to the right; the water at y = 60."""
    return [piece(mast, ribbon([(0, 20), (0, -150)], 6)),
            piece(sail, closed((-8, -140), (-30, -80), (-78, 4), (-8, 10)), angle=70),
            piece(jib, closed((8, -146), (40, -70), (92, 6), (8, 8)), angle=110),
            piece(hull, curve([(-112, 14), (0, 26), (124, 8), (86, 58), (0, 66), (-82, 58)], True),
                  angle=4)]


def fishing_boat(hull: str, strip: str, cabin: str, glass: str) -> Motif:
    """A fishing boat with a wheelhouse, bow to the right; the water at y = 60."""
    return [piece(strip, ribbon([(-30, -40), (-30, -150)], 6),
                  ribbon([(-30, -140), (70, -20)], 2.5), ribbon([(-30, -140), (-120, -8)], 2.5)),
            piece(cabin, [(-70, -6), (-66, -76), (6, -76), (12, -6)], angle=90),
            piece(glass, box(-56, -62, -34, -40), box(-26, -62, -4, -40), shade=0),
            piece(strip, [(-74, -74), (-70, -86), (12, -86), (16, -74)]),
            piece(hull, curve([(-126, -10), (-40, 4), (60, -4), (142, -44), (112, 34), (80, 66),
                               (-96, 66), (-120, 40)], True), angle=3, shade=0.4),
            piece(strip, ribbon(curve([(-122, 2), (-30, 14), (60, 6), (132, -28)]), 9), shade=0)]


def house(wall: str, roof: str, pane: str, door: str) -> Motif:
    """A gabled house, its foot at y = 100."""
    panes = [box(x, y, x + 26, y + 32) for x in (-58, 32) for y in (-30, 34)]
    return [piece(roof, box(34, -118, 54, -60)),
            piece(wall, [(-76, 100), (-76, -50), (0, -116), (76, -50), (76, 100)], angle=90),
            piece(roof, [(-92, -44), (0, -126), (92, -44), (84, -34), (0, -106), (-84, -34)],
                  angle=40),
            piece(pane, *panes, box(-13, -76, 13, -50), shade=0),
            piece(door, box(-18, 30, 18, 100), shade=0)]


def arch_bridge(stone: str, dark: str, arches: int = 3) -> Motif:
    """A stone bridge 600 px long, humped, its arches open; the water at y = 80."""
    x = np.linspace(-300, 300, 61)
    top = np.stack([x, -46 - 44 * np.cos(x / 300 * np.pi / 2)], 1)
    foot = [(300.0, 84.0)]
    wide = 600 / arches
    for k in range(arches):
        middle = 300 - wide * (k + 0.5)
        foot += list(ellipse(middle, 84, wide * 0.36, 84 + 14 * (k == arches // 2), 0, 0, -180,
                             30))
    foot.append((-300.0, 84.0))
    return [piece(stone, np.vstack([top, foot]), angle=0, shade=0.2),
            piece(dark, ribbon(top + (0, 12), 6), ribbon(top - (0, 2), 9), shade=0, line=0)]


def feather(vane: str, quill: str) -> Motif:
    """A feather lying upright, (0, 150) to (10, -150)."""
    left, right = [], []
    for y in np.linspace(90, -140, 24):
        reach = 44 * np.sin(np.pi * np.clip((150 - y) / 300, 0.05, 0.98)) ** 0.7 + 4
        left.append((4 - reach, y - 16))
        right.append((4 + reach * 0.72, y - 16))
    vanes = np.vstack([[(0, 96)], left, [(12, -164)], right[::-1]])
    barbs = [ribbon([(2, y), (2 + side * 40, y - 22)], 1.6) for y in range(70, -120, -24)
             for side in (-1, 0.7)]
    return [piece(vane, curve(vanes[::2], True), angle=30),
            piece(quill, ribbon(curve([(-4, 172), (0, 40), (10, -156)]), 6, (1, 0.3)), *barbs,
                  shade=0, line=0)]


def key(iron: str) -> Motif:
    """An old door key, bow at the top."""
    return [piece(iron, ribbon(ellipse(0, -70, 36, 40), 15), ribbon([(0, -30), (0, 112)], 13),
                  box(0, 76, 40, 88), box(0, 98, 46, 110), box(28, 76, 40, 98),
                  ellipse(0, -24, 13, 8), angle=90)]


def scissors(steel: str, dark: str) -> Motif:
    """Scissors, a little open, points up."""
    blades = [rotated(closed((-7, 10), (-10, -60), (0, -150), (9, -60), (9, 10)), turn)
              for turn in (-11, 11)]
    bows = [ribbon(ellipse(x, 84, 28, 38, turn), 11) for x, turn in ((-36, 14), (36, -14))]
    arms = [ribbon([(0, 0), (x, 52)], 12) for x in (-24, 24)]
    return [piece(steel, *blades, *arms, *bows, angle=90), piece(dark, ellipse(0, 0, 7, 7))]


def shell(body: str, band: str) -> Motif:
    """A whelk, its spire up."""
    made = []
    for k, (y, wide, high) in enumerate(((-96, 16, 18), (-70, 34, 24), (-34, 56, 34),
                                         (26, 82, 58))):
        made.append(piece(body, ellipse(4 * k - 6, y, wide, high, -14), angle=10, shade=0.9))
        made.append(piece(band, ribbon(ellipse(4 * k - 6, y + 3, wide * 0.92, high * 0.72, -14, 30,
                                                  150), 3), shade=0, line=0))
    made.append(piece(band, closed((10, 30), (40, 4), (70, 14), (72, 48), (48, 84), (20, 98),
                                   (2, 84)), angle=70, shade=0.8))
    return made
