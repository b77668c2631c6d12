"""Dot Wrenfield's rubber stamps: a shoebox of carved erasers."""

import numpy as np

from ..cartoon import Motif, piece
from ..hands.rubber_stamp import StampedCard
from ..line import box, curve, ellipse, ribbon
from ..motifs import creatures, growing, things
from ..sheet import UPRIGHT, WIDE
from .picture import Picture


def stamp(motif: Motif, *cut: str) -> Motif:
    """A motif as a stamp: the pieces of the tints `cut` are carved away, the rest prints."""
    return [piece("carve" if one.tint in cut else "ink", *one.outlines) for one in motif]


def snail_procession(seed: int):
    """Nine snails, every one at its own pace."""
    art = StampedCard(UPRIGHT, seed, "#f0e6d0")
    one = stamp(creatures.snail("s", "cut", "b"), "cut")
    for row in range(4):
        for k in range(2):
            ink = ("#3f6b4f", "#a8482f", "#2f4a6b")[(row + k) % 3]
            art.press(one, ink, 210 + 330 * k + 30 * (row % 2) - 20, 210 + 230 * row, 0.98,
                      0, row % 2 == 1, 1 - 0.22 * k)
    art.rule("#3f6b4f", [ribbon([(60, 268 + 230 * row), (690, 268 + 230 * row)], 5)
                         for row in range(4)], 0.7)
    return np.clip(art.sheet, 0, 1)


def leaf_fall(seed: int):
    """One oak leaf, pressed until the ink ran out."""
    art = StampedCard(UPRIGHT, seed, "#e9d8b6")
    leaf = stamp(growing.oak_leaf("leaf", "cut"), "cut")
    rng = np.random.default_rng(3)
    inks = ("#b5482a", "#c9812f", "#7d3b2b", "#8a7a2f")
    places = [(x + rng.normal(0, 26), y + rng.normal(0, 22)) for y in range(140, 1000, 185)
              for x in range(130 + 90 * (y // 185 % 2), 720, 190)]
    for number, (x, y) in enumerate(places):
        art.press(leaf, inks[number % 4], x, y, rng.uniform(0.72, 0.95), rng.uniform(0, 360), False,
                  1 - 0.7 * (y / 1050) ** 2)
    return np.clip(art.sheet, 0, 1)


def regatta(seed: int):
    """Eleven boats from one stamp, and the judges' sun."""
    art = StampedCard(WIDE, seed, "#f1ead8")
    boat = stamp(things.sail_boat("h", "s", "j", "cut"), "cut")
    art.press([piece("ink", ellipse(0, 0, 90, 90)), piece("carve", ellipse(0, 0, 60, 60)),
               piece("ink", ellipse(0, 0, 44, 44))], "#d9902f", 880, 140, 1.0)
    for row, (y, s, ink) in enumerate(((250, 0.55, "#8aa9b5"), (400, 0.85, "#3f7390"),
                                       (590, 1.25, "#1f3f63"))):
        wave = [ribbon(ellipse(28 + 56 * k * s + 20 * row, y + 74 * s, 28 * s, 14 * s, 0, 0, 180),
                       5 * s + 2) for k in range(int(1010 / (56 * s)))]
        art.rule(ink, [one for one in wave if one[:, 0].max() < 1020], 0.8)
        for k in range(5 - row):
            art.press(boat, "#b8442f" if (row, k) == (2, 1) else ink, 120 + k * (205 + 62 * row)
                      + 40 * row, y, s, 0, False, 1 - 0.12 * k)
    return np.clip(art.sheet, 0, 1)


def mushroom_ring(seed: int):
    """Toadstools in a ring, and somebody crossing it."""
    art = StampedCard(UPRIGHT, seed, "#e3dcc4")
    cap = [*stamp(growing.mushroom("c", "g", "st", "cut"), "cut"),
           piece("carve", ribbon(curve([(-104, -10), (-40, -26), (40, -26), (104, -10)]), 7)),
           piece("carve", *[ribbon([(k * 10, -20), (k * 8, 4)], 3) for k in range(-8, 9)])]
    for k in range(9):
        a = 2 * np.pi * k / 9
        art.press(cap, "#a83a32", 375 + 245 * np.sin(a), 525 - 345 * np.cos(a), 0.78,
                  np.degrees(a), False, 1 - 0.06 * k)
    art.press(stamp(creatures.snail("s", "cut", "b"), "cut"), "#3a4a6b", 365, 545, 0.72, -14)
    for k in range(26):
        a = 2 * np.pi * k / 26
        art.press([piece("ink", ellipse(0, 0, 8, 8))], "#3f6b4f", 375 + 120 * np.sin(a),
                  525 - 170 * np.cos(a), 1)
    return np.clip(art.sheet, 0, 1)


def night_moths(seed: int):
    """Moths round a lamp, in white ink on blue card."""
    art = StampedCard(UPRIGHT, seed, "#c9cfe0")
    wings = stamp(creatures.moth("w", "cut", "b", "cut"), "cut")
    art.press([piece("ink", ellipse(0, 0, 120, 120)), piece("carve", ellipse(0, 0, 96, 96)),
               piece("ink", ellipse(0, 0, 74, 74)), piece("carve", ellipse(0, 0, 50, 50)),
               piece("ink", ellipse(0, 0, 30, 30))], "#c98a2a", 375, 500, 1.1)
    for x, y, s, turn, ink in ((180, 200, 1.05, 130, "#27305a"), (580, 230, 0.9, 220, "#4a3a78"),
                               (150, 620, 0.8, 70, "#4a3a78"), (610, 640, 1.1, 290, "#27305a"),
                               (380, 860, 1.2, 4, "#27305a"), (370, 130, 0.55, 180, "#7a5a9a"),
                               (640, 900, 0.6, 330, "#7a5a9a"), (120, 880, 0.65, 40, "#7a5a9a")):
        art.press(wings, ink, x, y, s, turn)
    return np.clip(art.sheet, 0, 1)


def wash_day_birds(seed: int):
    """Birds on a wire, like notes, in two inks."""
    art = StampedCard(WIDE, seed, "#ecdfc6")
    one = stamp(creatures.bird("b", "cut", "br", "k"), "cut")
    wires = [170, 250, 330, 410, 490]
    art.rule("#4a4036", [ribbon([(40, y), (1010, y)], 5) for y in wires]
             + [box(70, 110, 84, 700), box(966, 110, 980, 700)], 0.8)
    for k, line in enumerate((4, 2, 3, 1, 2, 0, 3)):
        ink = "#a83a32" if k == 5 else "#2c3f4c"
        art.press(one, ink, 180 + 118 * k, wires[line] - 42, 0.52, 0, k % 3 == 1, 1 - 0.05 * k)
    house = stamp(things.house("w", "r", "cut", "cut"), "cut")
    for k in range(6):
        art.press(house, ("#8a6a3f", "#5f7a6b", "#a5603a")[k % 3], 170 + 145 * k, 640, 0.62)
    return np.clip(art.sheet, 0, 1)


PICTURES = {
    "birds-like-notes": Picture(wash_day_birds, wide=True),
    "leaf-until-dry": Picture(leaf_fall),
    "moths-to-a-lamp": Picture(night_moths),
    "mushroom-ring": Picture(mushroom_ring),
    "regatta": Picture(regatta, wide=True),
    "snail-procession": Picture(snail_procession),
}
