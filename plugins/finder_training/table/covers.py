"""Sheets, books and envelopes of a maker's table, each seen from straight above."""

import cv2
import numpy as np

from finder_training.art.cards import scatter, words
from finder_training.noise import Random, any_colour, ink
from finder_training.table.grounds import draw_ground
from finder_training.table.papers import PAPERS, pale, text_page
from finder_training.table.shapes import palette


def plain(width: int, height: int, colour: np.ndarray) -> np.ndarray:
    """One colour all over, uint8 [height, width, 3]."""
    return np.full((height, width, 3), np.clip(colour, 0, 255), np.uint8)


def fill(art: np.ndarray, part: tuple, colour: np.ndarray, thick: int = -1) -> None:
    """A rectangle from (left, top) to (right, bottom), as shares of the art, in place."""
    height, width = art.shape[:2]
    one = (int(part[0] * width), int(part[1] * height))
    other = (int(part[2] * width), int(part[3] * height))
    cv2.rectangle(art, one, other, ink(np.clip(colour, 0, 255)), thick, cv2.LINE_AA)


def within(art: np.ndarray, part: tuple) -> np.ndarray:
    """The part of the art from (left, top) to (right, bottom), as shares, to draw in."""
    height, width = art.shape[:2]
    return art[int(part[1] * height) : int(part[3] * height),
               int(part[0] * width) : int(part[2] * width)]


def letters(art: np.ndarray, at: tuple, size: float, colour: np.ndarray, rng: Random) -> None:
    """A made-up word at a share of the art; `size` is its letters' share of the height."""
    height, width = art.shape[:2]
    word = "".join(rng.choice(list("aceilmnorstuv"), int(rng.integers(3, 9))))
    where = (int(at[0] * width), int(at[1] * height))
    scale = max(size * height / 30, 0.25)
    cv2.putText(art, word.upper() if rng.random() < 0.5 else word.title(), where,
                int(rng.integers(0, 8)), scale, ink(colour), max(int(scale * 2), 1), cv2.LINE_AA)


def book(width: int, height: int, rng: Random) -> np.ndarray:
    """A closed book: a cover with a title, a picture or none, and its spine's groove."""
    art = plain(width, height, any_colour(rng, 15, 235))
    if rng.random() < 0.4:
        art[:] = np.clip(draw_ground(width, height, rng, str(rng.choice(
            ["floral", "damask", "linen", "wrapping", "crumpled", "marble"]))), 0, 255)
    tone = any_colour(rng, 120, 250) if art.mean() < 130 else any_colour(rng, 5, 120)
    if rng.random() < 0.6:
        picture = within(art, (0.15, 0.35, 0.85, rng.uniform(0.6, 0.9)))
        picture[:] = any_colour(rng)
        scatter(picture, int(rng.integers(2, 14)), rng, 0.7)
    for line in range(int(rng.integers(1, 4))):
        at = (rng.uniform(0.1, 0.25), 0.14 + 0.1 * line)
        letters(art, at, rng.uniform(0.05, 0.1), tone, rng)
    fill(art, (0.0, 0.0, 0.06, 1.0), art.mean(axis=(0, 1)) * 0.75)
    fill(art, (0.94, 0.0, 1.0, 1.0), pale(rng)) if rng.random() < 0.3 else None
    return art


def notebook(width: int, height: int, rng: Random) -> np.ndarray:
    """An open notebook with its wire, ruled, written or sketched in."""
    art = plain(width, height, pale(rng))
    kind = str(rng.choice(["graph", "plain", "plain"]))
    if kind == "graph":
        art[:] = PAPERS["graph"](width, height, rng)
    for left in (0.05, 0.55):
        page = within(art, (left, 0.08, left + 0.4, rng.uniform(0.3, 0.95)))
        if min(page.shape[:2]) < 8 or rng.random() < 0.3:
            continue
        if rng.random() < 0.6:
            words(page, rng, ink(any_colour(rng, 10, 110)), max(height // 60, 2))
        else:
            scatter(page, int(rng.integers(1, 8)), rng, 0.5)
    wire = ink(any_colour(rng, 20, 230))
    for y in np.arange(height * 0.04, height * 0.97, max(height / 26, 4)):
        ends = (int(width * 0.475), int(y)), (int(width * 0.525), int(y))
        for end in ends:
            cv2.circle(art, end, max(width // 90, 1), (40, 40, 40), -1)
        cv2.line(art, *ends, wire, max(height // 130, 1), cv2.LINE_AA)
    return art


def envelope(width: int, height: int, rng: Random) -> np.ndarray:
    """The flap's side, or the side with an address and a stamp."""
    art = plain(width, height, pale(rng) if rng.random() < 0.5 else any_colour(rng, 90, 240))
    dark, edge = ink(art[0, 0] * 0.78), max(height // 120, 1)
    if rng.random() < 0.6:
        tip = (int(width * rng.uniform(0.45, 0.55)), int(height * rng.uniform(0.4, 0.65)))
        for one in ((0, 0), (width, 0)):
            cv2.line(art, one, tip, dark, edge, cv2.LINE_AA)
        for one in ((0, height), (width, height)):
            cv2.line(art, one, tip, ink(art[0, 0] * 0.9), edge, cv2.LINE_AA)
        if rng.random() < 0.3:
            cv2.circle(art, tip, height // 11, ink(any_colour(rng, 20, 200)), -1, cv2.LINE_AA)
        return art
    stamp = within(art, (0.82, 0.06, 0.95, 0.3))
    stamp[:] = any_colour(rng)
    scatter(stamp, 4, rng, 0.8)
    words(within(art, (0.4, 0.5, 0.8, 0.85)), rng, (50, 50, 70), max(height // 18, 2))
    if rng.random() < 0.4:
        for radius in (0.1, 0.075):
            cv2.circle(art, (int(width * 0.76), int(height * 0.2)), int(height * radius),
                       (60, 60, 60), 1, cv2.LINE_AA)
    return art


def swatches(width: int, height: int, rng: Random) -> tuple[np.ndarray, list[tuple]]:
    """A sheet of colour tests, a word under each; with where they are, as shares of the sheet."""
    art = plain(width, height, pale(rng))
    rows, columns = int(rng.integers(2, 9)), int(rng.integers(2, 8))
    tones = palette(rng, 9) if rng.random() < 0.5 else [any_colour(rng) for _ in range(9)]
    cells = []
    for i in range(rows * columns):
        x, y = (i % columns + 0.12) / columns, (i // columns + 0.1) / rows
        tone = tones[i % 9] if rng.random() < 0.9 else pale(rng)
        cells.append((x, y, x + 0.76 / columns, y + 0.6 / rows))
        fill(art, cells[-1], tone)
        words(within(art, (x, y + 0.64 / rows, x + 0.6 / columns, y + 0.86 / rows)), rng,
              (70, 70, 80), 2)
    return art, cells


def stamps(width: int, height: int, rng: Random) -> tuple[np.ndarray, list[tuple]]:
    """A sheet of stamps or stickers, all alike or each its own; with where they are on it."""
    art = plain(width, height, pale(rng))
    rows, columns = int(rng.integers(2, 7)), int(rng.integers(2, 8))
    alike = rng.random() < 0.4
    seed, cells = int(rng.integers(2**31)), []
    for i in range(rows * columns):
        x, y = (i % columns + 0.1) / columns, (i // columns + 0.1) / rows
        own = np.random.default_rng(seed if alike else seed + i)
        cells.append((x, y, x + 0.8 / columns, y + 0.8 / rows))
        box = within(art, cells[-1])
        box[:] = any_colour(own)
        scatter(box, 4, own, 0.8)
    return art, cells


def magazine(width: int, height: int, rng: Random) -> tuple[np.ndarray, list[tuple]]:
    """A page of a magazine, a leaflet, a form or a receipt, and where its photographs are."""
    art = plain(width, height, pale(rng))
    size = max(int(height * rng.uniform(0.01, 0.025)), 2)
    return art, text_page(art, rng, int(rng.integers(1, 4)), size)


def newspaper(width: int, height: int, rng: Random) -> tuple[np.ndarray, list[tuple]]:
    """A page of a newspaper, and where its photographs are."""
    art = plain(width, height, pale(rng) * rng.uniform(0.78, 1))
    size = max(int(height * rng.uniform(0.006, 0.012)), 2)
    return art, text_page(art, rng, int(rng.integers(3, 8)), size)
