"""Art that a finder takes for a card, or for several: frames, panels, layers, halves.

What is framed is drawn by `fill(width, height, rng)`, any other art.
"""

from collections.abc import Callable

import cv2
import numpy as np

from finder_training.art.colours import blank, blend, dark_ink, done, one_of, palette, paper, white
from finder_training.art.glued import put_turned, swatch
from finder_training.art.motifs import any_motif, draw
from finder_training.art.strokes import apart
from finder_training.noise import Random, cloud

Fill = Callable[[int, int, Random], np.ndarray]


def _plain_or(width: int, height: int, rng: Random, fill: Fill, plain: float) -> np.ndarray:
    """One colour, a paper, or the art itself, if there is room for it."""
    narrow = min(width, height)
    roomy = narrow >= max(60, max(width, height) / 3)
    roll = rng.random() if roomy else rng.uniform(0, plain + 0.2)
    if roll < plain or narrow < 12:
        return blank(width, height, palette(rng, 1)[0] if rng.random() < 0.7 else paper(rng))
    return swatch(width, height, rng) if roll < plain + 0.2 else fill(width, height, rng)


def inset(width: int, height: int, rng: Random, fill: Fill) -> np.ndarray:
    """A large rectangle of nearly the card's own proportion in another colour, once, twice or
    three times within itself, its margins alike or not, or widest below."""
    card = _plain_or(width, height, rng, fill, 0.75)
    box = np.array([0.0, 0.0, width, height])
    alike, wider = rng.random() < 0.5, rng.random() < 0.3
    levels = int(rng.integers(1, 4))
    for level in range(levels):
        margins = np.full(4, rng.uniform(0.02, 0.16 if levels < 3 else 0.1) * width)
        margins *= 1 if alike else rng.uniform(0.4, 1.6, 4)
        margins[3] *= 1 + wider * rng.uniform(0.5, 2)
        box += margins * (1, 1, -1, -1)
        left, top, right, bottom = (int(v) for v in box)
        if right - left < 12 or bottom - top < 12:
            break
        last = level == levels - 1
        card[top:bottom, left:right] = _plain_or(
            right - left, bottom - top, rng, fill, 0.4 if last else 0.85)
        if rng.random() < 0.3:
            thick = int(rng.integers(1, 4))
            cv2.rectangle(card, (left, top), (right, bottom), dark_ink(rng), thick)
    return card


def panels(width: int, height: int, rng: Random, fill: Fill) -> np.ndarray:
    """Several rectangles side by side: panels of a comic, windows, strips of small prints."""
    card = blank(width, height, paper(rng) if rng.random() < 0.7 else dark_ink(rng))
    gap, edge = width * rng.uniform(0.01, 0.06), width * rng.uniform(0.0, 0.1)
    rows, same = int(rng.integers(1, 5)), rng.random() < 0.5
    columns, few = int(rng.integers(1 + (rows == 1), 4)), palette(rng, 4)
    lines = dark_ink(rng) if rng.random() < 0.5 else None
    heights = np.ones(rows) if same else rng.uniform(0.5, 1.6, rows)
    downs = edge + np.concatenate([[0], np.cumsum(heights / heights.sum())]) * (height - 2 * edge)
    for top, bottom in zip(downs[:-1], downs[1:], strict=True):
        count = columns if same else int(rng.integers(1, 4))
        shares = np.linspace(0, 1, count + 1)
        shares[1:-1] += 0 if same else rng.normal(size=count - 1) * 0.08
        sides = edge + shares * (width - 2 * edge)
        for left, right in zip(sides[:-1], sides[1:], strict=True):
            x, y, far, low = (int(v) for v in (left + gap, top + gap, right - gap, bottom - gap))
            if far - x < 6 or low - y < 6:
                continue
            part = card[y:low, x:far]
            if rng.random() < 0.6 or part.size < 4000:
                part[:] = one_of(rng, few) if rng.random() < 0.8 else white(rng)
                at, size = ((far - x) / 2, (low - y) / 2), min(far - x, low - y) * 0.35
                draw(part, any_motif(rng), at, size, palette(rng, 3))
            else:
                part[:] = _plain_or(far - x, low - y, rng, fill, 0.2)
            if lines is not None:
                cv2.rectangle(card, (x, y), (far, low), lines, 1 + int(width > 150))
    return card


def patchwork(width: int, height: int, rng: Random, fill: Fill) -> np.ndarray:
    """Rows of patches, square, in strips, or of a card's own proportion, with or without seams."""
    columns = int(rng.integers(2, 7))
    wide = width / columns
    tall = wide * rng.choice([1.0, 1.4, 1.4, 0.5, 2.0])
    card, colours = blank(width, height, paper(rng)), palette(rng, 6)
    colours += palette(rng, 2)
    cloths = [swatch(int(wide) + 2, int(tall) + 2, rng) for _ in range(4)]
    seam, shift = int(rng.choice([0, 0, 1, 3])), rng.random() < 0.3
    halved = rng.random() < 0.3
    for row in range(int(height / tall) + 2):
        for column in range(-1, columns + 1):
            x = int((column + (0.5 if shift and row % 2 else 0)) * wide)
            y, far, low = int(row * tall), int(x + wide) - seam, int((row + 1) * tall) - seam
            part = card[y : max(low, 0), max(x, 0) : max(far, 0)]
            if part.size == 0:
                continue
            part[:] = one_of(rng, colours)
            if rng.random() < 0.4:
                part[:] = cloths[int(rng.integers(4))][: part.shape[0], : part.shape[1]]
            elif halved:
                points = np.array([[x, y], [far, y], [x, low]], np.int32)
                cv2.fillPoly(card, [points], one_of(rng, colours))
    return card


def pasted(width: int, height: int, rng: Random, fill: Fill) -> np.ndarray:
    """A layer glued on with a shadow about it, that looks like a second, smaller card."""
    card = _plain_or(width, height, rng, fill, 0.5)
    share = rng.uniform(0.45, 0.92)
    wide, tall = max(int(width * share), 4), max(int(height * share * rng.uniform(0.8, 1.05)), 4)
    layer = _plain_or(wide, tall, rng, fill, 0.25)
    mask = np.full((tall, wide), 255, np.uint8)
    at = np.array([width, height]) / 2 + rng.normal(size=2) * width * 0.03
    put_turned(card, layer, mask, at, float(rng.choice([0, 0, rng.normal() * 4])), rng)
    return card


def photographs(width: int, height: int, rng: Random, fill: Fill) -> np.ndarray:
    """One to four small prints with white borders stuck on, some with a wide border below."""
    card = _plain_or(width, height, rng, fill, 0.5)
    for _ in range(int(rng.integers(1, 5))):
        wide = int(width * rng.uniform(0.3, 0.62)) + 6
        tall = int(wide * rng.choice([0.7, 1.0, 1.25, 1.4])) + 6
        edge, low = max(int(wide * 0.06), 1), max(int(wide * rng.choice([0.06, 0.06, 0.22])), 1)
        print_ = blank(wide, tall, white(rng))
        inner = print_[edge : tall - low, edge : wide - edge]
        if inner.size:
            made = _plain_or(inner.shape[1], inner.shape[0], rng, fill, 0.2)
            # As a snapshot has it: soft, and of one cast.
            cast = rng.uniform(0.6, 1.15, 3) if rng.random() < 0.5 else np.ones(3)
            inner[:] = done(made * cast)
        mask = np.full((tall, wide), 255, np.uint8)
        at = rng.uniform(0.28, 0.72, 2) * (width, height)
        put_turned(card, print_, mask, at, rng.normal() * rng.choice([1, 9]), rng)
    return card


def split(width: int, height: int, rng: Random, fill: Fill) -> np.ndarray:
    """Halves, thirds or quarters of different colour, along, across or aslant."""
    card = _plain_or(width, height, rng, fill, 0.7)
    other = _plain_or(width, height, rng, fill, 0.6)
    share = float(rng.choice([0.5, 0.5, 1 / 3, 2 / 3, rng.uniform(0.15, 0.85)]))
    slant, roll = rng.normal() * 0.2 * (rng.random() < 0.3), rng.random()
    x = (np.arange(width) / width)[None]
    y = (np.arange(height) / height)[:, None]
    along, across = x + slant * y < share + slant / 2, y + slant * x < share + slant / 2
    if roll < 0.35:
        chosen = np.broadcast_to(along, (height, width))
    elif roll < 0.75:
        chosen = np.broadcast_to(across, (height, width))
    elif roll < 0.9:
        chosen = along ^ (y < 0.5)
    else:
        chosen = x + y < 2 * share
    card[chosen] = other[chosen]
    if rng.random() < 0.3:
        at = np.array([0.5, share if 0.35 <= roll < 0.75 else 0.5]) * (width, height)
        draw(card, any_motif(rng), at, width * rng.uniform(0.1, 0.3), palette(rng, 3))
    return card


def fading(width: int, height: int, rng: Random, fill: Fill) -> np.ndarray:
    """Art or colour that fades to the paper's own at one side or more."""
    card = _plain_or(width, height, rng, fill, 0.35).astype(np.float32)
    bare = white(rng) if rng.random() < 0.8 else paper(rng)
    far = width * rng.uniform(0.1, 0.6, 4)
    x = np.arange(width, dtype=np.float32)
    y = np.arange(height, dtype=np.float32)[:, None]
    kept = np.ones((height, width), np.float32)
    chosen = rng.random(4) < rng.choice([0.1, 0.35, 1.0])
    chosen[int(rng.integers(4))] = True
    for side, way in enumerate((x, width - 1 - x, y, height - 1 - y)):
        if chosen[side]:
            kept = kept * np.clip((way - width * 0.02) / far[side], 0, 1)
    if rng.random() < 0.4:
        kept = np.clip(kept + cloud(width, height, 9, rng)[..., 0] * 0.3 * kept, 0, 1)
    blend(card, bare, 1 - kept)
    return done(card)


def half_bare(width: int, height: int, rng: Random, fill: Fill) -> np.ndarray:
    """Dark or busy art on one part, white paper on the rest, the line between hard or torn."""
    bare = white(rng)
    card = blank(width, height, bare).astype(np.float32)
    art = _plain_or(width, height, rng, fill, 0.3) * np.float32(rng.choice([1, 1, 0.5]))
    share, side = rng.uniform(0.2, 0.75), int(rng.integers(4))
    x = np.linspace(0, 1, width, dtype=np.float32) * width
    y = (np.linspace(0, 1, height, dtype=np.float32) * height)[:, None]
    ways = (share * width - x, x - (1 - share) * width, share * height - y,
            y - (1 - share) * height)
    far = np.broadcast_to(ways[side], (height, width))
    if rng.random() < 0.5:
        far = far + cloud(width, height, rng.uniform(2, 25), rng)[..., 0] * rng.uniform(2, 14)
    mask = np.clip(far / rng.choice([0.8, 2, 25]) + 0.5, 0, 1)
    card += (art - card) * mask[..., None]
    return done(card)


def matted(width: int, height: int, rng: Random, fill: Fill) -> np.ndarray:
    """An oval, round or arched opening in a plain card, art behind it."""
    card = _plain_or(width, height, rng, fill, 0.1)
    mask = np.zeros((height, width), np.uint8)
    half = (int(width * rng.uniform(0.25, 0.47)), int(height * rng.uniform(0.2, 0.46)))
    at, roll = (width // 2, int(height * rng.uniform(0.42, 0.55))), rng.random()
    if roll < 0.4:
        cv2.ellipse(mask, at, half, 0, 0, 360, 255, -1, cv2.LINE_AA)
    elif roll < 0.6:
        cv2.circle(mask, at, half[0], 255, -1, cv2.LINE_AA)
    else:
        cv2.circle(mask, (at[0], at[1] - half[1] // 2), half[0], 255, -1, cv2.LINE_AA)
        low = (at[0] + half[0], at[1] + half[1])
        cv2.rectangle(mask, (at[0] - half[0], at[1] - half[1] // 2), low, 255, -1)
    share = 1 - mask.astype(np.float32) / 255
    made = card.astype(np.float32)
    blend(made, paper(rng) if rng.random() < 0.7 else palette(rng, 1)[0], share)
    card = done(made)
    if rng.random() < 0.4:
        outlines, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
        cv2.drawContours(card, outlines, -1, dark_ink(rng), int(rng.integers(1, 4)), cv2.LINE_AA)
    return card


def foiled(width: int, height: int, rng: Random, fill: Fill) -> np.ndarray:
    """Metal foil over all, a frame or a figure: bands of light and of rainbow across it."""
    card = _plain_or(width, height, rng, fill, 0.6).astype(np.float32)
    x = np.linspace(0, 1, width, dtype=np.float32)
    y = np.linspace(0, 1.4, height, dtype=np.float32)[:, None]
    turn = rng.uniform(0, 6.3)
    bend = cloud(width, height, rng.uniform(1.5, 6), rng)[..., 0] * rng.uniform(0.05, 0.4)
    wave = (x * np.cos(turn) + y * np.sin(turn) + bend) * rng.uniform(4, 16)
    metals = [[215, 175, 90], [200, 202, 208], [205, 140, 115], [150, 190, 220]]
    shine = np.float32(metals[int(rng.integers(4))]) * (0.75 + 0.45 * np.sin(wave))[..., None]
    if rng.random() < 0.35:
        shine = shine + np.sin(wave[..., None] + np.float32([0, 2.1, 4.2])) * 60
    roll = rng.random()
    mask = np.zeros((height, width), np.uint8)
    if roll < 0.3:
        mask[:] = 255
    elif roll < 0.6:
        edge = width * rng.uniform(0.03, 0.15)
        mask[apart(width, height, (0, 0, width, height)) < edge] = 255
    else:
        at = rng.uniform(0.3, 0.7, 2) * (width, height)
        draw(mask, any_motif(rng), at, width * rng.uniform(0.2, 0.45), [[255], [210]])
    card += (shine - card) * (mask.astype(np.float32) / 255)[..., None]
    return done(card)


FRAMINGS = (inset, inset, inset, panels, panels, patchwork, patchwork, patchwork, pasted,
            photographs, split, split, fading, fading, half_bare, half_bare, matted, foiled)
"""Those more often that fool a finder more."""
