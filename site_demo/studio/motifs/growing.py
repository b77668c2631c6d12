"""What grows: leaves, ferns, mushrooms, fruit, flowers, trees."""

import numpy as np

from ..cartoon import Motif, piece
from ..line import along, blade, curve, ellipse, ribbon, rotated
from .creatures import closed, mirror


def mushroom(cap: str, gills: str, stem: str, spot: str) -> Motif:
    """A toadstool with warts and a ring."""
    rng = np.random.default_rng(7)
    warts = [ellipse(x, -44 - 36 * (1 - (x / 92) ** 2) + rng.uniform(-6, 22), rng.uniform(6, 12),
                     rng.uniform(5, 9)) for x in (-64, -38, -12, 16, 42, 66)]
    return [
        piece(stem, closed((-20, -14), (-16, 40), (-28, 92), (-14, 106), (20, 106), (32, 90),
                           (18, 40), (20, -14)), angle=88, shade=0.8),
        piece(gills, closed((-94, -16), (-40, -30), (40, -30), (94, -16), (40, 4), (-40, 4)),
              angle=90),
        piece(stem, closed((-24, 14), (24, 14), (34, 36), (0, 42), (-34, 36)), angle=90),
        piece(cap, closed((-98, -14), (-84, -56), (-40, -88), (0, -98), (40, -88), (84, -56),
                          (98, -14), (50, -24), (0, -28), (-50, -24)), angle=10, shade=0.9),
        piece(spot, *warts, shade=0.3, line=1),
    ]


def bolete(cap: str, pores: str, stem: str) -> Motif:
    """A stout brown-capped mushroom."""
    return [
        piece(stem, closed((-24, -10), (-42, 60), (-34, 100), (0, 108), (34, 100), (42, 60),
                           (24, -10)), angle=86, shade=0.9),
        piece(pores, closed((-84, -10), (0, -22), (84, -10), (60, 10), (0, 18), (-60, 10)),
              angle=0),
        piece(cap, closed((-90, -8), (-82, -50), (-40, -80), (10, -86), (60, -70), (88, -34),
                          (90, -8), (40, -18), (-40, -18)), angle=6, shade=1.0),
    ]


def apple(skin: str, blush: str, stalk: str, leaf: str) -> Motif:
    """An apple with one leaf."""
    return [
        piece(skin, closed((0, -58), (44, -76), (84, -50), (94, 6), (72, 62), (34, 86), (0, 84),
                           (-34, 86), (-72, 62), (-94, 6), (-84, -50), (-44, -76)), angle=78,
              shade=1.0),
        piece(blush, *[blade((10 + 9 * k, -60 + 1.5 * k), (12 + 9.4 * k, 56 - 0.7 * k * k), 3.6)
                       for k in range(9)], angle=84, shade=0, line=0),
        piece(stalk, ribbon(curve([(0, -54), (4, -84), (16, -106)]), 8), shade=0.3),
        piece(leaf, blade((6, -82), (84, -122), 40, 12), angle=-25),
        piece(stalk, closed((-22, -60), (0, -66), (22, -60), (0, -50)), shade=0, line=0),
    ]


def beetroot(root: str, ring: str, stalk: str, leaf: str) -> Motif:
    """A beetroot with its leaves."""
    tops = [(-84, -190, 78), (-22, -232, 84), (50, -216, 80), (104, -160, 64)]
    return [
        *[piece(leaf, blade((x * 0.35, -96), (x, y), w, x * 0.16), angle=70) for x, y, w in tops],
        piece(stalk, *[ribbon(curve([(0, -44), (x * 0.4, -110), (x * 0.94, y * 0.92)]), 8,
                              (1, 0.3)) for x, y, _ in tops], shade=0.2, line=1),
        piece(root, closed((0, -58), (52, -48), (84, -4), (66, 52), (22, 88), (6, 130), (-2, 186),
                           (-10, 130), (-26, 86), (-68, 50), (-82, -4), (-50, -48)), angle=20,
              shade=1.0),
        piece(ring, *[ribbon(ellipse(0, 4 + 18 * k, 70 - 9 * k, 12, 0, 20, 160), 2.4)
                      for k in range(4)], shade=0, line=0),
    ]


def acorn(nut: str, cup: str, stalk: str) -> Motif:
    """An acorn hanging in its cup."""
    knobs = [ellipse(x + (row % 2) * 8, -34 + 13 * row, 6, 5) for row in range(3)
             for x in range(-38, 36, 16)]
    return [
        piece(nut, closed((-40, -14), (40, -14), (42, 30), (20, 74), (0, 92), (-20, 74),
                          (-42, 30)), angle=86, shade=1.0),
        piece(stalk, ribbon(curve([(0, -46), (4, -76), (18, -100)]), 8), shade=0.2),
        piece(cup, closed((-52, -6), (-46, -40), (0, -56), (46, -40), (52, -6), (0, 2)), angle=0,
              shade=0.8),
        piece(stalk, *knobs, shade=0.2, line=0),
    ]


def oak_leaf(tint: str, vein: str) -> Motif:
    """A lobed leaf, stalk down."""
    half = [(0, 100), (14, 84), (34, 88), (46, 74), (34, 52), (26, 44), (54, 46), (74, 30), (64, 8),
            (34, 4), (60, -4), (72, -24), (56, -44), (30, -40), (48, -56), (44, -80), (20, -86),
            (12, -104), (0, -110)]
    outline = np.vstack([curve(half), curve(half)[::-1] * [-1, 1]])
    veins = [ribbon(curve([(0, 120), (2, 0), (0, -92)]), 6, (1, 0.3))]
    for y, x, up in ((84, 34, 76), (46, 60, 34), (0, 56, -20), (-44, 34, -68)):
        veins += [ribbon([(0, y), (x, up)], 3), ribbon([(0, y), (-x, up)], 3)]
    return [piece(tint, outline, angle=60), piece(vein, *veins, shade=0, line=0)]


def ginkgo(tint: str, vein: str) -> Motif:
    """A fan-shaped leaf on a thin stalk."""
    fan = closed((0, 40), (-40, -6), (-104, -44), (-84, -86), (-40, -100), (-8, -84), (0, -52),
                 (10, -86), (44, -100), (86, -84), (104, -42), (42, -6))
    rays = [ribbon([(0, 30), (94 * np.sin(a), -14 - 70 * np.cos(a))], 1.8)
            for a in np.linspace(-1.25, 1.25, 13) if abs(a) > 0.12]
    return [piece(tint, fan, angle=80),
            piece(vein, ribbon(curve([(0, 36), (6, 90), (-6, 140)]), 6), *rays, shade=0, line=0)]


def frond(tint: str, pairs: int = 15, reach: float = 78.0) -> Motif:
    """A fern frond from (0, 150) up to (20, -150), leaflets in pairs."""
    spine = along(curve([(0, 150), (-12, 50), (-6, -60), (20, -150)]), 300 / (pairs + 1))
    leaves = []
    for number, at in enumerate(spine[2:-1]):
        long = reach * np.sin(np.pi * (0.25 + 0.74 * number / pairs)) ** 0.9
        for side in (-1, 1):
            leaves.append(blade(at, at + (side * long, -long * 0.42), max(8, long * 0.24)))
    return [piece(tint, ribbon(spine, 6, (1, 0.3)), *leaves, angle=20)]


def seaweed(tint: str, seed: int = 3) -> Motif:
    """Forking weed, from (0, 150) upwards."""
    rng = np.random.default_rng(seed)
    strands = []

    def grow(at, heading: float, length: float, width: float, depth: int) -> None:
        """One strand and the two that fork from its end."""
        bend = rng.normal(0, 0.25)
        steps = np.linspace(0, 1, 8)
        turn = heading + bend * steps
        path = at + np.cumsum(np.stack([np.cos(turn), np.sin(turn)], 1) * length / 8, 0)
        strands.append(ribbon(np.vstack([[at], path]), width, (1, 0.75)))
        if depth:
            for side in (-1, 1):
                grow(path[-1], turn[-1] + side * rng.uniform(0.16, 0.46),
                     length * rng.uniform(0.62, 0.82), width * 0.72, depth - 1)
        else:
            strands.append(ellipse(*path[-1], width * 0.9, width * 0.9))

    for turn in (-0.42, 0.0, 0.36):
        grow(np.array([0.0, 150.0]), -np.pi / 2 + turn, 66.0, 11.0, 5)
    return [piece(tint, *strands, angle=90)]


def umbel(stalk: str, head: str) -> Motif:
    """A hogweed's umbrella of small flowers, stalk from (0, 170)."""
    rays, dots = [], []
    for a in np.linspace(-1.2, 1.2, 11):
        tip = np.array([110 * np.sin(a), -30 - 84 * np.cos(a)])
        rays.append(ribbon(curve([(0, 0), tip * (0.45, 0.55), tip]), 4, (1, 0.5)))
        for b in np.linspace(-1.3, 1.3, 6):
            dots.append(ellipse(*(tip + (20 * np.sin(a + b), -20 * np.cos(a + b))), 6, 6))
    return [piece(stalk, ribbon(curve([(0, 170), (6, 80), (0, 0)]), 9), *rays, angle=90),
            piece(head, *dots, shade=0.2, line=1)]


def seed_head(stalk: str, fluff: str) -> Motif:
    """A dandelion clock."""
    hairs, dots = [], []
    for a in np.linspace(0, 2 * np.pi, 34, endpoint=False):
        tip = np.array([72 * np.cos(a), -40 + 72 * np.sin(a)])
        hairs.append(ribbon([(0, -40), tip], 2))
        dots += [ribbon([tip, tip + (18 * np.cos(a + b), 18 * np.sin(a + b))], 1.8)
                 for b in (-0.7, -0.25, 0.25, 0.7)]
    return [piece(stalk, ribbon(curve([(14, 190), (-8, 90), (0, -40)]), 6), ellipse(0, -40, 9, 9),
                  angle=90), piece(fluff, *hairs, *dots, shade=0, line=0.8)]


def sunflower(petal: str, core: str, stalk: str, leaf: str) -> Motif:
    """A sunflower, stalk from (0, 200)."""
    rays = [rotated(blade((30, 0), (92, 0), 30), a) for a in range(0, 360, 20)]
    inner = [rotated(blade((26, 0), (74, 0), 24), a + 10) for a in range(0, 360, 20)]
    return [piece(stalk, ribbon(curve([(10, 200), (-6, 100), (0, 0)]), 11), angle=90),
            piece(leaf, blade((0, 130), (84, 90), 40, 8), blade((-2, 100), (-78, 70), 34, -8),
                  angle=30),
            piece(petal, *rays, angle=0), piece(petal, *inner, angle=45),
            piece(core, ellipse(0, 0, 42, 42), shade=0.7)]


def tulip(petal: str, dark: str, stalk: str, leaf: str) -> Motif:
    """A tulip, stalk from (0, 170)."""
    return [piece(stalk, ribbon(curve([(4, 170), (-4, 80), (0, 0)]), 9), angle=90),
            piece(leaf, blade((2, 160), (72, 20), 34, 14), blade((2, 164), (-66, 40), 30, -12),
                  angle=70),
            piece(dark, closed((-42, 6), (-46, -50), (-40, -84), (0, -56), (40, -84), (46, -50),
                               (42, 6), (0, 26)), angle=85),
            piece(petal, closed((-24, 18), (-32, -30), (0, -88), (32, -30), (24, 18), (0, 26)),
                  angle=88, shade=0.8)]


def spruce(tint: str, tiers: int = 6) -> Motif:
    """A spruce, its foot at (0, 150), its top at (0, -150)."""
    half = [(0.0, -150.0)]
    for k in range(tiers):
        y = -150 + 270 * (k + 1) / tiers
        reach = 20 + 66 * (k + 1) / tiers
        half += [(reach, y + 8), (reach * 0.5, y - 4)]
    half += [(8, 122), (8, 150)]
    right = np.array(half)
    return [piece(tint, np.vstack([right, (mirror(right))[::-1]]), angle=80)]


def poplar(tint: str, trunk: str) -> Motif:
    """A tall thin poplar, foot at (0, 150)."""
    return [piece(trunk, ribbon([(0, 150), (2, 60)], 9)),
            piece(tint, closed((0, 112), (-24, 70), (-28, -10), (-16, -100), (2, -150),
                               (20, -100), (30, -10), (24, 70)), angle=84, shade=0.8)]


def crown(tint: str, light: str, trunk: str, seed: int = 1) -> Motif:
    """A round orchard tree, foot at (0, 120)."""
    rng = np.random.default_rng(seed)
    balls = [ellipse(rng.uniform(-52, 52), rng.uniform(-70, 10), rng.uniform(32, 48),
                     rng.uniform(28, 40)) for _ in range(8)]
    lit = [ellipse(rng.uniform(-60, 44), rng.uniform(-84, 0), rng.uniform(7, 15),
                   rng.uniform(6, 11)) for _ in range(26)]
    return [piece(trunk, closed((-9, 120), (-6, 20), (-34, -20), (-4, 0), (0, -30), (8, 2),
                                (36, -18), (9, 24), (12, 120)), angle=88),
            piece(tint, *balls, angle=20, shade=0.4, line=0),
            piece(light, *lit, angle=20, shade=0.2, line=0)]
