"""Cards on thick board: the sides of it that are seen, and the shadow beyond them."""

import cv2
import numpy as np

from finder_training.noise import Random
from finder_training.stage import Laid, Stage


def on_boards(stage: Stage, rng: Random) -> None:
    """Give every card of a stage the thickness of board, drawn where nothing else lies."""
    free = ((stage.owner == 0) & (stage.over == 0)).astype(np.float32)
    way = rng.uniform(0, 2 * np.pi)
    up = np.array([np.cos(way), np.sin(way)]) * 10 ** rng.uniform(-2.2, -1.1)
    tone = rng.uniform(30, 235) + rng.normal(size=3) * 8
    shadow, soft = rng.uniform(0.0, 0.7), rng.uniform(0.003, 0.03)
    for card in stage.cards:
        length = float(np.linalg.norm(np.roll(card.quad, -1, axis=0) - card.quad, axis=1).max())
        fallen = _between(card.quad, up * length * rng.uniform(1, 2.5), free.shape)
        fallen = cv2.GaussianBlur(fallen, (0, 0), 0.3 + soft * length)
        stage.picture *= (1 - shadow * fallen * free)[..., None]
        _sides(stage.picture, card, up * length, tone, free, rng)


def _sides(picture: np.ndarray, card: Laid, up: np.ndarray, tone: np.ndarray, free: np.ndarray,
           rng: Random) -> None:
    """Each side of the board that is turned to the camera, in a light of its own."""
    for start, end in zip(card.quad, np.roll(card.quad, -1, axis=0), strict=True):
        along = end - start
        if along[1] * up[0] - along[0] * up[1] <= 0:
            continue
        face = np.zeros(free.shape, np.uint8)
        corners = np.array([start, end, end + up, start + up])
        cv2.fillConvexPoly(face, np.int32(corners * 16), 255, cv2.LINE_AA, 4)
        light = tone * rng.uniform(0.35, 1.05) + rng.normal(size=(*free.shape, 1)) * 3
        share = face.astype(np.float32) / 255 * free
        picture += (np.float32(light) - picture) * share[..., None]


def _between(quad: np.ndarray, way: np.ndarray, shape: tuple) -> np.ndarray:
    """float32 [h, w]: what a quad [4, 2] px sweeps on its way."""
    drawn = np.zeros(shape, np.uint8)
    hull = cv2.convexHull(np.float32(np.concatenate([quad, quad + way]))).reshape(-1, 2)
    cv2.fillConvexPoly(drawn, np.int32(hull * 16), 255, cv2.LINE_AA, 4)
    return drawn.astype(np.float32) / 255
