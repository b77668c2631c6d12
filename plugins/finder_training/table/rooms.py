"""Photographs without any card: rooms, windows, shelves, houses, land, people, walls, sheets."""

import cv2
import numpy as np

from finder_training.art.cards import scatter, words
from finder_training.noise import Random, any_colour, cloud, ink
from finder_training.table.floors import FLOORS
from finder_training.table.papers import PAPERS, pale
from finder_training.table.shapes import leaf_shape, palette
from finder_training.table.sights import View, bare, box, landscape, person


def draw_view(width: int, height: int, rng: Random) -> View:
    """A photograph float32 [height, width, 3] and what in it is rectangular, [4, 2] px each."""
    made, shapes = VIEWS[int(rng.integers(len(VIEWS)))](width, height, rng)
    if rng.random() < 0.5:
        made, shapes = _leaning(np.ascontiguousarray(made), shapes, rng)
    light = 1 + cloud(width, height, 3, rng) * np.float32(rng.uniform(0, 0.15))
    return made * light, shapes


def _unlike(half: np.ndarray) -> np.ndarray:
    """The half sides of a plain rectangle, made longer where they have a card's proportion."""
    longer = int(half[1] > half[0])
    if 1.2 < half[longer] / half[1 - longer] < 1.65:
        half[longer] *= 1.4
    return half


def _leaning(made: np.ndarray, shapes: list, rng: Random) -> View:
    """The view from a little aside."""
    height, width = made.shape[:2]
    own = np.float32([[0, 0], [width, 0], [width, height], [0, height]])
    seen = own + np.float32(rng.normal(size=(4, 2)) * 0.06 * (width, height))
    onto = cv2.getPerspectiveTransform(own, seen)
    made = cv2.warpPerspective(made, onto, (width, height), borderMode=cv2.BORDER_REFLECT_101)
    return made, [cv2.perspectiveTransform(np.float64(shape)[None], onto)[0] for shape in shapes]


def _house(width: int, height: int, rng: Random) -> View:
    """The front of a house with rows of windows and a door."""
    kind = str(rng.choice(["bricks", "slate", "plain"]))
    made = bare(width, height, any_colour(rng, 80, 235))
    if kind in FLOORS:
        made = np.clip(FLOORS[kind](width, height, rng), 0, 255).astype(np.uint8)
    columns, rows, shapes = int(rng.integers(2, 7)), int(rng.integers(2, 6)), []
    glass, sill = any_colour(rng, 30, 120), any_colour(rng, 150, 250)
    wide, tall = width / columns, height / rows
    share = rng.uniform(0.4, 0.75, 2)
    for i in range(columns * rows):
        x, y = (i % columns + 0.5) * wide, (i // columns + 0.5) * tall
        half = np.array([wide, tall]) * share / 2
        tone = glass * rng.uniform(0.6, 1.5)
        shapes.append(box(made, (x - half[0], y - half[1]), (x + half[0], y + half[1]), tone))
        box(made, (x - half[0], y - half[1]), (x + half[0], y + half[1]), sill,
             max(int(wide / 26), 1))
        for bar in (-0.33, 0.33) if share[0] > 0.6 else (0,):
            cv2.line(made, (int(x + bar * half[0]), int(y - half[1])),
                     (int(x + bar * half[0]), int(y + half[1])), ink(sill), max(int(wide / 40), 1))
        if rng.random() < 0.4:
            cv2.line(made, (int(x - half[0]), int(y)), (int(x + half[0]), int(y)), ink(sill), 2)
    return made, shapes


def _window(width: int, height: int, rng: Random) -> View:
    """A window from within, with the sky in its panes, curtains, things on its sill."""
    made = bare(width, height, any_colour(rng, 60, 220))
    columns, rows, shapes = int(rng.integers(1, 5)), int(rng.integers(1, 4)), []
    left, right = np.sort(rng.uniform(0.02, 0.98, 2)) if rng.random() < 0.3 else (0.12, 0.88)
    right = max(right, left + 0.3)
    top, low = rng.uniform(0, 0.2) * height, rng.uniform(0.7, 1) * height
    seen, _ = landscape(width, height, rng)
    bar, tone = max(int(width * rng.uniform(0.005, 0.03)), 2), any_colour(rng, 30, 250)
    box(made, (left * width - bar, top - bar), (right * width + bar, low + bar), tone)
    wide, tall = (right - left) * width / columns, (low - top) / rows
    for i in range(columns * rows):
        x, y = left * width + (i % columns) * wide + bar, top + (i // columns) * tall + bar
        one, other = (int(x), int(y)), (int(x + wide - bar), int(y + tall - bar))
        pane = made[one[1] : other[1], one[0] : other[0]]
        pane[:] = seen[one[1] : other[1], one[0] : other[0]]
        shapes.append(np.array([one, (other[0], one[1]), other, (one[0], other[1])], float))
    if rng.random() < 0.5:
        for x in np.arange(0, left * width + wide / 4, 9):
            wave = any_colour(rng, 200, 230)[0] / 220 + 0.15 * np.sin(x / 5)
            made[:, int(x) : int(x) + 9] = np.clip(np.array(tone) * wave, 0, 255)
    return made, shapes


def _shelves(width: int, height: int, rng: Random) -> View:
    """Shelves with the backs of books, upright, leaning and lying, and things between them."""
    wood = any_colour(rng, 30, 240)
    made = bare(width, height, wood * 0.45)
    shapes, rows = [], int(rng.integers(2, 6))
    tall, edge = height / rows, max(int(height / rows / 14), 2)
    for row in range(rows):
        x, floor = rng.uniform(0, 12), (row + 1) * tall - edge
        while x < width:
            wide, high = tall * rng.uniform(0.06, 0.22), tall * rng.uniform(0.5, 0.88)
            tone, roll = any_colour(rng), rng.random()
            if roll < 0.82:
                quad = box(made, (x, floor - high), (x + wide, floor), tone)
                for band in rng.uniform(0.05, 0.95, 2):
                    y = floor - high * band
                    box(made, (x + 1, y), (x + wide - 1, y + high * 0.06), any_colour(rng))
                if wide > 10:
                    shapes.append(quad)
            elif roll < 0.93:
                wide = tall * rng.uniform(0.3, 0.6)
                cv2.circle(made, (int(x + wide / 2), int(floor - wide / 2)), int(wide / 2),
                           ink(tone), -1, cv2.LINE_AA)
            x += wide + (rng.uniform(0, tall * 0.3) if roll > 0.95 else 1)
        box(made, (0, floor), (width, floor + edge), wood)
    return made, shapes[:8]


def _gallery(width: int, height: int, rng: Random) -> View:
    """A wall with framed pictures, posters, a clock."""
    made = bare(width, height, any_colour(rng, 60, 245))
    if rng.random() < 0.3:
        made[:, :: int(rng.integers(8, 60))] = ink(made[0, 0] * 0.9)
    shapes: list[np.ndarray] = []
    for _ in range(int(rng.integers(2, 12))):
        half = _unlike(rng.uniform(0.06, 0.2, 2) * min(width, height))
        at = rng.uniform(0.05, 0.95, 2) * (width, height)
        if any((np.abs(at - s.mean(0)) < half + np.ptp(s, axis=0) / 2 + 6).all() for s in shapes):
            continue
        if rng.random() < 0.12:
            cv2.circle(made, tuple(at.astype(int)), int(half[0]), ink(any_colour(rng)), -1)
            continue
        box(made, at - half + 4, at + half + 5, made[0, 0] * 0.75)
        quad, wide = box(made, at - half, at + half, any_colour(rng)), rng.uniform(0.04, 0.2)
        box(made, at - half * (1 - wide), at + half * (1 - wide), pale(rng))
        inner = half * (1 - wide * rng.uniform(1, 3))
        x, y = np.maximum(at - inner, 0).astype(int)
        part = made[y : int(at[1] + inner[1]), x : int(at[0] + inner[0])]
        if min(part.shape[:2]) > 8:
            part[:] = (landscape if rng.random() < 0.4 else person)(*part.shape[1::-1], rng)[0]
        shapes.append(quad)
    return made, shapes


def _room(width: int, height: int, rng: Random) -> View:
    """Wall and floor, a door or window, a table, a lamp, a rug, pictures."""
    made = bare(width, height, any_colour(rng, 90, 240))
    floor, shapes = int(height * rng.uniform(0.5, 0.8)), []
    kind = str(rng.choice(["planks", "parquet", "card tiles", "granite"]))
    part = FLOORS[kind](width, height - floor, rng)
    made[floor:] = np.clip(part, 0, 255)
    box(made, (0, floor - height * 0.02), (width, floor), any_colour(rng, 150, 250))
    for _ in range(int(rng.integers(1, 5))):
        half = _unlike(rng.uniform(0.04, 0.16, 2) * (width, height))
        at = np.array([rng.uniform(0.1, 0.9) * width, rng.uniform(0.15, 0.6) * floor])
        shapes.append(box(made, at - half, at + half, any_colour(rng)))
        box(made, at - half, at + half, any_colour(rng, 20, 240), max(int(width / 90), 2))
    x, wide = rng.uniform(0, 0.8) * width, rng.uniform(0.1, 0.2) * width
    if rng.random() < 0.5:
        shapes.append(box(made, (x, floor * 0.2), (x + wide, floor), any_colour(rng)))
    for _ in range(int(rng.integers(1, 4))):
        x, wide = rng.uniform(-0.1, 0.8) * width, rng.uniform(0.15, 0.5) * width
        tone = any_colour(rng)
        top, low = floor - height * rng.uniform(0.02, 0.2), floor + height * rng.uniform(0.02, 0.3)
        wide = max(wide, (low - top) * 1.7)
        if rng.random() < 0.5:
            box(made, (x, top), (x + wide, top + height * 0.03), tone)
            for leg in (0.04, 0.94):
                box(made, (x + wide * leg, top), (x + wide * (leg + 0.03), low), tone * 0.8)
        else:
            box(made, (x, top), (x + wide, low), tone)
            for y in np.linspace(top, low, int(rng.integers(2, 5)))[:-1]:
                box(made, (x + 3, y + 3), (x + wide - 3, y + (low - top) * 0.3), tone * 0.85, 2)
    return made, shapes


def _writing(width: int, height: int, rng: Random) -> View:
    """A page of print, notes or handwriting that fills the picture, or nearly."""
    kind = str(rng.choice(["book", "news", "music", "map", "graph", "hand"]))
    made = bare(width, height, pale(rng))
    if kind != "hand":
        made = PAPERS[kind](width, height, rng)
        return made, []
    size, pen = height * rng.uniform(0.012, 0.05), ink(any_colour(rng, 5, 120))
    for y in np.arange(size * 2, height, size * rng.uniform(2, 3)):
        x = width * 0.06
        while x < width * rng.uniform(0.75, 0.97):
            share = np.arange(int(rng.integers(6, 30)))
            high = np.sin(share * 1.9) * size * rng.uniform(0.3, 0.6, len(share))
            path = np.column_stack([x + share * size * 0.35, y + high])
            cv2.polylines(made, [path.astype(np.int32)], False, pen, max(int(size / 9), 1),
                          cv2.LINE_AA)
            x = path[-1, 0] + size
    return made, []


def _wall(width: int, height: int, rng: Random) -> View:
    """A tiled or brick wall; a switch, a pipe, a towel, leaves before it."""
    kind = str(rng.choice(["card tiles", "ornament tiles", "bricks", "planks"]))
    made = np.ascontiguousarray(np.clip(FLOORS[kind](width, height, rng), 0, 255).astype(np.uint8))
    shapes = []
    for _ in range(int(rng.integers(0, 4))):
        at, half = rng.uniform(0.1, 0.9, 2) * (width, height), np.full(2, rng.uniform(0.02, 0.2))
        half[int(rng.integers(2))] *= float(rng.choice([1, 2, 3]))
        half = _unlike(half * width)
        shapes.append(box(made, at - half, at + half, any_colour(rng)))
    for at in rng.uniform(0, 1, (int(rng.choice([0, 0, 20])), 2)) * (width, height):
        leaf = leaf_shape(at, width * 0.1, width * 0.03, rng.uniform(0, 6.3))
        cv2.fillPoly(made, [leaf], ink(any_colour(rng, 20, 140) * (0.7, 1, 0.6)), cv2.LINE_AA, 4)
    return made, shapes


def _screens(width: int, height: int, rng: Random) -> View:
    """A picture of a screen: bars, panels, rows of words, tiles of pictures."""
    made, shapes = bare(width, height, any_colour(rng, 5, 250)), []
    tones = palette(rng, 4)
    box(made, (0, 0), (width, height * 0.06), tones[0])
    columns = int(rng.integers(1, 6))
    wide, gap = width / columns, rng.uniform(2, 14)
    ratio = rng.choice([0.4, 0.56, 1.0, 1.9])
    for y in np.arange(height * 0.08, height, wide * ratio + gap):
        for column in range(columns):
            one = (column * wide + gap, y)
            other = (one[0] + wide - gap * 1.5, y + wide * ratio)
            shapes.append(box(made, one, other, tones[int(rng.integers(4))]))
            part = made[int(one[1]) : int(other[1]), int(one[0]) : int(other[0])]
            if min(part.shape[:2]) < 12:
                continue
            if rng.random() < 0.5:
                words(part, rng, ink(any_colour(rng)), max(int(width / 90), 2))
            else:
                scatter(part, int(rng.integers(1, 7)), rng, 0.6)
    return made, shapes[:8]


VIEWS = (landscape, _house, _window, _shelves, _gallery, person, _room, _room, _writing,
         _writing, _wall, _screens)
"""As often as each is drawn."""
