"""Mirela Dasca's collages: torn, painted and printed papers."""

import numpy as np

from ..hands.collage import Collage
from ..line import box, curve, ellipse, ribbon, rough
from ..sheet import UPRIGHT, WIDE, colour, filled, over
from .picture import Picture


def harbour(seed: int):
    """A harbour front of printed papers, two boats, a sea in torn strips."""
    art = Collage(WIDE, seed, "#cfc3ab")
    rng = art.rng
    art.glue(art.ledger("#f0e4c8", "#7d93a8", 24), box(-20, -20, 1070, 420), 0, 0.4)
    art.glue(art.painted("#e8a05c", "#d9793f", 60), ellipse(812, 152, 74, 74), 5, 0.8, 2)
    art.glue(art.plain("#c5cbbf"), curve([(-30, 300), (140, 236), (330, 282), (520, 214), (700,
                                                                                           276),
             (900, 230), (1080, 280), (1080, 480), (-30, 480)], True), 9, 0.8, 4)
    fronts = (("#b2483a", "#8f3a30", 0), ("#e2b14a", "#c8923a", 90), ("#e9dcc4", "#6d8795", 0),
              ("#51707e", "#3f5a68", 90), ("#d98c6a", "#f0dcc0", 0), ("#8a9a6b", "#74835a", 90),
              ("#efe2cb", "#b2483a", 90), ("#34506a", "#4c6c86", 0))
    for number, (tint, stripe, angle) in enumerate(fronts):
        x = 60 + number * 116 + rng.uniform(-6, 6)
        quay_house(art, x, 268 + rng.uniform(-34, 30), tint, stripe, angle)
    art.glue(art.plain("#8c7f6c"), rough(box(-20, 432, 1070, 474), 3, 40, rng), 5, 0.8, 2)
    for row, (tint, other) in enumerate((("#7fb0b4", "#a9ced0"), ("#5793a3", "#86b7be"),
                                         ("#3f7f96", "#6aa3b0"))):
        sea_strip(art, 478 + row * 52, art.painted(tint, other, 90, (6, 1)))
    boat(art, 318, 596, 1.05, "#b2483a", "#f3ead6")
    sea_strip(art, 622, art.painted("#2f6680", "#4d8aa0", 90, (6, 1)))
    boat(art, 716, 668, 1.3, "#233b50", "#e8b64c")
    sea_strip(art, 690, art.painted("#1f4a66", "#376f88", 90, (6, 1)))
    return np.clip(art.sheet, 0, 1)


def sea_strip(art: Collage, y: float, sheet) -> None:
    """One torn strip across the card, its upper edge in waves."""
    x = np.arange(-30, 1090, 22.0)
    phase = art.rng.uniform(0, 6)
    top = np.stack([x, y + 9 * np.sin(x / 58 + phase) + art.rng.normal(0, 2.5, len(x))], 1)
    art.glue(sheet, np.vstack([curve(top), [(1090, 800), (-30, 800)]]), 9, 1.0, 3)


def quay_house(art: Collage, x: float, top: float, tint: str, stripe: str, angle: float) -> None:
    """A gabled front cut from printed paper, its windows from the ledger."""
    art.snip(art.striped(tint, stripe, 11, angle, 0.28),
             [(x, 446), (x, top), (x + 52, top - 56), (x + 104, top), (x + 104, 446)])
    art.snip(art.plain("#5b3a31"), [(x - 7, top + 5), (x + 52, top - 64), (x + 111, top + 5),
                                    (x + 104, top + 9), (x + 52, top - 50), (x, top + 9)], lift=0.5)
    panes = [box(x + dx, top + dy, x + dx + 20, top + dy + 28)
             for dx in (18, 66) for dy in (22, 76)]
    art.snip(art.plain("#f6ecd2"), *panes, lift=0.4)
    art.snip(art.plain("#3a3d45"), box(x + 40, 404, x + 64, 446), lift=0.4)


def boat(art: Collage, x: float, y: float, s: float, hull: str, sail: str) -> None:
    """A fishing smack: hull, two sails, a pennant, a string for a mast."""
    def at(points):
        return np.asarray(points, float) * s + (x, y)

    art.glue(art.plain("#4a3a2c"), at(ribbon(np.array([(0, 20), (0, -172)], float), 6)), 0, 0.8,
             0.5)
    art.glue(art.dotted(sail, "#c9a888", 13, 2.2), at([(10, -164), (112, -22), (10, -14)]), 4, 1,
             1.5)
    art.glue(art.ledger("#f2e7d0", "#96896f", 15), at([(-9, -142), (-84, -16), (-9, -12)]), 4, 1,
             1.5)
    art.glue(art.plain(hull), at(curve([(-118, -2), (-40, 4), (60, 4), (132, -8), (96, 52), (0, 62),
                                        (-84, 52)], True)), 5, 1.1, 2)
    art.snip(art.plain("#f3ead6"), at(ribbon(curve([(-108, 8), (0, 16), (122, 4)]), 7)), lift=0.2)
    art.snip(art.plain("#d9793f"), at([(3, -172), (44, -160), (3, -148)]), lift=0.5)


def allotments(seed: int):
    """The moon over allotments: sheds, bean poles, rows of cabbages."""
    art = Collage(UPRIGHT, seed, "#22324c")
    art.glue(art.painted("#22324f", "#31496b", 170, (3, 1)), box(-20, -20, 770, 640), 0, 0.3)
    over(art.sheet, colour("#f6efd9"), stars(art) * 0.9)
    art.glue(art.painted("#f3e8c6", "#e2cf9e", 60, (1, 1)), ellipse(516, 226, 122, 122), 8, 1.2, 3)
    art.glue(art.painted("#3f5d7a", "#587893", 90, (5, 1)), curve([(-30, 330), (150, 286), (300,
                                                                                            318),
             (420, 296), (470, 330), (300, 366), (120, 372), (-30, 380)], True), 7, 0.9, 4)
    hill = curve([(-30, 470), (160, 420), (360, 452), (560, 404), (790, 460), (790, 660), (-30,
                                                                                           660)],
                 True)
    art.glue(art.plain("#33564f"), hill, 9, 1, 4)
    shed(art, 118, 520, 1.0, "#a9573d", "#c9764f")
    shed(art, 520, 500, 0.86, "#6d8b8f", "#88a5a6")
    beds = ((560, "#5c4433"), (664, "#6b4f38"), (778, "#553d2e"), (900, "#644a35"))
    for number, (y, tint) in enumerate(beds):
        edge = np.stack([np.arange(-30, 800, 40.0),
                         y + 8 * np.sin(np.arange(21) * 0.7 + number)], 1)
        art.glue(art.plain(tint, 0.06), np.vstack([curve(edge), [(800, 1090), (-30, 1090)]]), 9, 1,
                 4)
        cabbages(art, y + 54, number)
        if number == 1:
            bean_poles(art, 590, 690)
    return np.clip(art.sheet, 0, 1)


def stars(art: Collage):
    """Specks flicked off a toothbrush, [height, width]."""
    rng = art.rng
    places = np.column_stack([rng.uniform(10, 740, 90), rng.uniform(10, 300, 90)])
    return filled(UPRIGHT, *[ellipse(x, y, r, r, count=12) for (x, y), r in
                             zip(places, rng.uniform(0.8, 2.6, 90), strict=True)])


def shed(art: Collage, x: float, y: float, s: float, tint: str, stripe: str) -> None:
    """A shed of striped paper, one window lit."""
    def at(points):
        return np.asarray(points, float) * s + (x, y)

    art.snip(art.striped(tint, stripe, 13, 90, 0.5), at([(0, 60), (0, -70), (150, -70), (150,
                                                                                         60)]),
             lift=1.2)
    art.snip(art.plain("#d8cdb4"), at([(-14, -64), (10, -118), (140, -118), (166, -64)]), lift=1.2)
    art.snip(art.plain("#f2c24e"), at(box(86, -42, 128, -6)), lift=0.5)
    art.snip(art.plain("#453329"), at(box(105, -42, 109, -6)), lift=0.2)
    art.snip(art.plain("#453329"), at(box(24, -44, 62, 60)), lift=0.5)


def cabbages(art: Collage, y: float, row: int) -> None:
    """A row of cabbages: three torn rounds each, larger the nearer."""
    size = 24 + row * 7
    sheets = [art.painted("#3f7a5c", "#5c9a70", 40, (1, 1)), art.painted("#79ab72", "#9dc48a", 30,
                                                                         (1, 1)),
              art.plain("#cfe0a4")]
    for number, x in enumerate(np.arange(30 - row * 12, 760, size * 2.7)):
        if row == 1 and 470 < x < 720:
            continue
        bob = y + (number % 2) * 6
        for sheet, share, rim in zip(sheets, (1.0, 0.66, 0.34), (4, 3, 0), strict=True):
            art.glue(sheet, ellipse(x, bob - (1 - share) * 6, size * share, size * share * 0.86,
                                    count=40), rim, 0.7, 3)


def bean_poles(art: Collage, x: float, y: float) -> None:
    """A wigwam of poles with leaves and a few red flowers."""
    for foot in (-96, -40, 30, 92):
        art.snip(art.plain("#b58b56"), ribbon(np.array([(x + foot, y + 70), (x - foot * 0.1,
                                                                             y - 190)],
                                                       float), 7), lift=0.9)
    rng = art.rng
    leaves, flowers = [], []
    for _ in range(64):
        t = rng.uniform(0, 1)
        lean = rng.choice([-96, -40, 30, 92])
        at = (x + lean * (1 - t) + rng.normal(0, 10), y + 60 - 230 * t + rng.normal(0, 8))
        leaves.append(ellipse(*at, 15, 9, rng.uniform(0, 180), count=18))
        if rng.random() < 0.2:
            flowers.append(ellipse(*at, 6, 6, count=12))
    art.snip(art.painted("#4f8a58", "#74a866", 30, (1, 1)), *leaves)
    art.snip(art.plain("#d9523a"), *flowers, lift=0.6)


PICTURES = {
    "harbour": Picture(harbour, wide=True, edge="torn"),
    "moon-over-allotments": Picture(allotments),
}
