"""Invented photographs of cards, by kind and seed, with what is on them known exactly."""

from dataclasses import dataclass

import cv2
import numpy as np

from finder_training.develop import develop
from finder_training.layouts import faint, folds, frames, groups, pages, places, scans
from finder_training.noise import Random
from finder_training.stage import UNASKED, Stage

KINDS = {
    "single": 2.5, "cluttered": 4, "cut": 3, "low contrast": 3, "several": 4, "grid": 2.5,
    "pile": 1.2, "page": 3.5, "scan": 3, "cropped": 1.7, "folded": 5, "other": 2.2, "none": 1.8,
}
"""Each kind with how often it is trained on."""

WITNESSED = KINDS | {"page": 11, "grid": 4, "scan": 4, "none": 3, "cut": 2, "folded": 3}
"""Likewise for the witness, which is to tell empty pockets from cards, and bare places beside many
of them; what is cut or lies open is no harder for it than what is whole."""

DRAWN_BY = {
    "single": places.single, "cluttered": places.cluttered, "cut": frames.cut,
    "low contrast": faint.low_contrast, "several": groups.several, "grid": groups.grid,
    "pile": groups.pile, "page": pages.page, "scan": scans.scan, "cropped": scans.cropped,
    "folded": folds.folded, "other": groups.other, "none": places.nothing,
}


@dataclass(frozen=True, slots=True)
class Scene:
    """A photograph and its truth.

    `picture` uint8 [h, w, 3] sRGB; `quads` [n, 4, 2] px; `sizes` [n, 2] inches;
    `visible` [n] the share that nothing else hides and the frame holds;
    `cut` [n] whether a corner lies beyond the frame; `owner` uint8 [h, w], the
    card (from 1) that shows at a pixel, UNASKED where nothing tells whether one does;
    `decoys` [m, 4, 2] px are no cards.
    """

    kind: str
    picture: np.ndarray
    quads: np.ndarray
    sizes: np.ndarray
    visible: np.ndarray
    cut: np.ndarray
    owner: np.ndarray
    decoys: np.ndarray


def draw_scene(
    kind: str, seed: int, long: int = 768, pictures: list[np.ndarray] = (), stream: int = 0
) -> Scene:
    """The scene of a kind and seed, `long` px on its longer side.

    `stream` keeps scenes for training apart from those held aside.
    """
    rng = np.random.default_rng([seed, list(KINDS).index(kind), stream])
    stage = DRAWN_BY[kind](rng, long, pictures)
    picture = develop(stage, rng, gentle=kind in ("scan", "cropped"))
    return told(kind, stage, picture)


def any_kind(rng: Random, kinds: dict[str, float] = KINDS) -> str:
    """A kind, as often as `kinds` says."""
    weights = np.array(list(kinds.values()))
    return str(rng.choice(list(kinds), p=weights / weights.sum()))


def told(kind: str, stage: Stage, picture: np.ndarray) -> Scene:
    """The scene that a stage holds, in its picture uint8 [h, w, 3] developed."""
    width, height = stage.size
    quads = np.array([card.quad for card in stage.cards]).reshape(-1, 4, 2)
    decoys = [quad for quad in stage.decoys if not _like_a_card(quad, quads)]
    bare = np.where(stage.over > 0, 0, stage.owner)
    shown = np.bincount(bare.ravel(), minlength=len(quads) + 1)[1 : len(quads) + 1]
    whole = np.array([cv2.contourArea(quad.astype(np.float32)) for quad in quads])
    beyond = (quads < -1).any(axis=(1, 2)) | (quads > (width + 1, height + 1)).any(axis=(1, 2))
    alike = np.zeros_like(stage.owner)
    for quad in filter(_shaped, stage.alike):
        cv2.fillConvexPoly(alike, np.int32(quad * 16), 1, shift=4)
    return Scene(
        kind, picture, quads, np.array([card.size for card in stage.cards]).reshape(-1, 2),
        shown / np.maximum(whole, 1), beyond,
        np.where((alike > 0) & (stage.owner == 0), UNASKED, stage.owner),
        np.array(decoys).reshape(-1, 4, 2),
    )


def _shaped(quad: np.ndarray) -> bool:
    """Whether a quadrilateral [4, 2] px might be a card seen aslant, by its proportion."""
    across, down, *others = np.linalg.norm(np.roll(quad, -1, axis=0) - quad, axis=1)
    across, down = across + others[0], down + others[1]
    return bool(1.15 < max(across, down) / max(min(across, down), 1) < 1.75)


def _like_a_card(quad: np.ndarray, cards: np.ndarray) -> bool:
    """Whether a decoy covers nearly what a card does."""
    area = cv2.contourArea(quad.astype(np.float32))
    for card in cards:
        own = cv2.contourArea(card.astype(np.float32))
        shared, _ = cv2.intersectConvexConvex(quad.astype(np.float32), card.astype(np.float32))
        if shared > 0.5 * (own + area - shared):
            return True
    return False
