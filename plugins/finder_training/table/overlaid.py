"""What lies over cards and what holds them: clips, tapes, ribbons, whole hands, thumbs."""

import cv2
import numpy as np

from finder_training.noise import Random, any_colour
from finder_training.stage import Stage, project
from finder_training.table.cutouts import Canvas, blank, compose, fineness, put_cutout
from finder_training.table.shapes import palette
from finder_training.table.things import STEEL, put_thing

SKINS = np.array([[243, 205, 182], [226, 178, 148], [198, 146, 112], [150, 102, 72], [104, 70, 50],
                  [72, 50, 40]], float)


def clip(rng: Random, fine: float) -> Canvas:
    """A paper clip of wire, or a bulldog clip."""
    tone = STEEL if rng.random() < 0.5 else any_colour(rng)
    canvas = blank((2.4, 1.6), fine, tone)
    if rng.random() < 0.7:
        ways = np.linspace(-np.pi / 2, np.pi / 2, 9)
        arc = np.column_stack([np.cos(ways), np.sin(ways)])
        path = np.concatenate([[[-0.5, -0.2]], arc * 0.2 + (0.6, 0), arc[::-1] * (-0.16, 0.16)
                               + (-0.55, 0.04), [[0.4, -0.12]]])
        canvas.path(path, 0.05, tone)
        return canvas
    canvas.poly(np.array([[-0.4, -0.6], [0.3, -0.45], [0.3, 0.45], [-0.4, 0.6]]), tone)
    for side in (-1, 1):
        canvas.path(np.array([[0.2, side * 0.12], [0.9, side * 0.2], [1.05, 0]]), 0.06, STEEL)
    return canvas


def strip(rng: Random, fine: float) -> Canvas:
    """A piece of printed paper tape, its ends torn."""
    long, wide = rng.uniform(0.8, 3), rng.uniform(0.4, 0.75)
    tones = palette(rng, 3)
    canvas = blank((long + 0.4, wide + 0.2), fine, tones[0])
    ends = np.linspace(-wide / 2, wide / 2, 7)
    right = np.column_stack([long / 2 + rng.uniform(-0.06, 0.06, 7), ends])
    left = np.column_stack([-long / 2 + rng.uniform(-0.06, 0.06, 7), ends[::-1]])
    canvas.poly(np.concatenate([right, left]), tones[0])
    shown, kind = canvas.cover.copy(), rng.random()
    for x in np.arange(-long / 2, long / 2, rng.uniform(0.12, 0.4)):
        if kind < 0.35:
            canvas.disc((x, rng.uniform(-0.3, 0.3) * wide), wide * 0.14, tones[1])
        elif kind < 0.7:
            canvas.path(np.array([[x, -wide], [x + wide * 0.7, wide]]), 0.07, tones[1])
    canvas.cover = np.uint8(shown * rng.uniform(0.75, 1))
    return canvas


def ribbon(rng: Random, fine: float) -> Canvas:
    """A waving ribbon, with a paler edge."""
    tone, share = any_colour(rng), np.linspace(-4, 4, 40)
    canvas = blank((9, 5), fine, tone)
    wave = np.sin(share * rng.uniform(0.3, 1.5) + rng.uniform(0, 6)) * rng.uniform(0.1, 1.4)
    path, wide = np.column_stack([share, wave]), rng.uniform(0.15, 0.7)
    canvas.path(path, wide, tone)
    canvas.path(path, wide * 0.6, np.clip(tone * 1.12 + 6, 0, 255))
    return canvas


def lie_over(stage: Stage, rng: Random, quad: np.ndarray) -> None:
    """Something small on a card, more often than not at its edge or corner; `quad` px."""
    back = np.linalg.inv(stage.onto)
    own = project(back, quad)
    corner = int(rng.integers(4))
    edge = own[corner] + (own[(corner + 1) % 4] - own[corner]) * float(rng.choice(
        [0, 0, rng.uniform(0, 1)]))
    inwards = own.mean(axis=0) - edge
    way = float(np.arctan2(inwards[1], inwards[0]))
    fine, roll = fineness(stage, edge, 9), rng.random()
    if roll < 0.25:
        put_cutout(stage, rng, clip(rng, fineness(stage, edge, 3)),
                   edge + inwards * rng.uniform(0, 0.25), way + rng.normal() * 0.3, 0.06)
    elif roll < 0.55:
        put_cutout(stage, rng, strip(rng, fineness(stage, edge, 3)),
                   edge + inwards * rng.uniform(-0.05, 0.2), way + np.pi / 2 + rng.normal() * 0.4,
                   0.01)
    elif roll < 0.65:
        put_cutout(stage, rng, ribbon(rng, fine), own.mean(axis=0) + rng.normal(size=2) * 1.2,
                   rng.uniform(0, 6.3), 0.05)
    else:
        name = str(rng.choice(["pencils", "brush", "sprig", "tube", "cable", "strewn", "scissors"]))
        put_thing(stage, rng, edge + rng.normal(size=2) * 1.2 - inwards * rng.uniform(0, 1.2),
                  rng.uniform(0, 6.3), name)


def _limb(layer: Canvas, path: np.ndarray, wide: np.ndarray, tone: np.ndarray) -> None:
    """A tapering limb along a path [n, 2], darker where it is rounded away; units of the layer."""
    share = np.linspace(0, 1, 14)
    at = np.linspace(0, 1, len(path))
    middle = np.column_stack([np.interp(share, at, path[:, k]) for k in (0, 1)])
    for thin, light in ((1.0, 0.72), (0.9, 0.88), (0.74, 0.97), (0.45, 1.04)):
        for k in range(13):
            thick = float(np.interp(share[k], np.linspace(0, 1, len(wide)), wide)) * thin
            layer.path(middle[k : k + 2], thick, tone * light)


def _nail(layer: Canvas, tip: np.ndarray, way: np.ndarray, wide: float, tone: np.ndarray,
          rng: Random) -> None:
    """The nail on a finger's end, painted now and then."""
    polish = any_colour(rng) if rng.random() < 0.15 else tone * 1.08 + (12, 4, 6)
    layer.disc(tuple(tip - way * wide * 0.05), (wide * 0.42, wide * 0.33), polish,
               float(np.arctan2(way[1], way[0])))
    for back in (1.5, 1.75):
        across = np.array([-way[1], way[0]]) * wide * 0.22
        at = tip - way * wide * back
        layer.path(np.array([at - across, at + across]), wide * 0.05, tone * 0.8)


def hand(stage: Stage, rng: Random, tip: np.ndarray, size: float, way: float,
         grip: str = "open") -> None:
    """A whole hand with its wrist, reaching in along `way` (radians) to px `tip`.

    `size` px is its width over the knuckles. `grip` "open" with its fingers to be seen, "pinch"
    with the thumb in front of the fist, "under" with all but the thumb below the cards.
    """
    width, height = stage.size
    skin = SKINS[int(rng.integers(6))] * rng.uniform(0.85, 1.1)
    spin = np.array([[np.cos(way), np.sin(way)], [-np.sin(way), np.cos(way)]]) * size
    flip = np.array([1, rng.choice([-1, 1])])
    reach = np.array([1.35 if grip == "open" else 0.75, 0.1 * flip[1]])

    def at(points: list) -> np.ndarray:
        return (np.array(points) * flip - reach) @ spin + tip - (width / 2, height / 2)

    layer = _layer(stage, skin)
    if rng.random() < 0.55:
        _limb(layer, at([[-5, 0.1], [-1.6, 0]]), np.array([1.1, 1.0]) * size, any_colour(rng))
    _limb(layer, at([[-5, 0.1], [-1.0, 0], [-0.3, 0]]), np.array([0.9, 0.7, 0.8]) * size, skin)
    _limb(layer, at([[-0.5, 0], [0.3, 0], [0.62, 0]]), np.array([0.75, 0.98, 0.9]) * size, skin)
    if grip != "pinch":
        spread, bent = rng.uniform(0.02, 0.25), rng.uniform(0.55, 1, 4)
        for k, (y, long) in enumerate(((-0.38, 1.0), (-0.13, 1.2), (0.13, 1.1), (0.38, 0.85))):
            end = [0.55 + long * bent[k], y * (1 + spread * 3)]
            wide = np.array([0.27, 0.25, 0.2]) * size
            _limb(layer, at([[0.5, y], [0.55 + long * bent[k] * 0.5, y * (1 + spread)], end]), wide,
                  skin * rng.uniform(0.97, 1.03))
            bend = (np.array([long * bent[k] / 2, y * spread * 2]) * flip) @ spin
            _nail(layer, at([end])[0], bend / np.hypot(*bend), 0.2 * size, skin, rng)
    if grip == "under":
        _settle(stage, rng, layer, size, under=True)
        layer = _layer(stage, skin)
    end = [0.45, -1.0] if grip == "open" else [0.75, -0.1]
    _limb(layer, at([[-0.35, -0.3], [0.15, -0.55], end]), np.array([0.4, 0.3, 0.26]) * size, skin)
    bend = (np.subtract(end, [0.15, -0.55]) * flip) @ spin
    _nail(layer, at([end])[0], bend / np.hypot(*bend), 0.25 * size, skin, rng)
    _settle(stage, rng, layer, size)


def _layer(stage: Stage, tone: np.ndarray) -> Canvas:
    """An empty canvas over the whole picture, in px."""
    width, height = stage.size
    colour = np.full((height, width, 3), np.clip(tone * 0.8, 0, 255), np.uint8)
    return Canvas(colour, np.zeros((height, width), np.uint8), 1.0)


def _settle(stage: Stage, rng: Random, layer: Canvas, size: float, under: bool = False) -> None:
    """Compose the part of the layer that was drawn on; below all cards if `under`."""
    x, y, wide, tall = cv2.boundingRect(layer.cover)
    if wide < 2 or tall < 2:
        return
    pad = 24
    left, top = max(x - pad, 0), max(y - pad, 0)
    box = (slice(top, y + tall + pad), slice(left, x + wide + pad))
    cards = stage.owner[box] > 0
    kept, over = stage.picture[box][cards], stage.over[box][cards]
    lift = size * (0.25 if not under else 0.12)
    compose(stage, rng, layer.colour[box], layer.cover[box], (left, top), lift, 0.15)
    if under:
        shade = cv2.GaussianBlur(cards.astype(np.float32), (0, 0), max(size * 0.03, 1))
        stage.picture[box] *= 1 - shade[..., None] * np.float32(rng.uniform(0.2, 0.6))
        stage.picture[box][cards], stage.over[box][cards] = kept, over


def hold(stage: Stage, rng: Random, quad: np.ndarray) -> None:
    """A hand holds the card at a corner or a side, thumb in front, or lies over its edge."""
    side, share = int(rng.integers(4)), float(rng.choice([0.0, rng.uniform(0.1, 0.9)]))
    edge = quad[side] * (1 - share) + quad[(side + 1) % 4] * share
    inwards = quad.mean(axis=0) - edge
    long = float(np.sqrt(cv2.contourArea(quad.astype(np.float32))))
    tip = edge + inwards * rng.uniform(0.05, 0.45)
    way = float(np.arctan2(inwards[1], inwards[0])) + rng.normal() * 0.4
    grip = str(rng.choice(["open", "pinch", "under"], p=[0.25, 0.2, 0.55]))
    hand(stage, rng, tip, long * rng.uniform(0.75, 1.25), way, grip)


def hand_anywhere(stage: Stage, rng: Random) -> None:
    """A hand from beyond the frame that points, rests, or draws."""
    reach = np.array(stage.size)
    tip = rng.uniform(0.1, 0.9, 2) * reach
    away = tip - reach / 2 + rng.normal(size=2) * 20
    way = float(np.arctan2(-away[1], -away[0]))
    size = float(reach.max() * rng.uniform(0.12, 0.3))
    hand(stage, rng, tip, size, way, str(rng.choice(["open", "open", "pinch"])))
