"""A table seen by one camera, and flat things laid on it with their corners known.

Tables are measured in inches from the middle of the picture; pictures are
float32 [h, w, 3] in 0–255 and pixel (0, 0) covers (0, 0)–(1, 1).
"""

from dataclasses import dataclass, field

import cv2
import numpy as np

from finder_training.noise import Random

CARD = (2.5, 3.5)

FINE = 100
"""px an inch at which a card's art is drawn; the loupe is shown finer."""

UNASKED = 255
"""In `owner`, in place of a card's number: whether one shows there cannot be told."""

STEEPER = 15.0
"""Degrees."""


@dataclass(frozen=True, slots=True)
class Laid:
    """A card on the stage.

    `quad` [4, 2] px clockwise from the card's own top left, its sides' crossings;
    `size` (across, down) in inches; `area` px it covers within the frame alone.
    """

    quad: np.ndarray
    size: tuple[float, float]
    area: float


@dataclass(slots=True)
class Stage:
    """The picture as it stands, and `owner` uint8 [h, w]: which card (from 1) shows where.

    `over` uint8 [h, w] is 1 where a finger, pen or coin lies on top; `decoys` are
    quadrilaterals [4, 2] px that are no cards: sheets, empty pockets; `alike` such as from afar
    nothing tells from a card: printed photographs, framed ones, covers; `focal` px, 0 for a
    scanner; `light` [2] which way shadows fall.
    """

    picture: np.ndarray
    owner: np.ndarray
    onto: np.ndarray
    light: np.ndarray
    cards: list[Laid] = field(default_factory=list)
    decoys: list[np.ndarray] = field(default_factory=list)
    alike: list[np.ndarray] = field(default_factory=list)
    over: np.ndarray | None = None
    focal: float = 0.0

    def __post_init__(self) -> None:
        self.over = np.zeros_like(self.owner)

    @property
    def size(self) -> tuple[int, int]:
        """Width and height in px."""
        return self.picture.shape[1], self.picture.shape[0]


@dataclass(frozen=True, slots=True)
class Look:
    """How a flat thing is drawn: corner radius and torn edge in inches, bow of its sides,
    softness (px) and darkness of its shadow, how far it stands off the table, in px; levels by
    which its thickness is brighter towards the light (`lit`) and darker away from it (`dim`);
    how far (px) each corner is `curled` up off the table; `arch`, how much brighter one half is."""

    radius: float = 0.0
    torn: float = 0.0
    bow: tuple[float, float] = (0.0, 0.0)
    soft: float = 2.0
    dark: float = 0.3
    lift: float = 2.0
    opacity: float = 1.0
    lit: float = 0.0
    dim: float = 0.0
    curled: tuple[float, ...] = ()
    arch: float = 0.0


def any_look(rng: Random, scale: float) -> Look:
    """The look of a card on a picture of `scale` px an inch."""
    return Look(
        radius=float(rng.choice([0.0, 0.125, rng.uniform(0.02, 0.2)])),
        torn=float(rng.uniform(0.01, 0.05)) if rng.random() < 0.05 else 0.0,
        bow=tuple(rng.normal(size=2) * 0.012 * (rng.random() < 0.5)),
        soft=float(scale * rng.uniform(0.01, 0.09)) + 0.4,
        dark=float(rng.uniform(0.0, 0.6)),
        lift=float(scale * rng.choice([0.01, 0.03, 0.08]) * rng.uniform(0, 1)),
        lit=float(rng.uniform(5, 90)) if rng.random() < 0.2 else 0.0,
        dim=float(rng.uniform(5, 70)) if rng.random() < 0.2 else 0.0,
        curled=curl(scale, rng) if rng.random() < 0.08 else (),
        arch=float(rng.normal() * 0.12) if rng.random() < 0.12 else 0.0,
    )


def curl(scale: float, rng: Random) -> tuple[float, ...]:
    """One corner or two, seldom all, that stand off the table by up to a fifth of an inch."""
    up = rng.random(4) < rng.choice([0.3, 0.5, 1.0], p=[0.6, 0.3, 0.1])
    return tuple(float(v) for v in up * scale * rng.uniform(0.03, 0.2, 4))


def camera(
    width: int, height: int, scale: float, rng: Random, steepest: float = 35
) -> tuple[np.ndarray, float]:
    """Homography from inches on the table to px, and the focal length in px.

    A pinhole of 22–60 mm equivalent.

    Tilted by up to `steepest` degrees about any axis, a few photos by up to `STEEPER` more.
    """
    focal = rng.uniform(22, 60) / 43.27 * np.hypot(width, height)
    inside = np.array([[focal, 0, width / 2], [0, focal, height / 2], [0, 0, 1]])
    way = rng.uniform(0, 2 * np.pi)
    share = rng.random()
    angle = np.radians(steepest * share**1.4 + STEEPER * max(share - 0.92, 0) / 0.08)
    tilt, _ = cv2.Rodrigues(np.array([np.cos(way), np.sin(way), 0.0]) * angle)
    plane = np.column_stack([tilt[:, 0], tilt[:, 1], [0, 0, focal / scale]])
    return inside @ plane, float(focal)


def lifted(stage: Stage, points: np.ndarray) -> np.ndarray:
    """Points [n, 3] in inches, the third above the table, as px."""
    width, height = stage.size
    inside = np.array([[stage.focal, 0, width / 2], [0, stage.focal, height / 2], [0, 0, 1]])
    across, down = np.linalg.solve(inside, stage.onto)[:, :2].T
    up = inside @ -np.cross(across, down) / np.hypot.reduce(across)
    flat = np.column_stack([points[:, :2], np.ones(len(points))])
    seen = flat @ stage.onto.T + points[:, 2:] * up
    return seen[:, :2] / seen[:, 2:]


def in_pixels(size: tuple[float, float]) -> tuple[int, int]:
    """How many px the art of what is `size` inches has."""
    return int(size[0] * FINE), int(size[1] * FINE)


def corners_of(
    middle: np.ndarray, size: tuple[float, float], turn: float
) -> np.ndarray:
    """Corners [4, 2] in inches of a rectangle turned by `turn` radians, from its top left."""
    half = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * np.array(size) / 2
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    return half @ spin.T + middle


def project(onto: np.ndarray, points: np.ndarray) -> np.ndarray:
    """Points [n, 2] in inches as px."""
    return cv2.perspectiveTransform(np.asarray(points, np.float64)[None], onto)[0]


def scale_of(quad: np.ndarray, size: tuple[float, float]) -> float:
    """px an inch, about."""
    return float(np.sqrt(max(cv2.contourArea(quad.astype(np.float32)), 1) / (size[0] * size[1])))


def outside(quad: np.ndarray, size: tuple[int, int]) -> float:
    """The share of a quadrilateral [4, 2] px that a frame of width and height leaves out.

    1 where it is no picture of a card at all: turned over, or behind the camera.
    """
    corners = quad.astype(np.float32)
    area = cv2.contourArea(corners, oriented=True)
    if area < 16 or not cv2.isContourConvex(corners) or np.abs(quad).max() > 6 * max(size):
        return 1.0
    frame = np.array([[0, 0], [size[0], 0], size, [0, size[1]]], np.float32)
    shared, _ = cv2.intersectConvexConvex(corners, frame)
    return 1 - shared / area


def lay(
    stage: Stage, art: np.ndarray, quad: np.ndarray, size: tuple[float, float], look: Look,
    is_card: bool = True,
) -> None:
    """Draw `art` with its corners at `quad` px; a card is entered among the stage's cards."""
    pad = int(look.soft * 3 + abs(look.lift) * 2 + 2 * max(look.curled, default=0)) + 3
    box = _box(quad, stage.size, pad)
    if box is None:
        return
    left, top, right, bottom = box
    scale = scale_of(quad, size)
    across, down, cover = _own_places(quad, size, look, scale, box)
    cover = np.ascontiguousarray(cover)
    part = stage.picture[top:bottom, left:right]
    if look.dark > 0:
        _cast(part, cover, look, stage.light)
    if look.curled:
        _cast_corners(part, quad - (left, top), look, stage.light)
    across, down = across / size[0], down / size[1]
    drawn = _drawn(art, across, down, size[0] * scale)
    if look.curled or look.arch:
        drawn *= _bent_light(across, down, look)[..., None]
    weight = (cover * look.opacity)[..., None]
    part += (drawn - part) * weight
    if look.lit or look.dim:
        _thickness(part, cover, look, stage.light, scale)
    if is_card:
        shown = cover > 0.5
        stage.cards.append(Laid(quad, size, float(shown.sum())))
        stage.owner[top:bottom, left:right][shown] = len(stage.cards)
        stage.over[top:bottom, left:right][shown] = 0
    elif look.opacity > 0.8:
        stage.owner[top:bottom, left:right][cover > 0.5] = 0


def _box(quad: np.ndarray, size: tuple[int, int], pad: int) -> tuple[int, int, int, int] | None:
    left, top = np.floor(quad.min(axis=0)).astype(int) - pad
    right, bottom = np.ceil(quad.max(axis=0)).astype(int) + pad
    left, top, right, bottom = max(left, 0), max(top, 0), min(right, size[0]), min(bottom, size[1])
    return (left, top, right, bottom) if right - left > 2 and bottom - top > 2 else None


def _own_places(
    quad: np.ndarray, size: tuple[float, float], look: Look, scale: float, box: tuple
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Where on the thing, in inches, each pixel of the box looks, and how far it is covered."""
    own = np.array([[0, 0], [size[0], 0], size, [0, size[1]]], np.float32)
    back = cv2.getPerspectiveTransform(quad.astype(np.float32), own).astype(np.float32)
    left, top, right, bottom = box
    x = np.arange(left, right, dtype=np.float32) + 0.5
    y = (np.arange(top, bottom, dtype=np.float32) + 0.5)[:, None]
    depth = back[2, 0] * x + back[2, 1] * y + back[2, 2]
    depth = np.where(np.abs(depth) < 1e-6, 1e-6, depth)
    across = (back[0, 0] * x + back[0, 1] * y + back[0, 2]) / depth
    down = (back[1, 0] * x + back[1, 1] * y + back[1, 2]) / depth
    if look.bow != (0.0, 0.0):
        share_x, share_y = across / size[0], down / size[1]
        across = across + 4 * look.bow[0] * size[0] * share_y * (1 - share_y)
        down = down + 4 * look.bow[1] * size[1] * share_x * (1 - share_x)
    from_x = np.abs(across - size[0] / 2) - size[0] / 2 + look.radius
    from_y = np.abs(down - size[1] / 2) - size[1] / 2 + look.radius
    away = np.minimum(np.maximum(from_x, from_y), 0) - look.radius
    away += np.hypot(np.maximum(from_x, 0), np.maximum(from_y, 0))
    if look.torn:
        away = away + look.torn * np.sin(across * 23 + 3 * np.sin(down * 17)) * np.sin(down * 31)
    cover = np.clip(0.5 - away * scale, 0, 1) * (depth > 0)
    return across.astype(np.float32), down.astype(np.float32), cover.astype(np.float32)


def _cast(part: np.ndarray, cover: np.ndarray, look: Look, light: np.ndarray) -> None:
    shadow = cv2.GaussianBlur(cover, (0, 0), max(look.soft, 0.3))
    shift = np.array([[1, 0, light[0] * look.lift], [0, 1, light[1] * look.lift]], np.float32)
    shadow = cv2.warpAffine(shadow, shift, (cover.shape[1], cover.shape[0]))
    part *= (1 - look.dark * shadow)[..., None]


def _cast_corners(part: np.ndarray, quad: np.ndarray, look: Look, light: np.ndarray) -> None:
    """The larger, softer shadow of corners that stand off the table."""
    mask = np.zeros(part.shape[:2], np.uint8)
    fallen = quad + light * np.array(look.curled)[:, None]
    cv2.fillConvexPoly(mask, np.int32(fallen * 16), 255, cv2.LINE_AA, 4)
    soft = cv2.GaussianBlur(mask, (0, 0), 0.5 + max(look.curled) * 0.35)
    part *= (1 - max(look.dark, 0.2) / 255 * soft.astype(np.float32))[..., None]


def _bent_light(across: np.ndarray, down: np.ndarray, look: Look) -> np.ndarray:
    """How much brighter bent paper is, by shares of its size [h, w]."""
    gain = 1 + look.arch * np.sin(np.clip(down, 0, 1) * np.pi * 2)
    for up, (x, y) in zip(look.curled, ((0, 0), (1, 0), (1, 1), (0, 1)), strict=False):
        if up:
            gain = gain + 0.15 * np.exp(-((across - x) ** 2 + (down - y) ** 2) / 0.04)
    return gain.astype(np.float32)


def _thickness(part: np.ndarray, cover: np.ndarray, look: Look, light: np.ndarray,
               scale: float) -> None:
    """The cut edge of 0.3 mm of card: a thin bright line towards the light, a dark one away."""
    wide = light * max(0.3 / 25.4 * scale, 0.5) / 2
    size = (cover.shape[1], cover.shape[0])
    away, to = (cv2.warpAffine(cover, np.array([[1, 0, x], [0, 1, y]], np.float32), size)
                for x, y in (wide, -wide))
    edge = to - away
    part += (np.maximum(edge, 0) * look.lit + np.minimum(edge, 0) * look.dim)[..., None]


def _drawn(art: np.ndarray, across: np.ndarray, down: np.ndarray, wide: float) -> np.ndarray:
    """The art read at the shares `across` and `down` of its size, no finer than is seen."""
    height, width = art.shape[:2]
    if width > 1.3 * wide and wide > 4:
        less = 1.1 * wide / width
        art = cv2.resize(art, (max(int(width * less), 2), max(int(height * less), 2)),
                         interpolation=cv2.INTER_AREA)
        height, width = art.shape[:2]
    return cv2.remap(
        art, np.float32(across * width - 0.5), np.float32(down * height - 0.5), cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE,
    ).astype(np.float32)
