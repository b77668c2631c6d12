"""Art of things with straight sides and card-like corners: doors, books, towers, little cards."""

import cv2
import numpy as np

from finder_training.art.colours import blank, dark_ink, done, one_of, palette, paper, white
from finder_training.art.glued import put_turned, swatch
from finder_training.art.motifs import any_motif, draw
from finder_training.art.strokes import wobbled
from finder_training.noise import Random, cloud


def _box(card: np.ndarray, left: float, top: float, right: float, bottom: float, colour: tuple,
         line: tuple | None = None, thick: int = 1) -> None:
    one, two = (int(left), int(top)), (int(right), int(bottom))
    cv2.rectangle(card, one, two, colour, -1)
    if line is not None:
        cv2.rectangle(card, one, two, line, thick)


def _ground(width: int, height: int, rng: Random) -> np.ndarray:
    roll = rng.random()
    if roll < 0.25:
        return swatch(width, height, rng)
    return blank(width, height, paper(rng) if roll < 0.65 else palette(rng, 1)[0])


def little_cards(width: int, height: int, rng: Random) -> np.ndarray:
    """Small cards of the card's own proportion, in rows, fanned or strewn, with shadows."""
    card, few = _ground(width, height, rng), palette(rng, 5)
    count, wide = int(rng.integers(1, 9)), int(width * rng.uniform(0.2, 0.42)) + 8
    tall, roll = int(wide * 1.4), rng.random()
    middle, turn = np.array([width, height]) * rng.uniform(0.35, 0.65, 2), rng.uniform(-40, 40)
    mask = np.full((tall, wide), 255, np.uint8)
    for i in range(count):
        one = blank(wide, tall, white(rng) if rng.random() < 0.5 else one_of(rng, few))
        edge = max(int(wide * rng.uniform(0.03, 0.12)), 1)
        if rng.random() < 0.6:
            one[edge:-edge, edge:-edge] = swatch(wide - 2 * edge, tall - 2 * edge, rng)
        draw(one, any_motif(rng), (wide / 2, tall / 2), wide * 0.3, palette(rng, 3))
        if roll < 0.35:
            at, slant = middle + np.array([(i - count / 2) * wide * 0.3, 0]), turn + i * 9.0
        elif roll < 0.65:
            places = (i % 3 - 1, i // 3 - 1)
            at, slant = np.array([width, height]) / 2 + places * np.array([wide, tall]) * 1.1, 0.0
        else:
            at, slant = rng.uniform(0.1, 0.9, 2) * (width, height), rng.uniform(-90, 90)
        put_turned(card, one, mask, at, slant, rng)
    return card


def door(width: int, height: int, rng: Random) -> np.ndarray:
    """A door, gate or window with panels and panes in a wall."""
    wall, wood, frame = palette(rng, 3)
    card = done(blank(width, height, wall) + cloud(width, height, 30, rng) * rng.uniform(0, 20))
    half, top = width * rng.uniform(0.2, 0.42), height * rng.uniform(0.05, 0.25)
    middle, foot = width * rng.uniform(0.42, 0.58), height * rng.uniform(0.82, 1.02)
    pen, edge = dark_ink(rng), width * rng.uniform(0.02, 0.06)
    _box(card, middle - half - edge, top - edge, middle + half + edge, foot, frame.tolist(), pen)
    _box(card, middle - half, top, middle + half, foot, wood.tolist(), pen)
    columns, rows = int(rng.integers(1, 4)), int(rng.integers(1, 5))
    wide, tall = 2 * half / columns, (foot - top) / rows
    pane = one_of(rng, [wood * 0.75, np.clip(wood * 1.2, 0, 255), white(rng), np.array(pen)])
    gap = min(wide, tall) * rng.uniform(0.06, 0.18)
    for row in range(rows):
        for column in range(columns):
            x, y = middle - half + column * wide, top + row * tall
            _box(card, x + gap, y + gap, x + wide - gap, y + tall - gap, pane, pen)
    knob = (int(middle + half * 0.8), int((top + foot) / 2))
    cv2.circle(card, knob, max(int(width * 0.02), 1), pen, -1, cv2.LINE_AA)
    return wobbled(card, rng, width * rng.uniform(0, 0.015), 7)


def shelves(width: int, height: int, rng: Random) -> np.ndarray:
    """Books, bottles or boxes on shelves."""
    card, few = blank(width, height, palette(rng, 1)[0]), palette(rng, 6)
    pen = dark_ink(rng) if rng.random() < 0.5 else None
    rows = int(rng.integers(1, 5))
    board = dark_ink(rng) if rng.random() < 0.5 else one_of(rng, palette(rng, 1, "earth"))
    for row in range(rows):
        foot, x = height * (row + 0.93) / rows, width * rng.uniform(0, 0.08)
        while x < width * 0.97:
            wide = width * rng.uniform(0.04, 0.16)
            top = foot - height / rows * rng.uniform(0.45, 0.82)
            colour = one_of(rng, few)
            _box(card, x, top, x + wide, foot, colour, pen)
            if rng.random() < 0.5:
                mid = top + (foot - top) * rng.uniform(0.15, 0.5)
                _box(card, x, mid, x + wide, mid + (foot - top) * 0.12, one_of(rng, few))
            x += wide + width * rng.choice([0.004, 0.004, 0.05])
        _box(card, 0, foot, width, foot + height * 0.02, board)
    return wobbled(card, rng, width * rng.uniform(0, 0.012), 8)


def towers(width: int, height: int, rng: Random) -> np.ndarray:
    """A city's tall houses with rows of windows, by day or by night."""
    sky, few = palette(rng, 1)[0], palette(rng, 4)
    card, lit = blank(width, height, sky), one_of(rng, [[250, 220, 120], [235, 240, 245], few[0]])
    lit = tuple(int(v) for v in lit)
    for _ in range(int(rng.integers(3, 10))):
        wide, top = width * rng.uniform(0.12, 0.4), height * rng.uniform(0.1, 0.75)
        left, colour = rng.uniform(-0.1, 0.95) * width, one_of(rng, few)
        _box(card, left, top, left + wide, height, colour)
        step, down = wide / int(rng.integers(2, 6)), height * rng.uniform(0.03, 0.07)
        for y in np.arange(top + down, height, down * 1.6):
            for x in np.arange(left + step * 0.25, left + wide - step * 0.4, step):
                if rng.random() < 0.6:
                    _box(card, x, y, x + step * 0.5, y + down * 0.7, lit)
    return card


def on_the_wall(width: int, height: int, rng: Random) -> np.ndarray:
    """Framed pictures or a mirror on a papered wall, perhaps over a table's edge."""
    card = _ground(width, height, rng)
    if rng.random() < 0.6:
        level = int(height * rng.uniform(0.65, 0.9))
        card[level:] = palette(rng, 1)[0]
        at = (width * rng.uniform(0.2, 0.8), level - height * 0.08)
        draw(card, any_motif(rng), at, height * 0.1, palette(rng, 3))
    for _ in range(int(rng.choice([1, 1, 2, 4]))):
        half = width * rng.uniform(0.1, 0.34) * np.array([1, rng.choice([0.7, 1, 1.4])])
        x, y = rng.uniform((0.25, 0.2), (0.75, 0.6)) * (width, height)
        frame, mat = one_of(rng, palette(rng, 2)), one_of(rng, [white(rng), palette(rng, 1)[0]])
        for share, tone in ((1, frame), (0.86, mat), (0.6, one_of(rng, palette(rng, 2)))):
            wide, tall = half * share
            _box(card, x - wide, y - tall, x + wide, y + tall, tone)
        draw(card, any_motif(rng), (x, y), half.min() * 0.5, palette(rng, 3))
    return card


def tag(width: int, height: int, rng: Random) -> np.ndarray:
    """A luggage tag, an envelope, a ticket or a note stuck on, with a string, flap or stub."""
    card, pen = _ground(width, height, rng), dark_ink(rng)
    wide, tall = int(width * rng.uniform(0.4, 0.85)) + 8, int(height * rng.uniform(0.2, 0.75)) + 8
    note, mask = blank(wide, tall, paper(rng)), np.full((tall, wide), 255, np.uint8)
    roll, cut = rng.random(), min(wide, tall) // 4
    if roll < 0.35:
        for points in ([(0, 0), (cut, 0), (0, cut)], [(wide, 0), (wide - cut, 0), (wide, cut)]):
            cv2.fillPoly(mask, [np.int32(points)], 0)
        cv2.circle(note, (wide // 2, cut // 2 + 2), max(cut // 5, 2), pen, -1, cv2.LINE_AA)
    elif roll < 0.6:
        flap = np.int32([(0, 0), (wide // 2, tall // 2), (wide, 0)])
        cv2.polylines(note, [flap], False, pen, 1, cv2.LINE_AA)
    elif roll < 0.8:
        cv2.line(note, (wide - cut, 0), (wide - cut, tall), pen, 1)
        note[:, wide - cut :] = note[:, wide - cut :] * 0.85
    lines = range(tall // 2, tall - 4, max(tall // 9, 4))
    for y in lines if rng.random() < 0.6 else ():
        cv2.line(note, (wide // 8, y), (int(wide * rng.uniform(0.5, 0.88)), y), pen, 1)
    if rng.random() < 0.7:
        draw(note, any_motif(rng), (wide / 2, tall * 0.4), min(wide, tall) * 0.25, palette(rng, 3))
    at = np.array([width, height]) * rng.uniform(0.42, 0.58, 2)
    put_turned(card, note, mask, at, rng.normal() * rng.choice([0, 5, 20]), rng)
    return card


def overlapping(width: int, height: int, rng: Random) -> np.ndarray:
    """Upright rectangles over one another, solid or clear, some of them as large as the card."""
    card = blank(width, height, paper(rng) if rng.random() < 0.6 else palette(rng, 1)[0])
    few, clear = palette(rng, 5), rng.random() < 0.5
    for _ in range(int(rng.integers(2, 10))):
        half = rng.uniform(0.08, 0.45, 2) * (width, height)
        x, y = rng.uniform(0, 1, 2) * (width, height)
        drawn = card.copy() if clear else card
        line = dark_ink(rng) if rng.random() < 0.3 else None
        _box(drawn, x - half[0], y - half[1], x + half[0], y + half[1], one_of(rng, few), line)
        if clear:
            card = cv2.addWeighted(card, 0.45, drawn, 0.55, 0)
    return card


BOXY = (little_cards, door, shelves, towers, on_the_wall, tag, overlapping)
"""What has sides that a finder may follow."""
