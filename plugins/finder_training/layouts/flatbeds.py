"""Scanners seen closely: lids, dust, hairs, the edge of the glass, cards flush with it."""

import cv2
import numpy as np

from finder_training.layouts.places import put
from finder_training.noise import Random, cloud, speckle
from finder_training.stage import CARD, Look, Stage, curl


def flatbed(rng: Random, long: int, pictures: list) -> Stage:
    """Cards on a scanner's glass: one alone, a strip, a block, flush with an edge, or strewn."""
    ratio = rng.choice([0.707, 0.773, 0.6, 0.85, 1.0], p=[0.35, 0.25, 0.15, 0.15, 0.1])
    width, height = (int(long * ratio), long) if rng.random() < 0.6 else (long, int(long * ratio))
    lid = _lid(width, height, rng)
    scale = long / rng.choice([11.7, 9.0, 7.0, 5.0], p=[0.4, 0.25, 0.2, 0.15])
    onto = np.array([[scale, 0, 0], [0, scale, 0], [0, 0, 1.0]])
    way = np.array([(1, 0), (0, 1), (1, 1), (-1, 1)][int(rng.integers(4))]) + rng.normal(size=2) / 9
    stage = Stage(lid, np.zeros((height, width), np.uint8), onto, way / np.hypot(*way))
    room = np.array([width, height]) / scale
    edge = _glass_edge(stage, rng, scale)
    made = (_alone, _block, _block, _flush, _flush, _strewn)[int(rng.integers(6))]
    look = _pressed(rng, scale)
    for middle, size, turn in made(rng, room, edge):
        put(stage, rng, middle, turn, pictures, size, None, look)
    if not stage.cards:
        put(stage, rng, room / 2, rng.normal() * 0.03, pictures, CARD, None, look)
    if rng.random() < 0.5:
        _dust(stage, rng)
    if rng.random() < 0.2:
        less = rng.uniform(0.3, 0.7)
        small = cv2.resize(stage.picture, None, fx=less, fy=less, interpolation=cv2.INTER_AREA)
        stage.picture = cv2.resize(small, (width, height), interpolation=cv2.INTER_CUBIC)
    return stage


def _lid(width: int, height: int, rng: Random) -> np.ndarray:
    """What lies above the cards: white foam, grey, black, coloured paper, a dim room."""
    tone = rng.choice([rng.uniform(232, 255), rng.uniform(130, 230), rng.uniform(3, 60)],
                      p=[0.45, 0.35, 0.2])
    lid = np.full((height, width, 3), tone + rng.normal(size=3) * rng.choice([1, 6]), np.float32)
    if rng.random() < 0.15:
        lid[:] = rng.uniform(20, 245, 3)
    lid += cloud(width, height, rng.uniform(1, 5), rng) * rng.uniform(0, 14)
    lid += speckle(width, height, rng) * np.float32(rng.uniform(0, 3))
    if rng.random() < 0.35:
        # Near the hinge the lid stands off, and the lamp's light with it.
        fade = np.exp(-np.linspace(0, rng.uniform(4, 40), height, dtype=np.float32))
        lid *= 1 - (fade * rng.uniform(0.1, 0.7))[:, None, None]
        lid = np.ascontiguousarray(np.rot90(lid, 2) if rng.random() < 0.5 else lid)
    return lid


def _glass_edge(stage: Stage, rng: Random, scale: float) -> np.ndarray:
    """[2]: how far, in inches, the glass begins from left and top; drawn where it is seen."""
    edge = np.zeros(2)
    if rng.random() > 0.35:
        return edge
    tone = np.full(3, rng.choice([rng.uniform(5, 60), rng.uniform(90, 200), 250]))
    for axis in range(2):
        if rng.random() < 0.4:
            continue
        edge[axis] = rng.uniform(0.03, 0.4)
        at = int(edge[axis] * scale)
        picture = stage.picture if axis else stage.picture.transpose(1, 0, 2)
        picture[:at] += (tone - picture[:at]) * np.float32(rng.uniform(0.4, 1))
        line = int(rng.integers(1, 4))
        picture[at : at + line] *= np.float32(rng.choice([0.3, 0.7, 1.2]))
    return edge


def _pressed(rng: Random, scale: float) -> Look:
    """Cards flat on glass: a shadow on a side or two, from thin to wide, or none."""
    return Look(
        radius=float(rng.choice([0, 0, 0.125, rng.uniform(0.02, 0.15)])),
        soft=rng.uniform(0.5, 2.5) + (rng.random() < 0.25) * scale * 0.05,
        dark=float(rng.choice([0.0, rng.uniform(0.05, 0.25), rng.uniform(0.2, 0.6)])),
        lift=rng.uniform(0.0, 0.05) * scale,
        lit=float(rng.choice([0, rng.uniform(5, 60)])),
        dim=float(rng.choice([0, rng.uniform(5, 60)])),
        curled=curl(scale, rng) if rng.random() < 0.1 else (),
    )


def _way(rng: Random) -> tuple:
    return CARD if rng.random() < 0.65 else CARD[::-1]


def _alone(rng: Random, room: np.ndarray, edge: np.ndarray) -> list:
    """One card somewhere, straight or not."""
    turn = rng.normal() * rng.choice([0.01, 0.1, 0.7])
    size = _way(rng)
    reach = np.maximum(room / 2 - np.hypot(*size) / 2, 0)
    return [(room / 2 + rng.uniform(-1, 1, 2) * reach, size, turn)]


def _grid(rng: Random, room: np.ndarray, size: tuple, gap: float) -> list[np.ndarray]:
    """Middles from (0, 0) on of as many as there is room for, or fewer; never just two."""
    most = np.maximum((room + gap) // (np.array(size) + gap), 1).astype(int)
    columns, rows = (int(rng.integers(1, n + 1)) for n in np.minimum(most, 6))
    if columns * rows == 2:
        columns, rows = most if most.prod() != 2 else (1, 1)
    return [np.array([x, y]) * (np.array(size) + gap) for y in range(rows) for x in range(columns)]


def _block(rng: Random, room: np.ndarray, edge: np.ndarray) -> list:
    """Edge to edge, in a strip or block that may be turned a little as a whole."""
    size, turn = _way(rng), rng.normal() * rng.choice([0.0, 0.01, 0.04])
    gap = float(rng.choice([0.0, 0.0, rng.uniform(0, 0.03)]))
    places = _grid(rng, room * 0.97, size, gap)[:24]
    middle = (places[0] + places[-1]) / 2
    span = places[-1] - places[0] + size
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    at = room / 2 + rng.uniform(-0.5, 0.5, 2) * np.maximum(room - span, 0) * 0.95
    return [(spin @ (place - middle) + at, size, turn + rng.normal() * 0.001) for place in places]


def _flush(rng: Random, room: np.ndarray, edge: np.ndarray) -> list:
    """Rows pushed against the corner of the glass, at times beyond what is scanned."""
    size = _way(rng)
    gap = float(rng.choice([0.0, 0.02, rng.uniform(0.05, 0.5)]))
    start = edge + np.array(size) / 2
    if rng.random() < 0.45:
        out = np.array(size) * rng.choice([rng.uniform(0.0, 0.03), rng.uniform(0.05, 0.4)])
        start = start - out * rng.choice([[1, 0], [0, 1], [1, 1]])
    loose = rng.choice([0.0, 0.004, 0.02])
    laid = [(start + place + np.abs(rng.normal(size=2)) * loose, size, rng.normal() * loose)
            for place in _grid(rng, room, size, gap)[:24] if rng.random() < 0.93]
    if len(laid) == 2 and gap < 0.05:
        # Two alone, edge to edge, are one card that lies open.
        laid.pop()
    if rng.random() < 0.5:
        # The other corner of the glass.
        laid = [(room - middle, size, turn) for middle, size, turn in laid]
    return laid


def _strewn(rng: Random, room: np.ndarray, edge: np.ndarray) -> list:
    """Put down without care, clear of one another."""
    laid: list = []
    for _ in range(40):
        size, turn = _way(rng), rng.normal() * rng.choice([0.05, 0.3])
        middle = rng.uniform(0.1, 0.9, 2) * room
        apart = all(np.hypot(*(middle - other)) > 3.6 for other, _, _ in laid)
        if apart and len(laid) < 9:
            laid.append((middle, size, turn))
    return laid


def _dust(stage: Stage, rng: Random) -> None:
    """Specks and hairs on the glass, over cards and lid."""
    width, height = stage.size
    drawn = np.zeros((height, width), np.uint8)
    for _ in range(int(rng.integers(3, 60))):
        at = (int(rng.integers(0, width)), int(rng.integers(0, height)))
        cv2.circle(drawn, at, int(rng.choice([0, 0, 1, 2])), int(rng.integers(80, 256)), -1)
    for _ in range(int(rng.choice([0, 1, 3, 6]))):
        turn, path = rng.uniform(0, 6), [rng.uniform(0, 1, 2) * (width, height)]
        bend = rng.normal() * 0.15
        for _ in range(int(rng.integers(5, 25))):
            turn += bend + rng.normal() * 0.1
            path.append(path[-1] + np.array([np.cos(turn), np.sin(turn)]) * 4)
        cv2.polylines(drawn, [np.int32(path)], False, int(rng.integers(80, 256)), 1, cv2.LINE_AA)
    tone = rng.choice([rng.uniform(0, 90), rng.uniform(180, 255)])
    share = drawn.astype(np.float32)[..., None] * np.float32(rng.uniform(0.3, 1) / 255)
    stage.picture += (tone - stage.picture) * share
