"""Hard grounds: boards, parquet, bricks, tiles, and stone of many kinds."""

import cv2
import numpy as np

from finder_training.noise import Random, any_colour, cloud, ink, layered, speckle
from finder_training.table.shapes import palette

WOODS = np.array([[196, 152, 104], [226, 196, 150], [120, 78, 48], [74, 54, 44], [160, 150, 138],
                  [205, 180, 160], [150, 88, 58]], np.float32)
"""Oak, pine, walnut, wenge, weathered, limed and cherry."""


def _grain(width: int, height: int, rng: Random) -> np.ndarray:
    """Streaks along x, float32 [height, width, 1], about -1 to 1."""
    rough = np.ascontiguousarray(speckle(width, height, rng)[..., 0])
    long = int(rng.integers(20, 90))
    fine = cv2.blur(rough, (long, 1)) * long**0.5 * 0.5
    wide = cv2.resize(rng.normal(size=(height // 3 + 2, width // 150 + 3)).astype(np.float32),
                      (width, height), interpolation=cv2.INTER_CUBIC)
    return (fine * rng.uniform(0.2, 0.6) + wide * rng.uniform(0.1, 0.5))[..., None]


def _laid(kinds: np.ndarray, cell: tuple[int, int], width: int, height: int, tones: np.ndarray,
          gap: np.ndarray, thick: int) -> tuple[np.ndarray, np.ndarray]:
    """Blocks given as numbers on a coarse grid, drawn with their gaps.

    Answers the picture float32 and which pixels are gaps.
    """
    big = kinds.repeat(cell[1], axis=0)[:height].repeat(cell[0], axis=1)[:, :width]
    made = tones[big % len(tones)]
    edge = np.zeros(big.shape, np.uint8)
    edge[1:] |= big[1:] != big[:-1]
    edge[:, 1:] |= big[:, 1:] != big[:, :-1]
    edge = cv2.dilate(edge, np.ones((thick, thick), np.uint8)) > 0
    made[edge] = gap
    return made, edge


def _tones(base: np.ndarray, spread: float, rng: Random, count: int = 61) -> np.ndarray:
    """Float32 [count, 3] about a colour, lighter and darker."""
    made = base * (1 + rng.normal(size=(count, 1)) * spread) + rng.normal(size=(count, 3)) * 3
    return made.astype(np.float32)


def _planks(width: int, height: int, rng: Random) -> np.ndarray:
    """Boards end to end, each of its tone, with gaps."""
    tall, columns = int(10 ** rng.uniform(1.3, 2.2)), width // 8 + 1
    rows = height // tall + 1
    long = max(int(tall * rng.uniform(3, 9)) // 8, 2)
    starts = rng.integers(0, long, rows) if rng.random() < 0.7 else np.arange(rows) % 2 * long // 2
    kinds = np.arange(rows)[:, None] * 97 + (np.arange(columns)[None] + starts[:, None]) // long * 7
    base = WOODS[int(rng.integers(len(WOODS)))] * rng.uniform(0.6, 1.15)
    made, _ = _laid(kinds, (8, tall), width, height, _tones(base, rng.uniform(0, 0.15), rng),
                    base * np.float32(rng.uniform(0.15, 0.8)), int(rng.integers(1, 4)))
    return made * (1 + _grain(width, height, rng) * np.float32(rng.uniform(0.05, 0.3)))


def _parquet(width: int, height: int, rng: Random) -> np.ndarray:
    """Herringbone or basket blocks of wood."""
    side, long = int(10 ** rng.uniform(1, 1.75)), int(rng.integers(2, 7))
    rows, columns = height // side + 1, width // side + 1
    j, i = np.mgrid[:rows, :columns]
    if rng.random() < 0.65:
        step = (i - j) % (2 * long)
        lying = step < long
        kinds = np.where(lying, (i - step) * 131 + j * 17,
                         i * 37 + (j - (2 * long - 1 - step)) * 53 + 7)
    else:
        lying = (i // long + j // long) % 2 == 0
        kinds = np.where(lying, j * 31 + i // long * 103, i * 29 + j // long * 71 + 11)
    base = WOODS[int(rng.integers(len(WOODS)))] * rng.uniform(0.6, 1.15)
    made, _ = _laid(kinds, (side, side), width, height, _tones(base, rng.uniform(0.03, 0.16), rng),
                    base * np.float32(rng.uniform(0.2, 0.8)), int(rng.integers(1, 3)))
    grain, strong = _grain(width, height, rng), np.float32(rng.uniform(0.05, 0.25))
    across = np.ascontiguousarray(lying.repeat(side, 0)[:height].repeat(side, 1)[:, :width])
    upright = cv2.resize(grain[..., 0].T, (width, height))[..., None]
    return made * (1 + np.where(across[..., None], grain, upright) * strong)


def _bricks(width: int, height: int, rng: Random) -> np.ndarray:
    """Bricks, or tiles of any format laid like them, with grout."""
    tall = int(10 ** rng.uniform(1.2, 2.1))
    long = max(int(tall * rng.choice([1, 2, 2.5, 3, 4])) // 4, 2)
    rows, columns = height // tall + 1, width // 4 + 1
    shift = np.arange(rows) * long // int(rng.choice([2, 2, 3, 99]))
    kinds = np.arange(rows)[:, None] * 89 + (np.arange(columns)[None] + shift[:, None]) // long * 5
    red = np.array([165, 85, 62]) if rng.random() < 0.4 else any_colour(rng, 40, 235)
    made, grout = _laid(kinds, (4, tall), width, height, _tones(red, rng.uniform(0.02, 0.2), rng),
                        np.float32(any_colour(rng, 60, 230)), int(rng.integers(2, 9)))
    rough = np.float32(rng.choice([0.01, 0.06, 0.12])) * speckle(width, height, rng)
    made *= 1 + rough + cloud(width, height, 30, rng) * 0.06
    if rng.random() < 0.5:
        lit = np.roll(grout, (2, 2), (0, 1)) & ~grout
        made[lit] *= rng.uniform(0.65, 1.25)
    return made


def _card_tiles(width: int, height: int, rng: Random) -> np.ndarray:
    """Tiles of a card's own proportion, or squares, each with its glaze, and grout between."""
    wide = int(10 ** rng.uniform(1.5, 2.3))
    tall = int(wide * rng.choice([1.4, 1.4, 1 / 1.4, 1]))
    gap = int(rng.integers(1, 10))
    made = np.full((height, width, 3), any_colour(rng, 20, 240), np.float32)
    colours = palette(rng, int(rng.choice([1, 2, 5])))
    glossy, worn = rng.uniform(0, 0.25), rng.uniform(0, 0.08)
    cell = np.ones((tall - gap, wide - gap, 1), np.float32)
    cell += np.linspace(glossy, -glossy, tall - gap, dtype=np.float32)[:, None, None]
    cell[:2], cell[-2:] = cell[:2] * 1.12, cell[-2:] * 0.85
    for top in range(-int(rng.integers(0, tall - gap)), height, tall):
        for left in range(-int(rng.integers(0, 2)) * wide // 2, width, wide):
            y, x = max(-top, 0), max(-left, 0)
            box = made[top + y : top + tall - gap, left + x : left + wide - gap]
            tone = np.float32(colours[int(rng.integers(len(colours)))] * (1 + rng.normal() * worn))
            box[:] = (tone * cell[y:, x:])[: box.shape[0], : box.shape[1]]
    return made + layered(width, height, 20, rng, 2) * rng.uniform(0, 12)


def _ornament_tiles(width: int, height: int, rng: Random) -> np.ndarray:
    """Cement tiles: a quarter drawn once and mirrored, or six-sided ones."""
    side, colours = int(10 ** rng.uniform(1.2, 1.9)), palette(rng, 4)
    cell = np.full((side, side, 3), colours[0], np.uint8)
    if rng.random() < 0.3:
        high = int(side * 3**0.5) // 2 * 2
        cell = np.full((high, side * 3, 3), any_colour(rng, 30, 230), np.uint8)
        ways = np.arange(6) * np.pi / 3
        for k, (x, y) in enumerate(((0, 0), (3, 0), (0, 1), (3, 1), (1.5, 0.5))):
            points = np.column_stack([np.cos(ways), np.sin(ways)]) * side * 0.96 + (
                x * side, y * high)
            cv2.fillPoly(cell, [(points * 16).astype(np.int32)], ink(colours[k // 4]),
                         cv2.LINE_AA, 4)
        return np.tile(cell, (height // high + 1, width // (side * 3) + 1, 1))[:height, :width]
    for _ in range(int(rng.integers(2, 6))):
        at = [(0, 0), (side, side), (0, side), (side, 0)][int(rng.integers(4))]
        size, colour = int(side * rng.uniform(0.15, 1)), ink(colours[int(rng.integers(4))])
        if rng.random() < 0.6:
            cv2.circle(cell, at, size, colour, int(rng.choice([-1, -1, 2, 4])), cv2.LINE_AA)
        else:
            points = np.array([at, (size, 0), (side, size), (0, side - size)], np.int32)
            cv2.fillPoly(cell, [points], colour, cv2.LINE_AA)
    cell = np.hstack([cell, cell[:, ::-1]])
    cell = np.vstack([cell, cell[::-1]])
    cv2.rectangle(cell, (0, 0), (2 * side - 1, 2 * side - 1), ink(any_colour(rng)), 1)
    return np.tile(cell, (height // (2 * side) + 1, width // (2 * side) + 1, 1))[:height, :width]


def _marble(width: int, height: int, rng: Random) -> np.ndarray:
    """Veins of two sizes through stone, pale or black or green."""
    bases = np.array([[238, 236, 232], [40, 40, 44], [60, 85, 70], [225, 205, 185]], np.float32)
    base = bases[int(rng.integers(4))] * np.float32(rng.uniform(0.85, 1.05))
    vein = np.float32(any_colour(rng, 60, 190) - base) if base[0] > 100 else 235 - base
    share, half = 0.0, (width // 2, height // 2)
    for cells, thin in ((rng.uniform(1.5, 4), 14), (rng.uniform(4, 9), 22)):
        field = layered(*half, cells, rng, 3)
        strong = np.clip(cloud(*half, 4, rng) + 0.4, 0, 1)
        share = np.maximum(share, np.exp(-np.abs(field) * rng.uniform(0.6, 1.5) * thin) * strong)
    share = cv2.resize(share, (width, height), interpolation=cv2.INTER_CUBIC)[..., None]
    milk = cloud(width, height, 5, rng) * 0.06
    return base * (1 + milk) + vein * share * np.float32(rng.uniform(0.3, 0.9))


def _terrazzo(width: int, height: int, rng: Random) -> np.ndarray:
    """Chips of stone in cement, large and small; or strands pressed into a board."""
    made = np.full((height, width, 3), any_colour(rng, 50, 245), np.uint8)
    colours, size = palette(rng, 3) + [any_colour(rng)], 10 ** rng.uniform(0.5, 1.5)
    strands = rng.random() < 0.35
    if strands:
        made[:] = WOODS[int(rng.integers(3))] * rng.uniform(0.6, 1)
        colours = [np.clip(made[0, 0] * rng.uniform(0.75, 1.35), 0, 255) for _ in range(5)]
    count = min(int(width * height / size**2 * rng.uniform(0.1, 0.4)), 900)
    middles = rng.uniform(0, 1, (count, 1, 2)) * (width, height)
    reach = size * rng.gamma(2, 0.35, (count, 1, 1))
    corners = rng.normal(size=(count, 5, 2)) * ((3, 0.5) if strands else (0.7, 0.7)) * reach
    turns = rng.uniform(0, 6.3, count)
    spin = np.array([[np.cos(turns), -np.sin(turns)], [np.sin(turns), np.cos(turns)]])
    points = np.int32(np.einsum("ijn,nkj->nki", spin, corners) + middles)
    for i, chip in enumerate(points):
        cv2.fillConvexPoly(made, cv2.convexHull(chip), ink(colours[i % len(colours)]), cv2.LINE_AA)
    return made


def _granite(width: int, height: int, rng: Random) -> np.ndarray:
    """Grains of a few tones: granite, cork, chipboard, terracotta."""
    base = np.float32(any_colour(rng, 40, 220))
    if rng.random() < 0.4:
        base = np.array([190, 140, 92], np.float32) * np.float32(rng.uniform(0.6, 1.2))
    made = np.empty((height, width, 3), np.float32)
    made[:] = base
    for _ in range(int(rng.integers(2, 4))):
        fine = cv2.GaussianBlur(np.ascontiguousarray(speckle(width, height, rng)[..., 0]), (0, 0),
                                10 ** rng.uniform(-0.1, 0.6))
        fine *= 1 / max(float(fine.std()), 1e-3)
        grains = fine > rng.uniform(0.5, 2)
        made[grains] = np.clip(base * rng.uniform(0.3, 1.5) + rng.normal(size=3) * 12, 0, 255)
    return made


def _slate(width: int, height: int, rng: Random) -> np.ndarray:
    """Split stone, concrete, plaster or bark: light from one side over a rough face."""
    grey = rng.uniform(35, 110) if rng.random() < 0.5 else rng.uniform(110, 230)
    base = np.float32(np.clip(grey + rng.normal(size=3) * 7, 5, 245))
    field = layered(width, height, rng.uniform(3, 20), rng, 5)[..., 0] * 30
    if rng.random() < 0.4:
        field = np.round(field / 6) * 6 + field * 0.15
    lit = cv2.Sobel(field, -1, 1, 0, ksize=3) + cv2.Sobel(field, -1, 0, 1, ksize=3)
    return base * (1 + np.clip(lit * rng.uniform(0.004, 0.024), -0.5, 0.6)[..., None])


FLOORS = {
    "planks": _planks, "parquet": _parquet, "bricks": _bricks, "card tiles": _card_tiles,
    "ornament tiles": _ornament_tiles, "marble": _marble, "terrazzo": _terrazzo,
    "granite": _granite, "slate": _slate,
}
"""Drawers of hard grounds by name: width, height px and `rng` → [height, width, 3] about 0–255."""
