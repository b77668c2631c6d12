"""Cards whose own edge is the faintest of several: banded, lined, over a hard shadow, sleeved."""

import cv2
import numpy as np

from finder_training.art.cards import draw_card
from finder_training.art.colours import dark_ink, one_of, palette, paper, white
from finder_training.layouts.frames import clear, on_table
from finder_training.layouts.groups import SIZES
from finder_training.layouts.places import PLAIN, finish, put, stage_for, turned
from finder_training.noise import Random, ink
from finder_training.stage import CARD, Look, Stage, corners_of, in_pixels, outside, project
from finder_training.table import clutter

OPENED = ((5.0, 3.5), (2.5, 7.0))
"""Inches: cards that lie open, across and down."""


def edged(rng: Random, long: int, pictures: list) -> Stage:
    """One to five such cards, of one make as often as not."""
    count = int(rng.choice([1, 1, 1, 2, 3, 5]))
    scale = long * 10 ** rng.uniform(-0.65, -0.1) / 3.5 if count == 1 else long / rng.uniform(8, 15)
    ground = str(rng.choice(PLAIN + ("any",) * 12))
    stage = stage_for(rng, long, scale, pictures, ground, 30)
    square, size, look = rng.random() < 0.4, _size(rng), hard(rng, scale)
    sleeved, made_alike = rng.random() < 0.25, rng.random() < 0.5
    state = int(rng.integers(2**31))
    for _ in range(count * 6):
        turn = rng.normal() * 0.06 if square else rng.uniform(-np.pi, np.pi)
        middle = on_table(stage, rng.uniform(0.1, 0.9, 2) * stage.size)
        way = size if square else turned(rng, size)
        quad = project(stage.onto, corners_of(middle, way, turn))
        if len(stage.cards) >= count or outside(quad, stage.size) > 1e-3:
            continue
        if not clear(quad, [card.quad for card in stage.cards], 0.0):
            continue
        make = np.random.default_rng(state) if made_alike else rng
        x, y = quad.mean(axis=0).astype(int)
        table = stage.picture[y, x].copy()
        if sleeved:
            _sleeve(stage, rng, middle, way, turn)
        art = draw_card(*in_pixels(way), rng, pictures)
        art = with_band(art, make, table)
        put(stage, rng, middle, turn, pictures, way, art, look if made_alike else hard(rng, scale))
    if not stage.cards:
        put(stage, rng, on_table(stage, np.array(stage.size) / 2), rng.normal() * 0.1, pictures)
    return finish(stage, rng, 0.35)


def _size(rng: Random) -> tuple:
    roll = rng.random()
    if roll < 0.7:
        return CARD
    some = OPENED if roll < 0.85 else SIZES
    return some[int(rng.integers(len(some)))]


def hard(rng: Random, scale: float) -> Look:
    """How a card looks that casts a hard, dark shadow, as wide as a tenth of an inch."""
    faint = rng.random() < 0.3
    return Look(
        radius=float(rng.choice([0.0, 0.0, 0.125, rng.uniform(0.02, 0.2)])),
        bow=tuple(rng.normal(size=2) * 0.004 * (rng.random() < 0.3)),
        soft=float(scale * rng.uniform(0.002, 0.02)) + 0.3,
        dark=float(rng.uniform(0.05, 0.25) if faint else rng.uniform(0.25, 0.8)),
        lift=float(scale * rng.uniform(0.01, 0.1)),
        lit=float(rng.uniform(5, 60)) if rng.random() < 0.25 else 0.0,
        dim=float(rng.uniform(5, 60)) if rng.random() < 0.25 else 0.0,
    )


def with_band(card: np.ndarray, rng: Random, table: np.ndarray) -> np.ndarray:
    """The card uint8 [h, w, 3] with a band of one colour along its edge, or lines, or neither.

    `table` [3] is what it lies on: the band is at times hardly another colour.
    """
    height, width = card.shape[:2]
    card, roll, short = card.copy(), rng.random(), min(card.shape[:2])
    if roll < 0.55:
        tones = (dark_ink(rng), dark_ink(rng), palette(rng, 1)[0], white(rng),
                 np.clip(table + rng.normal(size=3) * 18, 0, 255))
        tone = ink(tones[int(rng.integers(len(tones)))])
        wide = max(short * rng.uniform(0.008, 0.07), 1) * (
            rng.uniform(0.6, 1.5, 4) if rng.random() < 0.25 else np.ones(4))
        left, top, right, low = np.maximum(wide, 1).astype(int)
        inner = card[top : height - low, left : width - right].copy()
        card[:] = tone
        card[top : height - low, left : width - right] = inner
    if roll > 0.45 and roll < 0.85:
        _lines(card, rng, short)
    return card


def _lines(card: np.ndarray, rng: Random, short: int) -> None:
    """One line or two along the edge, whole or of stitches, near it."""
    height, width = card.shape[:2]
    tone = dark_ink(rng) if rng.random() < 0.6 else ink(one_of(rng, [*palette(rng, 2), paper(rng)]))
    inset = short * rng.uniform(0.008, 0.07)
    stitched, thick = rng.random() < 0.3, max(int(short * rng.uniform(0.004, 0.018)), 1)
    for _ in range(int(rng.choice([1, 1, 2]))):
        at = int(inset + thick / 2)
        ends = np.array([[at, at], [width - at, at], [width - at, height - at], [at, height - at]])
        if stitched:
            for one, two in zip(ends, np.roll(ends, -1, axis=0), strict=True):
                count = max(int(np.hypot(*(two - one)) / (short * 0.05)), 2)
                shares = np.linspace(0, 1, 2 * count)[:, None]
                points = np.int32(one + (two - one) * shares).reshape(-1, 2, 2)
                cv2.polylines(card, list(points), False, tone, thick, cv2.LINE_AA)
        else:
            cv2.polylines(card, [np.int32(ends)], True, tone, thick, cv2.LINE_AA)
        inset += thick + short * rng.uniform(0.01, 0.03)


def _sleeve(stage: Stage, rng: Random, middle: np.ndarray, size: tuple, turn: float) -> None:
    """A clear sleeve little larger than the card, at times with a rim as bright as can be."""
    if rng.random() < 0.4:
        clutter.sleeve(stage, middle, size, turn, rng)
        return
    more = rng.uniform(0.04, 0.3, 2)
    whole = tuple(np.array(size) + more)
    quad = project(stage.onto, corners_of(middle + more * rng.uniform(-0.45, 0.45, 2), whole, turn))
    drawn = stage.picture.copy()
    tone = ink(np.clip(stage.picture.mean(axis=(0, 1)) + rng.uniform(20, 140), 0, 255))
    thick = int(rng.choice([1, 1, 2]))
    cv2.polylines(drawn, [np.int32(quad * 16)], True, tone, thick, cv2.LINE_AA, 4)
    stage.picture += (drawn - stage.picture) * np.float32(rng.uniform(0.3, 1.0))
    stage.decoys.append(quad)
