"""A maker's tools and what stands about on tables, as cutouts."""

import numpy as np

from finder_training.noise import Random, any_colour
from finder_training.stage import Stage
from finder_training.table.cutouts import Canvas, blank, fineness, put_cutout
from finder_training.table.shapes import leaf_shape, palette

STEEL = np.array([178.0, 182, 188])


def _rod(canvas: Canvas, start: float, end: float, wide: float, tone: np.ndarray,
         wide_end: float | None = None, y: float = 0) -> None:
    """A straight piece along x, with a stripe of light on it."""
    other = wide if wide_end is None else wide_end
    canvas.poly(np.array([[start, y - wide / 2], [end, y - other / 2], [end, y + other / 2],
                          [start, y + wide / 2]]), tone)
    canvas.path(np.array([[start, y - wide * 0.2], [end, y - other * 0.2]]), wide * 0.2,
                np.clip(tone * 1.25 + 12, 0, 255))


def pencils(rng: Random, fine: float) -> tuple[Canvas, float]:
    """One pencil, or several in a row: end, body, sharpened wood, lead."""
    count = int(rng.choice([1, 1, 2, 5, 9]))
    tones = palette(rng, count) if rng.random() < 0.4 else [any_colour(rng) for _ in range(count)]
    canvas = blank((7.6, count * 0.34 + 0.2), fine, np.array([200.0, 160, 110]))
    for i, tone in enumerate(tones):
        y, shift, long = (i - (count - 1) / 2) * 0.34, rng.normal() * 0.06, rng.uniform(2.2, 3.3)
        _rod(canvas, -long + shift, 2.7 + shift, 0.28, tone, y=y)
        points = np.array([[2.7, -0.14], [3.4, -0.03], [3.4, 0.03], [2.7, 0.14]]) + (shift, y)
        canvas.poly(points, np.array([222.0, 186, 135]))
        canvas.poly(np.array([[3.2, -0.06], [3.55, 0], [3.2, 0.06]]) + (shift, y), tone * 0.7)
        if rng.random() < 0.4:
            _rod(canvas, -long + shift, -long + 0.3 + shift, 0.28, STEEL, y=y)
            _rod(canvas, -long - 0.3 + shift, -long + shift, 0.26, np.array([220.0, 130, 130]), y=y)
    return canvas, 0.25


def brush(rng: Random, fine: float) -> tuple[Canvas, float]:
    """Handle, ferrule, bristles with or without paint."""
    canvas, tone = blank((9, 1.4), fine, STEEL), any_colour(rng)
    wide, long = rng.uniform(0.12, 0.7), rng.uniform(2.5, 4.2)
    _rod(canvas, -long, 1.8, 0.1, tone, max(wide * 0.6, 0.2))
    _rod(canvas, 1.8, 2.7, max(wide * 0.6, 0.2), STEEL * rng.uniform(0.7, 1.2), wide)
    hair = np.array([120.0, 85, 50]) * rng.uniform(0.3, 1.7)
    flat = 0 if wide < 0.4 else wide / 2
    tip = np.array([[2.7, -wide / 2], [3.3, -wide * 0.6], [3.3 + wide, -flat],
                    [3.3 + wide, flat], [3.3, wide * 0.6], [2.7, wide / 2]])
    canvas.poly(tip, hair)
    if rng.random() < 0.5:
        canvas.poly(tip[1:5], any_colour(rng))
    return canvas, 0.25


def scissors(rng: Random, fine: float) -> tuple[Canvas, float]:
    """Two blades, two rings, closed or a little open."""
    canvas, grip = blank((7.4, 4), fine, STEEL), any_colour(rng)
    angle = rng.uniform(0.03, 0.3)
    for side in (-1, 1):
        spin = np.array([[np.cos(angle), side * np.sin(angle)],
                         [-side * np.sin(angle), np.cos(angle)]])
        blade = np.array([[-0.3, -0.16], [3.5, 0.04 * side], [3.3, 0.12 * side], [-0.3, 0.2]])
        canvas.poly(blade @ spin, STEEL * (1.12 if side > 0 else 0.85))
        canvas.path(np.array([[-0.2, 0], [-1.5, 0.32 * side]]) @ spin, 0.3, grip)
        ways = np.linspace(0, 2 * np.pi, 24)
        ring = np.column_stack([np.cos(ways) * 0.85 - 2.4, np.sin(ways) * 0.5 + 0.62 * side])
        canvas.path(ring @ spin, 0.25, grip * (1.0 if side > 0 else 0.9))
    canvas.disc((0, 0), 0.12, STEEL * 0.6)
    return canvas, 0.3


def tube(rng: Random, fine: float) -> tuple[Canvas, float]:
    """A paint tube, marker, glue stick or knife: body, band, cap or blade."""
    canvas, tone, cap = blank((7, 1.6), fine, STEEL), any_colour(rng), any_colour(rng)
    roll, long = rng.random(), rng.uniform(1.3, 3)
    if roll < 0.4:
        wide = rng.uniform(0.5, 1.2)
        _rod(canvas, -long, 1.2, wide, np.array([225.0, 225, 222]), wide * 0.8)
        _rod(canvas, -long * 0.5, 0.6, wide * 0.95, tone, wide * 0.85)
        _rod(canvas, 1.2, 1.6, wide * 0.35, cap)
        canvas.path(np.array([[-long, -wide / 2], [-long, wide / 2]]), 0.1, STEEL)
    elif roll < 0.8:
        wide = rng.uniform(0.3, 0.9)
        _rod(canvas, -long, 0.7, wide, tone)
        _rod(canvas, 0.7, 1.9, wide * rng.uniform(0.9, 1.1), cap)
        _rod(canvas, -0.4 * long, 0.3, wide * 0.98, any_colour(rng))
    else:
        _rod(canvas, -long, 1.1, 0.32, STEEL * 0.9)
        _rod(canvas, -0.6, 0.6, 0.34, tone)
        canvas.poly(np.array([[1.1, -0.13], [2.3, 0.14], [1.1, 0.14]]), STEEL * 1.25)
    return canvas, 0.4


def vessel(rng: Random, fine: float) -> tuple[Canvas, float]:
    """A jar or cup from above: rim, wall, what is in it; with a handle or brushes in it."""
    canvas, tone = blank((7, 7), fine, STEEL), any_colour(rng, 30, 250)
    size, glass = rng.uniform(1.0, 1.9), rng.random() < 0.4
    if not glass and rng.random() < 0.6:
        way = rng.uniform(0, 6.3)
        ends = np.array([[np.cos(way + d), np.sin(way + d)] for d in (-0.3, -0.2, 0.2, 0.3)])
        canvas.path(ends * np.array([[0.9], [1.45], [1.45], [0.9]]) * size, 0.28, tone * 0.92)
    wall = np.array([205.0, 215, 218]) if glass else tone
    drink = np.array([[70.0, 40, 22], [150, 90, 40], [190, 205, 210]])[int(rng.integers(3))]
    drink = any_colour(rng) if rng.random() < 0.3 else drink
    lean = rng.normal(size=2) * 0.06 * size
    for share, shade in ((1, 1.0), (0.93, 1.12), (0.87, 0.68)):
        canvas.disc((0, 0), size * share, wall * shade)
    canvas.disc(tuple(lean), size * 0.8, drink)
    canvas.disc(tuple(lean * 2 + size * 0.3), (size * 0.2, size * 0.07), drink + 60, 0.7)
    for _ in range(int(rng.choice([0, 0, 1, 3]))):
        way = rng.uniform(0, 6.3)
        end = np.array([np.cos(way), np.sin(way)])
        canvas.path(np.array([end * size * 0.2, end * size * rng.uniform(1.2, 1.75)]), 0.2,
                    any_colour(rng))
    return canvas, rng.uniform(0.6, 1.8)


def plate(rng: Random, fine: float) -> tuple[Canvas, float]:
    """A plate, bowl, coaster or lid: rings, with a decorated rim now and then, and crumbs."""
    size, tone = rng.uniform(1.7, 4.2), any_colour(rng, 60, 252)
    canvas = blank((size * 2.1, size * 2.1), fine, tone)
    canvas.disc((0, 0), size, tone)
    if rng.random() < 0.5:
        canvas.disc((0, 0), size * 0.95, any_colour(rng))
        canvas.disc((0, 0), size * 0.88, tone)
    canvas.disc((0.03, 0.03), size * 0.66, tone * 0.84)
    canvas.disc((0, 0), size * 0.63, tone * 1.03)
    for _ in range(int(rng.choice([0, 0, 3, 9]))):
        at = rng.normal(size=2) * size * 0.25
        canvas.disc(tuple(at), rng.uniform(0.08, size * 0.2), any_colour(rng))
    return canvas, 0.35


def tape(rng: Random, fine: float) -> tuple[Canvas, float]:
    """A roll of tape, its edge in rings, what it lies on in its hole."""
    size, tone = rng.uniform(0.8, 1.8), any_colour(rng, 40, 240)
    canvas = blank((size * 2.2, size * 2.2), fine, tone)
    hole = size * rng.uniform(0.45, 0.8)
    for share in np.linspace(1, hole / size + 0.06, 6):
        canvas.disc((0, 0), size * share, tone * rng.uniform(0.85, 1.1))
    canvas.disc((0, 0), hole * 1.07, np.array([190.0, 160, 120]))
    canvas.hole((0, 0), hole)
    return canvas, rng.uniform(0.3, 0.9)


def mixing(rng: Random, fine: float) -> tuple[Canvas, float]:
    """A painter's palette: kidney-shaped, a hole for the thumb, dabs about its rim."""
    wood = np.array([[214.0, 178, 128], [240, 240, 238], [150, 95, 60]])[int(rng.integers(3))]
    canvas = blank((9, 7), fine, wood)
    ways = np.linspace(0, 2 * np.pi, 50, endpoint=False)
    reach = 1 - 0.28 * np.exp(-((ways - 4.6) ** 2) / 0.12)
    outline = np.column_stack([np.cos(ways) * 4, np.sin(ways) * 3]) * reach[:, None]
    canvas.poly(outline, wood)
    for way in np.linspace(-0.9, 4.0, int(rng.integers(5, 11))):
        at = np.array([np.cos(way) * 3, np.sin(way) * 2.2])
        tone = any_colour(rng)
        for _ in range(3):
            canvas.disc(tuple(at + rng.normal(size=2) * 0.15), rng.uniform(0.2, 0.5), tone)
    for _ in range(int(rng.integers(0, 4))):
        canvas.disc(tuple(rng.normal(size=2) * 0.8), (rng.uniform(0.2, 1), 0.4), any_colour(rng))
    canvas.hole((1.9, -1.6), (0.4, 0.3))
    return canvas, 0.2


def keys(rng: Random, fine: float) -> tuple[Canvas, float]:
    """A ring with a few keys on it."""
    canvas = blank((6, 6), fine, STEEL)
    ways = np.linspace(0, 2 * np.pi, 30)
    canvas.path(np.column_stack([np.cos(ways), np.sin(ways)]) * 0.55, 0.09, STEEL * 0.9)
    for _ in range(int(rng.integers(1, 5))):
        way, tone = rng.uniform(0, 6.3), [STEEL, np.array([200.0, 165, 95])][int(rng.integers(2))]
        spin = np.array([[np.cos(way), np.sin(way)], [-np.sin(way), np.cos(way)]])
        bow = np.column_stack([np.cos(ways) * 0.42 + 1, np.sin(ways) * 0.46])
        canvas.poly(bow @ spin, tone)
        shaft = [[1.3, -0.12], [2.7, -0.12], [2.8, 0], [2.6, 0.12], [2.45, 0.02], [2.3, 0.14],
                 [2.1, 0.05], [1.9, 0.15], [1.3, 0.12]]
        canvas.poly(np.array(shaft) @ spin, tone * 0.9)
    return canvas, 0.12


def spectacles(rng: Random, fine: float) -> tuple[Canvas, float]:
    """Two rims, bridge, folded or open temples."""
    canvas, tone = blank((6.4, 6), fine, any_colour(rng)), any_colour(rng, 5, 150)
    ways, thick = np.linspace(0, 2 * np.pi, 40), rng.uniform(0.06, 0.2)
    square = rng.uniform(0.5, 1)
    for side in (-1, 1):
        round_ = np.column_stack([np.sign(np.cos(ways)) * np.abs(np.cos(ways)) ** square,
                                  np.sign(np.sin(ways)) * np.abs(np.sin(ways)) ** square * 0.85])
        canvas.path(round_ * 1.05 + (side * 1.4, -1.2), thick, tone)
        hinge = np.array([side * 2.5, -1.5])
        end = np.array([side * 2.4, 2.6]) if rng.random() < 0.6 else np.array([-side * 2.0, -0.9])
        canvas.path(np.array([hinge, end, end + (0, 0.3)]), thick * 1.1, tone)
    canvas.path(np.array([[-0.38, -1.35], [0, -1.5], [0.38, -1.35]]), thick, tone)
    return canvas, 0.4


def sprig(rng: Random, fine: float) -> tuple[Canvas, float]:
    """A leaf, a twig with leaves, a plant's leaves from above, or a flower's head."""
    green = np.array([75.0, 125, 60]) * rng.uniform(0.5, 1.6) + rng.normal(size=3) * 15
    canvas, roll = blank((7, 7), fine, green), rng.random()

    def leaf(at: np.ndarray, long: float, wide: float, way: float, tone: np.ndarray) -> None:
        shape = leaf_shape(at, long, wide, way) / 16
        canvas.poly(shape, tone)
        canvas.path(shape[[0, 9]], 0.03, tone * 1.3)

    if roll < 0.25:
        leaf(np.array([-2.0, 0]), rng.uniform(2, 4.5), rng.uniform(0.4, 1.2), 0.0, green)
        return canvas, 0.15
    if roll < 0.6:
        share = np.linspace(-3, 3, int(rng.integers(5, 11)))
        stem = np.column_stack([share, np.sin(share * 0.6) * rng.normal() * 0.5])
        canvas.path(stem, 0.07, green * 0.6)
        for i, at in enumerate(stem):
            tone = green * rng.uniform(0.8, 1.2)
            leaf(at, rng.uniform(0.8, 1.5), 0.3, 0.7 * (1 if i % 2 else -1), tone)
        return canvas, 0.3
    petals, flower = int(rng.integers(5, 14)), any_colour(rng)
    for way in np.arange(petals) * 2 * np.pi / petals:
        tone = (green if roll < 0.8 else flower) * rng.uniform(0.75, 1.2)
        leaf(np.zeros(2), rng.uniform(1.6, 3.3), rng.uniform(0.3, 0.6), way, tone)
    canvas.disc((0, 0), 0.45, any_colour(rng))
    return canvas, 0.8


def cable(rng: Random, fine: float) -> tuple[Canvas, float]:
    """A cable, thread, string or rubber band, in loops."""
    tone = np.full(3, rng.choice([20.0, 235])) if rng.random() < 0.6 else any_colour(rng)
    canvas = blank((8, 8), fine, tone)
    share = np.linspace(0, rng.uniform(3, 14), 60)
    path = np.column_stack([np.cos(share) * rng.uniform(0.5, 1.8) + share * 0.3 - 1.5,
                            np.sin(share * rng.uniform(0.7, 1.2)) * rng.uniform(0.5, 2.5)])
    canvas.path(path, rng.uniform(0.04, 0.2), tone)
    if rng.random() < 0.6:
        canvas.path(path[-3:-1], 0.4, tone * 0.9 + 10)
    return canvas, 0.2


def strewn(rng: Random, fine: float) -> tuple[Canvas, float]:
    """Coins, buttons, beads, pins or sequins in a handful."""
    canvas, size = blank((6, 6), fine, STEEL), rng.uniform(0.12, 0.5)
    tones = palette(rng, 4) if rng.random() < 0.6 else [STEEL, np.array([190.0, 140, 80])] * 2
    for at in rng.normal(size=(int(rng.integers(3, 16)), 2)) * 1.1:
        own = size * rng.uniform(0.7, 1.2)
        tone = tones[int(rng.integers(4))]
        canvas.disc(tuple(at), own, tone * 0.85)
        canvas.disc(tuple(at), own * 0.82, tone)
        for hole in ((-0.25, 0), (0.25, 0)) if rng.random() < 0.5 else ():
            canvas.disc((at[0] + hole[0] * own, at[1]), own * 0.12, tone * 0.3)
    return canvas, 0.1


THINGS = {
    "pencils": (pencils, 7.6), "brush": (brush, 9), "scissors": (scissors, 7.4),
    "tube": (tube, 7), "vessel": (vessel, 7), "plate": (plate, 8.8), "tape": (tape, 4),
    "mixing": (mixing, 9), "keys": (keys, 6), "spectacles": (spectacles, 6.4),
    "sprig": (sprig, 7), "cable": (cable, 8), "strewn": (strewn, 6),
}
"""Drawer and reach in inches by name; a drawer answers a canvas and how tall the thing is."""


def put_thing(stage: Stage, rng: Random, middle: np.ndarray, turn: float,
              name: str = "any") -> None:
    """One of THINGS laid about `middle` inches; it covers what lies there."""
    name = str(rng.choice(list(THINGS))) if name == "any" else name
    drawer, reach = THINGS[name]
    canvas, tall = drawer(rng, fineness(stage, middle, reach))
    put_cutout(stage, rng, canvas, middle, turn, tall)
