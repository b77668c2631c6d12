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
from swapboard.photo.geometry import intersection_over_union, mean_sides
from swapboard.photo.loupe import PLACES, STEP, flat, moved, strips
from swapboard.photo.networks import Networks
from swapboard.photo.refining import refine
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

ON_RIM, LED, NEAR = 0.4, 0.5, 0.6
"""How often a guess at a card in a sleeve is the sleeve's own edge; how often another is where the
refiner leads from it, for it is there that the loupe begins; and overlap over union with the guess
of what it led to, at least."""

ROUGH, SLANT = 0.0012, 0.012
"""How far corners are off besides, and how much the ends of a side may differ to be asked for."""

UNASKED = 9.0
"""In place of how far off a side is: it is not asked for."""


def any_sides(
    rng: Random, pictures: list, networks: Networks, kinds: dict[str, float] = KINDS
) -> list[tuple]:
    """Strips uint8 [4, 3, 32, 96] and how far off [4] the cards' edges are, of any scene; where
    `networks` lead guesses."""
    scene, rims = any_scene(rng, pictures, any_kind(rng, kinds))
    picture, quads, less = scene.picture, scene.quads, 1.0
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
            if at in rims and rng.random() < ON_RIM:
                guess = roughly(rims[at] * less, rng)
            elif rng.random() < LED:
                guess = led(guess, pyramid, picture.shape[1::-1], networks)
            off = off_by(guess, quads[at])
            if (off < UNASKED).sum() >= 3:
                found.append((np.uint8(np.rint(strips(pyramid, guess) * 255)), off))
    return found


def any_scene(
    rng: Random, pictures: list, kind: str
) -> tuple[Scene, dict[int, np.ndarray]]:
    """A scene of a kind with finer art than others have, its cards in sleeves now and then; and the
    corners [4, 2] px of the sleeves of those cards."""
    usual, stage.FINE = stage.FINE, FINE
    try:
        made = (edges.edged if kind == "edged" else DRAWN_BY[kind])(rng, LONG, pictures)
    finally:
        stage.FINE = usual
    if kind not in SLEEVED and rng.random() < THICK:
        on_boards(made, rng)
    rims = {}
    if rng.random() < SLEEVED.get(kind, USUALLY):
        for at, card in enumerate(made.cards[:9]):
            if rng.random() < EACH:
                rims[at] = sleeved(made.picture, card, rng)
    return told(kind, made, develop(made, rng, gentle=kind == "scan")), rims


def guessed(true: np.ndarray, rng: Random) -> np.ndarray:
    """A card's corners [4, 2] px with sides where a frame, a rim or a shadow might be."""
    off, roll = np.zeros(4), rng.random()
    if roll < EVEN:
        off[:] = rng.choice([-1, 1]) * rng.uniform(*OFF)
    elif roll < EVEN + SINGLY:
        off = (rng.random(4) < 0.5) * rng.choice([-1, 1], 4) * rng.uniform(*OFF, 4)
    return roughly(moved(true, off), rng)


def roughly(quad: np.ndarray, rng: Random) -> np.ndarray:
    """A quadrilateral [4, 2] px as well as the refiner brings one onto an edge."""
    return quad + rng.normal(size=(4, 2)) * ROUGH * max(mean_sides(quad))


def led(
    guess: np.ndarray, pyramid: Pyramid, size: tuple[int, int], networks: Networks
) -> np.ndarray:
    """Where the refiner leads from a guess [4, 2] px in a picture of `size` (w, h) px: onto some
    edge, and not always the card's; the guess itself, where it leads nowhere near."""
    seen = refine(pyramid, size, guess, networks, rounds=2)
    if seen is None or intersection_over_union(seen.quad, guess) < NEAR:
        return guess
    turned = [np.roll(seen.quad, by, axis=0) for by in range(4)]
    return min(turned, key=lambda quad: np.abs(quad - guess).sum())


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
