"""Art of printing blocks, stencils and stamps, and of patterns that run over the edge."""

import cv2
import numpy as np

from finder_training.art.colours import (
    blank,
    blend,
    dark_ink,
    done,
    glaze,
    one_of,
    palette,
    paper,
    ramp,
    through,
    white,
)
from finder_training.art.motifs import MOTIFS, any_motif, draw
from finder_training.art.strokes import apart, field, path, wobbled
from finder_training.noise import Random, cloud, speckle


def linocut(width: int, height: int, rng: Random) -> np.ndarray:
    """Ink and paper alone: gouged lines round a figure, the block's edge often uneven."""
    light, ink = white(rng), dark_ink(rng)
    if rng.random() < 0.4:
        ink, light = palette(rng, 2, one_of(rng, ["bright", "dark", "whole"]))[0], paper(rng)
    ground = field(width, height, rng.uniform(1, 4), rng, 2) * rng.uniform(3, 12)
    gouged = np.clip((np.sin(ground * 2) - rng.uniform(-0.2, 0.75)) * 4, 0, 1)
    figure = np.zeros((height, width), np.uint8)
    size, at = width * rng.uniform(0.25, 0.5), rng.uniform(0.35, 0.65, 2) * (width, height)
    tones = [[255], [255], [120]] if rng.random() < 0.5 else [[120], [120], [255]]
    draw(figure, any_motif(rng), at, size, tones, rng.normal() * 0.2, (0,), 2)
    gouged[figure > 200], gouged[(figure > 60) & (figure < 190)] = 0, 1
    if rng.random() < 0.6:
        edge = width * rng.uniform(0.03, 0.14)
        inner = apart(width, height, (edge, edge * rng.uniform(0.6, 1.6), width - edge,
                                      height - edge * rng.uniform(0.6, 2)))
        inner += cloud(width, height, 14, rng)[..., 0] * rng.uniform(0.3, 3)
        gouged = np.maximum(gouged, np.clip(0.5 - inner, 0, 1))
    worn = 0.9 + speckle(width, height, rng)[..., 0] * rng.uniform(0, 0.1)
    card = np.full((height, width, 3), light, np.float32)
    blend(card, ink, np.clip((1 - gouged) * worn, 0, 1))
    return done(card)


def stencilled(width: int, height: int, rng: Random) -> np.ndarray:
    """Layers pulled from a gel plate: clear colours through stencils, patchy from the roller."""
    card = np.full((height, width, 3), white(rng), np.float32)
    if rng.random() < 0.5:
        edges = rng.uniform(-0.05, 0.12, 4) * width
        box = (edges[0], edges[1], width - edges[2], height - edges[3])
    else:
        box = (-9, -9, width + 9, height + 9)
    rough = cloud(width, height, 9, rng)[..., 0]
    for colour in palette(rng, int(rng.integers(2, 6))):
        mask = _stencil(width, height, rng)
        plate = np.clip(apart(width, height, box) + rough * 2, 0, 1)
        patchy = 0.75 + np.roll(rough, int(rng.integers(height)), 0) * rng.uniform(0, 0.4)
        paint = glaze if rng.random() < 0.6 else blend
        paint(card, colour, np.clip(mask * plate * patchy, 0, 1))
    return done(card)


def _stencil(width: int, height: int, rng: Random) -> np.ndarray:
    """float32 [height, width]: 1 where paint comes through."""
    mask, roll = np.zeros((height, width), np.uint8), int(rng.integers(6))
    step = max(int(width * rng.uniform(0.06, 0.25)), 4)
    if roll == 0:
        mask[:] = 255
    elif roll == 1:
        for y in range(0, height + step, step):
            for x in range(0, width + step, step):
                cv2.circle(mask, (x + (y // step % 2) * step // 2, y), max(step // 3, 1), 255, -1)
    elif roll == 2:
        return (field(width, height, rng.uniform(2, 8), rng, 2) > rng.uniform(-0.3, 0.3)).astype(
            np.float32)
    elif roll == 3:
        for _ in range(int(rng.integers(3, 12))):
            at = rng.uniform(0, 1, 2) * (width, height)
            draw(mask, any_motif(rng), at, step * rng.uniform(0.7, 1.6), [[255]], rng.uniform(0, 6))
    elif roll == 4:
        stripes = (np.arange(width) // max(step // 3, 1) % 2 * 255).astype(np.uint8)
        mask[:] = stripes
    else:
        for _ in range(int(rng.integers(3, 14))):
            line = path(rng.uniform(0, 1, 2) * (width, height), rng.uniform(0, 6), width, 0.2, rng)
            cv2.polylines(mask, [line.astype(np.int32)], False, 255, max(step // 3, 1))
    return mask.astype(np.float32) / (255 if rng.random() < 0.8 else 400)


def stamped(width: int, height: int, rng: Random) -> np.ndarray:
    """One rubber stamp again and again, in rows or strewn, inked unevenly."""
    card = np.full((height, width, 3), paper(rng), np.float32)
    motif, size = MOTIFS[int(rng.integers(len(MOTIFS)))](rng), width * rng.uniform(0.06, 0.22)
    mask, step = np.zeros((height, width), np.uint8), size * rng.uniform(1.9, 3)
    strewn, turned = rng.random() < 0.3, rng.random() < 0.4
    tones = [[255], [160], [255], [90]] if rng.random() < 0.7 else []
    for row, y in enumerate(np.arange(step / 2, height, step)):
        for x in np.arange(step * (0.5 if row % 2 else 0.2), width, step):
            at = rng.uniform(0, 1, 2) * (width, height) if strewn else (x, y)
            turn = rng.uniform(0, 6) if turned else rng.normal() * 0.08
            ink = [[t[0] * rng.uniform(0.5, 1)] for t in tones]
            draw(mask, motif, at, size, ink, turn, None if ink else (220,), 1 + int(size > 30))
    worn = np.clip(1 + speckle(width, height, rng)[..., 0] * rng.uniform(0, 0.35), 0, 1)
    tone = palette(rng, 1)[0] if rng.random() < 0.6 else dark_ink(rng)
    blend(card, tone, mask.astype(np.float32) / 255 * worn)
    return done(card)


def camouflage(width: int, height: int, rng: Random) -> np.ndarray:
    """Patches in steps of few colours, soft or square, to the edge."""
    cells, colours = rng.uniform(2, 7), palette(rng, int(rng.integers(2, 6)))
    if rng.random() < 0.3:
        coarse = max(int(width * rng.uniform(0.02, 0.06)), 2)
        small = field(width // coarse + 2, height // coarse + 2, cells, rng, 3)
        patches = cv2.resize(small, None, fx=coarse, fy=coarse, interpolation=cv2.INTER_NEAREST)
        patches = patches[:height, :width]
    else:
        patches = field(width, height, cells, rng, 3)
    return through(ramp(colours, rng, hard=True), patches, rng.uniform(0.4, 1.2))


def striped(width: int, height: int, rng: Random) -> np.ndarray:
    """Stripes, checks, chevrons or rays to the edge: along, across or aslant."""
    turn = float(rng.choice([0, 0, np.pi / 2, np.pi / 2, np.pi / 4, rng.uniform(0, np.pi)]))
    x = np.arange(width, dtype=np.float32) - width * rng.uniform(0.2, 0.8)
    y = (np.arange(height, dtype=np.float32) - height * rng.uniform(0.2, 0.8))[:, None]
    along, across = x * np.cos(turn) + y * np.sin(turn), y * np.cos(turn) - x * np.sin(turn)
    period, roll = width * rng.uniform(0.06, 0.7), rng.random()
    if roll < 0.2:
        along = along + np.abs((across / period) % 2 - 1) * period * rng.uniform(0.3, 1)
    elif roll < 0.35:
        along = np.arctan2(y, x) * period * int(rng.integers(3, 15)) / (2 * np.pi)
    elif roll < 0.45:
        along = cv2.magnitude(*np.broadcast_arrays(x, y)).reshape(height, width)
    colours = palette(rng, int(rng.integers(2, 6)))
    if rng.random() < 0.4:
        colours[0] = white(rng)
    bands = np.broadcast_to(along / period, (height, width))
    card = through(ramp(colours, rng, hard=True), bands, 1)
    if rng.random() < 0.3 and roll > 0.45:
        other = ((across / period) % 1 < 0.5)[..., None]
        card = np.where(other, through(ramp(colours[::-1], rng, hard=True), bands, 1), card)
    return wobbled(card, rng, width * rng.uniform(0, 0.02), 8) if rng.random() < 0.5 else card


def chequered(width: int, height: int, rng: Random) -> np.ndarray:
    """A chequered ground, straight or on its point, alone or with a figure on it."""
    step = width / rng.uniform(2, 14)
    x, y = np.arange(width) / step, (np.arange(height) / step)[:, None] * rng.choice([1, 1, 0.71])
    if rng.random() < 0.25:
        x, y = (x + y) * 0.7, (y - x) * 0.7
    odd = (np.floor(x).astype(int) + np.floor(y).astype(int)) % 2
    one, two = palette(rng, 2)
    two = white(rng) if rng.random() < 0.4 else two
    card = np.where(odd[..., None] == 0, one, two).astype(np.uint8)
    if rng.random() < 0.5:
        at = rng.uniform(0.3, 0.7, 2) * (width, height)
        draw(card, any_motif(rng), at, width * rng.uniform(0.15, 0.4), palette(rng, 4),
             rng.normal() * 0.3, dark_ink(rng) if rng.random() < 0.5 else None)
    return card


def halftone(width: int, height: int, rng: Random) -> np.ndarray:
    """Dots in a grid, larger where it is darker."""
    step = max(width * rng.uniform(0.02, 0.08), 3)
    turn = rng.choice([0, np.pi / 4, 0.3])
    x, y = np.arange(width, dtype=np.float32), np.arange(height, dtype=np.float32)[:, None]
    along, across = x * np.cos(turn) + y * np.sin(turn), y * np.cos(turn) - x * np.sin(turn)
    dots = np.cos(along * 2 * np.pi / step) + np.cos(across * 2 * np.pi / step)
    if rng.random() < 0.5:
        tone = field(width, height, rng.uniform(1.5, 4), rng, 2)
    else:
        tone = (x / width * rng.normal() + y / height * rng.normal()) * 1.5
    card = np.full((height, width, 3), paper(rng), np.float32)
    blend(card, palette(rng, 1)[0], np.clip((dots * 0.5 + tone) * step * 0.4, 0, 1))
    return done(card)


def cyanotype(width: int, height: int, rng: Random) -> np.ndarray:
    """Plants and things left white on a brushed ground of one deep colour."""
    card = np.full((height, width, 3), white(rng), np.float32)
    low = rng.uniform(0.0, 0.12, 4) * width
    inner = apart(width, height, (low[0], low[1], width - low[2], height - low[3]))
    brushed = cloud(max(width // 8, 2), height, 40, rng)[..., 0]
    inner += cv2.resize(brushed, (width, height)) * rng.uniform(1, 6)
    mask = np.zeros((height, width), np.uint8)
    for _ in range(int(rng.integers(1, 6))):
        at, size = rng.uniform(0.2, 0.8, 2) * (width, height), width * rng.uniform(0.15, 0.5)
        draw(mask, any_motif(rng), at, size, [[255], [200], [235]], rng.uniform(-0.8, 0.8))
    left = cv2.GaussianBlur(mask, (0, 0), rng.uniform(0.5, 2)).astype(np.float32) / 255
    ink = np.array([20, 50, 110]) if rng.random() < 0.6 else palette(rng, 1, "dark")[0]
    glaze(card, ink, np.clip(inner / 3, 0, 1) * (1 - left * rng.uniform(0.6, 1)))
    return done(card)


def graded(width: int, height: int, rng: Random) -> np.ndarray:
    """Nothing but colour that turns slowly into another, to the edge."""
    turn = rng.uniform(0, 2 * np.pi)
    x = np.linspace(-0.5, 0.5, width, dtype=np.float32)
    y = np.linspace(-0.5, 0.5, height, dtype=np.float32)[:, None]
    share = x * np.cos(turn) + y * np.sin(turn)
    if rng.random() < 0.3:
        share = cv2.magnitude(*np.broadcast_arrays(x + 0 * y, y + 0 * x))
    share = share + cloud(width, height, 3, rng)[..., 0] * rng.uniform(0, 0.15)
    card = through(ramp(palette(rng, 3), rng), share, rng.uniform(0.2, 1.2))
    if rng.random() < 0.4:
        card = card.copy()
        at = rng.uniform(0.25, 0.75, 2) * (width, height)
        draw(card, any_motif(rng), at, width * rng.uniform(0.1, 0.35), [dark_ink(rng)])
    return card


def blank_or_nearly(width: int, height: int, rng: Random) -> np.ndarray:
    """A card of one colour, or a bare one of which only the grain is seen."""
    card = blank(width, height, paper(rng) if rng.random() < 0.5 else palette(rng, 1)[0])
    return done(card + speckle(width, height, rng) * rng.uniform(0, 8))


PRINTED = (linocut, linocut, stencilled, stamped, camouflage, striped, striped, chequered, halftone,
           cyanotype, graded, blank_or_nearly)
"""What is printed or runs over the edge as if it were."""
