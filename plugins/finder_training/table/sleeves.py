"""Clear sleeves and stiff holders, laid over the cards in them once those lie there."""

import cv2
import numpy as np

from finder_training.noise import Random
from finder_training.stage import Laid

FINE = 200
"""px an inch at which a sleeve is drawn, before it is seen as small as its card."""

SIDES = 4
"""Left, top, right and bottom, in that order."""


def sleeved(picture: np.ndarray, card: Laid, rng: Random) -> np.ndarray:
    """Lay a sleeve over a card of a picture float32 [h, w, 3], in place: film paler or darker than
    the table, edges that shine or are dark, and now and then its shadow and a band of light.

    Answers the corners [4, 2] px of the sleeve, in the order of the card's.
    """
    margins = _margins(rng)
    size = np.array(card.size) + margins[:2] + margins[2:]
    film = _Film(*(size * FINE).astype(int), rng)
    roll = rng.random()
    if roll < 0.5:
        _rimmed(film, rng)
    elif roll < 0.9:
        _welded(film, margins, rng)
    if rng.random() < 0.35:
        film.glint(rng)
    if rng.random() < 0.4:
        film.rounded(rng.uniform(0.03, 0.2))
    inner = np.array([[0, 0], [card.size[0], 0], card.size, [0, card.size[1]]]) + margins[:2]
    onto = cv2.getPerspectiveTransform(inner.astype(np.float32), card.quad.astype(np.float32))
    whole = np.array([[0, 0], [size[0], 0], size, [0, size[1]]])
    rim = cv2.perspectiveTransform(whole[None], onto)[0]
    if rng.random() < 0.4:
        _shaded(picture, rim, card, rng)
    _laid_over(picture, film, inner * FINE, card, rng)
    return rim


def _margins(rng: Random) -> np.ndarray:
    """Inches [4] by which it is wider than its card on each side; the card may have slid in it,
    and one end may be longer."""
    wide = rng.uniform(0.01, 0.2) if rng.random() < 0.75 else rng.uniform(0.1, 0.3)
    margins = wide * np.ones(SIDES)
    if rng.random() < 0.6:
        slid = rng.uniform(-0.9, 0.9, 2) * wide
        margins += np.concatenate([slid, -slid])
    if rng.random() < 0.3:
        margins[int(rng.integers(SIDES))] += rng.uniform(0, 0.25)
    return np.maximum(margins, 0.004)


class _Film:
    """How opaque the film is [h, w] and how bright there, in grey levels."""

    def __init__(self, wide: int, tall: int, rng: Random) -> None:
        opaque = rng.uniform(0, 0.3 if rng.random() < 0.7 else 0.55) * (rng.random() < 0.85)
        tone = rng.uniform(150, 255) if rng.random() < 0.7 else rng.uniform(0, 150)
        self.opaque = np.full((tall, wide), opaque, np.float32)
        self.bright = np.full((tall, wide), tone, np.float32)

    def weld(self, inset: float, wide: float, opaque: float, bright: float, sides: np.ndarray,
             rng: Random, patchy: float = 0.9) -> None:
        """A band of inches `wide` along `sides`, `patchy` along its way by up to so much."""
        start, thick = int(inset * FINE), max(int(wide * FINE), 1)
        band = np.zeros_like(self.opaque)
        for side in np.flatnonzero(sides):
            lying = np.rot90(band, side)
            lying[:, start : start + thick] = 1
        rough = rng.uniform(0, 1, (int(rng.integers(2, 12)),) * 2).astype(np.float32)
        rough = cv2.resize(rough, band.shape[::-1], interpolation=cv2.INTER_CUBIC)
        band *= opaque * np.clip(1 - rng.uniform(0, patchy) * rough, 0, 1)
        self.bright[band > 0.02] = bright
        np.maximum(self.opaque, band, out=self.opaque)

    def rounded(self, radius: float) -> None:
        """Nothing of it beyond corners of so many inches."""
        tall, wide = self.opaque.shape
        x = np.abs(np.arange(wide) + 0.5 - wide / 2) - wide / 2 + radius * FINE
        y = np.abs(np.arange(tall) + 0.5 - tall / 2) - tall / 2 + radius * FINE
        away = np.hypot(np.maximum(x, 0), np.maximum(y, 0)[:, None])
        self.opaque[away > radius * FINE] = 0

    def glint(self, rng: Random) -> None:
        """A band of light straight across it."""
        tall, wide = self.opaque.shape
        turn = rng.uniform(0, np.pi)
        x, y = np.arange(wide, dtype=np.float32), np.arange(tall, dtype=np.float32)[:, None]
        along = (x * np.cos(turn) + y * np.sin(turn)) / FINE
        at, reach = rng.uniform(along.min(), along.max()), rng.uniform(0.1, 0.8)
        light = np.exp(-(((along - at) / reach) ** 2)) * np.float32(rng.uniform(0.1, 0.7))
        self.opaque += (1 - self.opaque) * light
        self.bright = np.maximum(self.bright, np.float32(250) * (light > 0.05))


def _rimmed(film: _Film, rng: Random) -> None:
    """A narrow even line all round, at times with a second one along it, as dark as it shines."""
    wide, bright = rng.uniform(0.004, 0.03), rng.uniform(170, 255)
    tones = (bright, rng.uniform(0, 110)) if rng.random() < 0.8 else (rng.uniform(0, 110), bright)
    inset = rng.uniform(0, 0.03) * (rng.random() < 0.4)
    for tone in tones[: 1 + (rng.random() < 0.3)]:
        film.weld(inset, wide, rng.uniform(0.2, 1), tone, np.ones(SIDES, bool), rng, 0.3)
        inset += wide


def _welded(film: _Film, margins: np.ndarray, rng: Random) -> None:
    """Its welds, on all sides or with one end open, no wider than fits beside the card; a second
    line within them as often as not one."""
    sides = np.ones(SIDES, bool)
    if rng.random() < 0.35:
        sides[int(rng.integers(SIDES))] = False
    bright = rng.uniform(180, 255) if rng.random() < 0.8 else rng.uniform(0, 120)
    widest = max(0.012, min(0.1, float(margins.min())))
    film.weld(0, rng.uniform(0.008, widest), rng.uniform(0.08, 0.85), bright, sides, rng)
    if rng.random() < 0.35:
        film.weld(rng.uniform(0.01, 0.08), rng.uniform(0.005, 0.02), rng.uniform(0.1, 0.7), bright,
                  np.ones(SIDES, bool), rng)


def _shaded(picture: np.ndarray, rim: np.ndarray, card: Laid, rng: Random) -> None:
    """The shadow of a sleeve with its corners there, `rim` [4, 2] px, beyond its edge."""
    inch = float(np.linalg.norm(card.quad[1] - card.quad[0])) / card.size[0]
    way = rng.normal(size=2) * inch * 0.03
    fallen, own = (np.zeros(picture.shape[:2], np.uint8) for _ in range(2))
    cv2.fillConvexPoly(fallen, np.int32((rim + way) * 16), 255, cv2.LINE_AA, 4)
    cv2.fillConvexPoly(own, np.int32(rim * 16), 255, cv2.LINE_AA, 4)
    soft = cv2.GaussianBlur(fallen, (0, 0), 0.4 + inch * rng.uniform(0.005, 0.08))
    dark = rng.uniform(0.05, 0.5) / 255 * soft.astype(np.float32) * (1 - own / np.float32(255))
    picture *= (1 - dark)[..., None]


def _laid_over(
    picture: np.ndarray, film: _Film, inner: np.ndarray, card: Laid, rng: Random
) -> None:
    """The film seen as its card is: `inner` [4, 2] of its px lie on the card's corners."""
    opaque = cv2.GaussianBlur(film.opaque, (0, 0), rng.uniform(0.4, 2.0))
    bright = cv2.GaussianBlur(film.bright, (0, 0), 1)
    seen = float(np.linalg.norm(card.quad[1] - card.quad[0])) / (card.size[0] * FINE)
    if seen < 0.8:  # no finer than it is seen
        less = max(seen * 1.2, 0.05)
        opaque, bright = (cv2.resize(one, None, fx=less, fy=less, interpolation=cv2.INTER_AREA)
                          for one in (opaque, bright))
        inner = inner * (opaque.shape[1] / film.opaque.shape[1],
                         opaque.shape[0] / film.opaque.shape[0])
    onto = cv2.getPerspectiveTransform(inner.astype(np.float32), card.quad.astype(np.float32))
    size = picture.shape[1::-1]
    share, level = (cv2.warpPerspective(one, onto, size, flags=cv2.INTER_LINEAR)
                    for one in (opaque, bright))
    lit = np.clip(cv2.blur(picture.mean(axis=2), (25, 25)) / 200, 0.05, 1)
    picture += ((level * (0.45 + 0.55 * lit))[..., None] - picture) * share[..., None]
