"""Art of pens, pencils and brushes' tips: hatching, dots, patterns, figures, letters."""

import cv2
import numpy as np

from finder_training.art.colours import blank, dark_ink, one_of, palette, paper, white
from finder_training.art.motifs import any_motif, bird, cat, draw, face, fish, house, sprig
from finder_training.art.strokes import blob, facets, field, hatch, path, wobbled
from finder_training.noise import Random, cloud

FACES = cv2.FONT_HERSHEY_SIMPLEX, cv2.FONT_HERSHEY_TRIPLEX, cv2.FONT_HERSHEY_SCRIPT_COMPLEX


def hatched(width: int, height: int, rng: Random) -> np.ndarray:
    """Patches of parallel and crossing pen strokes, some outlined."""
    card, pen = blank(width, height, paper(rng)), dark_ink(rng)
    if card.mean() < 90:
        pen = one_of(rng, palette(rng, 2, "pale"))
    gap, cells = width * rng.uniform(0.012, 0.05), rng.random() < 0.5
    parts = facets(width, height, int(rng.integers(4, 18)), rng) if cells else [
        blob(rng.uniform(0.1, 0.9, 2) * (width, height), width * rng.uniform(0.1, 0.4), rng)
        for _ in range(int(rng.integers(2, 7)))]
    for part in parts:
        for _ in range(int(rng.integers(0, 3))):
            hatch(card, part, rng.uniform(0, np.pi), gap * rng.uniform(0.8, 2), pen)
        if rng.random() < 0.6:
            cv2.polylines(card, [part], True, pen, int(rng.integers(1, 3)), cv2.LINE_AA)
    return wobbled(card, rng, width * rng.uniform(0, 0.012), 12)


def stippled(width: int, height: int, rng: Random) -> np.ndarray:
    """A figure or a sky made of dots, denser where it is darker."""
    card, pen = blank(width, height, paper(rng)), dark_ink(rng)
    if card.mean() < 90:
        pen = one_of(rng, palette(rng, 2, "pale"))
    tone = np.zeros((height, width), np.uint8)
    if rng.random() < 0.5:
        for _ in range(int(rng.integers(1, 4))):
            at = rng.uniform(0.2, 0.8, 2) * (width, height)
            draw(tone, any_motif(rng), at, width * rng.uniform(0.15, 0.5), [[255], [120], [60]])
        tone = cv2.GaussianBlur(tone, (0, 0), width * rng.uniform(0.005, 0.05))
        dense = tone.astype(np.float32) / 255
    else:
        dense = np.clip(field(width, height, rng.uniform(1.5, 5), rng, 2) + 0.1, 0, 1)
    count = int(width * height * rng.uniform(0.02, 0.09)) + 1
    x, y = rng.integers(0, width, count), rng.integers(0, height, count)
    kept = dense[y, x] > rng.uniform(0.02, 1, count)
    x, y = x[kept], y[kept]
    colours = np.array([pen, pen, *palette(rng, 2)] if rng.random() < 0.3 else [pen])
    chosen = colours[rng.integers(len(colours), size=len(x))]
    size = int(rng.integers(1, 4)) if width > 120 else 1
    for down in range(size):
        for right in range(size):
            card[np.minimum(y + down, height - 1), np.minimum(x + right, width - 1)] = chosen
    return card


def patterned(width: int, height: int, rng: Random) -> np.ndarray:
    """Cells bounded by a pen, each filled with its own small pattern."""
    card, pen = blank(width, height, paper(rng)), dark_ink(rng)
    if card.mean() < 90:
        pen = one_of(rng, palette(rng, 2, "pale"))
    colours = palette(rng, 4) if rng.random() < 0.4 else [pen]
    for cell in facets(width, height, int(rng.integers(4, 26)), rng):
        _filled(card, cell, pen, one_of(rng, colours), rng)
        cv2.polylines(card, [cell], True, pen, max(int(width * rng.uniform(0.004, 0.014)), 1),
                      cv2.LINE_AA)
    return wobbled(card, rng, width * rng.uniform(0.01, 0.06), rng.uniform(3, 7))


def _filled(card: np.ndarray, cell: np.ndarray, pen: tuple, colour: tuple, rng: Random) -> None:
    """One pattern in one cell."""
    width, roll = card.shape[1], int(rng.integers(7))
    middle, size = cell.mean(axis=0), np.ptp(cell, axis=0).max()
    gap = width * rng.uniform(0.025, 0.06)
    if roll == 0:
        cv2.fillPoly(card, [cell], colour, cv2.LINE_AA)
    elif roll in (1, 2):
        turn = rng.uniform(0, np.pi)
        hatch(card, cell, turn, gap, pen)
        if roll == 2:
            hatch(card, cell, turn + np.pi / 2, gap, pen)
    elif roll == 3:
        for share in np.arange(0.15, 1, max(2.5 * gap / max(size, 1), 0.12)):
            inner = ((cell - middle) * share + middle).astype(np.int32)
            cv2.polylines(card, [inner], True, pen, 1, cv2.LINE_AA)
    elif roll == 4:
        for _ in range(int(min(size / gap * 2, 25))):
            at = middle + rng.uniform(-0.33, 0.33, 2) * np.ptp(cell, axis=0)
            cv2.circle(card, at.astype(int).tolist(), max(int(gap / 4), 1), colour,
                       int(rng.choice([-1, 1])), cv2.LINE_AA)
    elif roll == 5:
        draw(card, any_motif(rng), middle, size * 0.3, [], rng.uniform(0, 6), pen)


def spirograph(width: int, height: int, rng: Random) -> np.ndarray:
    """Curves of a wheel within a ring, one over another."""
    dark = rng.random() < 0.3
    card = blank(width, height, rng.uniform(5, 50, 3) if dark else white(rng))
    turn = np.linspace(0, 2 * np.pi * 12, 700)
    colours = palette(rng, 3, "pale" if dark else one_of(rng, ["bright", "dark", "whole"]))
    for _ in range(int(rng.integers(1, 5))):
        wheel, hole = rng.integers(2, 12) / 12 + 1 / 24, rng.uniform(0.2, 1)
        x = (1 - wheel) * np.cos(turn) + hole * wheel * np.cos((1 - wheel) / wheel * turn)
        y = (1 - wheel) * np.sin(turn) - hole * wheel * np.sin((1 - wheel) / wheel * turn)
        size = width * rng.uniform(0.15, 0.5)
        at = np.array([width, height]) * (0.5 if rng.random() < 0.6 else rng.uniform(0.2, 0.8, 2))
        points = ((np.column_stack([x, y]) * size + at) * 8).astype(np.int32)
        cv2.polylines(card, [points], False, one_of(rng, colours), 1, cv2.LINE_AA, 3)
    return card


def botanical(width: int, height: int, rng: Random) -> np.ndarray:
    """Stems with leaves from the lower edge, or strewn."""
    card = blank(width, height, white(rng) if rng.random() < 0.7 else palette(rng, 1)[0])
    colours, outline = palette(rng, 4), dark_ink(rng) if rng.random() < 0.5 else None
    strewn, only_lines = rng.random() < 0.3, outline is not None and rng.random() < 0.5
    for _ in range(int(rng.integers(1, 9))):
        size = height * rng.uniform(0.12, 0.45)
        at = rng.uniform(0.1, 0.9, 2) * (width, height)
        if not strewn:
            at[1] = height * rng.uniform(0.9, 1.05) - size
        turn = rng.uniform(0, 6.3) if strewn else rng.normal() * 0.3
        parts = sprig(rng) if rng.random() < 0.75 else any_motif(rng)
        two = [one_of(rng, colours), one_of(rng, colours)]
        draw(card, parts, at, size, [] if only_lines else two, turn, outline)
    return card


def silhouettes(width: int, height: int, rng: Random) -> np.ndarray:
    """Birds, fish, cats or people in one colour before a plain or graded ground."""
    top, low, tone = palette(rng, 3)
    share = np.linspace(0, 1, height, dtype=np.float32)[:, None, None]
    ground = top + (low - top) * share if rng.random() < 0.6 else top + 0 * share
    card = np.repeat(ground, width, axis=1).astype(np.uint8)
    if rng.random() < 0.6:
        tone = np.array(dark_ink(rng))
    kind = (bird, fish, cat, face)[int(rng.integers(4))]
    if rng.random() < 0.4:
        sun = (int(width * rng.uniform(0.2, 0.8)), int(height * rng.uniform(0.15, 0.4)))
        size = int(width * rng.uniform(0.08, 0.3))
        cv2.circle(card, sun, size, one_of(rng, palette(rng, 2)), -1, cv2.LINE_AA)
    count = int(rng.choice([1, 1, 2, 5, 12]))
    for _ in range(count):
        size = width * rng.uniform(0.5, 1) * 0.45 / np.sqrt(count)
        at = rng.uniform(0.2, 0.8, 2) * (width, height)
        parts = [part * (rng.choice([-1, 1]), 1) for part in kind(rng)]
        draw(card, parts, at, size, [tone], rng.normal() * 0.15)
    return card


def portrait(width: int, height: int, rng: Random) -> np.ndarray:
    """A face that fills the card, or several small ones."""
    card = blank(width, height, paper(rng) if rng.random() < 0.5 else palette(rng, 1)[0])
    many, colours = rng.random() < 0.3, palette(rng, 5)
    skin = np.array([[235, 195, 165], [200, 150, 115], [120, 80, 55], [240, 235, 225]])
    for _ in range(int(rng.integers(3, 9)) if many else 1):
        size = width * (rng.uniform(0.1, 0.22) if many else rng.uniform(0.3, 0.55))
        at = rng.uniform(0.15, 0.85, 2) if many else rng.uniform(0.4, 0.6, 2)
        tone = skin[int(rng.integers(4))] if rng.random() < 0.7 else colours[4]
        coloured = [colours[int(rng.integers(3))], tone, colours[3], colours[3], tone * 0.85,
                    [170, 50, 60]]
        pen = dark_ink(rng) if rng.random() < 0.7 else None
        drawn = coloured if rng.random() < 0.7 or pen is None else []
        draw(card, face(rng), at * (width, height), size, drawn, rng.normal() * 0.15, pen,
             max(int(width * rng.uniform(0.004, 0.015)), 1))
    return wobbled(card, rng, width * rng.uniform(0, 0.03), 6)


def street(width: int, height: int, rng: Random) -> np.ndarray:
    """Houses side by side, in a row or rows one above the other."""
    card = blank(width, height, paper(rng) if rng.random() < 0.6 else palette(rng, 1)[0])
    colours, pen = palette(rng, 6), dark_ink(rng) if rng.random() < 0.6 else None
    rows, bare = int(rng.integers(1, 5)), pen is not None and rng.random() < 0.3
    for row in range(rows):
        x, foot = width * rng.uniform(-0.05, 0.1), height * (row + 0.95) / rows
        while x < width * 0.95:
            size = min(height / rows, width) * rng.uniform(0.2, 0.42)
            some = [one_of(rng, colours) for _ in range(4)]
            draw(card, house(rng), (x + size * 0.7, foot - size), size, [] if bare else some,
                 rng.normal() * 0.03, pen)
            x += size * rng.uniform(1.1, 1.7)
    return wobbled(card, rng, width * rng.uniform(0, 0.015), 9)


def written(card: np.ndarray, at: tuple, size: float, rng: Random, pen: tuple = ()) -> None:
    """A made-up word of putText's `size` about a place given in shares of the card, in place."""
    height, width = card.shape[:2]
    text = "".join(rng.choice(list("aabcdeefghiklmnooprstuvwy"), int(rng.integers(2, 9))))
    text = text.upper() if rng.random() < 0.3 else text
    font, thick = one_of(rng, list(FACES)), max(int(size * rng.uniform(1, 4)), 1)
    long, tall = cv2.getTextSize(text, font, size, thick)[0]
    size = size * min(1, width * 0.92 / max(long, 1))
    start = (int(at[0] * width - min(long, width * 0.92) / 2), int(at[1] * height + tall / 2))
    cv2.putText(card, text, start, font, size, pen or dark_ink(rng), thick, cv2.LINE_AA)


def lettering(width: int, height: int, rng: Random) -> np.ndarray:
    """One large letter or word, or rows of them in several sizes."""
    tones = palette(rng, 4)
    light = rng.random() < 0.6
    card = blank(width, height, white(rng) if light else tones[0])
    pens = [dark_ink(rng) if light else (250, 248, 240), one_of(rng, tones[1:])]
    rows = int(rng.integers(1, 8))
    for row in range(rows):
        size = width * rng.uniform(0.5, 1.3) * 0.028 / (rows + 0.6)
        written(card, (0.5, (row + 0.5) / rows), size, rng, one_of(rng, pens))
    if rng.random() < 0.4:
        flourish = path(np.array([width * 0.1, height * 0.9]), -0.1, width * 0.8, 0.15, rng)
        cv2.polylines(card, [flourish.astype(np.int32)], False, pens[1], 2, cv2.LINE_AA)
    return wobbled(card, rng, width * rng.uniform(0.0, 0.03), 5)


def contours(width: int, height: int, rng: Random) -> np.ndarray:
    """Lines that follow one another, like hair, waves or hills on a map."""
    card, pen = blank(width, height, paper(rng)), dark_ink(rng)
    if rng.random() < 0.4:
        pen = one_of(rng, palette(rng, 3))
    along = np.arange(-5, width + 8, 5)
    gap, wave = height * rng.uniform(0.02, 0.08), cloud(len(along), 9, 5, rng)[..., 0]
    for row, y in enumerate(np.arange(-height * 0.1, height * 1.1, gap)):
        share = (row * gap / height * 6) % 8
        low = int(share)
        line = wave[low] * (1 - share + low) + wave[low + 1] * (share - low)
        points = np.column_stack([along, y + line * height * rng.uniform(0.07, 0.09)])
        thick = max(int(width * 0.006), 1)
        cv2.polylines(card, [points.astype(np.int32)], False, pen, thick, cv2.LINE_AA)
    return card


PENNED = (hatched, stippled, patterned, spirograph, botanical, silhouettes, portrait, street,
          lettering, contours)
"""What pens draw."""
