"""Drawn fronts and backs of cards, each its own by the seed."""

import cv2
import numpy as np

from finder_training.art.bare import BARE
from finder_training.art.boxy import BOXY
from finder_training.art.chalks import CHALKED
from finder_training.art.colours import blank, paper
from finder_training.art.finishes import finished
from finder_training.art.framings import FRAMINGS
from finder_training.art.glued import PAPERED
from finder_training.art.ordered import ORDERED
from finder_training.art.painted import PAINTED
from finder_training.art.penned import PENNED
from finder_training.art.printed import PRINTED
from finder_training.noise import Random, any_colour, cloud, ink, layered

FACES = cv2.FONT_HERSHEY_SIMPLEX, cv2.FONT_HERSHEY_TRIPLEX, cv2.FONT_HERSHEY_COMPLEX


def draw_card(width: int, height: int, rng: Random, pictures: list[np.ndarray] = ()) -> np.ndarray:
    """A card uint8 [height, width, 3]; `pictures` are uint8 pictures some art is cut from."""
    return finished(_any_art(width, height, rng, pictures), rng)


def _any_art(width: int, height: int, rng: Random, pictures: list[np.ndarray],
             framed: bool = True) -> np.ndarray:
    """Art of any kind; `framed` allows such as frames other art."""
    roll = rng.random()
    if roll < 0.33:
        return _plainly_drawn(width, height, rng, pictures)
    if roll < 0.55 and framed:
        framing = FRAMINGS[int(rng.integers(len(FRAMINGS)))]
        return framing(width, height, rng, lambda w, h, r: _any_art(w, h, r, pictures, False))
    family = FAMILIES[int(rng.integers(len(FAMILIES)))]
    return family[int(rng.integers(len(family)))](width, height, rng)


FAMILIES = (PAINTED, PAINTED, BARE, BARE, BARE, PENNED, CHALKED, PRINTED, PAPERED, ORDERED, BOXY)
"""Bare cards often: they are what is most often taken for no card."""


def _plainly_drawn(width: int, height: int, rng: Random, pictures: list[np.ndarray]) -> np.ndarray:
    """Shapes, signs, washes, lines, letters, land, tiles, or a part of a picture."""
    kinds = [_shapes, _shapes, _pips, _pips, _court, _court, _back, _wash, _wash, _lines, _night,
             _lettered, _nearly_blank, _land, tile]
    if len(pictures):
        kinds += [lambda w, h, r: cut_from(pictures, w, h, r)] * 3
    card = kinds[int(rng.integers(len(kinds)))](width, height, rng)
    if rng.random() < 0.3:
        card = _framed(card, rng)
    if rng.random() < 0.25:
        card = _margin(card, rng)
    return card


def scatter(card: np.ndarray, count: int, rng: Random, largest: float = 0.3) -> np.ndarray:
    """Shapes drawn anywhere on the picture, in place."""
    height, width = card.shape[:2]
    for _ in range(count if card.size else 0):
        colour = ink(any_colour(rng))
        x, y = int(rng.integers(0, width)), int(rng.integers(0, height))
        size = int(max(width, height) * rng.uniform(0.02, largest)) + 1
        shape = int(rng.integers(0, 6))
        if shape == 0:
            cv2.circle(card, (x, y), size // 2, colour, -1, cv2.LINE_AA)
        elif shape == 1:
            end = (x + size, y + int(size * rng.uniform(0.3, 1.6)))
            cv2.rectangle(card, (x, y), end, colour, int(rng.choice([-1, -1, 1, 2, 4])))
        elif shape == 2:
            points = rng.integers(-size, size + 1, (int(rng.integers(3, 7)), 2)) // 2 + (x, y)
            cv2.fillPoly(card, [points.astype(np.int32)], colour, cv2.LINE_AA)
        elif shape == 3:
            for step in range(0, size, int(rng.integers(3, 9))):
                end = (x + size, y + step // 2)
                cv2.line(card, (x, y + step), end, colour, 1, cv2.LINE_AA)
        elif shape == 4:
            axes = (size // 2, max(size // 4, 1))
            turn = float(rng.uniform(0, 180))
            cv2.ellipse(card, (x, y), axes, turn, 0, 360, colour, -1, cv2.LINE_AA)
        else:
            points = (np.cumsum(rng.normal(size=(12, 2)) * size / 5, axis=0) + (x, y)).astype(int)
            cv2.polylines(card, [points.astype(np.int32)], False, colour, 2, cv2.LINE_AA)
    return card


def _shapes(width: int, height: int, rng: Random) -> np.ndarray:
    card = blank(width, height, paper(rng) if rng.random() < 0.6 else any_colour(rng))
    return scatter(card, int(rng.integers(3, 22)), rng, rng.uniform(0.2, 0.7))


def _index(card: np.ndarray, rng: Random, colour: tuple) -> None:
    """A sign in two corners, one of them upside down."""
    height, width = card.shape[:2]
    face, sign = int(rng.choice(FACES)), str(rng.choice(list("23456789XKQJA")))
    size = width / rng.uniform(150, 320)
    at = (int(width * rng.uniform(0.03, 0.07)), int(height * rng.uniform(0.1, 0.14)))
    for _ in range(2):
        cv2.putText(card, sign, at, face, size, colour, max(int(size * 2), 1), cv2.LINE_AA)
        pip(card, at[0] + width // 25, at[1] + height // 22, width // 26, colour, 0)
        card[:] = card[::-1, ::-1].copy()


def pip(card: np.ndarray, x: int, y: int, size: int, colour: tuple, kind: int) -> None:
    """A small filled sign about (x, y): lozenge, heart-like, clover-like or disc."""
    if kind == 0:
        points = np.array([[0, -1.3], [1, 0], [0, 1.3], [-1, 0]])
    elif kind == 1:
        points = np.array([[0, 1.2], [-1, 0], [-0.7, -0.9], [0, -0.5], [0.7, -0.9], [1, 0]])
    else:
        for dx, dy in ((-0.55, 0.2), (0.55, 0.2), (0, -0.6)):
            middle = (int(x + dx * size), int(y + dy * size))
            cv2.circle(card, middle, max(int(size * 0.55), 1), colour, -1, cv2.LINE_AA)
        points = np.array([[0, 0], [0.35, 1.3], [-0.35, 1.3]])
    cv2.fillPoly(card, [(points * size + (x, y)).astype(np.int32)], colour, cv2.LINE_AA)


def _pips(width: int, height: int, rng: Random) -> np.ndarray:
    """Small signs in columns, as on cards for playing."""
    dark = rng.random() < 0.12
    card = blank(width, height, rng.uniform(10, 40, 3) if dark else rng.uniform(228, 255, 1))
    reds = ([190, 20, 30], [15, 15, 20], [40, 90, 150], [90, 160, 220])
    colour = ink(np.array(reds[int(rng.integers(4))]) + (60 if dark else 0))
    kind, count = int(rng.integers(0, 3)), int(rng.integers(1, 11))
    size = int(width * rng.uniform(0.05, 0.11))
    columns = [[0.5], [0.3, 0.7], [0.3, 0.5, 0.7]][min(count // 3, 2)]
    rows = max(int(np.ceil(count / len(columns))), 1)
    for i in range(count):
        y = 0.2 + 0.6 * ((i // len(columns)) + 0.5) / rows
        pip(card, int(columns[i % len(columns)] * width), int(y * height), size, colour, kind)
    _index(card, rng, colour)
    return card


def _court(width: int, height: int, rng: Random) -> np.ndarray:
    """A framed, busy figure on a white card, the same upside down."""
    card = blank(width, height, rng.uniform(225, 255, 1))
    left, top = int(width * rng.uniform(0.1, 0.22)), int(height * rng.uniform(0.05, 0.14))
    inner = card[top : height - top, left : width - left]
    few = [any_colour(rng) for _ in range(3)]
    few += [np.array([200.0, 30, 40]), np.array([230.0, 190, 60])]
    inner[:] = few[0] if rng.random() < 0.3 else inner
    for _ in range(int(rng.integers(15, 45))):
        x, y = int(rng.integers(0, inner.shape[1])), int(rng.integers(0, inner.shape[0] // 2))
        colour, size = ink(few[int(rng.integers(5))]), int(width * rng.uniform(0.03, 0.25))
        if rng.random() < 0.5:
            points = rng.integers(-size, size + 1, (4, 2)) + (x, y)
            cv2.fillPoly(inner, [points.astype(np.int32)], colour, cv2.LINE_AA)
        else:
            cv2.circle(inner, (x, y), size // 2, colour, int(rng.choice([-1, 1, 2])), cv2.LINE_AA)
    half = inner.shape[0] // 2
    inner[inner.shape[0] - half :] = inner[:half][::-1, ::-1]
    if rng.random() < 0.8:
        edge = ink(rng.choice([[20, 20, 60], [10, 10, 10], [40, 70, 160]]))
        corner = (width - left, height - top)
        cv2.rectangle(card, (left, top), corner, edge, int(rng.integers(1, 4)))
    _index(card, rng, ink(rng.choice([[190, 20, 30], [15, 15, 20]])))
    return card


def tile(width: int, height: int, rng: Random, ground: np.ndarray | None = None) -> np.ndarray:
    """A small pattern repeated over the whole picture."""
    size = int(rng.integers(8, 70))
    cell = blank(size, size, any_colour(rng) if ground is None else ground)
    scatter(cell, int(rng.integers(1, 5)), rng, 0.8)
    if rng.random() < 0.5:
        cell = np.hstack([cell, cell[:, ::-1]])
        cell = np.vstack([cell, cell[::-1]])
    times = (height // cell.shape[0] + 1, width // cell.shape[1] + 1, 1)
    return np.tile(cell, times)[:height, :width].copy()


def _back(width: int, height: int, rng: Random) -> np.ndarray:
    card = blank(width, height, paper(rng))
    edge = max(int(min(width, height) * rng.uniform(0.03, 0.11)), 1)
    card[edge:-edge, edge:-edge] = tile(width - 2 * edge, height - 2 * edge, rng)
    if rng.random() < 0.6:
        cv2.circle(card, (width // 2, height // 2), width // 5, ink(any_colour(rng)), -1)
    return card


def _wash(width: int, height: int, rng: Random) -> np.ndarray:
    """Colours that run into one another, to the edge or fading before it."""
    base = any_colour(rng, 60, 250)
    field = cloud(width, height, rng.uniform(2, 9), rng, 3) * rng.uniform(20, 90)
    field += layered(width, height, 12, rng, 3) * rng.uniform(0, 25)
    card = base + field
    if rng.random() < 0.4:
        fade = np.ones((height, width), np.float32)
        edge = int(width * rng.uniform(0.06, 0.2))
        fade[:edge], fade[-edge:], fade[:, :edge], fade[:, -edge:] = 0, 0, 0, 0
        fade = cv2.GaussianBlur(fade, (0, 0), rng.uniform(1, 9))[..., None]
        card = paper(rng) * (1 - fade) + card * fade
    card = np.clip(card, 0, 255).astype(np.uint8)
    return scatter(card, int(rng.integers(0, 8)), rng, 0.3)


def _lines(width: int, height: int, rng: Random) -> np.ndarray:
    card = blank(width, height, paper(rng))
    pen = ink(any_colour(rng, 0, 110))
    for _ in range(int(rng.integers(4, 40))):
        start = rng.uniform(0.08, 0.92, 2) * (width, height)
        path = start + np.cumsum(rng.normal(size=(20, 2)) * width * 0.03, axis=0)
        thick = int(rng.integers(1, 4))
        cv2.polylines(card, [path.astype(np.int32)], False, pen, thick, cv2.LINE_AA)
    return card


def _night(width: int, height: int, rng: Random) -> np.ndarray:
    card = blank(width, height, rng.uniform(5, 55, 3))
    for _ in range(int(rng.integers(3, 30))):
        middle = (int(rng.integers(0, width)), int(rng.integers(0, height)))
        size, colour = int(rng.integers(1, width // 8)), ink(any_colour(rng, 60, 250))
        cv2.circle(card, middle, size, colour, int(rng.choice([-1, 1])), cv2.LINE_AA)
    return card


def words(picture: np.ndarray, rng: Random, colour: tuple, size: int) -> None:
    """Rows of strokes that look like set lines of text, in place."""
    height, width = picture.shape[:2]
    for y in range(size, height - size // 2, int(size * 1.6) + 1):
        x = int(size * rng.uniform(0.2, 1))
        while x < width - size:
            long = int(size * rng.uniform(0.5, 3))
            end = min(x + long, width - size // 2)
            cv2.line(picture, (x, y), (end, y), colour, max(size // 2, 1))
            if size > 4:
                picture[y - size // 2 : y + size // 2, x : end : max(size // 3, 2)] = 250
            x += long + int(size * 0.5) + 1


def _lettered(width: int, height: int, rng: Random) -> np.ndarray:
    """A title, a picture in a box, and lines of text."""
    card = blank(width, height, paper(rng))
    pen, edge = ink(any_colour(rng, 0, 120)), width // 12
    cut = int(height * rng.uniform(0.5, 0.75))
    box = card[height // 7 : cut, edge : width - edge]
    box[:] = _wash(box.shape[1], box.shape[0], rng)
    words(card[cut + edge : height - edge, edge : width - edge], rng, pen, width // 28)
    text = "".join(rng.choice(list("abcdefghilmnoprstuvw"), 9))
    at = (edge, int(height * 0.1))
    cv2.putText(card, text, at, int(rng.choice(FACES)), width / 300, pen, 2, cv2.LINE_AA)
    return card


def _nearly_blank(width: int, height: int, rng: Random) -> np.ndarray:
    card = blank(width, height, paper(rng))
    part = card[height // 3 : height * 2 // 3, width // 4 : width * 3 // 4]
    scatter(part, int(rng.integers(1, 4)), rng, 0.6)
    return card


def _land(width: int, height: int, rng: Random) -> np.ndarray:
    """Sky, hills one behind the other, a sun."""
    card = blank(width, height, any_colour(rng, 90, 250))
    sun = (int(rng.integers(0, width)), int(height * rng.uniform(0.1, 0.4)))
    cv2.circle(card, sun, width // int(rng.integers(6, 14)), ink(any_colour(rng, 120)), -1)
    x = np.arange(0, width + 10, 10)
    for level in np.sort(rng.uniform(0.3, 0.95, int(rng.integers(2, 6)))):
        wave = np.sin(x / width * rng.uniform(2, 9) + rng.uniform(0, 6)) * height * 0.06
        points = np.column_stack([x, level * height + wave])
        points = np.vstack([points, [[width, height], [0, height]]])
        cv2.fillPoly(card, [points.astype(np.int32)], ink(any_colour(rng)), cv2.LINE_AA)
    return card


def cut_from(pictures: list[np.ndarray], width: int, height: int, rng: Random) -> np.ndarray:
    """A random part of one of the pictures, in random colours, uint8 [height, width, 3]."""
    whole = pictures[int(rng.integers(len(pictures)))]
    share = rng.uniform(0.25, 1)
    scale = share * min(whole.shape[1] / width, whole.shape[0] / height)
    wide, tall = max(int(width * scale), 2), max(int(height * scale), 2)
    x = int(rng.integers(0, whole.shape[1] - wide + 1))
    y = int(rng.integers(0, whole.shape[0] - tall + 1))
    part = whole[y : y + tall, x : x + wide]
    part = cv2.resize(part, (width, height), interpolation=cv2.INTER_AREA)
    return np.clip(part * rng.uniform(0.6, 1.25, 3) + rng.uniform(-20, 30), 0, 255).astype(np.uint8)


def _framed(card: np.ndarray, rng: Random) -> np.ndarray:
    """A drawn frame parallel to the edge: what a finder takes for the edge."""
    height, width = card.shape[:2]
    inset = int(width * rng.uniform(0.02, 0.14))
    thick = int(rng.choice([1, 2, 3, 6, 10]))
    end = (width - inset, height - inset)
    cv2.rectangle(card, (inset, inset), end, ink(any_colour(rng)), thick, cv2.LINE_AA)
    return card


def _margin(card: np.ndarray, rng: Random) -> np.ndarray:
    height, width = card.shape[:2]
    edge = int(width * rng.uniform(0.02, 0.12))
    bare = blank(width, height, paper(rng))
    bare[edge:-edge, edge:-edge] = card[edge:-edge, edge:-edge]
    return bare
