"""Where cards lie in each kind of photograph."""

import cv2
import numpy as np

from finder_training.art.cards import draw_card
from finder_training.noise import Random
from finder_training.stage import (
    CARD,
    Look,
    Stage,
    any_look,
    camera,
    corners_of,
    in_pixels,
    lay,
    outside,
    project,
)
from finder_training.table import clutter, rooms
from finder_training.table.grounds import draw_ground
from finder_training.table.overlaid import hold, lie_over

PLAIN = (
    "plain", "plain", "plain", "wood", "wood", "pale", "pale", "black", "cloth", "mottled",
    "carpet", "linen", "denim", "veneer", "leather", "draped", "slate", "marble", "granite",
    "metal", "crumpled", "planks", "craft table", "striped light",
)
RATIOS = (0.75, 0.75, 0.5625, 0.667, 1.0)


def stage_for(rng: Random, long: int, scale: float, pictures: list, ground: str = "any",
              steepest: float = 35) -> Stage:
    """An empty table, `long` px on the longer side, at `scale` px an inch in its middle."""
    short = int(long * rng.choice(RATIOS))
    width, height = (long, short) if rng.random() < 0.45 else (short, long)
    onto, focal = camera(width, height, scale, rng, steepest)
    table = draw_ground(width, height, rng, ground, pictures)
    if rng.random() < 0.6:
        table = _seen(table, onto, scale, rng)
    way = rng.normal(size=2)
    return Stage(table, np.zeros((height, width), np.uint8), onto, way / np.hypot(*way),
                 focal=focal)


def _seen(table: np.ndarray, onto: np.ndarray, scale: float, rng: Random) -> np.ndarray:
    """The table as the camera sees it, turned anyhow."""
    height, width = table.shape[:2]
    turn, size = rng.uniform(0, np.pi), scale / rng.uniform(0.7, 1.3)
    spin = np.array([[np.cos(turn), -np.sin(turn), 0], [np.sin(turn), np.cos(turn), 0], [0, 0, 1]])
    flat = np.array([[1, 0, -width / 2], [0, 1, -height / 2], [0, 0, size]])
    return cv2.warpPerspective(table, onto @ spin @ flat, (width, height),
                               flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT_101)


def put(stage: Stage, rng: Random, middle: np.ndarray, turn: float, pictures: list,
        size: tuple = CARD, art: np.ndarray | None = None, look: Look | None = None) -> np.ndarray:
    """A card of `size` inches laid about `middle` inches; answers its corners px.

    Where hardly any of it would be seen nothing is laid.
    """
    quad = project(stage.onto, corners_of(np.asarray(middle), size, turn))
    if outside(quad, stage.size) > 0.97:
        return quad
    if art is None:
        art = draw_card(*in_pixels(size), rng, pictures)
    scale = float(np.sqrt(cv2.contourArea(quad.astype(np.float32)) / (size[0] * size[1])))
    lay(stage, art, quad, size, look or any_look(rng, scale))
    return quad


def finish(stage: Stage, rng: Random, shades: float = 0.45) -> Stage:
    """Light and shade over all that lies there; answers the stage."""
    for card in stage.cards[:9]:
        if rng.random() < 0.12:
            clutter.glare(stage, card.quad, rng)
    clutter.falloff(stage, rng)
    if rng.random() < shades:
        for _ in range(int(rng.integers(1, 3))):
            clutter.shade(stage, rng)
    return stage


def card_size(rng: Random) -> tuple[float, float]:
    """Inches: mostly an artist trading card, now and then a card of another make."""
    if rng.random() < 0.8:
        return CARD
    return (2.25, 3.5) if rng.random() < 0.5 else tuple(np.sort(rng.uniform(2.2, 4, 2)))


def turned(rng: Random, size: tuple) -> tuple:
    """The size as it is, or now and then the other way up."""
    return size if rng.random() < 0.7 else size[::-1]


def single(rng: Random, long: int, pictures: list, ground: str = "", size: tuple | None = None,
           art: np.ndarray | None = None):
    """One card, whole, on a table with little else."""
    size = turned(rng, size or card_size(rng))
    share = 10 ** rng.uniform(*((-0.8, -0.15) if rng.random() < 0.5 else (-0.35, -0.03)))
    scale = long * share / max(size)
    stage = stage_for(rng, long, scale, pictures, ground or str(rng.choice(PLAIN)))
    width, height = stage.size
    scale_down = min(1.0, 0.9 * min(width, height) / (np.hypot(*size) * scale))
    stage.onto = stage.onto @ np.diag([scale_down, scale_down, 1])
    reach = np.maximum(np.array([width, height]) / 2 / (scale * scale_down) - max(size) * 0.6, 0)
    turn = rng.normal() * 0.5 if rng.random() < 0.6 else rng.uniform(-np.pi, np.pi)
    middle = rng.uniform(-1, 1, 2) * reach * 0.8
    if rng.random() < 0.2:
        clutter.sleeve(stage, middle, size, turn, rng)
    if rng.random() < 0.15:
        clutter.litter(stage, rng, int(rng.integers(1, 3)), over_cards=False)
    if rng.random() < 0.1 and size in (CARD, CARD[::-1]):
        clutter.sheet_beneath(stage, rng, middle, turn)
    put(stage, rng, middle, turn, pictures, size, art)
    return finish(stage, rng)


def cluttered(rng: Random, long: int, pictures: list):
    """One or two cards among sheets, pens, coins, fingers, on any ground."""
    scale = long * 10 ** rng.uniform(-0.9, -0.2) / 3.5
    stage = stage_for(rng, long, scale, pictures)
    room = np.array(stage.size) / 2 / scale
    if rng.random() < 0.15:
        clutter.news_under(stage, rng)
    elif rng.random() < 0.6:
        clutter.busy_under(stage, rng, pictures)
    middle = rng.uniform(-1, 1, 2) * np.maximum(room - 1.9, 0.1)
    turn = rng.uniform(-np.pi, np.pi)
    if rng.random() < 0.3:
        size = tuple(rng.uniform(4, 11, 2))
        clutter.lay_under(stage, rng, middle + rng.normal(size=2), size, rng.uniform(-0.5, 0.5))
    elif rng.random() < 0.45:
        clutter.sheet_beneath(stage, rng, middle, turn)
    clutter.litter(stage, rng, int(rng.integers(0, 5)), over_cards=False)
    quad = put(stage, rng, middle, turn, pictures, card_size(rng))
    if rng.random() < 0.3:
        hold(stage, rng, quad) if rng.random() < 0.5 else _hold(stage, quad, rng)
    if rng.random() < 0.25:
        lie_over(stage, rng, quad)
    if rng.random() < 0.3:
        clutter.litter(stage, rng, int(rng.integers(1, 3)), over_cards=True)
    _decoys(stage, rng, 2)
    return finish(stage, rng, 0.5)


def _hold(stage: Stage, quad: np.ndarray, rng: Random) -> None:
    """Fingers over a side or two."""
    long = float(np.sqrt(cv2.contourArea(quad.astype(np.float32))))
    for _ in range(int(rng.integers(1, 4))):
        side, share = int(rng.integers(4)), rng.uniform(0.1, 0.9)
        edge = quad[side] * (1 - share) + quad[(side + 1) % 4] * share
        out = edge - quad.mean(axis=0)
        out = out / (np.hypot(*out) + 1e-6)
        way = out + rng.normal(size=2) * 0.4
        way = way / np.hypot(*way)
        clutter.finger(stage, edge - out * long * rng.uniform(0, 0.2), way,
                       long * rng.uniform(0.12, 0.25), rng)


def nothing(rng: Random, long: int, pictures: list):
    """No card at all: a table, with or without other things, or no table either."""
    stage = stage_for(rng, long, long / rng.uniform(5, 20), pictures)
    if rng.random() < 0.45:
        stage.picture[:], shapes = rooms.draw_view(*stage.size, rng)
        stage.decoys.extend(shapes)
        stage.alike.extend(shapes)
        if rng.random() < 0.7:
            return finish(stage, rng)
    elif rng.random() < 0.25:
        clutter.news_under(stage, rng)
    elif rng.random() < 0.35:
        clutter.full_table(stage, rng)
    elif rng.random() < 0.7:
        clutter.busy_under(stage, rng, pictures)
    clutter.litter(stage, rng, int(rng.integers(0, 6)), over_cards=True)
    _decoys(stage, rng, 4)
    return finish(stage, rng)


def _decoys(stage: Stage, rng: Random, count: int) -> None:
    """Places taken at random, where there is no card, or one only in part."""
    back = np.linalg.inv(stage.onto)
    for _ in range(count):
        at = rng.uniform(0.1, 0.9, (1, 1, 2)) * stage.size
        middle = cv2.perspectiveTransform(at, back)[0, 0]
        size = CARD * np.array(rng.uniform(0.4, 2.5))
        anywhere = corners_of(middle, tuple(size), rng.uniform(-np.pi, np.pi))
        stage.decoys.append(project(stage.onto, anywhere))
