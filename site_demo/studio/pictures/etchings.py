"""Thandi Mokoro's etchings: brown ink, small plates, the dry side of the mountain."""

import numpy as np

from ..cartoon import Cartoon
from ..hands.etching import etched
from ..line import blade, box, curve, ellipse, ribbon
from ..motifs.creatures import beetle, bird
from ..motifs.growing import umbel
from ..motifs.things import arch_bridge, fishing_boat, house
from ..sheet import UPRIGHT, WIDE
from .grounds import peaks, ridge, ripples, tufts
from .picture import Picture


def aloe(seed: int):
    """An aloe in flower among stones."""
    art = Cartoon(UPRIGHT, "#f0e8d8")
    art.add("#cfc6b6", ridge(UPRIGHT, 430, 60, 4, 2), angle=10)
    art.add("#e6dccb", ridge(UPRIGHT, 700, 16, 8, 2), angle=4)
    for x, tall in ((330, 560), (430, 470)):
        art.add("#8a8074", ribbon(curve([(380, 760), (x, 500), (x - 6, 760 - tall)]), 14))
        art.add("#5a5048", *[blade((x - 4, 770 - tall + 20 * k),
                                   (x + side * (20 + 3 * k) - 4, 786 - tall + 24 * k), 15)
                             for k in range(9) for side in (-1, 1)], angle=60, line=1.4)
    for a in np.concatenate([np.linspace(-1.35, 1.35, 9), np.linspace(-1.1, 1.1, 7)]):
        tip = (380 + 270 * np.sin(a), 800 - 220 * np.cos(a) * 0.9)
        art.add("#a89f8f", blade((380, 830), tip, 62, 30 * np.sign(a)), angle=70, shade=0.9)
    for x, y, r in ((170, 870, 70), (590, 880, 84), (470, 930, 50), (270, 930, 44)):
        art.add("#c9bfae", ellipse(x, y, r, r * 0.6), angle=20, shade=1.0)
    return etched(art.study(), seed)


def weaver_nests(seed: int):
    """Weavers and their nests over a dry river."""
    art = Cartoon(UPRIGHT, "#f2eadb")
    art.add("#d8cfbf", ridge(UPRIGHT, 840, 20, 5, 2), angle=4)
    branch = curve([(-10, 170), (220, 210), (480, 170), (770, 250)])
    art.add("#7d7266", ribbon(branch, 26, (1, 0.5)), angle=6, shade=0.7)
    for x, y, s in ((180, 400, 1.0), (390, 520, 1.2), (590, 420, 0.9)):
        thread = curve([(x + 6, 200), (x - 4, (y + 160) / 2), (x, y - 90 * s)])
        art.add("#6a6056", ribbon(thread, 6))
        art.add("#b3a794", curve([(x, y - 110 * s), (x + 84 * s, y - 20 * s), (x + 70 * s,
                                                                           y + 80 * s),
                                  (x, y + 116 * s), (x - 74 * s, y + 76 * s), (x - 84 * s,
                                                                              y - 20 * s)], True),
                angle=30, shade=1.0)
        art.add("#3a332c", ellipse(x - 20 * s, y + 84 * s, 34 * s, 24 * s), angle=0)
        art.add("#8d8272", *[ribbon(curve([(x - 70 * s, y - 40 * s + 26 * s * k),
                                           (x, y - 20 * s + 28 * s * k),
                                           (x + 74 * s, y - 50 * s + 28 * s * k)]), 2.4)
                             for k in range(5)], line=0)
    art.place(bird("#cfc4b2", "#5a5048", "#efe8da", "#3a332c"), 560, 700, 1.0, -8, True)
    art.place(bird("#cfc4b2", "#5a5048", "#efe8da", "#3a332c"), 250, 730, 0.8)
    art.add("#6f6558", ribbon(curve([(80, 800), (300, 800), (690, 776)]), 12, (0.3, 1)))
    return etched(art.study(), seed)


def dry_bridge(seed: int):
    """A bridge over a river that comes twice a year."""
    art = Cartoon(WIDE, "#f2ebdc")
    far = peaks(WIDE, 350, 200, 7, 4)
    art.add("#d3c9b8", far, angle=58)
    art.add("#bfb5a4", ridge(WIDE, 380, 20, 4, 3), angle=8)
    art.add("#e9e0cf", ridge(WIDE, 540, 14, 3, 1), angle=4)
    art.place(arch_bridge("#a69b8b", "#5f564c", 3), 520, 440, 1.45)
    rng = np.random.default_rng(8)
    art.add("#b9ae9d", *[ellipse(x, y, r, r * 0.6) for x, y, r in
                         zip(rng.uniform(90, 960, 22), rng.uniform(590, 680, 22),
                             rng.uniform(10, 38, 22), strict=True)], angle=20, shade=1.0)
    art.add("#6f6558", *tufts((80, 560, 980, 680), 60, 5, 60, 6), angle=86, line=1)
    return etched(art.study(), seed)


def fog_harbour(seed: int):
    """A fishing boat at the quay before light."""
    art = Cartoon(WIDE, "#c9c0b2")
    art.add("#a79d8f", ridge(WIDE, 270, 30, 4, 2), angle=6)
    for x, y, s in ((160, 330, 0.7), (290, 340, 0.6), (860, 330, 0.75), (960, 340, 0.6)):
        art.place(house("#8f8577", "#5f564c", "#f6efdd", "#3f382f"), x, y, s)
    art.add("#8a8072", box(-4, 400, 1054, 754), angle=0)
    art.add("#e9e0cd", *ripples((80, 430, 980, 690), 46, 3, 220, 9), angle=0, line=0)
    art.place(fishing_boat("#4a4239", "#e6dcc8", "#b8ad9c", "#f8f2e2"), 540, 470, 2.0)
    return etched(art.study(), seed, grain=0.6)


def dung_beetle(seed: int):
    """A beetle and what it has pushed all day."""
    art = Cartoon(UPRIGHT, "#f1e9d9")
    art.add("#e2d8c6", ridge(UPRIGHT, 720, 30, 3, 1), angle=6)
    art.add("#9a8f80", ellipse(400, 420, 210, 206), angle=36, shade=1.0)
    rng = np.random.default_rng(4)
    art.add("#6a6056", *[ribbon(ellipse(400 + 150 * np.cos(a) * r, 420 + 150 * np.sin(a) * r, 26, 9,
                                        rng.uniform(0, 180), 0, 200), 3)
                         for a, r in zip(rng.uniform(0, 6.3, 26), rng.uniform(0.2, 1.1, 26),
                                         strict=True)], line=0)
    art.place(beetle("#4a4239", "#38312a", "#cfc5b4", False), 340, 740, 1.25, 14)
    art.add("#7d7365", *tufts((70, 880, 680, 980), 70, 6, 90, 6), angle=86, line=1)
    return etched(art.study(), seed)


def dragonfly(seed: int):
    """A dragonfly on an umbel, wings like leaded glass."""
    art = Cartoon(UPRIGHT, "#f3ecdd")
    art.place(umbel("#9a8f80", "#c4b9a8"), 400, 620, 2.1, -4)
    for turn, long in ((-64, 300), (-100, 270), (64, 300), (100, 270)):
        side = 1 if turn > 0 else -1
        tip = np.array([375 + side * long, 300 + (60 if abs(turn) > 90 else -70)])
        wing = blade((375, 310), tip, 74, side * -16)
        art.add("#ddd3c2", wing, angle=turn, shade=0.0, line=2)
        for k in range(1, 9):
            at = np.array([375, 310]) + (tip - (375, 310)) * k / 9
            art.add("#5a5048", ribbon([at + (0, -22), at + (side * 8, 22)], 1.8), line=0)
        art.add("#5a5048", ribbon([(375, 310), tip], 3),
                ribbon([(375, 318), tip + (-side * 40, 20)], 2), line=0)
    art.add("#6a6056", curve([(361, 270), (375, 250), (389, 270), (386, 380), (381, 600),
                              (375, 640), (369, 600), (364, 380)], True), angle=90, shade=0.9)
    art.add("#2f2923", *[box(364, y, 386, y + 6) for y in range(390, 600, 34)], line=0)
    art.add("#3f382f", ellipse(360, 250, 19, 19), ellipse(390, 250, 19, 19), shade=0.9)
    return etched(art.study(), seed)


PICTURES = {
    "aloe": Picture(aloe),
    "before-light": Picture(fog_harbour, wide=True),
    "dragonfly": Picture(dragonfly),
    "dry-river-bridge": Picture(dry_bridge, wide=True),
    "dung-beetle": Picture(dung_beetle),
    "weaver-nests": Picture(weaver_nests),
}
