"""Scans, and pictures that are nothing but the card."""

import cv2
import numpy as np

from finder_training.art.cards import draw_card
from finder_training.layouts.flatbeds import flatbed
from finder_training.layouts.places import put
from finder_training.noise import Random, cloud, speckle
from finder_training.stage import CARD, Look, Stage, corners_of, curl, lay, project
from finder_training.table import clutter
from finder_training.table.grounds import draw_ground


def scan(rng: Random, long: int, pictures: list) -> Stage:
    """Cards on a scanner's glass under its lid: flat, nearly parallel, lid often near white."""
    return (_rows if rng.random() < 0.5 else flatbed)(rng, long, pictures)


def _rows(rng: Random, long: int, pictures: list) -> Stage:
    """Cards in rows and columns under a bare lid."""
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
    touching = rng.random() < 0.35
    gap = 0.0 if touching else float(rng.choice([0.0, 0.1, 0.3, 0.6])) + rng.uniform(0, 0.1)
    count = (np.array([width, height]) / scale // (np.array(size) + gap)).astype(int)
    most, loose = int(rng.integers(1, 13)), rng.choice([0.003, 0.03, 0.1])
    # Two alone, edge to edge, are one card that lies open.
    most = 3 if touching and most == 2 else most
    for row in range(count[1]):
        for column in range(count[0]):
            at = np.array([column - (count[0] - 1) / 2, row - (count[1] - 1) / 2])
            about = 0.006 if touching else min(loose, gap / 2)
            at = at * (np.array(size) + gap) + rng.normal(size=2) * about
            if len(stage.cards) >= most or rng.random() < 0.15:
                # The bare lid between cards has the sides of its neighbours.
                stage.decoys.append(project(stage.onto, corners_of(at, size, 0.0)))
                continue
            look = Look(radius=float(rng.choice([0, 0.125])), soft=rng.uniform(0.5, 3),
                        dark=rng.uniform(0.0, 0.35), lift=rng.uniform(0, 3))
            put(stage, rng, at, rng.normal() * loose * 0.4, pictures, size, None, look)
    return stage


def cropped(rng: Random, long: int, pictures: list) -> Stage:
    """The card fills the picture to its edges, or to a sliver of the table short of them."""
    return (_filled if rng.random() < 0.55 else _by_hand)(rng, long, pictures)


def _filled(rng: Random, long: int, pictures: list) -> Stage:
    """Sides of card and picture parallel but for a trace."""
    proportion = rng.uniform(1.34, 1.46) if rng.random() < 0.8 else rng.choice([15 / 7, 1.5, 1.0])
    short = round(long / proportion)
    width, height = (short, long) if rng.random() < 0.6 else (long, short)
    art = draw_card(width // 2, height // 2, rng, pictures)
    if rng.random() < 0.4:
        x, y = int(width * rng.uniform(0.02, 0.08)), int(height * rng.uniform(0.02, 0.08))
        art = cv2.copyMakeBorder(art, y, y, x, x, cv2.BORDER_CONSTANT,
                                 value=tuple(float(v) for v in rng.uniform(200, 255, 3)))
    table = draw_ground(width, height, rng, "any", pictures)
    way = rng.normal(size=2)
    stage = Stage(table, np.zeros((height, width), np.uint8), np.eye(3), way / np.hypot(*way))
    quad = np.array([[0, 0], [width, 0], [width, height], [0, height]], np.float64)
    if rng.random() < 0.65:
        inwards = np.array([[1, 1], [-1, 1], [-1, -1], [1, -1]]) * (width, height)
        quad += inwards * _slivers(rng)
    size = CARD if height > width else CARD[::-1]
    look = Look(radius=float(rng.choice([0.0, 0.0, 0.125, rng.uniform(0.02, 0.2)])),
                soft=long / 350 * rng.uniform(0.2, 2), dark=rng.uniform(0, 0.5))
    lay(stage, art, quad, size, look)
    stage.picture += speckle(width, height, rng) * rng.uniform(0, 3)
    if rng.random() < 0.5:
        clutter.falloff(stage, rng)
    return stage


def _slivers(rng: Random) -> np.ndarray:
    """How much of the table is left at each corner, as shares [4, 2] of the picture's sides.

    Of each side nothing, a little, or less than nothing: cut within the card.
    """
    left, right, top, bottom = (
        rng.choice([0.0, rng.uniform(-0.012, 0), rng.uniform(0, 0.025), rng.uniform(0, 0.025)])
        for _ in range(4))
    corners = np.array([[left, top], [right, top], [right, bottom], [left, bottom]])
    return corners + rng.normal(size=(4, 2)) * 0.003 * (corners != 0)


def _by_hand(rng: Random, long: int, pictures: list) -> Stage:
    """Cut out of a photograph with a finger: askew, in perspective, a wedge of the table here."""
    proportion = rng.uniform(1.34, 1.46) if rng.random() < 0.9 else rng.uniform(1.2, 1.6)
    short = round(long / proportion)
    width, height = (short, long) if rng.random() < 0.7 else (long, short)
    kinds = ["any", "wood", "black", "pale", "plain", "cloth", "mat", "carpet"]
    table = draw_ground(width, height, rng, str(rng.choice(kinds)), pictures)
    way = rng.normal(size=2)
    stage = Stage(table, np.zeros((height, width), np.uint8), np.eye(3), way / np.hypot(*way))
    box = np.array([[0, 0], [1, 0], [1, 1], [0, 1]]) * (width, height)
    left, right, top, bottom = (rng.choice([0.0, rng.uniform(-0.02, 0), rng.uniform(0, 0.035)],
                                           p=[0.2, 0.25, 0.55]) for _ in range(4))
    quad = box + np.array([[left, top], [-right, top], [-right, -bottom], [left, -bottom]]) * (
        width, height)
    angle, middle = rng.normal() * 0.008, np.array([width, height]) / 2
    spin = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    quad = (quad - middle) @ spin.T + middle + rng.normal(size=(4, 2)) * long * 0.005
    art = draw_card(width // 2, height // 2, rng, pictures)
    look = Look(radius=float(rng.choice([0.0, 0.125, rng.uniform(0.03, 0.22)])),
                bow=tuple(rng.normal(size=2) * 0.003), soft=long / 200 * rng.uniform(0.3, 2),
                dark=rng.uniform(0.1, 0.6), lift=long / 150 * rng.uniform(0, 1.5),
                lit=float(rng.choice([0, rng.uniform(5, 80)])),
                curled=curl(long / 3.5, rng) if rng.random() < 0.1 else ())
    lay(stage, art, quad, CARD if height > width else CARD[::-1], look)
    if rng.random() < 0.2:
        clutter.glare(stage, quad, rng)
    clutter.falloff(stage, rng)
    if rng.random() < 0.3:
        soft = rng.uniform(0.5, 2.5)
        stage.picture = cv2.GaussianBlur(stage.picture, (0, 0), soft)
    return stage
