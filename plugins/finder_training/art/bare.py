"""Cards with little on them, which are often taken for no cards at all."""

import cv2
import numpy as np

from finder_training.art.colours import blank, blend, dark_ink, done, one_of, palette, paper, white
from finder_training.art.glued import glued
from finder_training.art.motifs import any_motif, draw
from finder_training.art.penned import written
from finder_training.art.strokes import blob, drops, field, hatch, path, torn_box
from finder_training.noise import Random


def one_small(width: int, height: int, rng: Random) -> np.ndarray:
    """A bare card with one small thing drawn or stuck on: in the middle, a corner, by a side."""
    card = blank(width, height, white(rng) if rng.random() < 0.8 else paper(rng))
    size, roll = width * rng.uniform(0.06, 0.24), rng.random()
    at = np.array([0.5, 0.5]) + rng.normal(size=2) * 0.04 if roll < 0.5 else (
        rng.choice([0.17, 0.83], 2) if roll < 0.8 else rng.uniform(0.2, 0.8, 2))
    at = at * (width, height)
    others = (_scrap, _spot, _word)
    thing = _figure if rng.random() < 0.6 else others[int(rng.integers(3))]
    thing(card, at, size, rng)
    if rng.random() < 0.25:
        written(card, (0.5, rng.choice([0.85, 0.92, 0.1])), width * 0.0011, rng)
    return card


def _figure(card: np.ndarray, at: np.ndarray, size: float, rng: Random) -> None:
    pen = dark_ink(rng) if rng.random() < 0.7 else None
    if rng.random() < 0.25:
        cv2.fillPoly(card, [blob(at, size, rng)], one_of(rng, palette(rng, 2)), cv2.LINE_AA)
    colours = palette(rng, 4) if pen is None or rng.random() < 0.5 else []
    draw(card, any_motif(rng), at, size * 0.9, colours, rng.normal() * 0.2, pen)


def _scrap(card: np.ndarray, at: np.ndarray, size: float, rng: Random) -> None:
    """A small upright rectangle: paper stuck on, or a picture in miniature."""
    half = size * np.array([0.8, rng.choice([0.5, 0.8, 1.1])])
    box = (*(at - half), *(at + half))
    if rng.random() < 0.6:
        glued(card, torn_box(box, rng.uniform(0, 2), rng), rng, 0, rng.uniform(0, 2))
    else:
        ends = [tuple(int(v) for v in box[:2]), tuple(int(v) for v in box[2:])]
        cv2.rectangle(card, *ends, one_of(rng, palette(rng, 1)), -1)
        draw(card, any_motif(rng), at, half.min() * 0.7, palette(rng, 3))


def _spot(card: np.ndarray, at: np.ndarray, size: float, rng: Random) -> None:
    """A blot, a few drops, a scribble."""
    colours = palette(rng, 2)
    if rng.random() < 0.5:
        drops(card, int(rng.integers(1, 15)), size * 0.7, colours, rng, at, 0.06)
        return
    line = path(at, rng.uniform(0, 6.3), size * rng.uniform(2, 8), rng.uniform(0.4, 1.2), rng, 40)
    thick = max(int(size * rng.uniform(0.03, 0.15)), 1)
    points = (line - line.mean(axis=0) + at).astype(np.int32)
    cv2.polylines(card, [points], False, one_of(rng, colours), thick, cv2.LINE_AA)


def _word(card: np.ndarray, at: np.ndarray, size: float, rng: Random) -> None:
    written(card, (0.5, at[1] / card.shape[0]), size * rng.uniform(0.005, 0.02), rng)


def pencilled(width: int, height: int, rng: Random) -> np.ndarray:
    """Faint lines of lead on white, figures and a few shaded spots."""
    base = white(rng)
    card = blank(width, height, base)
    lead = tuple(int(v) for v in base - rng.uniform(14, 70))
    for _ in range(int(rng.integers(1, 6))):
        at = rng.uniform(0.15, 0.85, 2) * (width, height)
        size = width * rng.uniform(0.1, 0.45)
        draw(card, any_motif(rng), at, size, [], rng.normal() * 0.4, lead)
        if rng.random() < 0.4:
            shaded = blob(at, size * 0.6, rng)
            hatch(card, shaded, rng.uniform(0.4, 1.2), width * 0.015 + 2, lead)
    for _ in range(int(rng.integers(0, 8))):
        start = rng.uniform(0, 1, 2) * (width, height)
        line = path(start, rng.uniform(0, 6), width * 0.5, 0.1, rng)
        cv2.polylines(card, [line.astype(np.int32)], False, lead, 1, cv2.LINE_AA)
    return card


def embossed(width: int, height: int, rng: Random) -> np.ndarray:
    """Figures pressed into blank paper: seen by their lit and shaded edges alone."""
    card = np.full((height, width, 3), white(rng) if rng.random() < 0.7 else paper(rng), np.float32)
    mask = np.zeros((height, width), np.uint8)
    for _ in range(int(rng.integers(1, 5))):
        at, size = rng.uniform(0.2, 0.8, 2) * (width, height), width * rng.uniform(0.1, 0.4)
        draw(mask, any_motif(rng), at, size, [[255], [120], [200]], rng.normal() * 0.3)
    if rng.random() < 0.4:
        inset = int(width * rng.uniform(0.04, 0.14)) + 1
        cv2.rectangle(mask, (inset, inset), (width - inset, height - inset), 255, 2)
    relief = cv2.Sobel(cv2.GaussianBlur(mask, (0, 0), rng.uniform(0.8, 2)), cv2.CV_32F, 1, 0)
    relief += cv2.Sobel(mask, cv2.CV_32F, 0, 1) * 0.4
    return done(card + np.clip(relief / 400, -1, 1)[..., None] * rng.uniform(8, 40))


def tinted(width: int, height: int, rng: Random) -> np.ndarray:
    """White with a breath of one colour in a corner, along a side or in the middle."""
    card = np.full((height, width, 3), white(rng), np.float32)
    at = rng.choice([0.0, 0.5, 1.0], 2) * (width, height)
    x, y = np.arange(width, dtype=np.float32), np.arange(height, dtype=np.float32)[:, None]
    far = cv2.magnitude(*np.broadcast_arrays(x - at[0], (y - at[1]) * rng.choice([0.3, 0.7, 1.5])))
    soft = np.clip(1 - far / (width * rng.uniform(0.3, 0.9)), 0, 1)
    soft = soft * (0.7 + 0.5 * field(width, height, 4, rng, 3))
    blend(card, palette(rng, 1)[0], np.clip(soft, 0, 1) * np.float32(rng.uniform(0.15, 0.9)))
    return done(card)


BARE = (one_small, one_small, one_small, one_small, pencilled, embossed, tinted)
"""One small thing on white more often than the rest."""
