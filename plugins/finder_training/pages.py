"""Pocket pages, scans and pictures that are nothing but the card."""

import cv2
import numpy as np

from finder_training import clutter
from finder_training.art import draw_card
from finder_training.noise import Random, cloud, speckle
from finder_training.places import put, stage_for
from finder_training.stage import CARD, Laid, Look, Stage, corners_of, lay, project


def page(rng: Random, long: int, pictures: list) -> Stage:
    """A page of clear pockets, three by three, some of them empty."""
    tall = 3 * 3.62 + 0.5
    scale = long * rng.uniform(0.5, 0.98) / tall
    stage = stage_for(rng, long, scale, pictures, steepest=22)
    narrow = min(1.0, 0.98 * stage.size[0] / (scale * 8.7))
    stage.onto = stage.onto @ np.diag([narrow, narrow, 1])
    turn = rng.normal() * 0.06 + (np.pi / 2 if stage.size[0] > stage.size[1] else 0)
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    _backing(stage, rng, turn, tall)
    pocket = np.array([rng.uniform(2.58, 2.75), rng.uniform(3.56, 3.7)])
    fill, slack = rng.choice([1.0, 0.85, 0.6]), pocket - np.array(CARD)
    for row in range(3):
        for column in range(3):
            at = (np.array([column, row]) - 1) * pocket
            if rng.random() < fill:
                shift = slack * rng.uniform(-0.5, 0.5, 2)
                look = Look(float(rng.choice([0, 0.125])), soft=1.0, dark=rng.uniform(0, 0.35))
                size = CARD if rng.random() < 0.93 else (2.2, 3.1)
                put(stage, rng, spin @ (at + shift), turn + rng.normal() * 0.008, pictures, size,
                    None, look)
            else:
                empty = corners_of(spin @ at, tuple(pocket * rng.uniform(0.95, 1)), turn)
                stage.decoys.append(project(stage.onto, empty))
    _seams(stage, rng, pocket, spin, turn)
    clutter.falloff(stage, rng)
    return stage


def _backing(stage: Stage, rng: Random, turn: float, tall: float) -> None:
    """The page itself: clear, milky, or with a sheet behind it."""
    size = (8.6, tall)
    clear = np.full((8, 8, 3), rng.choice([30, 200, 245]) + rng.uniform(-20, 10), np.uint8)
    opaque = float(rng.choice([rng.uniform(0.03, 0.3), 1.0], p=[0.75, 0.25]))
    quad = project(stage.onto, corners_of(np.zeros(2), size, turn))
    lay(stage, clear, quad, size, Look(opacity=opaque, dark=rng.uniform(0, 0.4)), is_card=False)


def _seams(stage: Stage, rng: Random, pocket: np.ndarray, spin: np.ndarray, turn: float) -> None:
    """Welded lines between pockets, open mouths, gloss and streaks of light."""
    drawn = stage.picture.copy()
    tone = tuple(float(v) for v in np.full(3, rng.choice([40, 150, 235, 255])))
    thick = int(rng.integers(1, 4))
    for i in range(4):
        for axis in (0, 1):
            ends = np.array([[-1.5, -1.5], [-1.5, -1.5]])
            ends[:, axis], ends[1, 1 - axis] = i - 1.5, 1.5
            points = project(stage.onto, (ends * pocket) @ spin.T)
            cv2.line(drawn, *[tuple(int(v) for v in p) for p in points], tone, thick, cv2.LINE_AA)
    stage.picture += (drawn - stage.picture) * np.float32(rng.uniform(0.15, 0.8))
    if rng.random() < 0.5:
        width, height = stage.size
        gloss = np.clip(cloud(width, height, rng.uniform(3, 12), rng) - rng.uniform(0.2, 0.7), 0, 1)
        stage.picture += gloss * rng.uniform(20, 220)
    for card in stage.cards:
        if rng.random() < 0.12:
            clutter.glare(stage, card.quad, rng)


def scan(rng: Random, long: int, pictures: list) -> Stage:
    """Cards on a scanner's glass under its lid: flat, nearly parallel, lid often near white."""
    ratio = rng.choice([0.707, 0.773, 0.72])
    width, height = (int(long * ratio), long) if rng.random() < 0.6 else (long, int(long * ratio))
    tone = rng.choice([rng.uniform(238, 255), rng.uniform(170, 240), rng.uniform(3, 45)],
                      p=[0.65, 0.2, 0.15])
    lid = np.full((height, width, 3), tone + rng.uniform(-3, 2, 3), np.float32)
    lid += cloud(width, height, 2, rng) * rng.uniform(0, 5)
    scale = long / rng.choice([11.7, 8.5, 6.0])
    onto = np.array([[scale, 0, width / 2], [0, scale, height / 2], [0, 0, 1.0]])
    way = np.array([rng.normal() * 0.2, 1.0])
    stage = Stage(lid, np.zeros((height, width), np.uint8), onto, way / np.hypot(*way))
    size = CARD if rng.random() < 0.8 else CARD[::-1]
    gap = float(rng.choice([0.0, 0.1, 0.3, 0.6])) + rng.uniform(0, 0.1)
    count = (np.array([width, height]) / scale // (np.array(size) + gap)).astype(int)
    most, loose = int(rng.integers(1, 13)), rng.choice([0.003, 0.03, 0.1])
    for row in range(count[1]):
        for column in range(count[0]):
            if len(stage.cards) >= most or rng.random() < 0.15:
                continue
            at = np.array([column - (count[0] - 1) / 2, row - (count[1] - 1) / 2])
            at = at * (np.array(size) + gap) + rng.normal(size=2) * min(loose, gap / 2)
            look = Look(radius=float(rng.choice([0, 0.125])), soft=rng.uniform(0.5, 3),
                        dark=rng.uniform(0.0, 0.35), lift=rng.uniform(0, 3))
            put(stage, rng, at, rng.normal() * loose * 0.4, pictures, size, None, look)
    return stage


def cropped(rng: Random, long: int, pictures: list) -> Stage:
    """The card fills the picture to its edges."""
    proportion = rng.uniform(1.385, 1.415) if rng.random() < 0.8 else rng.choice([15 / 7, 1.5, 1.0])
    short = round(long / proportion)
    width, height = (short, long) if rng.random() < 0.6 else (long, short)
    art = draw_card(width // 2, height // 2, rng, pictures)
    if rng.random() < 0.4:
        x, y = int(width * rng.uniform(0.02, 0.08)), int(height * rng.uniform(0.02, 0.08))
        art = cv2.copyMakeBorder(art, y, y, x, x, cv2.BORDER_CONSTANT,
                                 value=tuple(float(v) for v in rng.uniform(200, 255, 3)))
    picture = cv2.resize(art, (width, height), interpolation=cv2.INTER_CUBIC).astype(np.float32)
    picture += speckle(width, height, rng) * rng.uniform(0, 3)
    quad = np.array([[0, 0], [width, 0], [width, height], [0, height]], np.float64)
    owner = np.ones((height, width), np.uint8)
    stage = Stage(picture, owner, np.eye(3), np.array([0.0, 1.0]))
    size = CARD if height > width else CARD[::-1]
    stage.cards.append(Laid(quad, size, float(width * height)))
    if rng.random() < 0.5:
        clutter.falloff(stage, rng)
    return stage
