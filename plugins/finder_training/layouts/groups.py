"""Many cards in one picture: strewn, in rows, arcs and grids, in piles."""

import numpy as np

from finder_training.art.cards import draw_card
from finder_training.layouts.frames import about, fitted, lay_whole, nearer
from finder_training.layouts.places import (
    PLAIN,
    card_size,
    finish,
    put,
    single,
    stage_for,
    turned,
)
from finder_training.noise import Random
from finder_training.stage import CARD, Stage, any_look, corners_of, project
from finder_training.table import clutter

SMALL = (60, 110)
"""px: how long cards are that lie in large groups."""


SIZES = (
    (2.25, 3.5), (3.5, 5), (4, 6), (3, 3), (2, 3.5), (2.5, 2.5), (4, 4), (2.75, 4.75),
    (2.17, 3.35), (1.75, 2.5), (2, 2), (3, 4), (4.1, 5.8), (2.5, 3.75),
)
"""Inches: bridge cards, postcards, squares, tickets, calling cards, minis."""


def other(rng: Random, long: int, pictures: list) -> Stage:
    """Things of other sizes: one alone, or up to four, at times with a card among them."""
    size = SIZES[int(rng.integers(len(SIZES)))]
    ground = str(rng.choice(PLAIN + ("any",) * 12))
    if rng.random() < 0.5:
        return single(rng, long, pictures, ground, size)
    stage = stage_for(rng, long, long / rng.uniform(9, 20), pictures, ground)
    if rng.random() < 0.3:
        clutter.litter(stage, rng, int(rng.integers(1, 4)), over_cards=False)
    for _ in range(int(rng.integers(2, 5))):
        size = CARD if rng.random() < 0.15 else SIZES[int(rng.integers(len(SIZES)))]
        turn = rng.normal() * 0.2 if rng.random() < 0.5 else rng.uniform(-np.pi, np.pi)
        lay_whole(stage, rng, size if rng.random() < 0.6 else size[::-1], pictures, turn)
    return finish(stage, rng)


def several(rng: Random, long: int, pictures: list) -> Stage:
    """Two to twenty cards anyhow, or put in some order by hand."""
    return (_anyhow if rng.random() < 0.45 else _in_order)(rng, long, pictures)


def _in_order(rng: Random, long: int, pictures: list) -> Stage:
    """Cards in rough rows or arcs, nearly touching or overlapping by a little."""
    count = int(rng.choice([rng.integers(2, 6), rng.integers(4, 11), rng.integers(10, 21)]))
    size = card_size(rng)
    sizes = [_of_group(rng, size) for _ in range(count)] if rng.random() < 0.35 else [size] * count
    mixed, way = rng.random() < 0.4, turned(rng, size)
    sizes = [turned(rng, one) if mixed else one for one in sizes]
    sizes = [one[::-1] if not mixed and way != size else one for one in sizes]
    gap = rng.choice([rng.uniform(0.0, 0.08), rng.uniform(-0.2, 0.0), rng.uniform(0.1, 0.5)],
                     p=[0.5, 0.2, 0.3])
    # Two alone, edge to edge, are one card that lies open.
    gap = max(gap, 0.05) if count == 2 and gap >= 0 else gap
    laid = (_rows, _rows, _arc, _strewn)[int(rng.integers(4))](rng, sizes, gap)
    stage = stage_for(rng, long, long / 12, pictures,
                      str(rng.choice(PLAIN + ("any",) * 6)), 30)
    if rng.random() < 0.15:
        clutter.busy_under(stage, rng, pictures)
    _fitted(stage, laid, rng, count > 9)
    nearer(stage, rng, 0.2)
    _lay_group(stage, rng, laid, pictures)
    clutter.litter(stage, rng, int(rng.choice([0, 0, 0, 1])), over_cards=True)
    return finish(stage, rng, 0.35)


def _of_group(rng: Random, size: tuple) -> tuple:
    """A size in a group of mixed ones."""
    others = (size, size, CARD, (2.25, 3.5), (2.5, 2.5), (2.0, 3.0), (3.0, 4.0), (3.5, 5.0))
    return others[int(rng.integers(len(others)))]


def _rows(rng: Random, sizes: list, gap: float) -> list:
    """[(middle, size, turn)]: rows of unequal length, each a little aslant."""
    most = int(np.ceil(np.sqrt(len(sizes)) * rng.uniform(0.8, 2.2)))
    loose, laid, y = rng.choice([0.005, 0.02, 0.05]), [], 0.0
    queue = list(sizes)
    aligned = rng.choice([0.0, 0.5, 1.0])
    while queue:
        row = [queue.pop() for _ in range(min(most, len(queue)))]
        tall = max(size[1] for size in row)
        x, slant = rng.normal() * 0.3, rng.normal() * 0.03
        for size in row:
            middle = np.array([x + size[0] / 2, y + tall * 0.5 + (aligned - 0.5) * (tall - size[1])
                               + slant * x])
            laid.append((middle + np.array([0, rng.normal() * loose]), size, slant
                         + rng.normal() * loose))
            x += size[0] + gap + abs(rng.normal()) * loose
        y += tall + max(gap, -0.1) + rng.choice([0.0, 0.1, 0.5])
    return laid


def _arc(rng: Random, sizes: list, gap: float) -> list:
    """[(middle, size, turn)]: along a bow or ring, each turned with it."""
    sizes = sizes[:12]
    steps = np.array([size[0] + gap for size in sizes])
    share = rng.uniform(0.15, 1.0)
    far = max(steps.sum() / (2 * np.pi * share), 3.2)
    if far - max(size[1] for size in sizes) / 2 < 0.6 * far:
        far *= 1.3
    angle = (np.cumsum(steps) - steps / 2) / far
    loose, laid = rng.choice([0.01, 0.05, 0.12]), []
    for one, size in zip(angle, sizes, strict=True):
        out = far + rng.normal() * loose + size[1] / 2
        turn = one + rng.normal() * loose
        laid.append((np.array([np.sin(one), -np.cos(one)]) * out, size, turn))
    return laid


def _strewn(rng: Random, sizes: list, gap: float) -> list:
    """[(middle, size, turn)]: roughly in a grid, every one pushed and turned as if dealt."""
    across = max(int(np.ceil(np.sqrt(len(sizes)))), 1)
    pitch = max(max(size) for size in sizes) + gap
    shake = rng.uniform(0.05, 0.3)
    return [(np.array([i % across, i // across]) * pitch + rng.normal(size=2) * shake, size,
             rng.normal() * shake * rng.choice([0.5, 2.0])) for i, size in enumerate(sizes)]


def _fitted(stage: Stage, laid: list, rng: Random, small: bool) -> None:
    """The camera moved so that the group fills the frame, or is small in it."""
    turn = rng.normal() * 0.15 + (np.pi / 2 if rng.random() < 0.15 else 0)
    stage.onto = stage.onto @ np.array(
        [[np.cos(turn), -np.sin(turn), 0], [np.sin(turn), np.cos(turn), 0], [0, 0, 1]])
    corners = np.concatenate([corners_of(*place) for place in laid])
    fitted(stage, corners, rng.uniform(0.6, 0.97))
    seen = project(stage.onto, corners).reshape(-1, 4, 2)
    tall = np.median(np.hypot(*(seen[:, 2] - seen[:, 1]).T)) / max(stage.size) * 768
    less = min(1.0, rng.uniform(*SMALL) / tall) if small else 1.0
    # Rather cut than too small to be found.
    less = max(less, 0.9 * SMALL[0] / tall)
    stage.onto = stage.onto @ about((corners.max(axis=0) + corners.min(axis=0)) / 2, less)


def _lay_group(stage: Stage, rng: Random, laid: list, pictures: list) -> None:
    """All of one art, all of one paper, or each its own."""
    roll, paper = rng.random(), rng.uniform(215, 254) + rng.uniform(-12, 3, 3)
    shared = draw_card(200, 280, rng, pictures) if roll < 0.15 else None
    scale = np.sqrt(abs(np.linalg.det(stage.onto[:2, :2]))) / stage.onto[2, 2]
    look = any_look(rng, float(scale)) if rng.random() < 0.5 else None
    for middle, size, turn in laid:
        art = shared
        if 0.15 < roll < 0.35:
            art = np.full((140, 100, 3), np.clip(paper + rng.normal() * 2, 0, 255), np.uint8)
            if rng.random() < 0.5:
                part = art[40:95, 25:75]
                part[:] = draw_card(50, 55, rng, pictures) if rng.random() < 0.4 else part - 30
        elif shared is None:
            fine = float(np.clip(scale * 1.3, 40, 100))
            art = draw_card(int(size[0] * fine), int(size[1] * fine), rng, pictures)
        put(stage, rng, middle, turn, pictures, size, art, look)


def _anyhow(rng: Random, long: int, pictures: list):
    """Two to nine cards anyhow, some touching."""
    count = int(rng.integers(2, 10))
    scale = long / rng.uniform(9, 22)
    stage = stage_for(rng, long, scale, pictures)
    if rng.random() < 0.3:
        clutter.busy_under(stage, rng, pictures)
    nearer(stage, rng, 0.15)
    room = np.array(stage.size) / 2 / scale
    taken: list[np.ndarray] = []
    size, same = card_size(rng), rng.random() < 0.4
    tidy, sleeved = rng.random() < 0.3, rng.random() < 0.1
    for _ in range(count * 8):
        middle = rng.uniform(-1, 1, 2) * np.maximum(room - 1.6, 0.5)
        near = rng.uniform(2.6, 4.4)
        if len(taken) < count and all(np.hypot(*(middle - o)) > near for o in taken):
            taken.append(middle)
            turn = rng.normal() * 0.06 if tidy else rng.uniform(-np.pi, np.pi)
            way = size if same else turned(rng, size)
            if sleeved:
                clutter.sleeve(stage, middle, way, turn, rng)
            put(stage, rng, middle, turn, pictures, way)
    clutter.litter(stage, rng, int(rng.choice([0, 0, 1, 2])), over_cards=True)
    return finish(stage, rng, 0.4)


def grid(rng: Random, long: int, pictures: list):
    """Rows and columns, tight or touching."""
    columns, rows = int(rng.integers(1, 6)), int(rng.integers(1, 5))
    columns = 2 if columns * rows == 1 else columns
    size = turned(rng, card_size(rng))
    gap = rng.choice([0.0, 0.02, 0.1, 0.3]) * rng.uniform(0.3, 1.3)
    # Two alone, edge to edge, are one card that lies open.
    gap = max(gap, 0.04) if columns * rows == 2 else gap
    span = max(columns * (size[0] + gap), rows * (size[1] + gap))
    scale = long * rng.uniform(0.5, 0.85) / span * rng.choice([0.75, 1.0])
    stage = stage_for(rng, long, scale, pictures, steepest=25)
    nearer(stage, rng, 0.15)
    turn, loose = rng.normal() * 0.15, rng.choice([0.0, 0.01, 0.05])
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    shared = draw_card(250, 350, rng, pictures) if rng.random() < 0.15 else None
    for row in range(rows):
        for column in range(columns):
            at = np.array([column - (columns - 1) / 2, row - (rows - 1) / 2])
            at = at * (np.array(size) + gap) + rng.normal(size=2) * loose
            if rng.random() < 0.1:
                stage.decoys.append(project(stage.onto, corners_of(spin @ at, size, turn)))
                continue
            put(stage, rng, spin @ at, turn + rng.normal() * loose * 0.3, pictures, size, shared)
    return finish(stage, rng)


def pile(rng: Random, long: int, pictures: list):
    """Fans, piles, and cards half over one another."""
    scale = long / rng.uniform(6, 16)
    stage = stage_for(rng, long, scale, pictures)
    size, middle = card_size(rng), rng.normal(size=2) * 0.8
    step, turn = rng.normal(size=2) * rng.uniform(0.02, 1.3), rng.uniform(-np.pi, np.pi)
    more, shake = rng.normal() * 0.25, rng.choice([0.02, 0.3, 1.2])
    for _ in range(int(rng.integers(2, 10))):
        put(stage, rng, middle, turn, pictures, size)
        middle = middle + step + rng.normal(size=2) * shake
        turn += more + rng.normal() * shake / 4
    return finish(stage, rng)
