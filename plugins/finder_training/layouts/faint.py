"""Cards that hardly differ from what they lie on."""

import cv2
import numpy as np

from finder_training.art.cards import draw_card, scatter, words
from finder_training.layouts.frames import clear, on_table
from finder_training.layouts.places import finish, put, stage_for
from finder_training.noise import Random, any_colour, cloud, ink, layered, speckle
from finder_training.stage import CARD, Look, Stage, corners_of, curl, outside, project


def low_contrast(rng: Random, long: int, pictures: list) -> Stage:
    """White on white, black on black, a card of its table's paper, colours or pattern."""
    return (_bordered if rng.random() < 0.35 else _alike)(rng, long, pictures)


def _alike(rng: Random, long: int, pictures: list) -> Stage:
    """One to five cards made of what the table is made of, told by little but their edges."""
    scale = long * 10 ** rng.uniform(-0.75, -0.12) / 3.5
    sheet = rng.random() < 0.6
    grounds = ["pale", "plain", "wood", "cloth", "mottled", "carpet", "black", "tiles", "any"]
    stage = stage_for(rng, long, scale, pictures, "plain" if sheet else str(rng.choice(grounds)))
    paper = _stock(rng)
    if sheet:
        stage.picture = _sheet(*stage.size, paper, rng)
    table = stage.picture.copy()
    size = CARD if rng.random() < 0.8 else (2.25, 3.5)
    square, laid = rng.random() < 0.4, int(rng.choice([1, 1, 2, 3, 5]))
    for _ in range(laid * 4):
        turn = rng.normal() * 0.05 if square else rng.uniform(-np.pi, np.pi)
        middle = on_table(stage, rng.uniform(0.1, 0.9, 2) * stage.size)
        quad = project(stage.onto, corners_of(middle, size, turn))
        if (len(stage.cards) < laid and outside(quad, stage.size) < 0.02
                and clear(quad, [card.quad for card in stage.cards], 0.0)):
            shown = min(scale, 100.0)
            art, faint = _art_alike(rng, table, shown, paper if sheet else None, pictures, size)
            put(stage, rng, middle, turn, pictures, size, art, _hardly_seen(rng, scale, faint))
    return finish(stage, rng, 0.2) if stage.cards else _bordered(rng, long, pictures)


def _stock(rng: Random) -> np.ndarray:
    """A colour [3] that paper and card are sold in: white, cream, kraft, black, grey, any."""
    tones = ([250, 250, 248], [246, 240, 224], [228, 214, 186], [178, 138, 98], [150, 112, 78],
             [22, 22, 24], [42, 40, 44], [128, 128, 126])
    if rng.random() < 0.25:
        return any_colour(rng)
    place = int(rng.choice(8, p=[0.24, 0.16, 0.08, 0.14, 0.08, 0.12, 0.1, 0.08]))
    return np.clip(np.array(tones[place]) * rng.uniform(0.9, 1.02) + rng.normal(size=3) * 3, 4, 254)


def _sheet(width: int, height: int, colour: np.ndarray, rng: Random) -> np.ndarray:
    """Paper float32 [height, width, 3]: smooth, grained, or with fibres as kraft has."""
    made = np.full((height, width, 3), colour, np.float32)
    made += speckle(width, height, rng) * np.float32(rng.uniform(0, 3))
    if rng.random() < 0.5:
        made += layered(width, height, rng.uniform(30, 120), rng, 2) * rng.uniform(0, 6)
    if rng.random() < 0.4:
        rough = np.ascontiguousarray(speckle(width, height, rng))
        fibres = cv2.blur(rough, (int(rng.integers(5, 25)), int(rng.integers(1, 3))))
        made += fibres[..., None] * np.float32(rng.uniform(5, 30))
    return made


def _art_alike(rng: Random, table: np.ndarray, scale: float, paper: np.ndarray | None,
               pictures: list, size: tuple) -> tuple[np.ndarray, bool]:
    """Art uint8 of `size` inches like the table, and whether its edge is all that tells of it."""
    wide, tall = max(int(size[0] * scale), 24), max(int(size[1] * scale), 24)
    if paper is not None:
        off = rng.choice([-1, 1]) * rng.uniform(0, 9) + rng.normal(size=3) * rng.choice([0.5, 3])
        made = _sheet(wide, tall, paper + off, rng)
        return _drawn_on(np.clip(made, 0, 255).astype(np.uint8), rng, paper, pictures), (
            abs(off.mean()) < 7)
    roll = rng.random()
    if roll < 0.5:
        made = _piece(table, wide, tall, rng) + rng.normal() * 7 + rng.normal(size=3) * 2
        made = np.clip(made, 0, 255).astype(np.uint8)
        return (_drawn_on(made, rng, made.mean((0, 1)), pictures)
                if rng.random() < 0.5 else made), True
    # Art in the table's own colours, from its darkest to its brightest or beyond.
    grey = cv2.cvtColor(draw_card(wide, tall, rng, pictures), cv2.COLOR_RGB2GRAY) / 255.0
    spots = table.reshape(-1, 3)[:: table.shape[0] * 7]
    order = spots[np.argsort(spots.sum(axis=1))]
    low, high = order[len(order) // 10], order[-1 - len(order) // 10]
    more = (high - low) * rng.uniform(0.0, 0.4) + rng.uniform(2, 14)
    made = low - more + grey[..., None] * (high - low + 2 * more)
    return np.clip(made, 0, 255).astype(np.uint8), False


def _piece(table: np.ndarray, wide: int, tall: int, rng: Random) -> np.ndarray:
    """A part of the table, from elsewhere, turned or not."""
    height, width = table.shape[:2]
    wide, tall = min(wide, width), min(tall, height)
    x, y = int(rng.integers(0, width - wide + 1)), int(rng.integers(0, height - tall + 1))
    part = table[y : y + tall, x : x + wide]
    return part[::-1, ::-1] if rng.random() < 0.5 else part


def _drawn_on(art: np.ndarray, rng: Random, paper: np.ndarray, pictures: list) -> np.ndarray:
    """A little drawing, a frame, words, or nothing on the paper."""
    tall, wide = art.shape[:2]
    pen = ink(np.clip(paper + rng.choice([-1, 1]) * rng.uniform(15, 150), 0, 255))
    roll, edge = rng.random(), int(wide * rng.uniform(0.08, 0.35))
    part = art[edge : tall - edge, edge : wide - edge]
    if roll < 0.25:
        part[:] = draw_card(part.shape[1], part.shape[0], rng, pictures)
    elif roll < 0.45:
        scatter(part, int(rng.integers(1, 6)), rng, rng.uniform(0.2, 0.6))
    elif roll < 0.6:
        words(part, rng, pen, int(rng.integers(3, 8)))
    elif roll < 0.75:
        for _ in range(int(rng.integers(1, 6))):
            path = rng.uniform(0.2, 0.8, 2) * (wide, tall) + np.cumsum(
                rng.normal(size=(12, 2)) * wide * 0.05, axis=0)
            cv2.polylines(art, [path.astype(np.int32)], False, pen, 1, cv2.LINE_AA)
    elif roll < 0.85:
        veil = cloud(wide, tall, rng.uniform(2, 6), rng, 3) * rng.uniform(4, 20)
        art = np.clip(art + veil, 0, 255).astype(np.uint8)
    return art


def _hardly_seen(rng: Random, scale: float, faint: bool) -> Look:
    """A contact shadow, a lit edge, a dark one, or both; more than nothing where `faint`."""
    roll = rng.random()
    near, lit, dim = roll < 0.4, 0.3 < roll < 0.75, roll > 0.55
    # A line thinner than a pixel would be lost.
    least = 8 + 14 * faint / min(scale * 0.3 / 25.4, 1)
    return Look(
        radius=float(rng.choice([0, 0, 0.125, rng.uniform(0.02, 0.15)])),
        soft=rng.uniform(0.5, 1.5) + (not near) * scale * rng.uniform(0.0, 0.05),
        dark=float(rng.uniform(0.2, 0.6) if near else rng.uniform(0.0, 0.12)),
        lift=float(rng.uniform(0.7, 2.5) if near else rng.uniform(0, 1)),
        lit=float(lit * rng.uniform(least, 60 + least)),
        dim=float(dim * rng.uniform(least, 60 + least)),
        curled=curl(scale, rng) if rng.random() < 0.12 else (),
    )


def _bordered(rng: Random, long: int, pictures: list):
    """A drawing on a card of its table's colour, a little lighter or darker."""
    scale = long * 10 ** rng.uniform(-0.8, -0.2) / 3.5
    ground = str(rng.choice(["pale", "pale", "black", "plain", "ruled", "cloth", "wood"]))
    stage = stage_for(rng, long, scale, pictures, ground)
    room = np.array(stage.size) / 2 / scale
    for _ in range(int(rng.integers(1, 4))):
        middle = rng.uniform(-1, 1, 2) * np.maximum(room - 2.0, 0.1)
        if any(np.hypot(*(project(stage.onto, middle[None])[0] - c.quad.mean(0))) < scale * 4.4
               for c in stage.cards):
            continue
        tone = np.clip(np.median(stage.picture.reshape(-1, 3)[::97], axis=0), 4, 250)
        art = draw_card(250, 350, rng, pictures)
        edge = int(rng.integers(8, 60))
        bare = np.full_like(art, np.clip(tone + rng.choice([-1, 1]) * rng.uniform(4, 22), 0, 255))
        bare[edge:-edge, edge:-edge] = art[edge:-edge, edge:-edge] if rng.random() < 0.6 else (
            bare[edge:-edge, edge:-edge])
        if rng.random() < 0.7:
            side = int(rng.integers(20, 90))
            part = draw_card(250 - 2 * side, 350 - 2 * side, rng, pictures)
            bare[side:-side, side:-side] = part
        put(stage, rng, middle, rng.uniform(-np.pi, np.pi), pictures, CARD, bare)
    return finish(stage, rng, 0.25)
