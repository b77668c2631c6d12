"""Flat four-sided things of a maker's table that are no cards, each seen from straight above."""

import cv2
import numpy as np

from finder_training.art.cards import scatter, words
from finder_training.noise import Random, any_colour, ink
from finder_training.stage import Look, Stage, corners_of, lay, project, scale_of
from finder_training.table.covers import (
    book,
    envelope,
    fill,
    letters,
    magazine,
    newspaper,
    notebook,
    plain,
    stamps,
    swatches,
    within,
)
from finder_training.table.papers import PAPERS, pale


def screen(width: int, height: int, rng: Random) -> np.ndarray:
    """A phone or tablet: dark rim, and a bright screen with rows, tiles or a picture; or off."""
    art = plain(width, height, np.full(3, rng.choice([8.0, 30, 215])))
    rim = rng.uniform(0.02, 0.08)
    shown = within(art, (rim, rim * width / height, 1 - rim, 1 - rim * width / height))
    if rng.random() < 0.25:
        shown[:] = rng.uniform(5, 40)
        return art
    shown[:] = any_colour(rng, 200, 255) if rng.random() < 0.5 else any_colour(rng)
    roll = rng.random()
    if roll < 0.35:
        columns = int(rng.integers(2, 5))
        for i in range(columns * int(rng.integers(2, 8))):
            x, y = (i % columns + 0.12) / columns, 0.1 + (i // columns) * 0.9 / columns * (
                width / height)
            fill(shown, (x, y, x + 0.76 / columns, y + 0.76 / columns * width / height),
                 any_colour(rng))
    elif roll < 0.65:
        words(within(shown, (0.05, 0.3, 0.95, 0.95)), rng, (40, 40, 50), max(height // 40, 2))
        scatter(within(shown, (0.05, 0.06, 0.95, 0.28)), 5, rng, 0.5)
    else:
        scatter(shown, int(rng.integers(4, 20)), rng, 0.7)
    return art


def keyboard(width: int, height: int, rng: Random) -> np.ndarray:
    """Rows of keys, or a calculator's where it is tall."""
    art = plain(width, height, any_colour(rng, 20, 230))
    key = any_colour(rng, 10, 70) if rng.random() < 0.5 else any_colour(rng, 170, 250)
    rows, top = int(rng.integers(4, 7)), 0.06
    columns = max(int(rows * width / height * 0.9), 3)
    if height > width:
        fill(art, (0.08, 0.05, 0.92, 0.24), np.array([150, 165, 140]))
        top = 0.3
    for row in range(rows):
        for column in range(columns):
            x = 0.03 + 0.94 * column / columns
            y = top + (0.97 - top) * row / rows
            tone = key if rng.random() < 0.93 else any_colour(rng)
            fill(art, (x, y, x + 0.8 / columns, y + (0.8 - 0.8 * top) / rows), tone)
    return art


def paint_box(width: int, height: int, rng: Random) -> tuple[np.ndarray, list[tuple]]:
    """Pans of colour in rows, their lid's wells beside them; with where they are in it."""
    art = plain(width, height, np.full(3, rng.choice([235.0, 30, 200])) + rng.normal(size=3) * 4)
    rows, columns = int(rng.integers(1, 5)), int(rng.integers(4, 13))
    round_, foot = rng.random() < 0.3, float(rng.choice([1.0, 0.55]))
    rim, pans = rng.uniform(1.06, 1.25) * (rng.random() < 0.4), []
    for row in range(rows):
        for column in range(columns):
            x, y = (column + 0.5) / columns, (row + 0.5) / rows * foot
            tone = cv2.cvtColor(np.uint8([[[(column * rows + row) * 180 // (rows * columns),
                                            rng.integers(60, 255), rng.integers(50, 250)]]]),
                                cv2.COLOR_HSV2RGB)[0, 0].astype(float)
            half = (0.42 / columns, 0.4 / rows * foot)
            if round_:
                size = int(min(half[0] * width, half[1] * height))
                cv2.circle(art, (int(x * width), int(y * height)), size, ink(tone), -1, cv2.LINE_AA)
            else:
                if rim:
                    half = (half[0] / rim, half[1] / rim)
                    out = (half[0] * rim, half[1] * rim)
                    fill(art, (x - out[0], y - out[1], x + out[0], y + out[1]), np.full(3, 244.0))
                pans.append((x - half[0], y - half[1], x + half[0], y + half[1]))
                fill(art, pans[-1], tone)
    for well in range(3 if foot < 1 else 0):
        part = (0.03 + well * 0.33, 0.62, 0.31 + well * 0.33, 0.95)
        fill(art, part, art[0, 0] * 0.92)
        scatter(within(art, part), int(rng.integers(0, 5)), rng, 0.4)
        pans.append(part)
    return art, pans


def ruler(width: int, height: int, rng: Random) -> np.ndarray:
    """Ticks along one edge, with numbers; of wood, metal or coloured."""
    tones = [np.array([222, 190, 130]), np.array([190, 192, 196]), any_colour(rng, 60, 240)]
    art = plain(width, height, tones[int(rng.integers(3))])
    line = (20, 20, 20) if art.mean() > 90 else (235, 235, 235)
    step = width / rng.integers(40, 160)
    for i, x in enumerate(np.arange(step, width, step)):
        long = height * (0.45 if i % 10 == 0 else 0.33 if i % 5 == 0 else 0.2)
        cv2.line(art, (int(x), 0), (int(x), int(long)), line, 1)
        if i % 10 == 0:
            cv2.putText(art, str(i // 10), (int(x), int(height * 0.8)), 0, height / 70, line, 1)
    return art


def frame(width: int, height: int, rng: Random) -> np.ndarray:
    """A framed picture: moulding, mount, picture."""
    wide = rng.uniform(0.05, 0.14)
    tall = wide * width / height
    art = plain(width, height, any_colour(rng))
    fill(art, (wide / 2, tall / 2, 1 - wide / 2, 1 - tall / 2), art[0, 0] * 0.7, 2)
    fill(art, (wide, tall, 1 - wide, 1 - tall), pale(rng))
    inset = rng.uniform(1.0, 2.5)
    inner = within(art, (wide * inset, tall * inset, 1 - wide * inset, 1 - tall * inset))
    inner[:] = any_colour(rng)
    scatter(inner, int(rng.integers(3, 20)), rng, 0.8)
    return art


def tray(width: int, height: int, rng: Random) -> np.ndarray:
    """A box or tray without its lid: rim, walls in light and shade, floor."""
    base = any_colour(rng, 40, 230)
    art = plain(width, height, base * 1.08)
    rim, wall = rng.uniform(0.015, 0.03), rng.uniform(0.05, 0.12)
    outer = np.array([[rim, rim], [1 - rim, rim], [1 - rim, 1 - rim], [rim, 1 - rim]])
    inner = np.array([[wall, wall], [1 - wall, wall], [1 - wall, 1 - wall], [wall, 1 - wall]])
    first, lights = int(rng.integers(4)), (0.55, 0.8, 1.05, 0.75)
    for side in range(4):
        after = (side + 1) % 4
        points = np.array([outer[side], outer[after], inner[after], inner[side]])
        cv2.fillConvexPoly(art, (points * (width, height)).astype(np.int32),
                           ink(np.clip(base * lights[(side + first) % 4], 0, 255)), cv2.LINE_AA)
    floor = within(art, (wall, wall, 1 - wall, 1 - wall))
    floor[:] = np.clip(base * 0.88, 0, 255) if rng.random() < 0.6 else any_colour(rng)
    return art


def block(width: int, height: int, rng: Random) -> np.ndarray:
    """An eraser, a stamp's wooden block, a pack of notes, a tin: one tone, a band, a word."""
    art = plain(width, height, any_colour(rng))
    if rng.random() < 0.5:
        fill(art, (rng.uniform(0.2, 0.4), 0, 1, 1), any_colour(rng))
    if rng.random() < 0.6:
        letters(art, (0.25, 0.6), 0.2, any_colour(rng), rng)
    return art


FLATS = {
    "book": (book, (5, 6), (7.5, 10), 0.05), "open book": (None, (9, 13), (6, 9), 0.02),
    "notebook": (notebook, (8, 12), (5.5, 9), 0.15), "envelope": (envelope, (6, 9.5), (4.2, 6), 0),
    "phone": (screen, (2.7, 3.1), (5.5, 6.6), 0.35), "tablet": (screen, (6, 8), (8.5, 11), 0.4),
    "keyboard": (keyboard, (11, 17), (4.2, 6), 0.2), "calculator": (keyboard, (3, 4), (5, 7), 0.2),
    "paint box": (paint_box, (6, 11), (3, 6), 0.2), "swatches": (swatches, (4, 8), (5, 10), 0),
    "ruler": (ruler, (6, 14), (0.9, 1.5), 0.02), "stamps": (stamps, (4, 8), (4, 8), 0),
    "frame": (frame, (4.5, 5.5), (9, 11), 0), "tray": (tray, (5, 11), (5, 11), 0.15),
    "newspaper": (newspaper, (11, 16), (15, 23), 0),
    "magazine": (magazine, (4, 9), (5.5, 11), 0), "block": (block, (1.5, 2.6), (0.5, 0.8), 0.1),
}
"""Drawer, least and most inches across and down, and corners' radius in inches, by name.

A drawer answers the art, or the art and where smaller fields lie on it.
"""


def lay_flat(stage: Stage, rng: Random, middle: np.ndarray, turn: float, name: str = "any") -> None:
    """One of FLATS laid about `middle` inches, a decoy unless it might be a large card."""
    name = str(rng.choice(list(FLATS))) if name == "any" else name
    drawer, wide, tall, radius = FLATS[name]
    size = (float(rng.uniform(*wide)), float(rng.uniform(*tall)))
    size = size[::-1] if drawer in (block, tray, frame) and rng.random() < 0.5 else size
    quad = project(stage.onto, corners_of(np.asarray(middle), size, turn))
    scale = np.clip(scale_of(quad, size), 8, 480 / max(size))
    across, down = (max(int(side * scale), 24) for side in size)
    drawer = drawer or PAPERS["book"]
    made = drawer(across, down, rng)
    art, fields = made if isinstance(made, tuple) else (made, [])
    art = np.clip(art, 0, 255).astype(np.uint8)
    look = Look(radius=radius, soft=float(scale * rng.uniform(0.02, 0.12)) + 0.5,
                dark=float(rng.uniform(0.1, 0.6)), lift=float(scale * rng.uniform(0.01, 0.16)))
    lay(stage, art, quad, size, look, is_card=False)
    shaped = 1.2 < max(size) / min(size) < 1.65
    if shaped and drawer not in (magazine, newspaper):
        stage.alike.append(quad)
    if drawer not in (book, frame, tray) or not shaped:
        stage.decoys.append(quad)
    stage.alike.extend(own_places(_corners(one), quad) for one in fields
                       if drawer is not paint_box)
    for i in rng.permutation(len(fields))[:3]:
        left, top, right, bottom = fields[i]
        small = max((right - left) * size[0], (bottom - top) * size[1]) < 1.8
        if small or drawer in (magazine, newspaper):
            stage.decoys.append(own_places(_corners(fields[i]), quad))


def _corners(box: tuple[float, float, float, float]) -> np.ndarray:
    """[4, 2] of left, top, right, bottom."""
    left, top, right, bottom = box
    return np.array([[left, top], [right, top], [right, bottom], [left, bottom]])


def own_places(shares: np.ndarray, quad: np.ndarray) -> np.ndarray:
    """Points [n, 2], as shares of a thing's sides, in px of the picture."""
    unit = np.array([[0, 0], [1, 0], [1, 1], [0, 1]], np.float32)
    onto = cv2.getPerspectiveTransform(unit, quad.astype(np.float32))
    return project(onto, shares)
