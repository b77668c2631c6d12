"""What cards lie on: tables, cloth, mats, paper, carpets, seen from straight above."""

import cv2
import numpy as np

from finder_training.art.cards import cut_from, scatter, tile, words
from finder_training.noise import Random, any_colour, cloud, ink, layered, speckle
from finder_training.table.cloths import CLOTHS
from finder_training.table.floors import FLOORS
from finder_training.table.papers import PAPERS
from finder_training.table.surfaces import SURFACES


def draw_ground(
    width: int, height: int, rng: Random, kind: str = "any", pictures: list[np.ndarray] = ()
) -> np.ndarray:
    """A ground float32 [height, width, 3] in 0–255; `kind` one of GROUNDS or "any"."""
    if kind == "any":
        kind = str(rng.choice(FAMILIAR if rng.random() < 0.35 else list(GROUNDS)))
    if kind == "picture" and len(pictures) == 0:
        kind = "mottled"
    if kind == "picture":
        made = cut_from(pictures, width, height, rng)
    else:
        made = GROUNDS[kind](width, height, rng)
    made = np.asarray(made, np.float32)
    if rng.random() < 0.7:
        made = made + cloud(width, height, rng.uniform(1.5, 4), rng) * rng.uniform(0, 14)
    return made


def _plain(width: int, height: int, rng: Random) -> np.ndarray:
    base = np.full((height, width, 3), any_colour(rng), np.float32)
    return base + speckle(width, height, rng) * rng.uniform(0, 4)


def _pale(width: int, height: int, rng: Random) -> np.ndarray:
    base = rng.uniform(195, 250) + rng.uniform(-12, 6, 3)
    grain = layered(width, height, 60, rng, 2) * rng.uniform(0, 5)
    return np.full((height, width, 3), base, np.float32) + grain


def _black(width: int, height: int, rng: Random) -> np.ndarray:
    base = np.full((height, width, 3), rng.uniform(3, 45) + rng.uniform(-3, 6, 3), np.float32)
    folds = layered(width, height, rng.uniform(2, 6), rng, 3) * rng.uniform(0, 14)
    return base + folds + speckle(width, height, rng) * rng.uniform(0, 3)


def _mottled(width: int, height: int, rng: Random) -> np.ndarray:
    field = layered(width, height, rng.uniform(5, 50), rng, 4)
    if rng.random() < 0.4:
        field = np.abs(np.sin(field * rng.uniform(2, 8)))
    return any_colour(rng, 30, 230) + field * rng.normal(size=3) * rng.uniform(5, 45)


def _wood(width: int, height: int, rng: Random) -> np.ndarray:
    """Boards with grain along them, of any tone from pale maple to ebony."""
    tones = [[150, 105, 65], [205, 170, 125], [225, 205, 170], [95, 60, 40], [120, 110, 100]]
    tone = np.array(tones[int(rng.integers(5))]) * rng.uniform(0.6, 1.15)
    rings = cloud(width, height, 4, rng)[..., 0] * rng.uniform(0.5, 3)
    rings = rings + np.linspace(0, rng.uniform(10, 120), height, dtype=np.float32)[:, None]
    rough = np.ascontiguousarray(speckle(width, height, rng))
    grain = cv2.blur(rough, (int(rng.integers(15, 60)), 1))
    board = np.sin(rings)[..., None] * rng.uniform(2, 22) + grain[..., None] * rng.uniform(8, 60)
    board = tone * (1 + board / 160)
    if rng.random() < 0.6:
        for at in np.arange(rng.uniform(0, 200), height, rng.uniform(90, 400)):
            thick, dark = int(rng.choice([1, 2, 3, 6])), tone * rng.uniform(0.1, 0.75)
            cv2.line(board, (0, int(at)), (width, int(at)), tuple(map(float, dark)), thick)
    return board


def _cloth(width: int, height: int, rng: Random) -> np.ndarray:
    """Weave with folds."""
    y, x = np.mgrid[:height, :width].astype(np.float32)
    period = rng.uniform(3, 20)
    weave = np.sin(x * 2 * np.pi / period) * np.sin(y * 2 * np.pi / period)
    folds = layered(width, height, rng.uniform(2, 7), rng, 2)
    strong = rng.uniform(2, 25)
    return any_colour(rng) + weave[..., None] * strong + folds * rng.uniform(2, 30)


def _printed(width: int, height: int, rng: Random) -> np.ndarray:
    return tile(width, height, rng).astype(np.float32)


def _checks(width: int, height: int, rng: Random) -> np.ndarray:
    step, base = int(rng.integers(10, 90)), any_colour(rng, 60, 250).astype(np.float32)
    y, x = np.mgrid[:height, :width]
    bands = ((x // step) % 2).astype(np.float32) + ((y // step) % 2 if rng.random() < 0.6 else 0)
    return base + bands[..., None] * rng.uniform(-60, 60, 3).astype(np.float32)


def _mat(width: int, height: int, rng: Random) -> np.ndarray:
    """A cutting mat: a fine grid with bolder lines."""
    base = rng.choice([[30, 95, 75], [40, 60, 110], [50, 50, 55], [200, 120, 140]])
    made = np.full((height, width, 3), base * rng.uniform(0.7, 1.2), np.uint8)
    step, line = int(rng.integers(14, 90)), ink(np.array([215, 220, 190]) * rng.uniform(0.6, 1.1))
    thick = int(rng.integers(1, 3))
    for i, at in enumerate(range(int(rng.integers(0, step)), max(width, height), step)):
        here = thick + (i % 5 == 0)
        cv2.line(made, (at, 0), (at, height), line, here, cv2.LINE_AA)
        cv2.line(made, (0, at), (width, at), line, here, cv2.LINE_AA)
    return made


def _tiles(width: int, height: int, rng: Random) -> np.ndarray:
    wide, tall = int(rng.integers(60, 400)), int(rng.integers(60, 300))
    made = np.full((height, width, 3), any_colour(rng, 40, 230), np.float32)
    made += layered(width, height, 20, rng, 3) * rng.uniform(0, 20)
    grout = tuple(map(float, any_colour(rng, 30, 240)))
    thick = int(rng.integers(1, 9))
    for at in range(int(rng.integers(0, wide)), width, wide):
        cv2.line(made, (at, 0), (at, height), grout, thick)
    for at in range(int(rng.integers(0, tall)), height, tall):
        cv2.line(made, (0, at), (width, at), grout, thick)
    return made


def _carpet(width: int, height: int, rng: Random) -> np.ndarray:
    rough = np.ascontiguousarray(speckle(width, height, rng))
    rough = cv2.GaussianBlur(rough, (0, 0), rng.uniform(0.8, 3))[..., None] * rng.uniform(30, 160)
    base = any_colour(rng, 30, 220).astype(np.float32)
    if rng.random() < 0.4:
        step = int(rng.integers(12, 60))
        bands = rng.uniform(-50, 50, (width // step + 1, 3)).repeat(step, axis=0)[:width]
        base = base + bands[None].astype(np.float32)
    return base + rough


def _newspaper(width: int, height: int, rng: Random) -> np.ndarray:
    """Columns of text, headings, pictures."""
    made = np.full((height, width, 3), rng.uniform(190, 245) + rng.uniform(-10, 2, 3), np.uint8)
    columns = int(rng.integers(2, 6))
    wide, y = width // columns, 0
    while y < height:
        tall = int(rng.integers(60, 260))
        for x in range(0, columns * wide, wide):
            box = made[y : y + tall, x + 6 : x + wide - 6]
            roll = rng.random()
            if box.shape[0] < 30 or roll < 0.1:
                continue
            if roll < 0.22:
                box[:] = any_colour(rng)
                scatter(box, 6, rng, 0.6)
            else:
                size = int(rng.choice([3, 4, 5, 7, 16]))
                words(box, rng, ink(rng.uniform(10, 90, 1).repeat(3)), size)
        y += tall + int(rng.integers(4, 30))
    return made


def _ruled(width: int, height: int, rng: Random) -> np.ndarray:
    made = np.full((height, width, 3), rng.uniform(215, 250) + rng.uniform(-8, 4, 3), np.uint8)
    step, line = int(rng.integers(9, 40)), ink(any_colour(rng, 90, 220))
    for at in range(step, height, step):
        cv2.line(made, (0, at), (width, at), line, 1, cv2.LINE_AA)
    if rng.random() < 0.5:
        for at in range(step, width, step):
            cv2.line(made, (at, 0), (at, height), line, 1, cv2.LINE_AA)
    return made


def _puzzle(width: int, height: int, rng: Random) -> np.ndarray:
    """Coloured shapes all over."""
    made = tile(width, height, rng) if rng.random() < 0.3 else np.full(
        (height, width, 3), any_colour(rng), np.uint8)
    return scatter(made, int(rng.integers(10, 50)), rng, rng.uniform(0.1, 0.4))


def _halves(width: int, height: int, rng: Random) -> np.ndarray:
    """Two grounds that meet along a line: a table's edge, a cloth over it."""
    names = ["plain", "wood", "cloth", "black", "pale", "carpet", "printed", "mottled",
             "linen", "denim", "fur", "planks", "granite", "slate", "crumpled", "gingham", "marble",
             "craft table", "floral", "ruled mat"]
    one = draw_ground(width, height, rng, str(rng.choice(names)))
    other = draw_ground(width, height, rng, str(rng.choice(names)))
    angle, (x, y) = rng.uniform(0, 2 * np.pi), rng.uniform(0.15, 0.85, 2)
    rows, columns = np.mgrid[:height, :width].astype(np.float32)
    far = (columns - x * width) * np.cos(angle) + (rows - y * height) * np.sin(angle)
    share = np.clip(far / rng.uniform(1, 6) + 0.5, 0, 1)[..., None]
    shade = 1 - rng.uniform(0, 0.5) * np.exp(-np.clip(far, 0, None) / 12) * (far > 0)
    return (one * (1 - share) + other * share) * shade[..., None]


FAMILIAR = ("plain", "pale", "black", "mottled", "wood", "cloth", "checks", "mat", "carpet",
            "veneer", "linen", "planks", "draped", "craft table")
"""What tables are mostly made of: "any" asks for these more often."""

GROUNDS = {
    "plain": _plain, "pale": _pale, "black": _black, "mottled": _mottled, "wood": _wood,
    "cloth": _cloth, "printed": _printed, "checks": _checks, "mat": _mat, "tiles": _tiles,
    "carpet": _carpet, "newspaper": _newspaper, "ruled": _ruled, "puzzle": _puzzle,
    "halves": _halves, "picture": _plain, **CLOTHS, **FLOORS, **PAPERS, **SURFACES,
}
