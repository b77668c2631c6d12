"""Jacinta Orlanes's scratchboards: creatures of the night, white hair by white hair."""

import numpy as np

from ..cartoon import Cartoon
from ..hands.scratchboard import scratched
from ..line import blade, curve, ellipse, ribbon
from ..motifs.creatures import bat, fish, hare, raven, snail
from ..motifs.growing import mushroom
from ..sheet import UPRIGHT, WIDE
from .grounds import ridge, stars, tufts
from .picture import Picture

NIGHT = "#101114"


def hare_moon(seed: int):
    """A hare sitting up before a full moon."""
    art = Cartoon(UPRIGHT, NIGHT)
    art.add("#ffffff", *stars((40, 40, 710, 700), 60, 3, 5), line=0)
    art.add("#ffffff", ellipse(400, 400, 250, 250), angle=-20, shade=0.1, line=0)
    art.add("#b0b0b0", ellipse(300, 330, 60, 44), ellipse(470, 290, 44, 32), ellipse(520, 470, 60,
                                                                                   40),
            angle=-20, line=0)
    art.add("#3a3a3a", ridge(UPRIGHT, 830, 20, 4, 2), angle=80, line=0)
    art.place(hare("#8a8a8a", "#f0f0f0", "#242424"), 360, 640, 1.9)
    art.add("#c9c9c9", *tufts((20, 840, 730, 1010), 130, 6, 120, 6), angle=86, line=1)
    return scratched(art, seed, wash={"#ffffff": "#f6e3a6"})


def koi(seed: int):
    """Two carp turning round one another in black water."""
    art = Cartoon(UPRIGHT, NIGHT)
    for r in (330, 270, 205):
        ring = ellipse(375, 520, r, r * 1.15, 0, 20 + r, 220 + r)
        art.add("#8a8a8a", ribbon(ring, 3, (0.2, 0.2)), angle=0, line=0)
    art.place(fish("#e8e8e8", "#9a9a9a", "#4a4a4a", "#ffffff"), 400, 330, 2.2, 24)
    art.place(fish("#b5b5b5", "#d8d8d8", "#333333", "#e0e0e0"), 350, 730, 2.1, 205)
    for x, y, r in ((620, 140, 66), (120, 930, 76), (90, 470, 46)):
        pad = ellipse(x, y, r, r * 0.8, 0, 20, 340)
        art.add("#6f6f6f", np.vstack([pad, [(x, y)]]), angle=30, shade=0.3)
    return scratched(art, seed, wash={"#e8e8e8": "#f2a97c", "#9a9a9a": "#f2a97c",
                                      "#6f6f6f": "#9cc29a"})


def raven_gate(seed: int):
    """A raven on a gatepost, snow beginning."""
    art = Cartoon(UPRIGHT, NIGHT)
    art.add("#b5b5b5", ellipse(375, 380, 330, 300), angle=-16, line=0)
    art.add("#d5d5d5", ridge(UPRIGHT, 850, 26, 5, 2), angle=4, line=0)
    art.add("#7a7a7a", [(300, 1060), (306, 640), (450, 640), (458, 1060)], angle=88, shade=0.6)
    art.add("#b0b0b0", [(280, 660), (290, 616), (466, 616), (476, 660)], angle=2)
    art.add("#6a6a6a", [(-10, 740), (306, 730), (306, 770), (-10, 784)],
            [(450, 732), (760, 746), (760, 790), (450, 772)], angle=1)
    art.place(raven("#161616", "#8d959a"), 350, 410, 1.75)
    art.add("#ffffff", *stars((20, 30, 730, 830), 120, 8, 6), line=0)
    return scratched(art, seed)


def bats(seed: int):
    """Bats out of a hollow tree, a thin moon."""
    art = Cartoon(UPRIGHT, NIGHT)
    moon = ellipse(560, 200, 90, 90)
    art.add("#ffffff", moon, angle=20, line=0)
    art.add(NIGHT, ellipse(596, 176, 86, 86), line=0)
    art.add("#6f6f6f", curve([(-20, 1060), (40, 760), (60, 420), (-20, 140), (60, 120), (150, 300),
                              (250, 150), (290, 180), (200, 420), (210, 760), (280, 1060)]),
            angle=84, shade=0.7)
    art.add("#151515", ellipse(130, 560, 40, 80, 6), line=3)
    for x, y, s, turn in ((470, 470, 1.35, -12), (330, 250, 0.65, 14), (600, 720, 0.9, 18),
                          (380, 800, 0.5, -20)):
        art.place(bat("#c5c5c5", "#5a5a5a", "#ffffff"), x, y, s, turn)
    return scratched(art, seed, wash={"#ffffff": "#f3dc9a"})


def night_garden(seed: int):
    """A snail and toadstools by somebody's lantern light."""
    art = Cartoon(WIDE, NIGHT)
    art.add("#2a2a2a", ellipse(560, 400, 470, 330), angle=0, line=0)
    for x, y, s, turn in ((800, 400, 1.9, 6), (930, 520, 1.1, 12), (660, 520, 0.9, -6)):
        art.place(mushroom("#b8b8b8", "#7d7d7d", "#d9d9d9", "#ffffff"), x, y, s, turn)
    art.place(snail("#c9c9c9", "#3a3a3a", "#8f8f8f"), 340, 500, 1.9)
    art.add("#8a8a8a", *tufts((10, 600, 1040, 750), 170, 3, 130, 8), angle=86, line=1)
    return scratched(art, seed, wash={"#b8b8b8": "#ee9a86", "#c9c9c9": "#e9c88d"})


def tom_cat(seed: int):
    """A cat's face, very close, one ear torn."""
    art = Cartoon(UPRIGHT, NIGHT)
    art.add("#7d7d7d", [(120, 420), (110, 90), (200, 130), (215, 190), (330, 280)],
            [(630, 420), (640, 90), (420, 280)], angle=70)
    art.add("#c9a9a9", [(160, 330), (152, 170), (280, 290)], [(590, 330), (604, 170), (470, 290)],
            angle=70, line=0)
    art.add("#6a6a6a", ellipse(375, 560, 300, 320), angle=86, shade=0.5)
    for side in (-1, 1):
        for k in range(5):
            art.add("#a8a8a8", blade((375 + side * 150, 640 + 24 * k),
                                     (375 + side * 330, 590 + 62 * k), 40), angle=side * 20 + 0,
                    line=0)
        art.add("#e0e0e0", ellipse(375 + side * 128, 500, 74, 62, side * 8), angle=0)
        art.add("#0c0c0c", ellipse(375 + side * 124, 500, 22, 56), line=0)
        art.add("#ffffff", ellipse(375 + side * 124 - 14, 474, 11, 11), line=0)
        art.add("#d5d5d5", ellipse(375 + side * 66, 720, 86, 66, side * 12), angle=side * 30,
                shade=0.4)
        for k in range(4):
            whisker = curve([(375 + side * 90, 716 + 16 * k), (375 + side * 240, 690 + 34 * k),
                             (375 + side * 370, 700 + 56 * k)])
            art.add("#ffffff", ribbon(whisker, 3.4, (1, 0.2)), line=0)
    art.add("#c98f8f", curve([(335, 628), (415, 628), (390, 664), (375, 676), (360, 664)], True),
            angle=0)
    art.add("#b5b5b5", *[blade((375 + k * 44, 330 - 8 * abs(k)), (375 + k * 56, 250 + 18 * abs(k)),
                               18) for k in (-3, -2, -1, 0, 1, 2, 3)], angle=88, line=0)
    return scratched(art, seed, wash={"#e0e0e0": "#d9d76a"}, reach=17)


PICTURES = {
    "bats-out": Picture(bats),
    "hare-and-moon": Picture(hare_moon),
    "raven-on-the-gate": Picture(raven_gate),
    "snail-by-lantern": Picture(night_garden, wide=True),
    "two-carp": Picture(koi),
    "tomcat": Picture(tom_cat),
}
