"""Grounds that shine, that grow, that are woven of cane, tables, rugs, and what is thrown down."""

import cv2
import numpy as np

from finder_training.noise import Random, any_colour, cloud, ink, layered, speckle
from finder_training.table.cloths import repeated
from finder_training.table.floors import WOODS
from finder_training.table.shapes import leaf_shape, palette


def _metal(width: int, height: int, rng: Random) -> np.ndarray:
    """Brushed or polished metal, with soft bands of light."""
    rough = np.ascontiguousarray(speckle(width, height, rng)[..., 0])
    fine = cv2.blur(rough, (int(rng.integers(25, 120)), 1)) * rng.uniform(0.2, 0.8)
    bands = cloud(width, 8, rng.uniform(2, 8), rng)[:1] * rng.uniform(0.1, 0.4)
    base = rng.uniform(60, 215) * np.array([[1, 1, 1.02], [1, 0.85, 0.6], [0.95, 0.7, 0.58]])[
        int(rng.choice([0, 0, 1, 2]))]
    return np.float32(base) * (1 + fine[..., None] * 0.35 + bands)


def window_in(made: np.ndarray, rng: Random, strong: float) -> np.ndarray:
    """A window or lamps mirrored in a glossy top, added to it."""
    height, width = made.shape[:2]
    seen = np.zeros((height, width), np.uint8)
    if rng.random() < 0.7:
        at, size = rng.uniform(0, 0.8, 2) * (width, height), rng.uniform(0.15, 0.6) * width
        lean = rng.normal(size=2) * 0.3
        for i in range(int(rng.integers(1, 4))):
            for j in range(int(rng.integers(1, 4))):
                pane = np.array([[i, j], [i + 0.92, j], [i + 0.92, j + 0.94], [i, j + 0.94]])
                pane = pane @ np.array([[1, lean[0]], [lean[1], 1.2]]) * size / 2 + at
                cv2.fillConvexPoly(seen, pane.astype(np.int32), 255)
    else:
        for at in rng.uniform(0, 1, (int(rng.integers(1, 5)), 2)) * (width, height):
            cv2.circle(seen, tuple(at.astype(int)), int(width * rng.uniform(0.01, 0.08)), 255, -1)
    soft = cv2.blur(cv2.blur(seen, (9, 9)), (int(rng.integers(1, 14)),) * 2)
    tint = np.array([1, 1, 1 + rng.uniform(-0.2, 0.1)], np.float32) * np.float32(strong / 255)
    return made + soft[..., None] * tint


def _glass(width: int, height: int, rng: Random) -> np.ndarray:
    """Glass, lacquer or piano black, with what it mirrors."""
    base = np.float32(any_colour(rng, 8, 90) if rng.random() < 0.6 else any_colour(rng, 120, 235))
    made = base * (1 + cloud(width, height, 2.5, rng) * np.float32(rng.uniform(0.05, 0.3)))
    return window_in(made, rng, rng.uniform(20, 150))


def _grass(width: int, height: int, rng: Random) -> np.ndarray:
    """Blades, or fallen leaves, over dark earth."""
    made = np.full((height, width, 3), any_colour(rng, 15, 90) * (1, 1, 0.7), np.uint8)
    green = np.array([80, 130, 50]) if rng.random() < 0.7 else np.array([165, 140, 80])
    if rng.random() < 0.6:
        long, count = 10 ** rng.uniform(1.1, 1.9), 1500
        starts = rng.uniform(-0.05, 1.05, (count, 1, 2)) * (width, height)
        ways = rng.normal(size=(count, 1, 2)) * long / 2 + (0, -long / 2)
        bend = rng.normal(size=(count, 1, 2)) * long / 5
        blades = np.concatenate([starts, starts + ways / 2 + bend, starts + ways], 1)
        for part in np.array_split(blades.astype(np.int32), 12):
            tone = green * rng.uniform(0.4, 1.6) + rng.normal(size=3) * 10
            cv2.polylines(made, list(part), False, ink(np.clip(tone, 0, 255)),
                          int(rng.integers(1, 4)), cv2.LINE_AA)
        return made
    size = 10 ** rng.uniform(1.3, 2)
    for at in rng.uniform(-0.1, 1, (min(int(width * height / size**2 * 2.5), 400), 2)):
        tone = np.clip(green * rng.uniform(0.4, 1.5) + rng.normal(size=3) * 25, 0, 255)
        shape = leaf_shape(at * (width, height), size * rng.uniform(0.6, 1.3),
                           size * rng.uniform(0.15, 0.35), rng.uniform(0, 6.3))
        cv2.fillPoly(made, [shape], ink(tone), cv2.LINE_AA, 4)
        rib = [tuple(int(v) for v in shape[k]) for k in (0, 9)]
        cv2.line(made, *rib, ink(tone * 0.75), 1, cv2.LINE_AA, 4)
    return made


def _sand(width: int, height: int, rng: Random) -> np.ndarray:
    """Sand, gravel or pebbles."""
    base = np.array([205, 180, 140], np.float32) * np.float32(rng.uniform(0.5, 1.2))
    if rng.random() < 0.5:
        light = 1 + speckle(width, height, rng) * np.float32(rng.uniform(0.04, 0.15))
        ripples = np.sin(layered(width, height, 2, rng, 2) * 30) * rng.uniform(0, 0.1)
        return base * (light + ripples)
    made = np.full((height, width, 3), base * 0.35, np.uint8)
    size = 10 ** rng.uniform(0.7, 1.5)
    for at in rng.uniform(0, 1, (min(int(width * height / size**2), 1200), 2)) * (width, height):
        tone = np.clip(base * rng.uniform(0.5, 1.3) + rng.normal(size=3) * 10, 0, 255)
        axes = (int(size * 16 * rng.uniform(0.4, 0.9)), int(size * 16 * rng.uniform(0.3, 0.6)))
        middle, turn = (int(at[0] * 16), int(at[1] * 16)), rng.uniform(0, 180)
        cv2.ellipse(made, middle, axes, turn, 0, 360, ink(tone), -1, cv2.LINE_AA, 4)
    return made


def _wicker(width: int, height: int, rng: Random) -> np.ndarray:
    """Cane, rush or bands woven over and under."""
    side = int(rng.integers(6, 34))
    bump = np.sin(np.linspace(0.25, np.pi - 0.25, side, dtype=np.float32))
    over, under = bump[:, None] * np.ones(side, np.float32), bump[None] * np.ones((side, 1))
    cell = np.block([[over, under], [under, over]]).astype(np.float32)
    base = np.float32(any_colour(rng) if rng.random() < 0.4 else WOODS[int(rng.integers(6))])
    rough = 1 + speckle(width, height, rng) * np.float32(rng.uniform(0, 0.08))
    light = repeated(cell[..., None], width, height, rng).astype(np.float32)
    return base * (0.3 + 0.8 * light) * rough


def _craft_table(width: int, height: int, rng: Random) -> np.ndarray:
    """A table that has been worked at: splotches, drips, rings of cups, cuts of a knife."""
    base = np.clip(rng.choice([90, 150, 215, 235]) + rng.normal(size=3) * 8, 0, 250)
    base = WOODS[int(rng.integers(len(WOODS)))] if rng.random() < 0.4 else base
    made = np.full((height, width, 3), base, np.uint8)
    colours = palette(rng, 4) + [any_colour(rng) for _ in range(3)]
    for _ in range(int(rng.integers(8, 60))):
        at, size = rng.uniform(0, 1, 2) * (width, height), rng.gamma(1.2, 9) + 1
        colour = ink(colours[int(rng.integers(7))])
        ways = np.linspace(0, 2 * np.pi, 24, endpoint=False)
        reach = size * (1 + sum(np.sin(ways * k + rng.uniform(0, 6)) * rng.uniform(0, 0.5) / k
                                for k in (1, 2, 3, 5)))
        blot = np.column_stack([np.cos(ways), np.sin(ways)]) * reach[:, None] + at
        cv2.fillPoly(made, [blot.astype(np.int32)], colour, cv2.LINE_AA)
        for drop in at + rng.normal(size=(int(rng.integers(0, 6)), 2)) * size * 2:
            cv2.circle(made, tuple(drop.astype(int)), max(int(size / 7), 1), colour, -1)
    for _ in range(int(rng.integers(0, 4))):
        at = tuple((rng.uniform(0, 1, 2) * (width, height)).astype(int))
        cv2.circle(made, at, int(rng.uniform(0.05, 0.14) * width), ink(base * 0.8),
                   int(rng.integers(1, 5)), cv2.LINE_AA)
    for _ in range(int(rng.integers(0, 40))):
        ends = rng.uniform(0, 1, 2) * (width, height) + rng.normal(size=(2, 2)) * width / 8
        tone = ink(np.clip(base * rng.choice([0.7, 0.85, 1.2]), 0, 255))
        cv2.line(made, *(tuple(end.astype(int)) for end in ends), tone, 1, cv2.LINE_AA)
    return made


def _striped_light(width: int, height: int, rng: Random) -> np.ndarray:
    """A bare top that the sun reaches through a window or a blind."""
    base = np.float32(any_colour(rng, 90, 240))
    way, step = rng.uniform(0, np.pi), 10 ** rng.uniform(1.3, 2.4)
    x = np.arange(width, dtype=np.float32) * np.float32(np.cos(way) * 2 * np.pi / step)
    y = np.arange(height, dtype=np.float32)[:, None] * np.float32(np.sin(way) * 2 * np.pi / step)
    lit = np.clip(np.sin(x + y) * rng.uniform(2, 9) + rng.uniform(-1.5, 1.5), 0, 1)
    if rng.random() < 0.7:
        window, reach = np.zeros((height, width), np.uint8), np.array([width, height])
        points = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * rng.uniform(0.15, 0.6, 2)
        points = (points + rng.normal(size=2) * 0.2 + 0.5) * reach
        points[2:, 0] += rng.normal() * width / 5
        cv2.fillConvexPoly(window, points.astype(np.int32), 255)
        lit *= cv2.blur(window, (int(rng.integers(2, 22)),) * 2) * np.float32(1 / 255)
    lit = lit[..., None]
    dark = np.array([1, 1.02, 1.1], np.float32) * np.float32(rng.uniform(0.35, 0.75))
    return base * (dark + (np.array([1.1, 1.05, 0.95], np.float32) - dark) * lit)


def _veneer(width: int, height: int, rng: Random) -> np.ndarray:
    """A table's top sawn from one tree: flames and fine pores, now and then polished."""
    base = WOODS[int(rng.integers(len(WOODS)))] * np.float32(rng.uniform(0.6, 1.15))
    long = int(rng.integers(6, 20))
    field = layered(width // long + 4, height, rng.uniform(3, 9), rng, 2)[..., 0]
    field = cv2.resize(field, (width, height), interpolation=cv2.INTER_CUBIC)
    rings = np.sin(field * np.float32(rng.uniform(8, 40)))
    pores = cv2.blur(np.ascontiguousarray(speckle(width, height, rng)[..., 0]), (24, 1))
    light = 1 + rings * np.float32(rng.uniform(0.02, 0.14)) + pores * np.float32(
        rng.uniform(0.05, 0.3))
    made = base * (light + field * 0.06)[..., None]
    return window_in(made, rng, rng.uniform(15, 90)) if rng.random() < 0.25 else made


def _leather(width: int, height: int, rng: Random) -> np.ndarray:
    """Leather, rubber or rough plastic: small bumps lit from one side."""
    rough = cv2.GaussianBlur(np.ascontiguousarray(speckle(width, height, rng)[..., 0]), (0, 0),
                             rng.uniform(1.5, 4))
    rough = np.abs(rough) / max(float(np.abs(rough).std()), 1e-4)
    lit = np.clip((rough[:-1, :-1] - rough[1:, 1:]) * rng.uniform(0.1, 0.4), -0.5, 0.5)
    lit = cv2.copyMakeBorder(lit, 0, 1, 0, 1, cv2.BORDER_REPLICATE)
    return np.float32(any_colour(rng, 15, 200)) * (1 + lit[..., None])


def _draped(width: int, height: int, rng: Random) -> np.ndarray:
    """Bedding, a curtain or a blanket thrown down: deep folds with bright crests."""
    half = (width // 2, height // 2)
    across = int(rng.integers(1, 5))
    field = layered(half[0] // across + 4, half[1], rng.uniform(1.5, 4), rng, 2)[..., 0]
    field = cv2.resize(field, half, interpolation=cv2.INTER_CUBIC)
    ridge = 1 - np.abs(np.sin(field * np.float32(rng.uniform(1.5, 4))))
    lit = cv2.Sobel(cv2.GaussianBlur(ridge, (0, 0), 3), -1, 1, 1, ksize=5) * 0.25
    lit = cv2.resize(np.clip(lit + ridge * 0.25, -0.4, 0.4), (width, height))[..., None]
    base = np.float32(any_colour(rng, 40, 240))
    weave = speckle(width, height, rng) * np.float32(rng.uniform(0, 0.04))
    return base * (0.9 + lit * np.float32(rng.uniform(0.4, 1.2)) + weave)


def _rug(width: int, height: int, rng: Random) -> np.ndarray:
    """A rug with borders one within the other and lozenges or stars in its field."""
    tones, made = palette(rng, 5), np.empty((height, width, 3), np.uint8)
    made[:] = any_colour(rng, 20, 200)
    inset, step = 0, max(int(width * rng.uniform(0.02, 0.06)), 4)
    for ring in range(int(rng.integers(2, 6))):
        end = (width - inset, height - inset)
        cv2.rectangle(made, (inset, inset), end, ink(tones[ring % 5]), -1)
        for x in range(inset, width - inset, step):
            for y in (inset + step // 2, height - inset - step // 2):
                cv2.circle(made, (x, y), max(step // 4, 1), ink(tones[(ring + 2) % 5]), -1)
        inset += int(step * rng.uniform(0.6, 2))
    side = max(int(width * rng.uniform(0.08, 0.3)), 4)
    for y in range(inset + side, height - inset, side * 2):
        for x in range(inset + side, width - inset, side * 2):
            for share, tone in ((0.9, tones[1]), (0.6, tones[3]), (0.3, tones[0])):
                reach = int(side * share)
                points = np.array([[x, y - reach], [x + reach, y], [x, y + reach], [x - reach, y]])
                cv2.fillConvexPoly(made, points.astype(np.int32), ink(tone), cv2.LINE_AA)
    return made * (1 + speckle(width, height, rng) * np.float32(rng.uniform(0.04, 0.15)))


SURFACES = {
    "metal": _metal, "glass": _glass, "grass": _grass, "sand": _sand, "wicker": _wicker,
    "craft table": _craft_table, "striped light": _striped_light, "veneer": _veneer,
    "leather": _leather, "draped": _draped, "rug": _rug,
}
"""Drawers of such grounds by name: width, height px and `rng` → [height, width, 3], 0–255."""
