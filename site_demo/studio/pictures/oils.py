"""Levan Takidze's oils: the table, the street, the sea, with the knife and a flat brush."""

import numpy as np

from ..cartoon import Cartoon
from ..hands.impasto import painted
from ..line import box, curve, ellipse, ribbon
from ..motifs.growing import sunflower
from ..motifs.things import fishing_boat, house, jug
from ..sheet import UPRIGHT, WIDE
from .grounds import ridge, ripples, whole
from .picture import Picture


def persimmons(seed: int):
    """Five persimmons on a blue plate."""
    art = Cartoon(WIDE, "#b9a58c")
    art.add("#8c4a3a", whole(WIDE), angle=20)
    art.add("#a35a44", box(0, 0, 1050, 250), angle=8)
    art.add("#d9c49c", box(-4, 330, 1054, 754), angle=4)
    art.add("#b69a74", ridge(WIDE, 640, 20, 3, 1), angle=5)
    art.add("#6d6a86", ellipse(560, 600, 410, 84), angle=3)
    art.add("#2f5d93", ellipse(520, 560, 400, 104), angle=4)
    art.add("#5f8fc0", ellipse(520, 546, 350, 80), angle=10)
    for x, y, r in ((330, 450, 104), (690, 440, 110), (510, 390, 112), (430, 520, 96),
                    (610, 530, 100)):
        art.add("#c2491c", ellipse(x, y, r, r * 0.86), angle=50)
        art.add("#e8762a", ellipse(x - r * 0.1, y - r * 0.12, r * 0.84, r * 0.7), angle=40)
        art.add("#f7a64a", ellipse(x - r * 0.34, y - r * 0.32, r * 0.38, r * 0.28), angle=-30)
        leaves = [ellipse(x + r * 0.26 * np.cos(a), y - r * 0.6 + r * 0.12 * np.sin(a), r * 0.2,
                          r * 0.1, np.degrees(a)) for a in (0.3, 1.8, 3.3, 4.9)]
        art.add("#4f6a37", *leaves, angle=20)
    return painted(art, seed)


def sunflowers(seed: int):
    """Sunflowers in a green jug, a wall the colour of sky."""
    art = Cartoon(UPRIGHT, "#8fb7c4")
    art.add("#86b0c0", whole(UPRIGHT), angle=70)
    art.add("#b5503c", box(-4, 780, 754, 1054), angle=4)
    art.add("#7c3530", ellipse(470, 930, 210, 40), angle=3)
    for x, y, s, turn in ((210, 400, 1.0, -30), (560, 380, 1.05, 28), (390, 250, 1.25, 0),
                          (300, 560, 0.9, -20), (500, 560, 0.95, 22)):
        art.place(sunflower("#eab02c", "#4a2c1c", "#56713a", "#6f8d43"), x, y, s, turn)
    art.place(jug("#3d7a62", "#275244"), 380, 790, 1.5)
    art.add("#7fb596", ellipse(316, 780, 24, 74, 6), angle=86)
    return painted(art, seed)


def beached(seed: int):
    """Two fishing boats drawn up on shingle."""
    art = Cartoon(WIDE, "#9fb8c4")
    art.add("#c3d3d6", whole(WIDE), angle=3)
    art.add("#e6dcc6", ridge(WIDE, 200, 40, 3, 2), angle=8)
    art.add("#6f97ab", box(-4, 300, 1054, 420), angle=0)
    art.add("#3f6f8c", *ripples((0, 310, 1050, 400), 40, 3, 240, 12), angle=0)
    art.add("#eef0e6", ridge(WIDE, 420, 10, 8, 2), angle=2)
    art.add("#b29c78", ridge(WIDE, 446, 8, 4, 1), angle=6)
    art.add("#8a7658", ridge(WIDE, 620, 20, 6, 1), angle=10)
    art.place(fishing_boat("#3f8a7d", "#e9e2cf", "#d8b048", "#26364a"), 740, 400, 1.25)
    art.add("#5a4c40", ellipse(390, 640, 330, 34), angle=2)
    art.place(fishing_boat("#b8402f", "#f0e6cf", "#e8e0cc", "#26364a"), 370, 510, 2.0, -3)
    return painted(art, seed)


def old_street(seed: int):
    """A street with wooden balconies after rain."""
    art = Cartoon(UPRIGHT, "#c8b79c")
    art.add("#9fbfd6", whole(UPRIGHT), angle=30)
    art.add("#c9dbe2", ridge(UPRIGHT, 330, 60, 3, 2), angle=24)
    art.add("#e3e6dc", ridge(UPRIGHT, 520, 40, 6, 2), angle=16)
    fronts = (("#cf7a4e", "#7d93a8"), ("#e0b45e", "#b4553f"), ("#a85f58", "#d9c38a"))
    for k in (2, 1, 0):
        for side in (0, 1):
            street_front(art, k, side == 1, fronts[k][side])
    art.add("#6f6a78", [(-4, 1054), (-4, 990), (318, 720), (432, 720), (754, 990), (754, 1054)],
            angle=4)
    art.add("#f0d69a", [(356, 722), (404, 722), (500, 1054), (270, 1054)], angle=88)
    art.add("#4f6f92", [(404, 722), (428, 722), (620, 1054), (500, 1054)], angle=80)
    art.add("#c8281f", curve([(396, 800), (404, 758), (450, 736), (496, 758), (504, 800)], True),
            angle=10)
    art.add("#26252e", curve([(426, 806), (474, 806), (484, 930), (416, 930)], True), angle=88)
    return painted(art, seed)


def street_front(art: Cartoon, step: int, mirrored: bool, tint: str) -> None:
    """One house of the street, `step` houses away: wall, two rows of windows, a balcony."""
    near, far = -10 + 118 * step, 112 + 106 * step
    horizon, close, away = 700, 1 - 0.27 * step, 1 - 0.27 * (step + 0.9)

    def wall(across: float, up: float) -> tuple[float, float]:
        """A point of the wall: 0 to 1 away from us, 0 at the ground to 1 at the eaves."""
        size = close + (away - close) * across
        x = near + (far - near) * across
        y = horizon + 290 * size - up * 900 * size
        return (750 - x if mirrored else x, y)

    def field(left: float, low: float, right: float, high: float) -> list:
        """A part of the wall, from its left and lower edges to its right and upper ones."""
        return [wall(left, high), wall(right, high), wall(right, low), wall(left, low)]

    art.add(tint, field(0, 0, 1, 1), angle=88)
    art.add("#5a3328", field(-0.02, 0.97, 1.02, 1.03), angle=20)
    art.add("#2c3342", *[field(x, y, x + 0.22, y + 0.17) for x in (0.16, 0.6)
                         for y in (0.14, 0.68)], angle=88)
    art.add("#f3d68c", field(0.6, 0.14, 0.82, 0.31), angle=88)
    art.add("#6a3f2c", field(0.04, 0.42, 0.96, 0.46), field(0.04, 0.56, 0.96, 0.585), angle=10)
    art.add("#e9d3a0", *[field(x, 0.46, x + 0.045, 0.56) for x in np.arange(0.07, 0.95, 0.14)],
            angle=88)


def breaker(seed: int):
    """One green wave, standing up to fall."""
    art = Cartoon(WIDE, "#8ea5ad")
    art.add("#c9c6b8", whole(WIDE), angle=6)
    art.add("#7d93a2", ridge(WIDE, 150, 50, 6, 2), angle=5)
    art.add("#34596e", box(-4, 260, 1054, 754), angle=2)
    art.add("#1f5a5e", curve([(-20, 520), (160, 400), (380, 250), (620, 190), (800, 230),
                              (880, 330), (820, 300), (720, 330), (700, 440), (760, 560),
                              (1080, 640), (1080, 780), (-20, 780)], True), angle=-30)
    art.add("#4fa08c", curve([(300, 380), (480, 270), (660, 226), (760, 250), (690, 330),
                              (660, 440), (700, 540), (520, 500), (380, 450)], True), angle=-56)
    art.add("#9fd4b4", curve([(560, 290), (680, 240), (730, 260), (660, 340), (630, 410),
                              (590, 360)], True), angle=-60)
    art.add("#f4f3ea", curve([(520, 210), (660, 160), (800, 190), (900, 290), (910, 380),
                              (850, 340), (790, 330), (830, 280), (740, 240), (620, 226)], True),
            *[ellipse(880 + 24 * k, 420 + 40 * (k % 3), 26, 20) for k in range(5)], angle=30)
    art.add("#dfe8e2", *ripples((0, 600, 1050, 740), 26, 4, 340, 22), angle=3)
    art.add("#2a4f63", *ripples((0, 560, 1050, 740), 24, 7, 300, 18), angle=-4)
    return painted(art, seed, relief=1.2)


def blue_house(seed: int):
    """A blue house under a persimmon tree, its door open."""
    art = Cartoon(UPRIGHT, "#dfe3d2")
    art.add("#e9dcb4", whole(UPRIGHT), angle=12)
    art.add("#a8b58c", ridge(UPRIGHT, 480, 60, 3, 2), angle=12)
    art.add("#8a9a52", ridge(UPRIGHT, 720, 20, 5, 1), angle=8)
    art.add("#c9b27a", [(330, 760), (420, 760), (560, 1054), (180, 1054)], angle=84)
    art.place(house("#4f86bd", "#8f3d2f", "#f7e3a0", "#2f2422"), 340, 590, 2.2)
    for root, mid, tip in (((690, 1054), (660, 700), (600, 340)), ((660, 700), (560, 480),
                                                                 (430, 330)),
                           ((640, 560), (700, 400), (730, 240))):
        art.add("#4a382e", ribbon(curve([root, mid, tip]), 30, (1, 0.4)), angle=80)
    rng = np.random.default_rng(5)
    spots = rng.uniform((380, 120), (760, 460), (34, 2))
    art.add("#7f8a3a", *[ellipse(x, y, 24, 12, rng.uniform(0, 180)) for x, y in
                         rng.uniform((360, 100), (760, 440), (40, 2))], angle=40)
    art.add("#e4701f", *[ellipse(x, y, 22, 21) for x, y in spots], angle=30)
    art.add("#f8a546", *[ellipse(x - 6, y - 7, 8, 7) for x, y in spots], angle=-30)
    return painted(art, seed)


PICTURES = {
    "blue-house": Picture(blue_house),
    "boats-on-shingle": Picture(beached, wide=True),
    "breaker": Picture(breaker, wide=True),
    "five-persimmons": Picture(persimmons, wide=True),
    "street-after-rain": Picture(old_street),
    "sunflowers-green-jug": Picture(sunflowers),
}
