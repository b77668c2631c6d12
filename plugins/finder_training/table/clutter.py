"""What lies about cards and over them: fingers, pens, coins, sheets, sleeves, light and shade."""

import cv2
import numpy as np

from finder_training.art.cards import draw_card, scatter, words
from finder_training.noise import Random, any_colour, cloud, ink
from finder_training.stage import Look, Stage, corners_of, lay, project
from finder_training.table.flats import lay_flat
from finder_training.table.grounds import draw_ground
from finder_training.table.lights import any_light
from finder_training.table.overlaid import hand_anywhere
from finder_training.table.things import put_thing

SMALL = "pencils brush scissors tube tape keys spectacles sprig cable strewn".split()
"""Of things, those that leave enough of a card to be seen."""


def lay_sheet(stage: Stage, rng: Random, middle: np.ndarray, size: tuple, turn: float) -> None:
    """A sheet of paper, folder, clipboard, mat or book: no card."""
    across, down = (max(int(side * 40), 8) for side in size)
    roll = rng.random()
    if roll < 0.35:
        art = np.full((down, across, 3), rng.uniform(205, 252) + rng.uniform(-14, 3, 3), np.uint8)
    else:
        kind = "ruled ruled graph newspaper news book music map mat plain pale wood black printed"
        kind = kind.split()
        art = draw_ground(across, down, rng, str(rng.choice(kind)))
        art = np.clip(art, 0, 255).astype(np.uint8)
    if rng.random() < 0.2:
        words(art, rng, (40, 40, 50), 5)
    quad = project(stage.onto, corners_of(middle, size, turn))
    look = Look(radius=float(rng.choice([0, 0, 0.2])), soft=rng.uniform(1, 6),
                dark=rng.uniform(0.05, 0.5), lift=rng.uniform(0, 5))
    lay(stage, art, quad, size, look, is_card=False)
    stage.decoys.append(quad)


def sheet_beneath(stage: Stage, rng: Random, middle: np.ndarray, turn: float) -> None:
    """A sheet not much larger than the card that is to lie on it: what is most like a card."""
    size = np.array([2.5, 3.5]) * rng.uniform(1.15, 2.6, 2)
    beside = rng.uniform(-0.5, 0.5, 2) * np.maximum(size - 3.6, 0.3)
    lay_sheet(stage, rng, middle + beside, tuple(size), turn + rng.normal() * 0.4)


def cover(stage: Stage, mask: np.ndarray, colour: np.ndarray, rng: Random) -> None:
    """A rounded solid thing over what is there; `mask` uint8 [h, w] its outline.

    Only the box about the outline is worked on.
    """
    x, y, wide, tall = cv2.boundingRect(mask)
    if wide < 2 or tall < 2:
        return
    pad = 14
    box = (slice(max(y - pad, 0), y + tall + pad), slice(max(x - pad, 0), x + wide + pad))
    inside = mask[box]
    part = stage.picture[box]
    depth = np.minimum(cv2.distanceTransform(inside, cv2.DIST_L2, 3), 40)
    top = max(float(depth.max()), 1)
    round_ = np.sqrt(np.clip(1 - (1 - depth / top) ** 2, 0, 1))
    soft = cv2.GaussianBlur((inside > 127).astype(np.float32), (0, 0), 0.7)[..., None]
    shade = cv2.GaussianBlur(soft, (0, 0), rng.uniform(2, 6))
    move = np.array([[1, 0, stage.light[0] * 5], [0, 1, stage.light[1] * 5]], np.float32)
    shade = cv2.warpAffine(shade, move, (inside.shape[1], inside.shape[0]))[..., None]
    part *= 1 - rng.uniform(0.1, 0.5) * shade
    drawn = colour.astype(np.float32) * (0.62 + 0.38 * round_)[..., None]
    part += (drawn - part) * soft
    stage.over[box][inside > 127] = 1


def finger(stage: Stage, tip: np.ndarray, away: np.ndarray, thick: float, rng: Random) -> None:
    """A finger or thumb: its tip at px `tip`, coming from the direction `away`."""
    tones = [[235, 190, 165], [215, 165, 135], [170, 115, 85], [110, 72, 52], [70, 46, 36]]
    colour = np.array(tones[int(rng.integers(5))]) * rng.uniform(0.8, 1.1)
    mask = np.zeros(stage.owner.shape, np.uint8)
    far = tip + away * thick * 12
    points = (tuple(int(v) for v in tip), tuple(int(v) for v in far))
    cv2.line(mask, *points, 255, max(int(thick), 3), cv2.LINE_AA)
    cover(stage, mask, colour, rng)


def pen(stage: Stage, one: np.ndarray, other: np.ndarray, thick: float, rng: Random) -> None:
    """A pen, brush, ruler or knife from one point to the other, px."""
    mask = np.zeros(stage.owner.shape, np.uint8)
    points = (tuple(int(v) for v in one), tuple(int(v) for v in other))
    cv2.line(mask, *points, 255, max(int(thick), 2), cv2.LINE_AA)
    cover(stage, mask, any_colour(rng), rng)


def coin(stage: Stage, middle: np.ndarray, size: float, rng: Random) -> None:
    """A coin, button, cup or lid."""
    mask = np.zeros(stage.owner.shape, np.uint8)
    at = tuple(int(v) for v in middle)
    axes = (max(int(size), 2), max(int(size * rng.uniform(0.75, 1)), 2))
    cv2.ellipse(mask, at, axes, 0, 0, 360, 255, -1, cv2.LINE_AA)
    cover(stage, mask, any_colour(rng), rng)


def litter(stage: Stage, rng: Random, count: int, over_cards: bool) -> None:
    """Pens, coins and scraps anywhere, under the cards to come or over those there."""
    width, height = stage.size
    size = max(width, height)
    for _ in range(count):
        at = rng.uniform(0, 1, 2) * (width, height)
        if rng.random() < 0.55:
            _drop(stage, rng, at, over_cards)
            continue
        roll = rng.random()
        if roll < 0.4:
            way = rng.normal(size=2)
            long = rng.uniform(0.1, 0.6) * size
            pen(stage, at, at + way / np.hypot(*way) * long, size * rng.uniform(0.006, 0.03), rng)
        elif roll < 0.7 and over_cards:
            way = at - np.array([width, height]) / 2
            finger(stage, at, way / (np.hypot(*way) + 1), size * rng.uniform(0.03, 0.08), rng)
        else:
            coin(stage, at, size * rng.uniform(0.01, 0.07), rng)


def _drop(stage: Stage, rng: Random, at: np.ndarray, over_cards: bool) -> None:
    """A thing about px `at`, now and then a hand; over cards only what leaves them to be seen."""
    if over_cards and rng.random() < 0.2:
        hand_anywhere(stage, rng)
        return
    inches = project(np.linalg.inv(stage.onto), at[None])[0]
    name = str(rng.choice(SMALL)) if over_cards and stage.cards else "any"
    put_thing(stage, rng, inches, rng.uniform(0, 2 * np.pi), name)


def lay_under(stage: Stage, rng: Random, middle: np.ndarray, size: tuple, turn: float) -> None:
    """What a card is to lie on: a plain sheet, or a book, box, screen or other flat thing."""
    if rng.random() < 0.5:
        lay_sheet(stage, rng, middle, size, turn)
    else:
        lay_flat(stage, rng, middle, turn)


def news_under(stage: Stage, rng: Random) -> None:
    """A newspaper over much of the table: its photographs are no cards."""
    back = np.linalg.inv(stage.onto)
    at = project(back, rng.uniform(0.3, 0.7, (1, 2)) * stage.size)[0]
    lay_flat(stage, rng, at, rng.uniform(0, 2 * np.pi), "newspaper")


def thing_beside(stage: Stage, rng: Random) -> None:
    """A screen, notebook, box or cup's coaster somewhere, of no card's make."""
    width, height = stage.size
    back = np.linalg.inv(stage.onto)
    at = cv2.perspectiveTransform(rng.uniform(0, 1, (1, 1, 2)) * (width, height), back)[0, 0]
    lay_under(stage, rng, at, tuple(rng.uniform(1.0, 9, 2)), rng.uniform(0, np.pi))


def sleeve(stage: Stage, inches: np.ndarray, size: tuple, turn: float, rng: Random) -> None:
    """A clear sleeve or stiff holder about a card: paler within, with a bright or dark rim."""
    more = np.array([rng.uniform(0.05, 0.5), rng.uniform(0.1, 0.5)])
    whole = tuple(np.array(size) + more)
    offset = more * rng.uniform(-0.4, 0.4, 2)
    quad = project(stage.onto, corners_of(inches + offset, whole, turn))
    clear = np.full((8, 8, 3), rng.uniform(190, 255), np.uint8)
    lay(stage, clear, quad, whole, Look(opacity=rng.uniform(0.03, 0.16), dark=0.1), is_card=False)
    rim = ink(np.clip(stage.picture.mean(axis=(0, 1)) + rng.uniform(-60, 120), 0, 255))
    drawn = stage.picture.copy()
    cv2.polylines(drawn, [np.int32(quad * 16)], True, rim, 1, cv2.LINE_AA, 4)
    share = np.float32(rng.uniform(0.1, 0.6))
    stage.picture += (drawn - stage.picture) * share


def glare(stage: Stage, quad: np.ndarray, rng: Random) -> None:
    """A lamp's reflection over part of a card: a soft spot or streak, up to white."""
    width, height = stage.size
    middle = quad[int(rng.integers(4))] * 0.3 + quad.mean(axis=0) * 0.7 + rng.normal(size=2) * 10
    size = float(np.sqrt(cv2.contourArea(quad.astype(np.float32)))) * rng.uniform(0.1, 0.5)
    x = np.arange(width, dtype=np.float32) - middle[0]
    y = (np.arange(height, dtype=np.float32) - middle[1])[:, None]
    turn, long = rng.uniform(0, np.pi), rng.uniform(1, 5)
    along = (x * np.cos(turn) + y * np.sin(turn)) / (size * long)
    across = (y * np.cos(turn) - x * np.sin(turn)) / size
    spot = np.exp(-(along**2 + across**2) ** rng.choice([1.0, 2.0]))
    if rng.random() < 0.6:
        inside = np.zeros((height, width), np.uint8)
        cv2.fillConvexPoly(inside, np.int32(quad), 1)
        spot = spot * inside
    stage.picture += (spot * rng.uniform(40, 330))[..., None]


def shade(stage: Stage, rng: Random) -> None:
    """The photographer's or a window frame's shadow: straight or round, tinted, soft or hard.

    Or other light altogether, as `lights` has it.
    """
    if rng.random() < 0.45:
        any_light(stage, rng)
        return
    width, height = stage.size
    mask = np.zeros((height, width), np.uint8)
    roll = rng.random()
    if roll < 0.3 and stage.cards:
        # Across a card, parallel to a side as often as not: a second card, to look at it.
        quad = stage.cards[int(rng.integers(len(stage.cards)))].quad
        side, share = int(rng.integers(4)), rng.uniform(0.15, 0.85, 2)
        if rng.random() < 0.5:
            share[1] = share[0]
        one = quad[side] * (1 - share[0]) + quad[(side + 1) % 4] * share[0]
        other = quad[(side + 3) % 4] * (1 - share[1]) + quad[(side + 2) % 4] * share[1]
        along = (other - one) * 4
        out = np.array([along[1], -along[0]]) * rng.choice([-1, 1])
        points = np.array([one - along, one + along, one + along + out, one - along + out])
        cv2.fillConvexPoly(mask, points.astype(np.int32), 255)
    elif roll < 0.55:
        points = rng.uniform(-0.2, 1.2, (4, 2)) * (width, height)
        cv2.fillConvexPoly(mask, cv2.convexHull(points.astype(np.int32)), 255)
    elif roll < 0.8:
        at = tuple(int(v) for v in rng.uniform(-0.1, 1.1, 2) * (width, height))
        axes = tuple(int(v) for v in rng.uniform(0.1, 0.5, 2) * max(width, height))
        cv2.ellipse(mask, at, axes, rng.uniform(0, 180), 0, 360, 255, -1)
    else:
        for _ in range(int(rng.integers(2, 6))):
            points = (rng.uniform(0, 1, (3, 2)) * (width, height)).astype(np.int32)
            cv2.fillConvexPoly(mask, cv2.convexHull(points), 255)
    soft = cv2.GaussianBlur(mask, (0, 0), float(rng.choice([1, 3, 8, 20])))
    tint = 1 - rng.uniform(0.15, 0.7) * np.array([1, 1, 1 - rng.uniform(0, 0.35)])
    share = soft.astype(np.float32)[..., None] / 255
    stage.picture *= 1 - share * (1 - tint.astype(np.float32))


def falloff(stage: Stage, rng: Random) -> None:
    """Light that is stronger on one side, or in one spot."""
    width, height = stage.size
    strong = rng.uniform(0, 0.4)
    field = 1 + cloud(width, height, 1.5, rng) * strong
    way = rng.normal(size=2) * strong
    x = np.linspace(-0.5, 0.5, width, dtype=np.float32)
    y = np.linspace(-0.5, 0.5, height, dtype=np.float32)[:, None]
    stage.picture *= np.clip(field + (x * way[0] + y * way[1])[..., None], 0.15, 1.6)


def full_table(stage: Stage, rng: Random) -> None:
    """Flat things and tools all over, one upon another."""
    back = np.linalg.inv(stage.onto)
    for _ in range(int(rng.integers(7, 18))):
        at = project(back, rng.uniform(0, 1, (1, 2)) * stage.size)[0]
        put = lay_flat if rng.random() < 0.45 else put_thing
        put(stage, rng, at, rng.uniform(0, 2 * np.pi))


def busy_under(stage: Stage, rng: Random, pictures: list) -> None:
    """Torn pictures and shapes strewn over the table."""
    for _ in range(int(rng.integers(1, 4))):
        roll = rng.random()
        if roll < 0.75:
            thing_beside(stage, rng)
        else:
            board = np.clip(stage.picture, 0, 255).astype(np.uint8)
            stage.picture[:] = scatter(board, int(rng.integers(3, 12)), rng, 0.3)
    if rng.random() < 0.1:
        poster = draw_card(200, 200, rng, pictures)
        size = tuple(rng.uniform(5, 9, 2))
        quad = project(stage.onto, corners_of(rng.normal(size=2) * 4, size, rng.uniform(0, 6)))
        lay(stage, poster, quad, size, Look(), is_card=False)
