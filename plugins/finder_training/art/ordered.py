"""Art with an order: mandalas, mosaics, stitches, grids, labels, forms on the backs of cards."""

import cv2
import numpy as np

from finder_training.art.colours import blank, dark_ink, done, one_of, palette, paper, white
from finder_training.art.motifs import any_motif, draw, flower, heart, leaf, star
from finder_training.art.strokes import path, wobbled
from finder_training.noise import Random, cloud


def mandala(width: int, height: int, rng: Random) -> np.ndarray:
    """Rings of petals, dots and arcs about one middle, in lines, dots or colour."""
    dark = rng.random() < 0.35
    card = blank(width, height, rng.uniform(8, 50, 3) if dark else white(rng))
    moods = ["bright", "pale"] if dark else ["bright", "whole", "dark"]
    colours = palette(rng, 5, one_of(rng, moods))
    pen = (245, 242, 235) if dark else dark_ink(rng)
    at = np.array([width, height]) * (0.5 if rng.random() < 0.7 else rng.uniform(0.2, 0.8, 2))
    lines, far, step = rng.random() < 0.4, width * rng.uniform(0.02, 0.06), width * 0.05
    fold = int(rng.choice([6, 8, 12, 16]))
    reach = width * rng.uniform(0.3, 0.75)
    while far < reach:
        size, kind = step * rng.uniform(0.5, 1.2), int(rng.integers(4))
        colour = one_of(rng, colours)
        for turn in (np.arange(fold) + 0.5 * (rng.random() < 0.5)) * 2 * np.pi / fold:
            x, y = at + np.array([np.cos(turn), np.sin(turn)]) * far
            if kind == 0:
                cv2.circle(card, (int(x), int(y)), max(int(size * 0.4), 1), colour,
                           1 if lines else -1, cv2.LINE_AA)
            else:
                parts = (leaf, heart, star)[kind - 1](rng)[:1]
                draw(card, parts, (x, y), size, [] if lines else [colour], turn + np.pi / 2,
                     pen if lines else None)
        if rng.random() < 0.5:
            cv2.circle(card, at.astype(int).tolist(), int(far + size), pen, 1, cv2.LINE_AA)
        far += size * rng.uniform(1.2, 2)
        step *= 1.1
    return card


def mosaic(width: int, height: int, rng: Random) -> np.ndarray:
    """Small tiles with grout between them, their colours following a picture below."""
    step = max(int(width * rng.uniform(0.035, 0.11)), 4)
    rows, columns = height // step + 2, width // step + 2
    below = np.full((rows, columns, 3), palette(rng, 1)[0], np.uint8)
    draw(below, any_motif(rng), (columns / 2, rows / 2), columns * rng.uniform(0.3, 0.5),
         palette(rng, 4), rng.normal() * 0.2)
    tiles = np.clip(below * rng.uniform(0.75, 1.2, (rows, columns, 1)), 0, 255).astype(np.uint8)
    card = cv2.resize(tiles, (columns * step, rows * step), interpolation=cv2.INTER_NEAREST)
    card = np.ascontiguousarray(card[:height, :width])
    grout = paper(rng) if rng.random() < 0.6 else np.array(dark_ink(rng))
    for line in range(max(int(step * rng.uniform(0.08, 0.25)), 1)):
        card[line::step], card[:, line::step] = grout, grout
    return wobbled(card, rng, step * rng.uniform(0.0, 0.5), rng.uniform(5, 20))


def cross_stitch(width: int, height: int, rng: Random) -> np.ndarray:
    """Crosses on squared cloth that make a figure, or pixels that do."""
    step = max(int(width * rng.uniform(0.02, 0.06)), 3)
    rows, columns = height // step + 1, width // step + 1
    ground = white(rng) if rng.random() < 0.7 else palette(rng, 1)[0]
    below = np.full((rows, columns, 3), ground, np.uint8)
    for _ in range(int(rng.integers(1, 4))):
        at = rng.uniform(0.25, 0.75, 2) * (columns, rows)
        draw(below, any_motif(rng), at, columns * rng.uniform(0.15, 0.4), palette(rng, 3))
    card = cv2.resize(below, (columns * step, rows * step), interpolation=cv2.INTER_NEAREST)
    if rng.random() < 0.7:
        x, y = np.arange(columns * step) % step, (np.arange(rows * step) % step)[:, None]
        gone = np.minimum(np.abs(x - y), np.abs(x + y - step + 1)) > step * 0.22
        card = np.where(gone[..., None], (ground * 0.93).astype(np.uint8), card)
    return np.ascontiguousarray(card[:height, :width])


def grid_of(width: int, height: int, rng: Random) -> np.ndarray:
    """Rows of like shapes, each in a colour of its own: rings, squares in squares, drops."""
    columns = int(rng.integers(2, 8))
    step, few = width / columns, palette(rng, 6)
    card = blank(width, height, paper(rng) if rng.random() < 0.6 else few[0])
    kind, filled = int(rng.integers(4)), rng.random() < 0.4
    motif = any_motif(rng)
    for y in np.arange(step / 2, height + step / 2, step):
        for x in np.arange(step / 2, width, step):
            at = (int(x), int(y))
            if filled:
                top, low = ((int(x + s), int(y + s)) for s in (-step / 2, step / 2))
                cv2.rectangle(card, top, low, one_of(rng, few), -1)
            for size in step * np.array([0.44, 0.3, 0.16])[: int(rng.integers(1, 4))]:
                colour = one_of(rng, few)
                if kind == 0:
                    cv2.circle(card, at, max(int(size), 1), colour, -1, cv2.LINE_AA)
                elif kind == 1:
                    far = int(size)
                    cv2.rectangle(card, (at[0] - far, at[1] - far), (at[0] + far, at[1] + far),
                                  colour, -1)
                elif kind == 2:
                    cv2.circle(card, at, max(int(size), 1), colour, max(int(step * 0.06), 1))
                else:
                    draw(card, motif, at, size, [colour, *few[:2]])
                    break
    return wobbled(card, rng, width * rng.uniform(0, 0.015), 8)


def quilt(width: int, height: int, rng: Random) -> np.ndarray:
    """Three to five rows of patches, each patch with a pattern."""
    rows = int(rng.integers(3, 6))
    columns = rows if rng.random() < 0.6 else int(rng.integers(3, 6))
    few, pen = palette(rng, 5), dark_ink(rng)
    seam = width * rng.uniform(0.004, 0.03) if rng.random() < 0.6 else 0.0
    card = blank(width, height, paper(rng) if rng.random() < 0.5 else pen)
    for row in range(rows):
        for column in range(columns):
            left, right = (int(width * v / columns + s * seam / 2)
                           for v, s in ((column, 1), (column + 1, -1)))
            top, low = (int(height * v / rows + s * seam / 2) for v, s in ((row, 1), (row + 1, -1)))
            part = card[top:low, left:right]
            part[:] = one_of(rng, few)
            _pattern(part, rng, pen if rng.random() < 0.7 else one_of(rng, few))
    return card


def _pattern(part: np.ndarray, rng: Random, pen: tuple) -> None:
    """Stripes, squares in squares, rays, dots or a figure over a patch, in place."""
    height, width = part.shape[:2]
    drawn = np.ascontiguousarray(part)
    step, thick = max(width * rng.uniform(0.06, 0.2), 3), max(int(width * 0.03), 1)
    middle, kind = np.array([width, height]) / 2, int(rng.integers(6))
    if kind == 0:
        slope = rng.uniform(-1.5, 1.5)
        for x in np.arange(-1.5 * height, width + 1.5 * height, step):
            ends = (int(x), 0), (int(x + slope * height), height)
            cv2.line(drawn, *ends, pen, thick, cv2.LINE_AA)
    elif kind == 1:
        for share in np.arange(0.1, 1, rng.uniform(0.12, 0.3)):
            one, two = (tuple(int(v) for v in middle * (1 + s * share)) for s in (-1, 1))
            cv2.rectangle(drawn, one, two, pen, thick)
    elif kind == 2:
        for turn in np.linspace(0, np.pi, int(rng.integers(4, 12)), endpoint=False):
            way = np.array([np.cos(turn), np.sin(turn)]) * width * rng.uniform(0.2, 0.6)
            ends = (middle - way).astype(int).tolist(), (middle + way).astype(int).tolist()
            cv2.line(drawn, *ends, pen, thick, cv2.LINE_AA)
    elif kind == 3:
        for at in rng.uniform(0, 1, (int(rng.integers(5, 40)), 2)) * (width, height):
            size = max(int(step * rng.uniform(0.1, 0.5)), 1)
            cv2.circle(drawn, at.astype(int).tolist(), size, pen, int(rng.choice([-1, 1])),
                       cv2.LINE_AA)
    elif kind == 4:
        draw(drawn, any_motif(rng), middle, width * rng.uniform(0.2, 0.45), [pen])
    part[:] = drawn


def label(width: int, height: int, rng: Random) -> np.ndarray:
    """An old label: frames, one in another, ornaments in the corners, a word in the middle."""
    card, pen = blank(width, height, paper(rng)), dark_ink(rng)
    if rng.random() < 0.5:
        pen = one_of(rng, palette(rng, 2, "dark"))
    if card.mean() < 90:
        pen = (235, 225, 190)
    far = width * rng.uniform(0.03, 0.1)
    for _ in range(int(rng.integers(1, 4))):
        at, to = int(far), (int(width - far), int(height - far))
        cv2.rectangle(card, (at, at), to, pen, int(rng.integers(1, 4)))
        far += width * rng.uniform(0.015, 0.05)
    motif, size = (flower, heart, leaf, star)[int(rng.integers(4))](rng), width * 0.07
    for x, y, turn in ((far, far, 0.7), (width - far, far, 2.3), (width - far, height - far, 3.9),
                       (far, height - far, 5.5)):
        draw(card, motif, (x, y), size, [pen], turn + np.pi)
    middle = (width // 2, int(height * rng.uniform(0.35, 0.65)))
    if rng.random() < 0.6:
        half = (int(width * 0.3), int(height * rng.uniform(0.08, 0.25)))
        tone = one_of(rng, palette(rng, 3))
        cv2.ellipse(card, middle, half, 0, 0, 360, tone, int(rng.choice([-1, 2])), cv2.LINE_AA)
    word = "".join(rng.choice(list("AEIOULMNRST"), int(rng.integers(3, 8))))
    scale = width * rng.uniform(0.002, 0.005)
    start = (middle[0] - int(len(word) * scale * 9), middle[1] + int(scale * 9))
    cv2.putText(card, word, start, cv2.FONT_HERSHEY_TRIPLEX, scale, pen, 1 + int(scale > 0.8),
                cv2.LINE_AA)
    return card


def form(width: int, height: int, rng: Random) -> np.ndarray:
    """The back of a card: printed labels with lines to write on, filled in or not, a stamp."""
    card, pen = blank(width, height, white(rng)), dark_ink(rng)
    print_ = tuple(int(v) for v in rng.uniform(40, 170, 1).repeat(3))
    side, y = width * rng.uniform(0.06, 0.14), height * rng.uniform(0.1, 0.4)
    step = height * rng.uniform(0.06, 0.13)
    if rng.random() < 0.5:
        long = width * rng.uniform(0.3, 0.7)
        _scrawl(card, (side, y - step * 0.7), long, step * 0.4, print_, rng)
    filled = rng.random() < 0.7
    while y < height * rng.uniform(0.85, 0.97):
        named = width * rng.uniform(0.1, 0.22)
        _scrawl(card, (side, y), named, step * 0.16, print_, rng)
        left, low = int(side + named * 1.2), int(y + step * 0.12)
        cv2.line(card, (left, low), (int(width - side), low), print_, 1)
        if filled and rng.random() < 0.8:
            _scrawl(card, (left, y), width * rng.uniform(0.15, 0.5), step * 0.35, pen, rng)
        y += step
    if rng.random() < 0.4:
        at = rng.uniform((0.55, 0.1), (0.85, 0.4)) * (width, height)
        tone = one_of(rng, palette(rng, 2))
        cv2.circle(card, at.astype(int).tolist(), int(width * 0.12), tone, 1, cv2.LINE_AA)
        draw(card, any_motif(rng), at, width * 0.08, [], 0, tone)
    return card


def _scrawl(card: np.ndarray, at: tuple, long: float, tall: float, pen: tuple, rng: Random) -> None:
    """Handwriting, or print too small to be read: a line that goes up and down, in place."""
    count = max(int(long / max(tall * 0.35, 1.5)), 3)
    x = np.linspace(0, long, count) + rng.normal(size=count) * tall * 0.15
    points = np.column_stack([x, -rng.random(count) * tall]) + at
    for part in np.array_split(points, max(int(rng.integers(1, 4)), 1)):
        if len(part) > 1:
            cv2.polylines(card, [(part * 8).astype(np.int32)], False, pen, 1, cv2.LINE_AA, 3)


def letter(width: int, height: int, rng: Random) -> np.ndarray:
    """A card written all over by hand, straight or round its edge, on plain or ruled paper."""
    card, pen = blank(width, height, paper(rng)), dark_ink(rng)
    if card.mean() < 90:
        pen = (238, 236, 228)
    step, side = height * rng.uniform(0.035, 0.1), width * rng.uniform(0.04, 0.12)
    if rng.random() < 0.3:
        for y in np.arange(step, height, step):
            cv2.line(card, (0, int(y)), (width, int(y)), (160, 185, 215), 1)
    for y in np.arange(step * rng.uniform(1, 3), height - side, step):
        if rng.random() < 0.9:
            long = (width - 2 * side) * rng.uniform(0.5, 1)
            _scrawl(card, (side, y), long, step * rng.uniform(0.35, 0.6), pen, rng)
    return card


def landscape(width: int, height: int, rng: Random) -> np.ndarray:
    """A road, field or shore that goes to a horizon, with trees or houses smaller behind."""
    sky, land, way, green = palette(rng, 4)
    card = np.repeat(np.linspace(sky, sky * 0.5 + 120, height)[:, None], width, axis=1)
    card = done(card.astype(np.float32) + cloud(width, height, 5, rng) * rng.uniform(0, 25))
    level = int(height * rng.uniform(0.3, 0.7))
    card[level:] = land
    if rng.random() < 0.6:
        far, near = rng.uniform(0.2, 0.8), rng.uniform(-0.2, 0.8)
        points = np.array([[far, 0], [far + 0.03, 0], [near + rng.uniform(0.2, 0.7), 1], [near, 1]])
        points = points * (width, height - level) + (0, level)
        cv2.fillPoly(card, [points.astype(np.int32)], way.tolist(), cv2.LINE_AA)
    parts, count = any_motif(rng), int(rng.integers(1, 12))
    for share in np.sort(rng.random(count)):
        size = height * (0.03 + 0.17 * share)
        at = (rng.uniform(0, 1) * width, level + share * (height - level) * 0.8 - size)
        draw(card, parts, at, size, [green, green * 0.6, land * 0.7])
    for _ in range(int(rng.integers(0, 4))):
        line = path(np.array([0, rng.uniform(0.05, 0.95) * height]), 0, width * 1.1, 0.03, rng)
        cv2.polylines(card, [line.astype(np.int32)], False, dark_ink(rng), 1, cv2.LINE_AA)
    return card


ORDERED = (mandala, mosaic, cross_stitch, grid_of, quilt, label, form, form, letter, landscape)
"""What is laid out by rule."""
