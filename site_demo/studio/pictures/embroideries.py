"""Mirela Dasca's embroideries on cloth, stretched over card."""

import numpy as np

from ..hands.embroidery import Embroidery
from ..line import curve, ellipse, rotated
from ..sheet import UPRIGHT
from .picture import Picture


def fern(seed: int):
    """Two fern fronds and a curled young one, satin and stem stitch."""
    art = Embroidery(UPRIGHT, seed, "#e8dfc9")
    frond(art, [(300, 968), (318, 760), (306, 500), (250, 250), (196, 128)], 150,
          ("#3f6b42", "#57854c"), "#31552f")
    frond(art, [(420, 972), (452, 800), (520, 600), (596, 440), (640, 356)], 112,
          ("#7d9a4e", "#94ab58"), "#5f7a38")
    crozier(art)
    art.stem("#8a6a45", [(150, 984), (300, 966), (430, 974), (610, 962)], 6, 30)
    rng = art.rng
    for tint, count in (("#b9832f", 13), ("#8c4a2c", 9), ("#d7b25a", 10)):
        art.knots(tint, np.column_stack([rng.uniform(150, 610, count), rng.uniform(990, 1016, count)
                                         ]), 8)
    return art.sheet


def frond(art: Embroidery, spine, reach: float, tints, stalk: str) -> None:
    """A frond: pairs of leaflets, longest a third of the way up."""
    line = curve(spine, step=5)
    places = np.linspace(0.16, 0.985, 17)
    for number, share in enumerate(places):
        at = line[int(share * (len(line) - 1))]
        ahead = line[min(int(share * (len(line) - 1)) + 3, len(line) - 1)] - line[
            max(int(share * (len(line) - 1)) - 3, 0)]
        heading = np.degrees(np.arctan2(ahead[1], ahead[0]))
        length = reach * np.sin(np.pi * (0.22 + 0.78 * share) ** 0.9) ** 0.75
        for sign in (-1, 1):
            tip = rotated([(length, 0)], heading + sign * (62 - 22 * share))[0]
            leaf = curve([at, at + tip * 0.5 + (0, length * 0.02), at + tip + (0, length * 0.12)])
            bulge = np.sin(np.pi * np.linspace(0.08, 1, 12) ** 0.8) * max(length * 0.135, 4)
            art.satin(tints[number % 2], leaf, bulge, 0.95, 4.4)
    art.stem(stalk, line, 6.5, 30)


def crozier(art: Embroidery) -> None:
    """A young frond, still rolled."""
    turn = np.linspace(0.6, 4.6 * np.pi, 90)
    coil = np.stack([560 + (6 + turn * 4.3) * np.cos(turn), 700 + (6 + turn * 4.3) * np.sin(turn)],
                    1)
    stalk = curve([coil[-1], (612, 820), (560, 900), (520, 964)])
    art.stem("#a8b765", np.vstack([coil, stalk]), 8.5, 26)
    out = [c + (c - (560, 700)) * 0.17 for c in coil[30::4]]
    art.knots("#8a9a4a", out, 7)


def hen(seed: int):
    """A speckled hen among daisies on blue cotton."""
    art = Embroidery(UPRIGHT, seed, "#9fb4bf", 5.4)
    body = curve([(196, 470), (236, 556), (300, 590), (384, 560), (440, 470), (470, 380), (500,
                                                                                           340),
                  (548, 350), (566, 410), (566, 520), (548, 640), (480, 730), (380, 764),
                  (280, 734), (214, 650), (178, 560)], True)
    art.filling("#a8502c", body, 24, 5.0, 46)
    hen_feathers(art)
    hen_head(art)
    for x in (360, 420):
        art.stem("#d79a2f", [(x, 748), (x + 4, 800), (x - 2, 858)], 8, 24)
        for toe in (-36, 2, 38):
            art.stitches("#d79a2f", [curve([(x - 2, 856), (x + toe * 0.6, 868), (x + toe, 880)])],
                         7)
    meadow(art)
    return art.sheet


def hen_feathers(art: Embroidery) -> None:
    """Tail, wing, and white specks."""
    for tip, tint in (((118, 330), "#5b2c22"), ((150, 286), "#7b3a26"), ((196, 268), "#5b2c22"),
                      ((238, 292), "#914628")):
        spine = curve([(246, 560), ((246 + tip[0]) / 2 - 18, (560 + tip[1]) / 2), tip])
        art.satin(tint, spine, np.sin(np.pi * np.linspace(0.1, 0.95, 14)) * 27, 0.9, 4.8)
    for row, (y, count, tint) in enumerate(((560, 5, "#c9763f"), (610, 5, "#7b3a26"),
                                            (660, 4, "#c9763f"))):
        for number in range(count):
            x = 470 - number * 46 - row * 10
            spine = curve([(x, y - 20), (x - 34, y + 6), (x - 62, y + 44)])
            art.satin(tint, spine, np.sin(np.pi * np.linspace(0.12, 0.96, 12)) * 19, 0.8, 4.4)
    rng = art.rng
    specks = []
    for _ in range(46):
        x, y = rng.uniform(440, 556), rng.uniform(450, 690)
        specks.append(np.array([(x, y), (x + 11, y + 7)]))
    art.stitches("#f3e6cf", specks, 4.6)


def hen_head(art: Embroidery) -> None:
    """Comb, wattle, beak, eye."""
    for x, y, turn in ((494, 318, -118), (520, 304, -96), (548, 310, -74), (568, 332, -48)):
        tip = rotated([(44, 0)], turn)[0]
        art.satin("#c3272d", curve([(x, y + 22), (x, y) + tip * 0.5, (x, y) + tip]),
                  np.sin(np.pi * np.linspace(0.15, 0.95, 9)) * 14, 0.4, 4.2)
    art.filling("#b55a31", ellipse(530, 372, 50, 50), 60, 4.6, 30)
    art.satin("#e0a233", curve([(572, 366), (600, 374), (622, 392)]), np.linspace(17, 1, 10), 0.5,
              4)
    art.satin("#c3272d", curve([(574, 396), (580, 424), (572, 450)]),
              np.sin(np.pi * np.linspace(0.2, 1, 9)) * 15, 0.3, 4.2)
    art.knots("#f5edda", [(546, 362)], 11)
    art.knots("#1d1a1c", [(547, 362)], 6.5)


def meadow(art: Embroidery) -> None:
    """Grass in straight stitches and lazy daisies."""
    rng = art.rng
    blades = []
    for _ in range(120):
        x, y = rng.uniform(60, 690), rng.uniform(900, 985)
        blades.append(np.array([(x, y), (x + rng.normal(0, 12), y - rng.uniform(26, 66))]))
    art.stitches("#50763f", blades[:60], 5)
    art.stitches("#7f9a4b", blades[60:], 5)
    for x, y in ((140, 860), (236, 912), (560, 884), (640, 806), (500, 940), (108, 760)):
        art.stem("#50763f", [(x, y), (x + 6, y + 50), (x, y + 100)], 5)
        petals = [np.array([(x, y) + rotated([(9, 0)], t)[0], (x, y) + rotated([(31, 0)], t)[0]])
                  for t in range(0, 360, 30)]
        art.stitches("#faf3e2", petals, 8.5)
        art.knots("#e3ad34", [(x - 4, y), (x + 5, y - 3), (x + 1, y + 5)], 7)


PICTURES = {
    "fern": Picture(fern),
    "speckled-hen": Picture(hen),
}
