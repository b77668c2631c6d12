"""Coloured pencil: waxy strokes in layers, the paper sparkling between them."""

import numpy as np

from ..cartoon import Cartoon, patch, rounding
from ..grain import cloud, paper, tooth
from ..line import along, ribbon, wobble
from ..sheet import blurred, colour, glazed, stamped
from .graphite import turned_noise

Array = np.ndarray
Random = np.random.Generator


def coloured(art: Cartoon, seed: int) -> Array:
    """The design in coloured pencil on white card; the ground stays bare.

    A piece is cleared of what lies behind it, then laid in three layers: light strokes along its
    angle, a second layer across them in its shadows, a burnished rim.
    """
    rng = np.random.default_rng(seed)
    bare = paper(art.size, colour(art.ground), rng, 0.02)
    sheet = bare.copy()
    teeth = tooth(art.size, rng, 2.6)
    for one in art.pieces:
        where, mask = patch(art.size, one.outlines, 14)
        sheet[where] += (bare[where] - sheet[where]) * mask[:, :, None]
        form = rounding(mask) * one.shade * 2.0
        layer(sheet[where], colour(one.tint), mask * np.clip(0.95 + 0.9 * form, 0.12, 2),
              one.angle, teeth[where], rng)
        shadow = np.clip(0.12 + form * 1.3, 0, 1.2) * mask
        layer(sheet[where], colour(one.tint) * 0.72, shadow, one.angle + 58, teeth[where], rng)
        if one.line > 0:
            rim(sheet, one, rng)
    return np.clip(sheet, 0, 1)


def layer(part: Array, tint: Array, amount: Array, angle: float, teeth: Array,
          rng: Random) -> None:
    """One layer of strokes over part of the sheet, in place: more where `amount` is greater."""
    size = (amount.shape[1], amount.shape[0])
    strokes = turned_noise(size, angle, rng)
    press = amount * (0.92 + 0.3 * strokes)
    caught = 1 / (1 + np.exp(-(press * 1.5 - teeth * 1.25) * 6.0)) * np.clip(amount * 6, 0, 1)
    glazed(part, tint, caught * (0.62 + 0.3 * np.clip(amount, 0, 1.4)))


def rim(sheet: Array, one, rng: Random) -> None:
    """A darker line round a piece, pressed harder here than there."""
    size = (sheet.shape[1], sheet.shape[0])
    plate = np.zeros(size[::-1], np.uint8)
    for outline in one.outlines:
        ring = np.vstack([outline, outline[:1]])
        line = wobble(along(ring, 5), 0.7, 12, rng)
        stamped(plate, ribbon(line, one.line * 0.9 * rng.uniform(0.8, 1.2)), 0.9)
    mark = blurred(plate.astype(np.float32) / 255, 0.7)
    pressed = np.clip(0.75 + 0.35 * cloud(size, 70, rng, 2), 0.2, 1.3)
    glazed(sheet, colour(one.tint) * 0.6, mark * pressed * 0.8)
