"""The clear film over a pocket page: welds, seams, gloss, waves."""

from collections.abc import Callable

import cv2
import numpy as np

from finder_training.noise import Random, cloud
from finder_training.stage import Stage, corners_of, project

FINE = 56
"""px an inch at which film is drawn."""


def draw_film(stage: Stage, rng: Random, at: Callable, places: np.ndarray, pocket: np.ndarray,
              size: np.ndarray, empty: list[int]) -> None:
    """Light on a page of `size` inches whose pockets are about `places` [n, 2], over all on it.

    `at` takes points [n, 2] on the page, from its middle, to places on the table.
    """
    wide, tall = (int(side * FINE) for side in size)
    glow = np.zeros((tall, wide), np.float32)
    boxes = [_box(place, pocket, size) for place in places]
    _welds(glow, boxes, rng)
    if rng.random() < 0.65:
        _gloss(glow, boxes, rng)
    if rng.random() < 0.4:
        _waves(glow, boxes, rng)
    if rng.random() < 0.3:
        glow += np.maximum(cloud(wide, tall, rng.uniform(2, 9), rng)[..., 0] - 0.3, 0) * (
            rng.uniform(20, 130))
    if rng.random() < 0.35:
        for index in empty:
            left, top, right, bottom = boxes[index]
            glow[top:bottom, left:right] += rng.uniform(5, 40)
    own = np.array([[0, 0], [wide, 0], [wide, tall], [0, tall]], np.float32)
    onto = project(stage.onto, at(corners_of(np.zeros(2), tuple(size), 0.0)))
    way = cv2.getPerspectiveTransform(own, onto.astype(np.float32))
    seen = cv2.warpPerspective(glow, way, stage.size, flags=cv2.INTER_LINEAR)[..., None]
    veil = np.float32(rng.uniform(0, 0.1))
    inside = np.zeros(stage.owner.shape, np.uint8)
    cv2.fillConvexPoly(inside, np.int32(onto * 16), 1, shift=4)
    stage.picture += (rng.uniform(170, 250) - stage.picture) * (inside * veil)[..., None]
    # Light is added, shadow takes a share.
    stage.picture += np.maximum(seen, 0)
    stage.picture *= np.maximum(1 + np.minimum(seen, 0) / 160, 0.2)


def _box(place: np.ndarray, pocket: np.ndarray, size: np.ndarray) -> tuple[int, int, int, int]:
    """Left, top, right, bottom of a pocket in px of the film."""
    left, top = (place - pocket / 2 + size / 2) * FINE
    right, bottom = (place + pocket / 2 + size / 2) * FINE
    return max(int(left), 0), max(int(top), 0), int(right), int(bottom)


def _welds(glow: np.ndarray, boxes: list, rng: Random) -> None:
    """Lines about pockets: raised ones have a bright and a dark side, some are stippled."""
    bright, dark = rng.uniform(10, 110), -rng.uniform(10, 90)
    thick, apart = int(rng.integers(1, 4)), int(rng.integers(1, 4))
    style, soft = rng.random(), rng.uniform(0.4, 1.2)
    lines = np.zeros_like(glow)
    for left, top, right, bottom in boxes:
        if style < 0.75:
            cv2.rectangle(lines, (left, top), (right, bottom), dark, thick)
            cv2.rectangle(lines, (left - apart, top - apart), (right - apart, bottom - apart),
                          bright, thick)
        else:
            cv2.rectangle(lines, (left, top), (right, bottom),
                          bright if style < 0.9 else dark, thick + 1)
        # The open mouth: a cut edge that stands off, brighter than the welds.
        bow = int(rng.normal() * 4)
        middle = ((left + right) // 2, top + bow)
        path = np.array([(left, top), middle, (right, top)], np.int32)
        cv2.polylines(lines, [path], False, bright * 1.3, 1, cv2.LINE_AA)
    if rng.random() < 0.35:
        step = int(rng.integers(2, 5))
        lines[::step] *= 0.2
        lines[:, ::step] *= 0.2
    shade = np.zeros_like(glow)
    if rng.random() < 0.5:
        for left, top, right, bottom in boxes:
            cv2.rectangle(shade, (left, top), (right, bottom), -rng.uniform(10, 70), 4)
        shade = cv2.GaussianBlur(shade, (0, 0), rng.uniform(2, 5))
    glow += cv2.GaussianBlur(lines, (0, 0), soft) + shade


def _gloss(glow: np.ndarray, boxes: list, rng: Random) -> None:
    """Bands of light aslant: over the whole page, or in each pocket in its own place."""
    turn = rng.uniform(0.3, 1.3) * rng.choice([-1, 1])
    wide, soft = rng.uniform(0.15, 1.2) * FINE, rng.uniform(1.5, 14)
    strong, alone = rng.uniform(15, 120), rng.random() < 0.6
    for left, top, right, bottom in boxes if alone else [(0, 0, *glow.shape[::-1])]:
        if alone and rng.random() < 0.3:
            continue
        part = glow[top:bottom, left:right]
        x = np.arange(part.shape[1], dtype=np.float32)
        y = np.arange(part.shape[0], dtype=np.float32)[:, None]
        along = x * np.float32(np.cos(turn)) + y * np.float32(np.sin(turn))
        middle = rng.uniform(along.min(), along.max())
        for band in range(int(rng.integers(1, 3))):
            off = np.abs(along - middle - band * wide * 1.7) - wide / (2 + 2 * band)
            part += np.clip(0.5 - off / soft, 0, 1) * strong


def _waves(glow: np.ndarray, boxes: list, rng: Random) -> None:
    """Crumpled film: thin bright curves across pockets."""
    light = np.zeros_like(glow)
    for left, top, right, bottom in boxes:
        for _ in range(int(rng.integers(0, 4))):
            start = rng.uniform((left, top), (right, bottom))
            steps = rng.normal(size=2) * 8 + rng.normal(size=(int(rng.integers(4, 14)), 2)) * 4
            path = np.clip(start + np.cumsum(steps, axis=0), (left, top), (right, bottom))
            cv2.polylines(light, [path.astype(np.int32)], False, rng.uniform(30, 200),
                          int(rng.integers(1, 4)), cv2.LINE_AA)
    glow += cv2.GaussianBlur(light, (0, 0), rng.uniform(0.6, 2.5))
