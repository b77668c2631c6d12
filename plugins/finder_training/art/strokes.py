"""Outlines, cells, hatching and the wobble of a hand, which drawn art is made of."""

import cv2
import numpy as np

from finder_training.noise import Random, cloud, layered


def blob(middle: np.ndarray, size: float, rng: Random, rough: float = 0.25,
         points: int = 28) -> np.ndarray:
    """A closed uneven outline, int32 [points, 2]."""
    turn = np.linspace(0, 2 * np.pi, points, endpoint=False)
    far = np.ones(points)
    for wave in range(2, 7):
        far += rough / wave * rng.normal() * np.sin(wave * turn + rng.uniform(0, 6)) * 1.6
    wide = rng.uniform(0.6, 1.3)
    ring = np.column_stack([np.cos(turn) * wide, np.sin(turn) / wide]) * (far * size)[:, None]
    return (ring + middle).astype(np.int32)


def torn_box(box: tuple, rough: float, rng: Random, step: float = 7.0) -> np.ndarray:
    """A rectangle (left, top, right, bottom) px with uneven sides, int32 [n, 2]."""
    left, top, right, bottom = box
    corners = np.array([[left, top], [right, top], [right, bottom], [left, bottom]], float)
    corners += rng.normal(size=(4, 2)) * rough
    sides = []
    for one, two in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        count = max(int(np.hypot(*(two - one)) / step), 2)
        share = np.linspace(0, 1, count, endpoint=False)[:, None]
        sides.append(one + (two - one) * share + rng.normal(size=(count, 2)) * rough * 0.5)
    return np.vstack(sides).astype(np.int32)


def within(width: int, height: int, outline: np.ndarray, soft: float = 0.0) -> np.ndarray:
    """float32 [height, width]: 1 within the outline."""
    mask = np.zeros((height, width), np.uint8)
    cv2.fillPoly(mask, [outline], 255, cv2.LINE_AA)
    if soft > 0.2:
        mask = cv2.GaussianBlur(mask, (0, 0), soft)
    return mask.astype(np.float32) / 255


def facets(width: int, height: int, count: int, rng: Random) -> list[np.ndarray]:
    """Cells that tile the picture, each about a random point, int32 [n, 2] outlines."""
    plane = cv2.Subdiv2D((0, 0, width, height))
    for at in rng.uniform(0.01, 0.99, (count, 2)) * (width - 1, height - 1):
        plane.insert((float(at[0]), float(at[1])))
    return [np.int32(f) for f in plane.getVoronoiFacetList([])[0]]


def wobbled(card: np.ndarray, rng: Random, far: float, cells: float = 6) -> np.ndarray:
    """The card drawn by an unsteady hand: every part moved by about `far` px."""
    height, width = card.shape[:2]
    move = cloud(width, height, cells, rng, 2) * far
    x = np.arange(width, dtype=np.float32) + move[..., 0]
    y = np.arange(height, dtype=np.float32)[:, None] + move[..., 1]
    return cv2.remap(card, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT_101)


def field(width: int, height: int, cells: float, rng: Random, layers: int = 4) -> np.ndarray:
    """Clouds in octaves without their last axis, float32 [height, width]."""
    return layered(width, height, cells, rng, layers)[..., 0]


def apart(width: int, height: int, box: tuple) -> np.ndarray:
    """px from the sides of a box (left, top, right, bottom), positive within, [height, width]."""
    left, top, right, bottom = box
    x = np.arange(width, dtype=np.float32)
    y = np.arange(height, dtype=np.float32)[:, None]
    return np.minimum(np.minimum(x - left, right - x), np.minimum(y - top, bottom - y))


def hatch(card: np.ndarray, outline: np.ndarray, turn: float, gap: float, pen: tuple,
          thick: int = 1) -> None:
    """Parallel lines within the outline, in place."""
    height, width = card.shape[:2]
    x, y, wide, tall = cv2.boundingRect(outline)
    left, top = max(x, 0), max(y, 0)
    part = card[top : min(y + tall, height), left : min(x + wide, width)]
    if part.size == 0:
        return
    lines = np.zeros(part.shape[:2], np.uint8)
    way = np.array([np.cos(turn), np.sin(turn)])
    middle = np.array([part.shape[1], part.shape[0]]) / 2
    reach = float(np.hypot(*middle)) + 2
    for far in np.arange(-reach, reach, max(gap, 2)):
        at = middle + far * np.array([-way[1], way[0]])
        ends = [tuple(int(v * 8) for v in at + s * reach * way) for s in (-1, 1)]
        cv2.line(lines, *ends, 255, thick, cv2.LINE_AA, 3)
    inside = np.zeros_like(lines)
    cv2.fillPoly(inside, [outline - (left, top)], 255)
    share = (cv2.min(lines, inside).astype(np.float32) / 255)[..., None]
    part[:] = part + (np.array(pen, np.float32) - part) * share


def path(start: np.ndarray, turn: float, long: float, bend: float, rng: Random,
         steps: int = 16) -> np.ndarray:
    """A line that bends as it goes, float64 [steps, 2]."""
    turns = turn + np.cumsum(rng.normal(size=steps) * bend + rng.normal() * bend)
    steps_to = np.column_stack([np.cos(turns), np.sin(turns)]) * long / steps
    return start + np.vstack([np.zeros(2), np.cumsum(steps_to, axis=0)])[:steps]


def drops(card: np.ndarray, count: int, largest: float, colours: list, rng: Random,
          about: np.ndarray | None = None, spread: float = 0.3) -> None:
    """Splashes, many small and few large, anywhere or about a point, in place."""
    height, width = card.shape[:2]
    sizes = np.minimum(rng.lognormal(-1.2, 0.9, count) * largest * 0.4, largest)
    places = rng.uniform(0, 1, (count, 2)) * (width, height)
    if about is not None:
        places = about + rng.normal(size=(count, 2)) * spread * width
    chosen = rng.integers(len(colours), size=count)
    for at, size, which in zip(places, sizes, chosen, strict=True):
        colour = tuple(int(v) for v in colours[which])
        middle = (int(at[0] * 8), int(at[1] * 8))
        cv2.circle(card, middle, max(int(size * 8), 4), colour, -1, cv2.LINE_AA, 3)
