"""Gaëtan Rourre's pastels: the plain and the hills at the ends of the day."""

import numpy as np

from ..cartoon import Cartoon
from ..hands.soft_pastel import pastelled
from ..line import curve, ellipse, ribbon
from ..motifs.growing import crown, poplar
from ..sheet import UPRIGHT, WIDE
from .grounds import peaks, ridge, ripples, snow_caps, whole
from .picture import Picture


def sky(art: Cartoon, tints: tuple[str, ...], horizon: float) -> None:
    """Bands of sky from the top down to the horizon, each uneven, with some cloud between."""
    art.add(tints[0], whole(art.size), angle=4)
    for number, tint in enumerate(tints[1:], start=1):
        art.add(tint, ridge(art.size, horizon * number / len(tints), 14, number * 7, 1), angle=3)


def haystacks(seed: int):
    """Three stacks at dusk, long violet shadows."""
    art = Cartoon(WIDE, "#3a3540")
    sky(art, ("#7c86b8", "#a79cc0", "#e0a9a0", "#f2c48a", "#f6dc9c"), 330)
    art.add("#5d6a8f", ridge(WIDE, 330, 22, 5, 3), angle=2)
    art.add("#d9a94f", ridge(WIDE, 380, 8, 8, 1), angle=4)
    art.add("#b98a45", ridge(WIDE, 560, 12, 3, 1), angle=6)
    for x, y, s in ((760, 420, 0.62), (300, 500, 1.1), (610, 560, 0.85)):
        art.add("#5a4a78", curve([(x, y + 40 * s), (x + 150 * s, y + 20 * s), (x + 330 * s,
                                                                            y + 60 * s),
                                  (x + 140 * s, y + 84 * s)], True), angle=4)
        art.add("#c07a3e", curve([(x - 96 * s, y + 70 * s), (x - 90 * s, y - 20 * s),
                                  (x - 40 * s, y - 96 * s), (x + 6 * s, y - 116 * s),
                                  (x + 60 * s, y - 80 * s), (x + 96 * s, y - 10 * s),
                                  (x + 92 * s, y + 72 * s)], True), angle=80, shade=0.4)
        art.add("#f0bd62", curve([(x - 92 * s, y + 56 * s), (x - 84 * s, y - 20 * s),
                                  (x - 38 * s, y - 90 * s), (x - 14 * s, y - 60 * s),
                                  (x - 30 * s, y + 60 * s)], True), angle=84)
    return pastelled(art, seed)


def first_snow(seed: int):
    """Peaks with pink snow over a dark lake."""
    art = Cartoon(WIDE, "#2f3342")
    sky(art, ("#f0b8a6", "#f4cfae", "#f6e2bd"), 300)
    far = peaks(WIDE, 330, 190, 5, 5)
    art.add("#8d8fb3", far, angle=60)
    art.add("#f3cfc8", *snow_caps(far, 0.55, 2), angle=-50)
    near = peaks(WIDE, 430, 250, 12, 4)
    art.add("#4f5a86", near, angle=58)
    art.add("#f7e6dd", *snow_caps(near, 0.42, 4), angle=-54)
    art.add("#2f4a57", ridge(WIDE, 470, 14, 3, 2), angle=80)
    art.add("#3d5f86", [(-4, 520), (1054, 512), (1054, 754), (-4, 754)], angle=0)
    art.add("#e9b6ac", *ripples((80, 540, 980, 730), 34, 8, 220, 12))
    art.add("#21303c", *ripples((0, 520, 1050, 560), 30, 9, 200, 12))
    return pastelled(art, seed)


def poplar_river(seed: int):
    """Poplars along a bend of the river, autumn."""
    art = Cartoon(UPRIGHT, "#40342f")
    sky(art, ("#86a9c4", "#b4c9d0", "#e8dcc0"), 520)
    art.add("#7d8f9b", ridge(UPRIGHT, 520, 26, 3, 2), angle=2)
    art.add("#b9a552", ridge(UPRIGHT, 570, 10, 8, 1), angle=4)
    for x, y, s, tint in ((110, 470, 0.8, "#d08b2f"), (190, 450, 0.98, "#e2ae3d"),
                          (280, 440, 1.1, "#c96f2c"), (392, 420, 1.3, "#e8bf4a"),
                          (560, 392, 1.6, "#d58b2e")):
        art.place(poplar(tint, "#4a3328"), x, y, s)
        art.add("#f3d983", ellipse(x - 9 * s, y - 30 * s, 7 * s, 80 * s), angle=86)
    art.add("#6a7f4a", ridge(UPRIGHT, 640, 12, 4, 1), angle=8)
    art.add("#6f9bb5", curve([(-20, 760), (240, 700), (520, 690), (770, 650), (770, 720),
                              (620, 800), (420, 880), (380, 1060), (-20, 1060)], True), angle=0)
    art.add("#e0ab45", *ripples((80, 730, 600, 900), 26, 2, 120, 14), angle=0)
    art.add("#3e5874", *ripples((20, 760, 380, 1040), 20, 5, 150, 12), angle=0)
    art.add("#8a8a45", curve([(440, 1060), (470, 900), (640, 810), (770, 740), (770, 1060)], True),
            angle=30)
    return pastelled(art, seed)


def orchard(seed: int):
    """Three rows of trees in blossom, grass blue in the shade."""
    art = Cartoon(WIDE, "#3b4a44")
    sky(art, ("#9fc4d6", "#c8dfe0", "#eee9d6"), 300)
    art.add("#6f9a6a", ridge(WIDE, 300, 30, 5, 2), angle=5)
    art.add("#8fb65a", ridge(WIDE, 380, 8, 2, 1), angle=6)
    for row, (y, s) in enumerate(((350, 0.8), (430, 1.2), (540, 1.75))):
        for k in range(6 - row):
            x = 60 + row * 60 + k * (190 + row * 62)
            art.add("#4a7a78", ellipse(x + 30 * s, y + 112 * s, 92 * s, 16 * s), angle=4)
            art.place(crown("#f0c4cc", "#fff3ee", "#5a4038", 3 * k + row), x, y, s)
    art.add("#f6dfe2", *[ellipse(x, y, 5, 4) for x, y in
                         np.random.default_rng(4).uniform((0, 620), (1050, 740), (90, 2))])
    return pastelled(art, seed, lively=0.07)


def lavender_storm(seed: int):
    """Rows of lavender running to a hut, a black sky behind."""
    art = Cartoon(UPRIGHT, "#2c2a36")
    sky(art, ("#3d4560", "#525c78", "#7b86a0", "#c9b9a2"), 430)
    art.add("#39506a", ridge(UPRIGHT, 420, 40, 6, 2), angle=3)
    art.add("#d8b968", ridge(UPRIGHT, 470, 6, 3, 1), angle=3)
    for k in range(-9, 10):
        foot, top = 375 + k * 150, 400 + k * 15
        art.add("#7a5fa8" if k % 2 else "#a184c8",
                [(top - 6, 480), (top + 6, 480), (foot + 62, 1060), (foot - 40, 1060)], angle=84)
        art.add("#4e6b4a", [(top + 6, 480), (top + 9, 480), (foot + 108, 1060),
                            (foot + 62, 1060)], angle=86)
    art.add("#f2e2c0", [(440, 486), (440, 430), (540, 430), (540, 486)], angle=88)
    art.add("#b4553c", [(428, 434), (456, 400), (530, 400), (552, 434)], angle=4)
    art.add("#3a2f33", [(474, 486), (474, 448), (494, 448), (494, 486)], angle=88)
    art.place(poplar("#2f4a3c", "#2a2622"), 590, 420, 0.6)
    return pastelled(art, seed)


def harvest_moon(seed: int):
    """A great moon coming up behind a lane and two bare trees."""
    art = Cartoon(UPRIGHT, "#22283a")
    sky(art, ("#27304c", "#35426a", "#5a5f86", "#8d7a8c"), 720)
    art.add("#f2c46a", ellipse(420, 520, 190, 190), angle=30, shade=0.2)
    art.add("#fbe3a0", ellipse(390, 486, 120, 120), angle=30)
    art.add("#e0a95c", ellipse(470, 580, 44, 26), ellipse(500, 480, 26, 34), angle=20)
    art.add("#3c4a5c", ridge(UPRIGHT, 700, 24, 5, 2), angle=4)
    art.add("#2b3a3c", ridge(UPRIGHT, 770, 12, 8, 1), angle=6)
    art.add("#b59a8a", curve([(350, 770), (380, 770), (420, 860), (620, 1060), (250, 1060),
                              (350, 860)], True), angle=86)
    for x, s in ((150, 1.0), (640, 0.8)):
        for root, tip in (((0, 0), (6, -330)), ((2, -140), (-90, -300)), ((4, -180), (96, -340)),
                          ((-40, -220), (-50, -330)), ((50, -260), (40, -370))):
            line = curve([(x + root[0] * s, 850 + root[1] * s),
                          (x + (root[0] + tip[0]) / 2 * s + 8, 850 + (root[1] + tip[1]) / 2 * s),
                          (x + tip[0] * s, 850 + tip[1] * s)])
            art.add("#1a1d26", ribbon(line, 22 * s, (1, 0.15)), angle=85)
    return pastelled(art, seed)


PICTURES = {
    "first-snow": Picture(first_snow, wide=True),
    "harvest-moon": Picture(harvest_moon),
    "haystacks": Picture(haystacks, wide=True),
    "lavender-storm": Picture(lavender_storm),
    "orchard": Picture(orchard, wide=True),
    "poplar-river": Picture(poplar_river),
}
