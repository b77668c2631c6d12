"""Cards that the frame cuts: at its sides and corners, close up, beside whole ones."""

import cv2
import numpy as np

from finder_training.art.cards import draw_card
from finder_training.layouts.places import PLAIN, card_size, finish, put, stage_for, turned
from finder_training.noise import Random
from finder_training.stage import CARD, Stage, corners_of, outside, project
from finder_training.table import clutter

BEYOND = (0.05, 0.75)
"""The share of a cut card that lies outside the frame, least and most."""


def cut(rng: Random, long: int, pictures: list) -> Stage:
    """One to five cards, at least one of which leaves the frame."""
    made = (_at_sides, _at_sides, _close_up, _in_corners, _drawn_near)
    return made[int(rng.integers(len(made)))](rng, long, pictures)


def clear(quad: np.ndarray, taken: list[np.ndarray], most: float = 0.03) -> bool:
    """Whether a quadrilateral px covers at most a share `most` of any of the others."""
    own = quad.astype(np.float32)
    for other in taken:
        shared, _ = cv2.intersectConvexConvex(own, other.astype(np.float32))
        least = min(cv2.contourArea(own), cv2.contourArea(other.astype(np.float32)))
        if shared > most * least:
            return False
    return True


def on_table(stage: Stage, at: np.ndarray) -> np.ndarray:
    """The place [2] in inches that is seen at `at` px."""
    back = np.linalg.inv(stage.onto)
    return cv2.perspectiveTransform(np.float64(at).reshape(1, 1, 2), back)[0, 0]


def pushed_out(stage: Stage, size: tuple, turn: float, start: np.ndarray, way: np.ndarray,
               share: float) -> np.ndarray | None:
    """Where a card [2] inches lies with about `share` of it outside, moved from px `start` along
    `way`; None where that cannot be."""
    low, high = 0.0, 1.5 * max(stage.size)
    for _ in range(14):
        far = (low + high) / 2
        middle = on_table(stage, start + way * far)
        quad = project(stage.onto, corners_of(middle, size, turn))
        low, high = (low, far) if outside(quad, stage.size) > share else (far, high)
    middle = on_table(stage, start + way * low)
    quad = project(stage.onto, corners_of(middle, size, turn))
    return middle if abs(outside(quad, stage.size) - share) < 0.03 else None


def _turn(rng: Random) -> float:
    """Square to the frame, nearly so, or anyhow."""
    square = float(rng.integers(4)) * np.pi / 2
    return square + rng.normal() * rng.choice([0.02, 0.12, 1.0])


def _start(stage: Stage, rng: Random, corner: bool) -> tuple[np.ndarray, np.ndarray]:
    """A point px within the frame and a way out of it: through a side, or through a corner."""
    size = np.array(stage.size, float)
    if corner:
        way = rng.choice([-1.0, 1.0], 2) * size * rng.uniform(0.7, 1.3, 2)
        return size / 2, way / np.hypot(*way)
    way = np.array([[1, 0], [-1, 0], [0, 1], [0, -1]][int(rng.integers(4))], float)
    along = np.abs(way[::-1])
    start = size / 2 + along * rng.uniform(-0.42, 0.42) * size
    return start, way + along * rng.normal() * 0.15


def _lay_cut(stage: Stage, rng: Random, size: tuple, turn: float, corner: bool, share: float,
             pictures: list) -> bool:
    """Whether a card of which `share` is outside found a place and was laid there."""
    start, way = _start(stage, rng, corner)
    middle = pushed_out(stage, size, turn, start, way, share)
    if middle is None:
        return False
    quad = project(stage.onto, corners_of(middle, size, turn))
    if not clear(quad, [card.quad for card in stage.cards]):
        return False
    put(stage, rng, middle, turn, pictures, size)
    return True


def lay_whole(stage: Stage, rng: Random, size: tuple, pictures: list, turn: float) -> bool:
    """Whether a card wholly within the frame and clear of the others was laid."""
    for _ in range(6):
        middle = on_table(stage, rng.uniform(0.05, 0.95, 2) * stage.size)
        quad = project(stage.onto, corners_of(middle, size, turn))
        about = quad + (quad - quad.mean(axis=0)) * rng.uniform(0.02, 0.2)
        if outside(quad, stage.size) < 1e-3 and clear(about, [c.quad for c in stage.cards], 0.0):
            put(stage, rng, middle, turn, pictures, size)
            return True
    return False


def _table(rng: Random, long: int, scale: float, pictures: list) -> Stage:
    ground = str(rng.choice(PLAIN + ("any", "any", "any", "mat", "ruled", "halves")))
    stage = stage_for(rng, long, scale, pictures, ground)
    if rng.random() < 0.2:
        clutter.busy_under(stage, rng, pictures)
    return stage


def _at_sides(rng: Random, long: int, pictures: list) -> Stage:
    """Cards over the frame's sides and corners, and whole ones between them."""
    stage = _table(rng, long, long * 10 ** rng.uniform(-0.95, -0.25) / 3.5, pictures)
    tidy = _turn(rng) if rng.random() < 0.4 else None
    size = card_size(rng)
    outer, whole = int(rng.choice([1, 1, 2, 3, 4])), int(rng.choice([0, 0, 1, 2]))
    for step in range(outer * 3):
        if len(stage.cards) >= outer:
            break
        turn = _turn(rng) if tidy is None else tidy + rng.normal() * 0.04
        share = rng.uniform(*BEYOND) if step % 2 else rng.uniform(BEYOND[0], 0.45)
        _lay_cut(stage, rng, turned(rng, size), turn, rng.random() < 0.3, share, pictures)
    for _ in range(whole if len(stage.cards) else 0):
        turn = _turn(rng) if tidy is None else tidy + rng.normal() * 0.04
        lay_whole(stage, rng, turned(rng, size), pictures, turn)
    if not stage.cards:
        return _close_up(rng, long, pictures)
    return finish(stage, rng)


def _close_up(rng: Random, long: int, pictures: list) -> Stage:
    """One card so near that two or three of its sides, or ends of them, leave the frame."""
    stage = _table(rng, long, long * rng.uniform(0.55, 1.25) / 3.5, pictures)
    size = turned(rng, card_size(rng))
    best = None
    for _ in range(30):
        turn = _turn(rng)
        middle = on_table(stage, rng.uniform(0, 1, 2) * stage.size)
        quad = project(stage.onto, corners_of(middle, size, turn))
        share = outside(quad, stage.size)
        held = ((quad > 4) & (quad < np.array(stage.size) - 4)).all(axis=1).sum()
        if BEYOND[0] < share < BEYOND[1] and held >= 1:
            best = middle, turn
            if held <= int(rng.integers(1, 4)):
                break
    if best is None:
        return _in_corners(rng, long, pictures)
    art = draw_card(int(size[0] * 130), int(size[1] * 130), rng, pictures)
    put(stage, rng, *best, pictures, size, art)
    return finish(stage, rng)


def _in_corners(rng: Random, long: int, pictures: list) -> Stage:
    """A card in each of one to four corners of the frame, often with one in the middle."""
    stage = _table(rng, long, long * rng.uniform(0.12, 0.42) / 3.5, pictures)
    size, tidy = card_size(rng), rng.normal() * 0.1
    wide, tall = stage.size
    if rng.random() < 0.6:
        middle = on_table(stage, np.array([wide, tall]) * rng.uniform(0.4, 0.6, 2))
        put(stage, rng, middle, tidy + rng.normal() * 0.1, pictures, size)
    ways = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * (wide, tall)
    for way in ways[rng.permutation(4)[: int(rng.integers(1, 5))]]:
        turn = tidy + rng.normal() * 0.06 if rng.random() < 0.5 else _turn(rng)
        way = way * rng.uniform(0.8, 1.2, 2)
        share = rng.uniform(BEYOND[0], 0.65)
        middle = pushed_out(stage, size, turn, np.array([wide, tall]) / 2,
                            way / np.hypot(*way), share)
        if middle is None:
            continue
        quad = project(stage.onto, corners_of(middle, size, turn))
        if clear(quad, [card.quad for card in stage.cards]):
            put(stage, rng, middle, turn, pictures, size)
    return finish(stage, rng)


def _drawn_near(rng: Random, long: int, pictures: list) -> Stage:
    """Two rows of cards seen so near that the frame cuts the outer ones."""
    stage = _table(rng, long, long * rng.uniform(0.3, 0.62) / 3.5, pictures)
    size, gap = turned(rng, CARD), rng.choice([0.02, 0.1, 0.4]) * rng.uniform(0.5, 1.5)
    turn, shift = rng.normal() * 0.12, rng.uniform(-0.5, 0.5, 2)
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    for row in range(-1, 2):
        for column in range(-2, 3):
            at = spin @ ((np.array([column, row]) + shift) * (np.array(size) + gap))
            own = turn + rng.normal() * 0.02
            quad = project(stage.onto, corners_of(at, size, own))
            if outside(quad, stage.size) < 0.85 and rng.random() < 0.9:
                put(stage, rng, at, own, pictures, size)
    return finish(stage, rng) if stage.cards else _in_corners(rng, long, pictures)


def nearer(stage: Stage, rng: Random, chance: float = 0.2, most: float = 1.5) -> None:
    """Now and then the camera comes closer, or looks aside, so that what lies outermost is cut.

    For use before anything is laid; heights above the table are not right thereafter.
    """
    if rng.random() > chance:
        return
    wide, tall = stage.size
    zoom = rng.uniform(1.0, most)
    aside = rng.normal(size=2) * 0.16 * (wide, tall)
    middle = np.array([wide, tall]) / 2
    onto = middle + aside - middle * zoom
    stage.onto = np.array([[zoom, 0, onto[0]], [0, zoom, onto[1]], [0, 0, 1]]) @ stage.onto


def about(middle: np.ndarray, size: float) -> np.ndarray:
    """[3, 3]: things on the table `size` times as large, `middle` inches where it was."""
    return np.array([[size, 0, middle[0] * (1 - size)], [0, size, middle[1] * (1 - size)],
                     [0, 0, 1]])


def fitted(stage: Stage, corners: np.ndarray, fill: float) -> None:
    """The camera moved so that points [n, 2] inches fill a share `fill` of the frame."""
    middle = (corners.max(axis=0) + corners.min(axis=0)) / 2
    stage.onto = stage.onto @ np.array([[1, 0, -middle[0]], [0, 1, -middle[1]], [0, 0, 1]])
    for _ in range(3):
        seen = project(stage.onto, corners)
        less = fill / max(2 * np.abs(seen / stage.size - 0.5).max(), 1e-3)
        stage.onto = stage.onto @ about(middle, less)
