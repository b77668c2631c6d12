"""What is done to a card last, and what becomes of it: frames, edges, margins, age, light."""

import cv2
import numpy as np

from finder_training.art.colours import blank, blend, dark_ink, done, one_of, palette, paper, white
from finder_training.art.strokes import apart, path
from finder_training.noise import Random, cloud, speckle


def finished(card: np.ndarray, rng: Random) -> np.ndarray:
    """The uint8 card with some of the finishes, each with a chance of its own."""
    if min(card.shape[:2]) < 40:
        return card
    for chance, finish in FINISHES:
        if rng.random() < chance:
            card = finish(card, rng)
    return card


def hand_frame(card: np.ndarray, rng: Random) -> np.ndarray:
    """A wobbly frame drawn by hand, closed or not, once or twice, its corners crossing."""
    height, width = card.shape[:2]
    pen = dark_ink(rng) if rng.random() < 0.6 else one_of(rng, palette(rng, 2))
    card, thick = card.copy(), max(int(width * rng.uniform(0.003, 0.02)), 1)
    inset = width * rng.uniform(0.025, 0.12)
    for _ in range(int(rng.choice([1, 1, 2]))):
        far = inset + rng.normal(size=4) * width * 0.008
        right, low = width - far[2], height - far[3]
        ends = np.array([[far[0], far[1]], [right, far[1]], [right, low], [far[0], low]])
        wobble = width * rng.uniform(0.001, 0.012)
        for one, two in zip(ends, np.roll(ends, -1, axis=0), strict=True):
            share = np.linspace(-0.01, 1.01, 9)[:, None]
            line = one + (two - one) * share + rng.normal(size=(9, 2)) * wobble
            cv2.polylines(card, [(line * 8).astype(np.int32)], False, pen, thick, cv2.LINE_AA, 3)
        inset += thick + width * rng.uniform(0.015, 0.04)
    return card


def some_sides(card: np.ndarray, rng: Random) -> np.ndarray:
    """A band of colour along one side, two or three, at the edge or off it."""
    height, width = card.shape[:2]
    card, colour = card.copy(), one_of(rng, [*palette(rng, 1), paper(rng), np.array(dark_ink(rng))])
    sides = rng.permutation(4)[: int(rng.integers(1, 4))]
    wide, off = width * rng.uniform(0.02, 0.14), width * rng.choice([0, 0, rng.uniform(0.02, 0.06)])
    near, far = max(int(off), 0), max(int(off + wide), 1)
    for side in sides:
        strip = (np.s_[near:far], np.s_[height - far : height - near],
                 np.s_[:, near:far], np.s_[:, width - far : width - near])[side]
        card[strip] = colour
    return card


def margins(card: np.ndarray, rng: Random) -> np.ndarray:
    """Bare paper about the art, of unequal width, its inner corners square or rounded."""
    height, width = card.shape[:2]
    far = width * rng.uniform(0.01, 0.13, 4)
    if rng.random() < 0.4:
        far[:] = far[0]
    box = (far[0], far[1], width - far[2], height - far[3])
    if rng.random() < 0.5:
        inner = apart(width, height, box)
    else:
        round_ = width * rng.uniform(0.03, 0.2)
        middle, half = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2), (
            (box[2] - box[0]) / 2 - round_, (box[3] - box[1]) / 2 - round_)
        x = np.abs(np.arange(width, dtype=np.float32) - middle[0]) - half[0]
        y = np.abs(np.arange(height, dtype=np.float32)[:, None] - middle[1]) - half[1]
        x, y = np.maximum(x, 0), np.maximum(y, 0)
        inner = round_ - np.sqrt(x * x + y * y)
    made = card.astype(np.float32)
    blend(made, white(rng) if rng.random() < 0.6 else paper(rng), np.clip(0.5 - inner, 0, 1))
    return done(made)


def inked_edge(card: np.ndarray, rng: Random) -> np.ndarray:
    """Edges rubbed with ink or worn away to the paper: uneven, stronger at the corners."""
    height, width = card.shape[:2]
    far = apart(width, height, (0, 0, width, height)) / width
    rough = cloud(width, height, rng.uniform(8, 30), rng)[..., 0] * rng.uniform(0.2, 0.9)
    reach = rng.uniform(0.015, 0.09)
    mask = np.clip(1 - far / reach + rough, 0, 1) * np.clip(2.5 - far / reach, 0, 1)
    tone = [[60, 40, 25], [20, 20, 25], [240, 236, 228], palette(rng, 1)[0]][int(rng.integers(4))]
    made = card.astype(np.float32)
    blend(made, tone, mask * np.float32(rng.uniform(0.3, 0.95)))
    return done(made)


def deckle(card: np.ndarray, rng: Random) -> np.ndarray:
    """A thin line of shade or light along the uneven edge of handmade paper."""
    height, width = card.shape[:2]
    far = apart(width, height, (0, 0, width, height))
    far = far + cloud(width, height, 30, rng)[..., 0] * rng.uniform(0.5, 2.5)
    mask = np.clip(1 - np.abs(far - rng.uniform(1, 4)) / rng.uniform(1, 3), 0, 1)
    return done(card + mask[..., None] * rng.choice([-1, 1]) * rng.uniform(10, 60))


def signature(card: np.ndarray, rng: Random) -> np.ndarray:
    """A scrawl low in a corner, with or without a year's strokes."""
    height, width = card.shape[:2]
    card = card.copy()
    at = np.array([rng.choice([0.06, 0.7]), rng.uniform(0.9, 0.96)]) * (width, height)
    count = int(rng.integers(10, 26))
    run = np.column_stack([np.linspace(0, width * rng.uniform(0.12, 0.26), count),
                           rng.normal(size=count) * width * 0.012])
    run[:, 0] += rng.normal(size=count) * width * 0.006
    pen = dark_ink(rng) if card.mean() > 100 else (240, 238, 230)
    cv2.polylines(card, [((at + run) * 8).astype(np.int32)], False, pen, 1, cv2.LINE_AA, 3)
    return card


def hole(card: np.ndarray, rng: Random) -> np.ndarray:
    """A punched hole through which something dark or pale is seen, perhaps with an eyelet."""
    height, width = card.shape[:2]
    card = card.copy()
    at = (int(width * rng.choice([0.5, 0.1, 0.9])), int(height * rng.choice([0.07, 0.07, 0.93])))
    size = max(int(width * rng.uniform(0.025, 0.05)), 2)
    if rng.random() < 0.4:
        cv2.circle(card, at, int(size * 1.6), one_of(rng, palette(rng, 2)), -1, cv2.LINE_AA)
    tone = tuple(int(v) for v in rng.uniform(10, 230, 3))
    cv2.circle(card, at, size, tone, -1, cv2.LINE_AA)
    return card


def grain(card: np.ndarray, rng: Random) -> np.ndarray:
    """The tooth of paper or canvas: specks, or ribs along and across."""
    height, width = card.shape[:2]
    if rng.random() < 0.6:
        rough = speckle(width, height, rng)
        return done(card * (1 + rough * np.float32(rng.uniform(0.01, 0.06))))
    period = rng.uniform(2.2, 6)
    ribs = np.sin(np.arange(width, dtype=np.float32) * 6.28 / period) + np.sin(
        np.arange(height, dtype=np.float32) * 6.28 / period)[:, None]
    return done(card * (1 + ribs[..., None] * np.float32(rng.uniform(0.01, 0.05))))


def yellowed(card: np.ndarray, rng: Random) -> np.ndarray:
    """Paper gone yellow or brown, evenly or in patches."""
    height, width = card.shape[:2]
    tint = np.float32([1.0, rng.uniform(0.92, 0.97), rng.uniform(0.72, 0.92)])
    share = np.clip(0.75 + cloud(width, height, 2, rng) * 0.5, 0, 1)
    return done(card * (1 - share * (1 - tint)))


def gloss(card: np.ndarray, rng: Random) -> np.ndarray:
    """Varnish: light that grows towards a side or lies across in a soft band."""
    height, width = card.shape[:2]
    turn = rng.uniform(0, 6.3)
    x = np.linspace(-0.5, 0.5, width, dtype=np.float32)
    y = np.linspace(-0.5, 0.5, height, dtype=np.float32)[:, None]
    far = x * np.cos(turn) + y * np.sin(turn) + rng.uniform(-0.4, 0.4)
    light = np.exp(-((far / rng.uniform(0.05, 0.4)) ** 2)) if rng.random() < 0.6 else far + 0.5
    return done(card + light[..., None] * np.float32(rng.uniform(10, 90)))


def fibres(card: np.ndarray, rng: Random) -> np.ndarray:
    """Threads and flakes in handmade or recycled paper."""
    height, width = card.shape[:2]
    made, tones = card.copy(), [dark_ink(rng), one_of(rng, palette(rng, 1)), (250, 248, 240)]
    for _ in range(int(rng.integers(8, 45))):
        start = rng.uniform(0, 1, 2) * (width, height)
        line = path(start, rng.uniform(0, 6.3), width * rng.uniform(0.02, 0.12), 0.3, rng, 6)
        cv2.polylines(made, [line.astype(np.int32)], False, one_of(rng, tones), 1, cv2.LINE_AA)
    return cv2.addWeighted(card, 0.5, made, 0.5, 0)


def tape_corners(card: np.ndarray, rng: Random) -> np.ndarray:
    """Photo corners or bits of clear tape over some of the corners."""
    height, width = card.shape[:2]
    size, tone = width * rng.uniform(0.06, 0.2), one_of(rng, [*palette(rng, 1), white(rng)])
    made = card.copy()
    for x, y in rng.permutation([(0, 0), (1, 0), (1, 1), (0, 1)])[: int(rng.integers(1, 5))]:
        at, way = np.array([x * width, y * height]), np.array([1 - 2 * x, 1 - 2 * y]) * size
        points = np.array([at, at + way * (1, 0), at + way * (0, 1)])
        cv2.fillPoly(made, [points.astype(np.int32)], tone, cv2.LINE_AA)
    share = rng.uniform(0.3, 1)
    return cv2.addWeighted(card, 1 - share, made, share, 0)


def bevelled(card: np.ndarray, rng: Random) -> np.ndarray:
    """The art on a smaller piece, centred, with a bare card about it and a thin line between."""
    height, width = card.shape[:2]
    share = rng.uniform(0.6, 0.93)
    wide, tall = int(width * share), int(height * share)
    x, y = (width - wide) // 2, int((height - tall) * rng.choice([0.5, 0.5, 0.3]))
    made = blank(width, height, white(rng) if rng.random() < 0.6 else palette(rng, 1)[0])
    made[y : y + tall, x : x + wide] = cv2.resize(card, (wide, tall), interpolation=cv2.INTER_AREA)
    if rng.random() < 0.5:
        tone = tuple(int(v) for v in made[0, 0] * rng.uniform(0.4, 0.9))
        cv2.rectangle(made, (x - 1, y - 1), (x + wide, y + tall), tone, 1)
    return made


def faded(card: np.ndarray, rng: Random) -> np.ndarray:
    """Everything nearer to one tone: bleached by the sun, printed weakly, or gone dark."""
    tone = white(rng) if rng.random() < 0.7 else np.array(dark_ink(rng))
    share = np.float32(rng.uniform(0.25, 0.8))
    return done(card + (tone.astype(np.float32) - card) * share)


FINISHES = (
    (0.05, faded),
    (0.06, bevelled), (0.08, margins), (0.06, some_sides), (0.08, hand_frame), (0.03, tape_corners),
    (0.05, fibres), (0.1, signature), (0.08, inked_edge), (0.05, deckle), (0.02, hole),
    (0.12, grain), (0.06, yellowed), (0.06, gloss),
)
"""Each with its chance, in the order they are done."""
