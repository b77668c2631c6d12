"""Light that falls on all there is: leaves' and blinds' shadows, lamps, colours, the phone."""

import cv2
import numpy as np

from finder_training.noise import Random
from finder_training.stage import Stage
from finder_training.table.shapes import leaf_shape


def _darken(stage: Stage, mask: np.ndarray, rng: Random, soft: float) -> None:
    """Multiply by a shadow, cooler than the light about it; `mask` uint8, 255 where it is dark."""
    wide = 1 + 2 * int(soft)
    mask = cv2.blur(cv2.blur(mask, (wide, wide)), (wide, wide))
    strong = rng.uniform(0.15, 0.65) * np.array([1, 0.97, 1 - rng.uniform(0, 0.25)])
    stage.picture *= 1 - mask[..., None] * np.float32(strong / 255)


def dapple(stage: Stage, rng: Random) -> None:
    """The shadow of twigs and leaves, sharper or softer with their distance."""
    width, height = stage.size
    mask, size = np.zeros((height, width), np.uint8), max(width, height)
    long = size * 10 ** rng.uniform(-1.5, -0.7)
    for _ in range(int(rng.integers(1, 5))):
        at, way = rng.uniform(-0.1, 1.1, 2) * (width, height), rng.uniform(0, 6.3)
        for _ in range(int(rng.integers(6, 18))):
            way += rng.normal() * 0.2
            after = at + np.array([np.cos(way), np.sin(way)]) * long * 0.5
            cv2.line(mask, tuple(at.astype(int)), tuple(after.astype(int)), 255,
                     max(int(long / 14), 1))
            leaf = leaf_shape(after, long * rng.uniform(0.6, 1.2), long * rng.uniform(0.1, 0.3),
                              way + rng.choice([-1, 1]) * rng.uniform(0.4, 1.3))
            cv2.fillPoly(mask, [leaf], 255, cv2.LINE_AA, 4)
            at = after
    _darken(stage, mask, rng, 10 ** rng.uniform(0, 1))


def blinds(stage: Stage, rng: Random) -> None:
    """The sun between the slats of a blind, the bars of a window or the posts of a rail."""
    width, height = stage.size
    mask, reach = np.zeros((height, width), np.uint8), float(np.hypot(width, height))
    way = rng.uniform(0, np.pi)
    along = np.array([np.cos(way), np.sin(way)])
    across, step = np.array([-along[1], along[0]]), reach * 10 ** rng.uniform(-1.7, -0.6)
    dark, fan = step * rng.uniform(0.25, 0.65), rng.normal() * 0.1
    for k in np.arange(-reach / 2, reach / 2, step):
        middle = np.array([width, height]) / 2 + across * k
        lean = along + across * fan * k / reach
        ends = [middle - lean * reach, middle + lean * reach]
        points = np.array([ends[0], ends[1], ends[1] + across * dark, ends[0] + across * dark])
        cv2.fillConvexPoly(mask, points.astype(np.int32), 255)
    if rng.random() < 0.4:
        start = int(rng.uniform(-0.3, 0.8) * width)
        mask[:, max(start, 0) : max(start + int(step * 0.6), 0)] = 255
    _darken(stage, mask, rng, 10 ** rng.uniform(0, 0.9))


def onlooker(stage: Stage, rng: Random) -> None:
    """The shadow of a head, of hands, and of the phone between them."""
    width, height = stage.size
    mask, size = np.zeros((height, width), np.uint8), max(width, height)
    at, turn = rng.uniform(0.2, 0.8, 2) * (width, height), rng.uniform(-0.5, 0.5)
    spin = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    half = np.array([0.5, 0.25] if rng.random() < 0.6 else [0.2, 0.4]) * size
    half = half * rng.uniform(0.3, 0.8)
    phone = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * half @ spin + at
    cv2.fillConvexPoly(mask, phone.astype(np.int32), 255)
    for side in (-1, 1):
        hand = np.array([side, 0.2]) * half @ spin + at
        elbow = hand + np.array([side * 0.5, 1.5]) * size @ spin
        cv2.line(mask, tuple(hand.astype(int)), tuple(elbow.astype(int)), 255,
                 max(int(size * 0.09), 1))
        cv2.circle(mask, tuple(hand.astype(int)), int(size * 0.075), 255, -1)
    if rng.random() < 0.5:
        head = at + np.array([0, size * 0.6]) @ spin
        cv2.circle(mask, tuple(head.astype(int)), int(size * rng.uniform(0.15, 0.3)), 255, -1)
    _darken(stage, mask, rng, size * 10 ** rng.uniform(-2.4, -1.4))


def lamps(stage: Stage, rng: Random) -> None:
    """One or two lamps near by, each of its colour, or a torch in the dark."""
    width, height = stage.size
    x = np.arange(width, dtype=np.float32)
    y = np.arange(height, dtype=np.float32)[:, None]
    tints = np.array([[1.15, 1.0, 0.72], [0.85, 1.0, 1.2], [1, 1, 1], [1.2, 0.75, 0.95],
                      [0.7, 1.1, 1.0], [1.25, 0.9, 0.6]], np.float32)
    dark = np.float32(rng.uniform(0.35, 0.8))
    light = np.full((height, width, 3), dark, np.float32)
    for _ in range(int(rng.integers(1, 3))):
        at = rng.uniform(-0.2, 1.2, 2) * (width, height)
        reach = max(width, height) * rng.uniform(0.25, 0.8)
        far = ((x - np.float32(at[0])) ** 2 + (y - np.float32(at[1])) ** 2) / np.float32(reach**2)
        spot = (1.2 - dark) / (1 + far) ** 2
        light += spot[..., None] * tints[int(rng.integers(6))] * np.float32(rng.uniform(0.6, 1.1))
    stage.picture *= light


def tinted(stage: Stage, rng: Random) -> None:
    """Strongly coloured light: candles, neon, a screen, the last of the sun."""
    tint = np.clip(1 + rng.normal(size=3) * 0.28, 0.35, 1.5)
    stage.picture *= np.float32(tint / tint.mean())


def vignette(stage: Stage, rng: Random) -> None:
    """Corners that fall into the dark."""
    width, height = stage.size
    x = np.linspace(-1, 1, width, dtype=np.float32) ** 2
    y = np.linspace(-1, 1, height, dtype=np.float32)[:, None] ** 2
    stage.picture *= 1 / (1 + (x + y) * np.float32(rng.uniform(0.2, 1.3)))[..., None]


LIGHTS = (dapple, dapple, blinds, blinds, onlooker, lamps, lamps, tinted, vignette)
"""As often as each is chosen."""


def any_light(stage: Stage, rng: Random) -> None:
    """One of LIGHTS on the whole stage; where it is dark already, only its colour changes."""
    if stage.picture[::16, ::16].mean() < 60:
        tinted(stage, rng)
        return
    LIGHTS[int(rng.integers(len(LIGHTS)))](stage, rng)
