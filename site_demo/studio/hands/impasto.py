"""Oil paint laid on thick: thousands of strokes, each a ridge that catches the light."""

import cv2
import numpy as np

from ..cartoon import Cartoon
from ..grain import cloud, weave
from ..sheet import blurred

Array = np.ndarray
Random = np.random.Generator

# (length, width, strokes a card, how closely a stroke keeps to the drawing)
PASSES = ((110, 34, 1000, 0.0), (62, 20, 2600, 0.3), (34, 12, 7000, 0.75), (20, 7, 9000, 0.97))


def painted(art: Cartoon, seed: int, lively: float = 0.055, relief: float = 1.0) -> Array:
    """The design in oils: four passes of the brush, the broad ones first, then lit from the left.

    Strokes follow each piece's angle; `lively` is how far their colours stray.
    """
    rng = np.random.default_rng(seed)
    goal, heading = blurred(art.flat(), 1.2), headings(art, rng)
    detail = np.abs(goal - blurred(goal, 6.0)).max(2)
    sheet = blurred(goal, 14) * 0.82
    height = (weave(art.size, 7.0, rng) * 0.25).astype(np.float32)
    for long, wide, count, keen in PASSES:
        brushes = [bristles(long, wide, rng) for _ in range(12)]
        x = rng.integers(4, art.size[0] - 4, count)
        y = rng.integers(4, art.size[1] - 4, count)
        wanted = rng.random(count) < np.clip(1 - keen + detail[y, x] * 9, 0, 1)
        for px, py in zip(x[wanted], y[wanted], strict=True):
            stray = lively * (1.0 if wide > 12 else 0.55)
            tint = goal[py, px] + rng.normal(0, stray, 3) * 0.5 + rng.normal(0, stray)
            turn = heading[py, px] + rng.normal(0, 9)
            dab(sheet, height, brushes[rng.integers(12)], (px, py), turn, np.clip(tint, 0, 1))
    return lit(sheet, height, relief)


def headings(art: Cartoon, rng: Random) -> Array:
    """The way of the brush at every place, degrees [height, width]."""
    from ..sheet import filled

    field = 14 * cloud(art.size, 260, rng, 3)
    for one in art.pieces:
        mask = filled(art.size, *one.outlines)
        field = np.where(mask > 0.5, one.angle + 7 * (field / 14), field)
    return field.astype(np.float32)


def bristles(long: int, wide: int, rng: Random) -> tuple[Array, Array]:
    """A stroke of the brush lying level: how it covers and how high it stands, [wide, long]."""
    size = (long, wide)
    furrow = cloud((1, wide), 5, rng, 2)[:, :1] + 0.25 * cloud(size, 10, rng, 2, (9, 1))
    x = np.linspace(-1, 1, long)[None, :]
    y = np.linspace(-1, 1, wide)[:, None]
    ragged = 0.92 + 0.10 * cloud((1, wide), 3, rng, 1)[:, :1]
    cover = np.clip((ragged - np.abs(x)) * 9, 0, 1) * np.clip((1 - np.abs(y) ** 3) * 3, 0, 1)
    bank = np.abs(y) ** 4 * 0.5 + np.clip(x - 0.6, 0, 1) * 0.9
    stand = 0.6 + 0.30 * furrow + bank
    return cover.astype(np.float32), stand.astype(np.float32)


def dab(sheet: Array, height: Array, brush, at, degrees: float, tint: Array) -> None:
    """Lay one stroke, in place: its colour and its ridge."""
    cover, stand = brush
    long, wide = cover.shape[1], cover.shape[0]
    side = int(np.hypot(long, wide)) + 2
    turn = cv2.getRotationMatrix2D((long / 2, wide / 2), -degrees, 1)
    turn[:, 2] += (side / 2 - long / 2, side / 2 - wide / 2)
    mask = cv2.warpAffine(cover, turn, (side, side))
    ridge = cv2.warpAffine(stand, turn, (side, side))
    left, top = int(at[0] - side // 2), int(at[1] - side // 2)
    x0, y0 = max(0, left), max(0, top)
    x1, y1 = min(sheet.shape[1], left + side), min(sheet.shape[0], top + side)
    if x1 <= x0 or y1 <= y0:
        return
    mask = mask[y0 - top:y1 - top, x0 - left:x1 - left]
    ridge = ridge[y0 - top:y1 - top, x0 - left:x1 - left]
    part = sheet[y0:y1, x0:x1]
    part += (tint.astype(np.float32) * (0.94 + 0.07 * ridge)[:, :, None] - part) * mask[:, :, None]
    low = height[y0:y1, x0:x1]
    low += (low * 0.35 + ridge - low) * mask


def lit(sheet: Array, height: Array, relief: float) -> Array:
    """The paint under a light from the upper left: ridges bright on one side, dark on the other."""
    soft = blurred(height, 0.8)
    slope = cv2.Sobel(soft, cv2.CV_32F, 1, 0) * 0.7 + cv2.Sobel(soft, cv2.CV_32F, 0, 1)
    light = np.tanh(slope * 0.55) * relief
    gloss = np.clip(light - 0.45, 0, 1)
    return np.clip(sheet * (1 + 0.20 * light)[:, :, None] + 0.16 * gloss[:, :, None], 0, 1)
