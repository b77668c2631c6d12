"""What the loupe is shown: cards' sides, as wrong as the refiner may have them and more."""

import cv2
import numpy as np

from finder_training import stage
from finder_training.develop import develop
from finder_training.layouts import edges
from finder_training.noise import Random
from finder_training.scenes import DRAWN_BY, Scene, any_kind, told
from finder_training.table.boards import on_boards
from finder_training.table.sleeves import sleeved
from swapboard.photo.geometry import mean_sides
from swapboard.photo.loupe import PLACES, STEP, flat, moved, strips
from swapboard.photo.warps import Pyramid

LONG = 1200
"""px on a scene's longer side: strips are four times as fine as what the refiner sees."""

FINE = 200
"""px an inch at which its art is drawn: blurred art would give away where a card is."""

KINDS = {
    "single": 4, "cluttered": 4, "low contrast": 4, "several": 4, "grid": 2.5, "page": 9,
    "scan": 3.5, "folded": 4, "other": 2, "edged": 9,
}
"""Each kind of picture with how often it is drawn."""

SLEEVED = {"page": 0.5, "scan": 0.1, "grid": 0.0}
"""How often the cards of a kind are in sleeves; of others, `USUALLY`."""

USUALLY, EACH = 0.4, 0.9
"""And how many of the cards then."""

THICK = 0.2
"""How often cards on a table are mounted on board whose sides are seen."""

CARDS, GUESSES = 3, 3
"""Cards shown of one scene at most, and guesses at each."""

EVEN, SINGLY = 0.35, 0.3
"""How often all sides are off by one margin; and each other one by its own. Else none is."""

OFF = (0.005, 0.075)
"""Of a card's length: by how much, at least and most."""

ROUGH, SLANT = 0.0012, 0.012
"""How far corners are off besides, and how much the ends of a side may differ to be asked for."""

UNASKED = 9.0
"""In place of how far off a side is: it is not asked for."""


def any_sides(rng: Random, pictures: list, kinds: dict[str, float] = KINDS) -> list[tuple]:
    """Strips uint8 [4, 3, 64, 96] and how far off [4] the cards' edges are, of any scene."""
    scene = any_scene(rng, pictures, any_kind(rng, kinds))
    picture, quads = scene.picture, scene.quads
    if rng.random() < 0.5:
        less = rng.uniform(0.5, 1)
        picture = cv2.resize(picture, None, fx=less, fy=less, interpolation=cv2.INTER_AREA)
        quads = quads * less
    whole = [at for at, quad in enumerate(quads) if scene.visible[at] > 0.97 and not scene.cut[at]
             and np.linalg.norm(quad[1] - quad[0]) > 40]
    rng.shuffle(whole)
    pyramid, found = Pyramid(picture), []
    for at in whole[:CARDS]:
        for _ in range(GUESSES):
            guess = guessed(quads[at], rng)
            off = off_by(guess, quads[at])
            if (off < UNASKED).sum() >= 3:
                found.append((np.uint8(np.rint(strips(pyramid, guess) * 255)), off))
    return found


def any_scene(rng: Random, pictures: list, kind: str) -> Scene:
    """A scene of a kind with finer art than others have, its cards in sleeves now and then."""
    usual, stage.FINE = stage.FINE, FINE
    try:
        made = (edges.edged if kind == "edged" else DRAWN_BY[kind])(rng, LONG, pictures)
    finally:
        stage.FINE = usual
    if kind not in SLEEVED and rng.random() < THICK:
        on_boards(made, rng)
    if rng.random() < SLEEVED.get(kind, USUALLY):
        for card in made.cards[:9]:
            if rng.random() < EACH:
                sleeved(made.picture, card, rng)
    return told(kind, made, develop(made, rng, gentle=kind == "scan"))


def guessed(true: np.ndarray, rng: Random) -> np.ndarray:
    """A card's corners [4, 2] px with sides where a frame, a rim or a shadow might be."""
    off, roll = np.zeros(4), rng.random()
    if roll < EVEN:
        off[:] = rng.choice([-1, 1]) * rng.uniform(*OFF)
    elif roll < EVEN + SINGLY:
        off = (rng.random(4) < 0.5) * rng.choice([-1, 1], 4) * rng.uniform(*OFF, 4)
    guess = moved(true, off)
    return guess + rng.normal(size=(4, 2)) * ROUGH * max(mean_sides(true))


def off_by(quad: np.ndarray, true: np.ndarray) -> np.ndarray:
    """How far inwards [4] a quadrilateral's [4, 2] px true sides lie, at their middles, as a share
    of its length; UNASKED where that is too far, or aslant."""
    corners, length = flat(quad)
    back = cv2.getPerspectiveTransform(quad.astype(np.float32), corners.astype(np.float32))
    there = cv2.perspectiveTransform(np.asarray(true, np.float64)[None], back)[0]
    off = np.empty(4)
    for side, (start, end) in enumerate(zip(corners, np.roll(corners, -1, axis=0), strict=True)):
        along = (end - start) / np.linalg.norm(end - start)
        ends = there[[side, (side + 1) % 4]] - start
        run, inwards = ends @ along, ends @ (-along[1], along[0])
        middle = np.linalg.norm(end - start) / 2
        share = (middle - run[0]) / max(run[1] - run[0], 1e-6)
        off[side] = (inwards[0] + np.diff(inwards)[0] * share) / length
        if abs(np.diff(inwards)[0]) > SLANT * length:
            off[side] = UNASKED
    return np.where(np.abs(off) < PLACES[-1] - 1.5 * STEP, off, UNASKED).astype(np.float32)
