"""Things of any outline laid on a table or over cards: drawn flat, seen by the stage's camera,
rounded by its light, with a soft shadow where they touch and a longer one away from the lamp."""

from dataclasses import dataclass

import cv2
import numpy as np

from finder_training.noise import Random, ink
from finder_training.stage import Stage, corners_of, project


@dataclass(slots=True)
class Canvas:
    """`colour` uint8 [h, w, 3] and `cover` uint8 [h, w], `fine` px an inch, (0, 0) its middle."""

    colour: np.ndarray
    cover: np.ndarray
    fine: float

    def _at(self, points: np.ndarray) -> np.ndarray:
        half = np.array(self.cover.shape[::-1]) / 2
        return np.int32((np.asarray(points, float) * self.fine + half) * 16)

    def poly(self, points: np.ndarray, tone: np.ndarray) -> None:
        """A filled outline [n, 2] inches."""
        where = [self._at(points)]
        cv2.fillPoly(self.colour, where, ink(np.clip(tone, 0, 255)), cv2.LINE_AA, 4)
        cv2.fillPoly(self.cover, where, 255, cv2.LINE_AA, 4)

    def path(self, points: np.ndarray, thick: float, tone: np.ndarray,
             closed: bool = False) -> None:
        """A line with round ends through points [n, 2], `thick` inches."""
        where, wide = [self._at(points)], max(round(thick * self.fine), 1)
        cv2.polylines(self.colour, where, closed, ink(np.clip(tone, 0, 255)), wide, cv2.LINE_AA, 4)
        cv2.polylines(self.cover, where, closed, 255, wide, cv2.LINE_AA, 4)

    def disc(self, at: tuple, size: tuple | float, tone: np.ndarray, turn: float = 0) -> None:
        """A filled ellipse of half axes `size` inches."""
        wide, tall = size if isinstance(size, tuple) else (size, size)
        ways = np.linspace(0, 2 * np.pi, 40, endpoint=False)
        round_ = np.column_stack([np.cos(ways) * wide, np.sin(ways) * tall])
        spin = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
        self.poly(round_ @ spin + at, tone)

    def hole(self, at: tuple, size: tuple | float) -> None:
        """What lies beneath shows through an ellipse."""
        kept = self.colour.copy()
        cover = self.cover
        self.cover = np.zeros_like(cover)
        self.disc(at, size, np.zeros(3))
        self.cover = np.minimum(cover, 255 - self.cover)
        self.colour = kept


def blank(size: tuple[float, float], fine: float, tone: np.ndarray) -> Canvas:
    """An empty canvas `size` inches across and down; edges blend towards `tone`."""
    wide, tall = (max(int(side * fine), 8) for side in size)
    colour = np.full((tall, wide, 3), np.clip(tone, 0, 255), np.uint8)
    return Canvas(colour, np.zeros((tall, wide), np.uint8), fine)


def fineness(stage: Stage, middle: np.ndarray, reach: float) -> float:
    """px an inch about `middle`, but so few that `reach` inches stay under 560 px."""
    near = project(stage.onto, corners_of(np.asarray(middle), (1.0, 1.0), 0))
    scale = np.sqrt(max(cv2.contourArea(near.astype(np.float32)), 9.0))
    return float(np.clip(scale, 6, 560 / reach))


def put_cutout(stage: Stage, rng: Random, canvas: Canvas, middle: np.ndarray, turn: float,
               tall: float = 0.3) -> None:
    """The canvas laid about `middle` inches, standing `tall` inches off what it lies on."""
    x, y, width, height = cv2.boundingRect(canvas.cover)
    aside = (np.array([x, y]) + (width / 2, height / 2)) * 2 - canvas.cover.shape[::-1]
    size = (width / canvas.fine, height / canvas.fine)
    spin = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    middle = np.asarray(middle) + aside / 2 / canvas.fine @ spin
    quad = project(stage.onto, corners_of(middle, size, turn))
    lift = tall * canvas.fine
    pad = int(min(lift * 1.5, 60)) + 4
    left, top = np.maximum(np.floor(quad.min(axis=0)).astype(int) - pad, 0)
    right, bottom = np.minimum(np.ceil(quad.max(axis=0)).astype(int) + pad, stage.size)
    if right - left < 4 or bottom - top < 4 or np.ptp(quad, axis=0).max() > 4000:
        return
    own = np.array([[0, 0], [width, 0], [width, height], [0, height]], np.float32)
    onto = cv2.getPerspectiveTransform(own, np.float32(quad - (left, top)))
    box = (int(right - left), int(bottom - top))
    within = (slice(y, y + height), slice(x, x + width))
    colour = cv2.warpPerspective(canvas.colour[within], onto, box, borderMode=cv2.BORDER_REPLICATE)
    cover = cv2.warpPerspective(canvas.cover[within], onto, box)
    compose(stage, rng, colour, cover, (int(left), int(top)), lift)


def compose(stage: Stage, rng: Random, colour: np.ndarray, cover: np.ndarray,
            corner: tuple[int, int], lift: float, relief: float | None = None) -> None:
    """What was drawn in px of the picture put in at `corner`, with its light and its shadows."""
    height, width = cover.shape
    box = (slice(corner[1], corner[1] + height), slice(corner[0], corner[0] + width))
    part, share = stage.picture[box], cover.astype(np.float32) / 255
    shift = min(lift * rng.uniform(0.3, 1.1), 40)
    move = np.float32([[1, 0, stage.light[0] * shift], [0, 1, stage.light[1] * shift]])
    wide = 3 + 2 * int(min(lift, 40) * rng.uniform(0.1, 0.5))
    soft = cv2.blur(cv2.blur(share, (wide, wide)), (wide, wide))
    cast = cv2.warpAffine(soft, move, (width, height)) * np.float32(rng.uniform(0.15, 0.6))
    touch = cv2.blur(share, (5, 5)) * np.float32(rng.uniform(0.1, 0.4))
    part *= (1 - np.maximum(cast, touch))[..., None]
    wide = 3 + 2 * int(min(lift * 0.3, 6))
    bump = cv2.blur(cv2.blur(share, (wide, wide)), (wide, wide))
    lit = cv2.Sobel(bump, -1, 1, 0) * stage.light[0] + cv2.Sobel(bump, -1, 0, 1) * stage.light[1]
    lit *= np.float32(rng.uniform(0.1, 0.9) if relief is None else relief) * max(lift * 0.25, 1)
    drawn = colour * (1 + np.clip(lit, -0.45, 0.45))[..., None]
    part += (drawn - part) * share[..., None]
    stage.over[box][cover > 127] = 1
