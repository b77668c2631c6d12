"""Cloths that cards lie on: prints, weaves, knitting, lace, patchwork, with their folds."""

import cv2
import numpy as np

from finder_training.noise import Random, any_colour, cloud, ink, speckle
from finder_training.table.shapes import leaf_shape, palette


def repeated(cell: np.ndarray, width: int, height: int, rng: Random) -> np.ndarray:
    """A cell over the whole picture, every second column moved as often as not."""
    tall = cell.shape[0]
    if rng.random() < 0.5:
        cell = np.hstack([cell, np.roll(cell, tall // 2, axis=0)])
    cell = np.roll(cell, rng.integers(0, tall, 2), axis=(0, 1))
    times = (height // cell.shape[0] + 1, width // cell.shape[1] + 1, 1)
    return np.tile(cell, times)[:height, :width]


def folds(made: np.ndarray, rng: Random, strong: float = 0.2) -> np.ndarray:
    """The cloth as it falls: soft waves, or the crosses left by an iron; float32."""
    height, width = made.shape[:2]
    light = 1 + cloud(width, height, rng.uniform(1.5, 5), rng) * rng.uniform(0, strong)
    if rng.random() < 0.25:
        for axis in (0, 1):
            at = np.arange(height if axis == 0 else width, dtype=np.float32)
            for middle in rng.uniform(0, len(at), int(rng.integers(1, 3))):
                far = at - middle
                line = np.exp(-np.abs(far) / rng.uniform(2, 9)) * np.sign(far)
                light += (line * rng.uniform(-0.25, 0.25)).reshape((-1, 1, 1) if axis == 0
                                                                   else (1, -1, 1))
    return made * light


def threads(width: int, height: int, rng: Random, long: int = 9) -> np.ndarray:
    """Threads that cross, float32 [height, width, 1], about -1 to 1."""
    rough = np.ascontiguousarray(speckle(width, height, rng)[..., 0])
    return (cv2.blur(rough, (long, 1)) + cv2.blur(rough, (1, long)))[..., None] * long**0.5 / 2


def _flower(cell: np.ndarray, at: tuple, size: float, colours: list, rng: Random) -> None:
    """Petals about an eye, now and then in two rings."""
    petals, turn = int(rng.integers(4, 9)), rng.uniform(0, 360)
    wide = rng.uniform(0.35, 0.8) * np.pi / petals
    for ring, colour in enumerate(colours[: int(rng.integers(1, 3))]):
        reach = size * (1 - 0.4 * ring)
        axes = (max(int(reach * 8), 8), max(int(reach * wide * 16), 8))
        for petal in range(petals):
            way = turn + (petal + ring / 2) * 360 / petals
            x, y = np.cos(np.radians(way)) * reach / 2, np.sin(np.radians(way)) * reach / 2
            middle = (int((at[0] + x) * 16), int((at[1] + y) * 16))
            cv2.ellipse(cell, middle, axes, way, 0, 360, ink(colour), -1, cv2.LINE_AA, 4)
    eye = (int(at[0]), int(at[1]))
    cv2.circle(cell, eye, max(int(size * 0.22), 1), ink(colours[-1]), -1, cv2.LINE_AA)


def _spray(cell: np.ndarray, at: tuple, size: float, colours: list, rng: Random) -> None:
    """A flower with leaves about it, or leaves alone."""
    green = ink(colours[0])
    for _ in range(int(rng.integers(0, 4))):
        shape = leaf_shape(np.array(at), size * rng.uniform(1, 2), size * rng.uniform(0.15, 0.4),
                           rng.uniform(0, 6.3))
        cv2.fillPoly(cell, [shape], green, cv2.LINE_AA, 4)
    if rng.random() < 0.85:
        _flower(cell, at, size, colours[1:], rng)


def _floral(width: int, height: int, rng: Random) -> np.ndarray:
    """Flowers strewn over a cloth, each anew, or as a cell that comes again."""
    colours = palette(rng, 4)
    colours[0] = np.array([60.0, 110, 60]) * rng.uniform(0.5, 1.7)
    base, size = any_colour(rng, 20, 250), 10 ** rng.uniform(0.9, 1.85)
    if rng.random() < 0.5:
        made = np.full((height, width, 3), base, np.uint8)
        for _ in range(min(int(width * height / size**2 * rng.uniform(0.06, 0.2)), 120)):
            at = tuple(rng.uniform(0, 1, 2) * (width, height))
            _spray(made, at, size * rng.uniform(0.5, 1.2), colours, rng)
        return folds(made, rng)
    side = int(size * rng.uniform(4, 9))
    cell = np.full((side, side, 3), base, np.uint8)
    for _ in range(int(rng.integers(2, 9))):
        # Rolled, so that what is drawn in the middle may run over any edge.
        cell = np.roll(cell, rng.integers(0, side, 2), axis=(0, 1))
        _spray(cell, (side / 2, side / 2), size * rng.uniform(0.3, 1), colours, rng)
    return folds(repeated(cell, width, height, rng), rng)


def _bands(length: int, rng: Random, count: int, mirrored: bool) -> np.ndarray:
    """Shares 0–count-1 [length] of a sequence of stripes that comes again."""
    wide = np.maximum(rng.gamma(1.2, 10, count * 2) * rng.choice([0.4, 1, 2]), 1).astype(int)
    one = np.repeat(rng.integers(0, count, count * 2), wide)
    one = np.concatenate([one, one[::-1]]) if mirrored else one
    return np.tile(one, length // len(one) + 1)[:length]


def _tartan(width: int, height: int, rng: Random) -> np.ndarray:
    """Bands both ways that mix where they cross."""
    tones = np.array(palette(rng, 3) + [any_colour(rng), any_colour(rng, 200, 250)], np.float32)
    length = max(width, height)
    bands = tones[_bands(length, rng, 5, True)]
    other = bands if rng.random() < 0.7 else tones[_bands(length, rng, 5, True)]
    warp, weft = bands[None, :width], other[:height, None]
    if rng.random() < 0.5:
        return folds((warp + weft) / 2 + threads(width, height, rng) * 8, rng)
    step = int(rng.integers(2, 6))
    twill = (np.add.outer(np.arange(height), np.arange(width)) // step % 2)[..., None] > 0
    return folds(np.where(twill, warp, weft), rng)


def _gingham(width: int, height: int, rng: Random) -> np.ndarray:
    step, white = int(10 ** rng.uniform(0.8, 1.9)), any_colour(rng, 215, 252)
    colour = any_colour(rng, 10, 200)
    across = np.arange(width) // step % 2
    down = np.arange(height) // step % 2
    share = (across[None, :] + down[:, None]).astype(np.float32)[..., None] / 2
    made = np.float32(white) + np.float32(colour - white) * share
    return folds(made + threads(width, height, rng, 5) * np.float32(rng.uniform(2, 12)), rng)


def _ticking(width: int, height: int, rng: Random) -> np.ndarray:
    """Stripes one way, of many breadths."""
    tones = np.array(palette(rng, 3) + [any_colour(rng, 190, 250)], np.float32)
    row = tones[_bands(width, rng, 4, rng.random() < 0.5)][None]
    return folds(row + threads(width, height, rng) * rng.uniform(2, 14), rng)


def _dots(width: int, height: int, rng: Random) -> np.ndarray:
    side = int(10 ** rng.uniform(0.9, 2))
    cell = np.full((side, side, 3), any_colour(rng), np.uint8)
    colours, size = palette(rng, 2), side * rng.uniform(0.08, 0.4)
    cv2.circle(cell, (side * 8, side * 8), int(size * 16), ink(colours[0]), -1, cv2.LINE_AA, 4)
    if rng.random() < 0.3:
        cv2.circle(cell, (side * 8, side * 8), int(size * 8), ink(colours[1]), -1, cv2.LINE_AA, 4)
    return folds(repeated(cell, width, height, rng), rng)


def _damask(width: int, height: int, rng: Random) -> np.ndarray:
    """Scrolls mirrored both ways, tone in tone or gold on dark."""
    side, base = int(10 ** rng.uniform(1.4, 2.2)), any_colour(rng, 20, 240)
    other = np.clip(base + rng.choice([-1, 1]) * rng.uniform(10, 60), 0, 255)
    other = any_colour(rng) if rng.random() < 0.3 else other
    cell = np.full((side, side, 3), base, np.uint8)
    for _ in range(int(rng.integers(3, 8))):
        turn, at = rng.uniform(0, 6.3), rng.uniform(0, side, 2)
        share = np.linspace(0, 1, 14)
        way = turn + share * rng.uniform(-7, 7)
        path = at + np.cumsum(np.column_stack([np.cos(way), np.sin(way)]), axis=0) * side / 16
        cv2.polylines(cell, [(path * 16).astype(np.int32)], False, ink(other),
                      max(int(side * rng.uniform(0.01, 0.06)), 1), cv2.LINE_AA, 4)
        shape = leaf_shape(path[-1], side * rng.uniform(0.1, 0.4), side * 0.09, way[-1])
        cv2.fillPoly(cell, [shape], ink(other), cv2.LINE_AA, 4)
    cell = np.hstack([cell, cell[:, ::-1]])
    return folds(repeated(np.vstack([cell, cell[::-1]]), width, height, rng), rng)


def _drops(width: int, height: int, rng: Random) -> np.ndarray:
    """Bent drops, one within the other, with dots along them."""
    side, colours = int(10 ** rng.uniform(1.7, 2.3)), palette(rng, 5)
    cell = np.full((side, side, 3), any_colour(rng), np.uint8)
    for _ in range(int(rng.integers(3, 8))):
        cell = np.roll(cell, rng.integers(0, side, 2), axis=(0, 1))
        share, turn = np.linspace(0, 2 * np.pi, 30), rng.uniform(0, 6.3)
        round_ = np.column_stack([np.cos(share), np.sin(share) * np.sin(share / 2) ** 1.5])
        round_[:, 1] += 0.5 * np.clip(round_[:, 0], 0, 1) ** 2
        spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
        size = side * rng.uniform(0.12, 0.3)
        for i, less in enumerate((1, 0.75, 0.45)):
            points = (round_ * size * less) @ spin + side / 2
            cv2.fillPoly(cell, [(points * 16).astype(np.int32)], ink(colours[i]), cv2.LINE_AA, 4)
        for point in (round_[::2] * size * 1.15) @ spin + side / 2:
            cv2.circle(cell, tuple(int(v) for v in point), max(side // 70, 1), ink(colours[4]), -1)
    return folds(repeated(cell, width, height, rng), rng)


def _knit(width: int, height: int, rng: Random) -> np.ndarray:
    """Rows of stitches, plain or in a charted pattern."""
    wide = int(rng.integers(5, 26))
    tall = max(int(wide * rng.uniform(0.7, 1)), 3)
    loop = np.zeros((tall * 2, wide), np.uint8)
    for x, tilt in ((wide * 0.27, 62), (wide * 0.73, 118)):
        for y in (tall * 0.0, tall * 1.0, tall * 2.0):
            axes = (int(tall * 11), int(wide * 3.8))
            cv2.ellipse(loop, (int(x * 16), int(y * 16)), axes, tilt, 0, 360, 255, -1,
                        cv2.LINE_AA, 4)
    loop = cv2.GaussianBlur(loop, (0, 0), wide / 14)[:tall]
    rows, columns = height // tall + 1, width // wide + 1
    tones = np.array(palette(rng, 3), np.float32)
    chart = np.zeros((rows, columns), int)
    if rng.random() < 0.5:
        one = rng.integers(0, 3, (int(rng.integers(2, 9)), int(rng.integers(2, 7))))
        one = np.hstack([one, one[:, ::-1]])
        chart = np.tile(one, (rows // len(one) + 1, columns // one.shape[1] + 1))[:rows, :columns]
    elif rng.random() < 0.5:
        chart[:] = (np.arange(rows) // int(rng.integers(1, 9)) % 3)[:, None]
    light = np.tile(loop, (rows, columns))[:height, :width].astype(np.float32) / 255
    made = tones[chart].repeat(tall, axis=0)[:height].repeat(wide, axis=1)[:, :width]
    light = 0.45 + 0.6 * light[..., None] + speckle(width, height, rng) * rng.uniform(0, 0.08)
    return folds(made * light, rng)


def _squares(width: int, height: int, rng: Random) -> np.ndarray:
    """Squares crocheted or sewn together: rings of colour, or patches with stitched seams."""
    side = int(10 ** rng.uniform(1.6, 2.3))
    made = np.full((height, width, 3), any_colour(rng), np.uint8)
    seam, colours = ink(any_colour(rng)), palette(rng, 6)
    ringed, thick = rng.random() < 0.5, max(side // 14, 1)
    for top in range(-int(rng.integers(0, side)), height, side):
        for left in range(-int(side / 2), width, side):
            box = made[max(top, 0) : top + side, max(left, 0) : left + side]
            box[:] = colours[int(rng.integers(6))]
            for ring in range(1, 5 if ringed else 1):
                inset = ring * side // 10
                points = ((left + inset, top + inset), (left + side - inset, top + side - inset))
                cv2.rectangle(made, *points, ink(colours[int(rng.integers(6))]), -1)
            if not ringed and rng.random() < 0.5:
                cv2.circle(made, (left + side // 2, top + side // 2), side // 4,
                           ink(colours[int(rng.integers(6))]), int(rng.choice([-1, 3])))
            cv2.rectangle(made, (left, top), (left + side, top + side), seam, thick)
    light = 1 + threads(width, height, rng, 7) * rng.uniform(0.05, 0.25)
    return folds(made * light, rng)


def _lace(width: int, height: int, rng: Random) -> np.ndarray:
    """Loops in rings, pale thread over whatever lies under it."""
    side, thread = int(10 ** rng.uniform(1.5, 2.3)), ink(any_colour(rng, 200, 252))
    cell = np.full((side, side, 3), any_colour(rng, 10, 230), np.uint8)
    loops, middle = int(rng.integers(6, 15)), (side * 8, side * 8)
    for ring in range(1, int(rng.integers(3, 6))):
        reach, size = side * 0.11 * ring, side * 0.32 * ring / loops
        cv2.circle(cell, middle, int(reach * 16), thread, max(side // 60, 1), cv2.LINE_AA, 4)
        for way in np.arange(loops) * 2 * np.pi / loops + ring:
            at = (int((side / 2 + np.cos(way) * reach) * 16),
                  int((side / 2 + np.sin(way) * reach) * 16))
            cv2.circle(cell, at, max(int(size * 16), 16), thread, max(side // 50, 1),
                       cv2.LINE_AA, 4)
    return folds(repeated(cell, width, height, rng), rng, 0.2)


def _linen(width: int, height: int, rng: Random) -> np.ndarray:
    base = np.array([1.0, 0.95, 0.86]) * rng.uniform(90, 235)
    base = np.float32(any_colour(rng) if rng.random() < 0.4 else base)
    made = threads(width, height, rng, int(rng.integers(5, 30))) * np.float32(rng.uniform(5, 30))
    return folds(base + made, rng)


def _denim(width: int, height: int, rng: Random) -> np.ndarray:
    """Slanting weave, pale flecks, a sewn seam or two."""
    base = np.array([[45, 65, 105], [95, 120, 155], [30, 32, 42], [140, 125, 100]])
    made = np.full((height, width, 3), base[int(rng.integers(4))] * rng.uniform(0.6, 1.2))
    made = made.astype(np.float32)
    step = rng.uniform(3, 9)
    slant = np.sin(np.add.outer(np.arange(height) * 0.6, np.arange(width)) * 2 * np.pi / step)
    made += slant.astype(np.float32)[..., None] * rng.uniform(4, 14)
    made += threads(width, height, rng, 5) * rng.uniform(8, 22)
    tone = tuple(float(v) for v in rng.choice([[200, 150, 80], [225, 220, 205]]))
    for _ in range(int(rng.choice([0, 1, 2]))):
        x, slope, gap = rng.uniform(0, width), rng.uniform(-60, 60), rng.uniform(6, 14)
        for aside in (0, gap):
            for y in range(0, height, 12):
                at = [(int(x + aside + slope * v / height), v) for v in (y, y + 8)]
                cv2.line(made, *at, tone, 2, cv2.LINE_AA)
    return folds(made, rng)


def _fur(width: int, height: int, rng: Random) -> np.ndarray:
    """Towel, felt, velvet or a woolly throw."""
    rough = np.ascontiguousarray(speckle(width, height, rng)[..., 0])
    long = int(rng.integers(3, 26))
    brush = np.zeros((long, long), np.float32)
    way = rng.uniform(0, np.pi)
    tip = np.array([np.cos(way), np.sin(way)]) * long / 2
    cv2.line(brush, tuple((long / 2 - tip).astype(int)), tuple((long / 2 + tip).astype(int)), 1.0)
    hair = cv2.filter2D(rough, -1, brush / max(brush.sum(), 1)) * long**0.5
    light = 1 + hair[..., None] * np.float32(rng.uniform(0.03, 0.22))
    return folds(np.float32(any_colour(rng, 25, 235)) * light, rng, 0.4)


CLOTHS = {
    "floral": _floral, "tartan": _tartan, "gingham": _gingham, "ticking": _ticking,
    "dots": _dots, "damask": _damask, "drops": _drops, "knit": _knit, "squares": _squares,
    "lace": _lace, "linen": _linen, "denim": _denim, "fur": _fur,
}
"""Drawers of cloths by name: width, height px and `rng` → [height, width, 3] about 0–255."""
