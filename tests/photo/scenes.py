"""Invented photographs of invented cards, with their corners known exactly.

A pinhole camera looks at one table; cards lie on it. Everything comes from the
seed. Corners are px with pixel (0, 0) covering (0, 0)–(1, 1).
"""

from dataclasses import dataclass

import cv2
import numpy as np

CLASSES = ("easy", "wood", "cloth", "grid", "low contrast", "dark", "several", "cropped")
CARD = (500, 700)


@dataclass(frozen=True, slots=True)
class Scene:
    """`picture` uint8 [h, w, 3] sRGB; `quads` [n, 4, 2] clockwise from each card's top left."""

    kind: str
    picture: np.ndarray
    quads: np.ndarray


def scene(kind: str, seed: int, size: tuple[int, int] = (1200, 900)) -> Scene:
    """A photograph of the kind, `size` (long, short) px, upright or wide by the seed."""
    rng = np.random.default_rng([seed, CLASSES.index(kind)])
    width, height = size if rng.random() < 0.4 else size[::-1]
    if kind == "cropped":
        return _cropped(rng, seed)
    table = draw_table(kind, width, height, rng)
    count = int(rng.integers(2, 6)) if kind == "several" else 1
    quads = _places(rng, count, width, height)
    tone = table.mean(axis=(0, 1))
    for quad in quads:
        art = card_art(rng, paper_for(kind, tone, rng))
        table = with_card(table, art, quad, rng)
    lit = table * light_over(width, height, rng)[..., None]
    return Scene(kind, developed(lit, rng), quads)


def card_art(rng: np.random.Generator, paper: np.ndarray) -> np.ndarray:
    """A drawn card, float32 [700, 500, 3] in 0–255: shapes and hatching, margin or none."""
    width, height = CARD
    art = np.full((height, width, 3), paper, np.float32)
    margin = int(rng.choice([0, 25, 50]))
    inner = np.full((height - 2 * margin, width - 2 * margin, 3), paper, np.float32)
    inner[:] = rng.uniform(60, 240, 3) if rng.random() < 0.5 else paper
    for _ in range(int(rng.integers(3, 10))):
        colour = tuple(float(v) for v in rng.uniform(10, 245, 3))
        x, y = int(rng.integers(0, inner.shape[1])), int(rng.integers(0, inner.shape[0]))
        size = int(rng.integers(20, 200))
        shape = int(rng.integers(0, 4))
        if shape == 0:
            cv2.circle(inner, (x, y), size, colour, -1, cv2.LINE_AA)
        elif shape == 1:
            cv2.rectangle(inner, (x, y), (x + size, y + size // 2), colour, -1)
        elif shape == 2:
            points = rng.integers(-size, size, (5, 2)) + (x, y)
            cv2.fillPoly(inner, [points.astype(np.int32)], colour, cv2.LINE_AA)
        else:
            for step in range(0, size, 9):
                cv2.line(inner, (x, y + step), (x + size, y + step // 2), colour, 2, cv2.LINE_AA)
    art[margin : height - margin, margin : width - margin] = inner
    return art


def paper_for(kind: str, tone: np.ndarray, rng: np.random.Generator) -> np.ndarray:
    """What a card of that kind of scene is made of: a colour, 0–255."""
    if kind == "low contrast":
        return np.clip(tone + rng.choice([-1, 1]) * rng.uniform(12, 22), 0, 250)
    if kind == "dark":
        return rng.uniform(20, 70, 3)
    return rng.uniform(215, 250) + rng.uniform(-6, 6, 3)


def draw_table(kind: str, width: int, height: int, rng: np.random.Generator) -> np.ndarray:
    """A table of that kind, float32 [height, width, 3] in 0–255."""
    if kind in ("low contrast", "dark"):
        base = np.full((height, width, 3), rng.uniform(205, 235), np.float32)
        return base + _grain(width, height, rng, 30) * 3
    base = np.full((height, width, 3), rng.uniform(50, 170, 3), np.float32)
    if kind == "wood" or (kind == "several" and rng.random() < 0.5):
        return _wood(width, height, rng)
    if kind == "cloth":
        y, x = np.mgrid[:height, :width].astype(np.float32)
        period = rng.uniform(14, 60)
        weave = np.sin(x * 2 * np.pi / period) * np.sin(y * 2 * np.pi / period)
        return base + 35 * np.sign(weave)[..., None] * rng.uniform(0.3, 1, 3)
    if kind == "grid":
        base = np.full((height, width, 3), rng.uniform(40, 110, 3), np.float32)
        step = int(rng.integers(35, 90))
        for at in range(int(rng.integers(0, step)), max(width, height), step):
            cv2.line(base, (at, 0), (at, height), (215.0, 220.0, 190.0), 2, cv2.LINE_AA)
            cv2.line(base, (0, at), (width, at), (215.0, 220.0, 190.0), 2, cv2.LINE_AA)
        return base
    return base + _grain(width, height, rng, 25) * 8


def _wood(width: int, height: int, rng: np.random.Generator) -> np.ndarray:
    rings = cv2.resize(rng.normal(size=(60, 4)).astype(np.float32), (width, height))
    rings = np.sin(rings * 5 + np.linspace(0, 40, height, dtype=np.float32)[:, None])
    tone = np.array([150, 105, 65], np.float32) * rng.uniform(0.6, 1.2)
    board = tone + 22 * rings[..., None] + _grain(width, height, rng, 120) * 5
    for at in np.arange(rng.uniform(0, 200), height, rng.uniform(180, 400)):
        cv2.line(board, (0, int(at)), (width, int(at)), (45.0, 30.0, 18.0), 3, cv2.LINE_AA)
    return board


def _grain(width: int, height: int, rng: np.random.Generator, cells: int) -> np.ndarray:
    coarse = rng.normal(size=(cells, cells, 1)).astype(np.float32)
    return cv2.resize(coarse, (width, height), interpolation=cv2.INTER_CUBIC)[..., None]


def _places(rng: np.random.Generator, count: int, width: int, height: int) -> np.ndarray:
    """Quadrilaterals of cards that do not touch, under one tilted camera."""
    scale = rng.uniform(0.5, 0.75) if count == 1 else rng.uniform(0.24, 0.3)
    long = scale * min(width, height)
    tilt = any_tilt(rng, width, height)
    kept: list[np.ndarray] = []
    for _ in range(400):
        if len(kept) == count:
            break
        turn = np.radians(rng.uniform(-35, 35) + (90 if rng.random() < 0.3 else 0))
        half = np.array([[-5, -7], [5, -7], [5, 7], [-5, 7]]) * long / 14
        spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
        middle = rng.uniform(0.2, 0.8, 2) if count > 1 else rng.uniform(0.42, 0.58, 2)
        flat = half @ spin.T + middle * (width, height)
        quad = cv2.perspectiveTransform(flat[None], tilt)[0]
        apart = all(np.hypot(*(quad.mean(0) - k.mean(0))) > long * 1.28 for k in kept)
        inside = quad.min() > 12 and np.all(quad.max(axis=0) < (width - 12, height - 12))
        if apart and inside:
            kept.append(quad)
    return np.array([read_upright(quad) for quad in kept]).reshape(-1, 4, 2)


def read_upright(quad: np.ndarray) -> np.ndarray:
    """From the corner whose top side is turned least from level."""
    tops = np.roll(quad, -1, axis=0) - quad
    lower = quad[[2, 3, 0, 1]] - quad[[3, 0, 1, 2]]
    angles = np.abs(np.arctan2((tops + lower)[:, 1], (tops + lower)[:, 0]))
    return np.roll(quad, -int(angles.argmin()), axis=0)


def any_tilt(rng: np.random.Generator, width: int, height: int) -> np.ndarray:
    """Homography of a pinhole camera of 26 mm equivalent, tilted by up to 25°.

    It looks at the middle of the table from as far as its focal length in px,
    so that an untilted table is shown at its own scale.
    """
    focal = 26 / 43.27 * np.hypot(width, height)
    camera = np.array([[focal, 0, width / 2], [0, focal, height / 2], [0, 0, 1]])
    axis = rng.normal(size=3) * (1, 1, 0.1)
    angle = np.radians(rng.uniform(0, 25))
    turn, _ = cv2.Rodrigues(axis / np.linalg.norm(axis) * angle)
    plane = np.column_stack([turn[:, 0], turn[:, 1], [0, 0, focal]])
    centred = np.array([[1, 0, -width / 2], [0, 1, -height / 2], [0, 0, 1]])
    return camera @ plane @ centred


def with_card(
    table: np.ndarray, art: np.ndarray, quad: np.ndarray, rng: np.random.Generator
) -> np.ndarray:
    """The card drawn onto the table, with its shadow, edges averaged over the pixel."""
    height, width = table.shape[:2]
    own = np.array([[0, 0], [CARD[0], 0], [CARD[0], CARD[1]], [0, CARD[1]]], np.float32)
    across = np.linalg.norm(quad[1] - quad[0])
    if across > np.linalg.norm(quad[2] - quad[1]):
        own = np.roll(own, -1, axis=0)
    fine = 2
    onto = cv2.getPerspectiveTransform(own - 0.5, (quad * fine).astype(np.float32) - 0.5)
    shape = (width * fine, height * fine)
    drawn = cv2.warpPerspective(
        art, onto, shape, flags=cv2.INTER_AREA, borderMode=cv2.BORDER_REPLICATE
    )
    cover = np.zeros((height * fine, width * fine), np.float32)
    cv2.fillConvexPoly(
        cover, np.round((quad * fine - 0.5) * 256).astype(np.int32), 1.0, cv2.LINE_AA, shift=8
    )
    drawn = cv2.resize(drawn, (width, height), interpolation=cv2.INTER_AREA)
    cover = cv2.resize(cover, (width, height), interpolation=cv2.INTER_AREA)[..., None]
    fall = rng.uniform(-6, 6, 2)
    shift = np.array([[1, 0, fall[0]], [0, 1, fall[1]]], np.float32)
    shadow = cv2.GaussianBlur(cover, (0, 0), rng.uniform(2, 7))
    shadow = cv2.warpAffine(shadow, shift, (width, height))[..., None]
    shaded = table * (1 - rng.uniform(0.15, 0.45) * shadow)
    return shaded * (1 - cover) + drawn * cover


def light_over(width: int, height: int, rng: np.random.Generator) -> np.ndarray:
    """float32 [height, width]: stronger on one side than on the other, about 1."""
    y, x = np.mgrid[:height, :width].astype(np.float32)
    way = rng.uniform(-1, 1, 2)
    return 1 + 0.22 * (way[0] * (x / width - 0.5) + way[1] * (y / height - 0.5))


def developed(lit: np.ndarray, rng: np.random.Generator) -> np.ndarray:
    """White balance, lens blur, noise and JPEG."""
    toned = lit * rng.uniform(0.93, 1.05, 3)
    soft = cv2.GaussianBlur(toned.astype(np.float32), (0, 0), rng.uniform(0.5, 1.2))
    noisy = soft + rng.normal(size=soft.shape) * rng.uniform(1, 4)
    whole = np.clip(noisy, 0, 255).astype(np.uint8)
    _, packed = cv2.imencode(".jpg", whole[..., ::-1], [cv2.IMWRITE_JPEG_QUALITY, 88])
    return np.ascontiguousarray(cv2.imdecode(packed, cv2.IMREAD_COLOR)[..., ::-1])


def _cropped(rng: np.random.Generator, seed: int) -> Scene:
    """A picture that is nothing but the card."""
    art = card_art(rng, paper_for("cropped", np.zeros(3), rng))
    if seed % 2:
        art = art.transpose(1, 0, 2)
    height, width = art.shape[:2]
    corners = np.array([[[0, 0], [width, 0], [width, height], [0, height]]], np.float64)
    return Scene("cropped", developed(art, rng), corners)
