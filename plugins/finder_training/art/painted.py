"""Art of paint that runs, dries and is laid on thick: watercolour, gouache, inks, acrylics."""

import cv2
import numpy as np

from finder_training.art.colours import (
    MOODS,
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
from finder_training.art.strokes import apart, blob, drops, facets, field, path, wobbled
from finder_training.noise import Random, cloud, speckle


def watercolour(width: int, height: int, rng: Random) -> np.ndarray:
    """Clear pools over one another, with blooms within and dark edges where they dried."""
    # Pools are soft: half as fine is fine enough, and four times as fast.
    wide, tall = max(width // 2, 2), max(height // 2, 2)
    card = np.full((tall, wide, 3), white(rng), np.float32)
    rough = field(wide + 60, tall + 60, rng.uniform(4, 12), rng, 4)
    x, y = np.arange(wide, dtype=np.float32), np.arange(tall, dtype=np.float32)[:, None]
    colours = palette(rng, 4, one_of(rng, ["whole", "bright", "muted", "pale", "earth"]))
    largest, edge = rng.uniform(0.15, 0.6), rng.uniform(0.1, 0.6)
    for _ in range(int(rng.integers(2, 9))):
        size = wide * largest * rng.uniform(0.3, 1)
        at = rng.uniform(0, 1, 2) * (wide, tall)
        down, right = rng.integers(0, 61, 2)
        noise = rough[down : down + tall, right : right + wide]
        far = cv2.magnitude(*np.broadcast_arrays((x - at[0]) / size, (y - at[1]) / size))
        inner = 1 - far + noise * rng.uniform(0.1, 0.5)
        wash = np.clip(inner * rng.uniform(6, 40), 0, 1) * (0.6 - 0.3 * np.clip(noise, -1, 1))
        wash += np.clip(1 - np.abs(inner - 0.04) * 25, 0, 1) * edge
        glaze(card, one_of(rng, colours), np.clip(wash, 0, 1))
    card = cv2.resize(card, (width, height), interpolation=cv2.INTER_LINEAR)
    made = done(card + speckle(width, height, rng) * rng.uniform(0, 5))
    if rng.random() < 0.3:
        drops(made, int(rng.integers(5, 40)), width * 0.03, colours, rng)
    return made


def wet_sky(width: int, height: int, rng: Random) -> np.ndarray:
    """A sky that runs from colour to colour with soft clouds, over land or water or nothing."""
    top, middle, low = palette(rng, 3, one_of(rng, ["pale", "whole", "muted", "bright", "dark"]))
    stops = np.array([top, middle, low], np.float32)[:, None]
    sky = cv2.resize(stops, (1, height), interpolation=cv2.INTER_LINEAR)
    card = np.repeat(sky, width, axis=1)
    wide = max(int(width * rng.uniform(0.25, 0.6)), 2)
    soft = field(wide, height, rng.uniform(4, 9), rng, 4)
    soft = cv2.resize(soft, (width, height), interpolation=cv2.INTER_LINEAR)
    cover = np.clip((soft - rng.uniform(-0.3, 0.4)) * rng.uniform(0.7, 4), 0, 1)
    blend(card, white(rng) if rng.random() < 0.7 else palette(rng, 1)[0],
          cover * np.float32(rng.uniform(0.4, 1)))
    x = np.arange(width)
    level, colours = height * rng.uniform(0.5, 0.95), palette(rng, 4)
    for colour in colours[: int(rng.integers(0, 4))]:
        line = level + cloud(width, 1, rng.uniform(2, 14), rng)[0, :, 0] * height * 0.05
        points = np.vstack([np.column_stack([x, line]), [[width, height], [0, height]]])
        cv2.fillPoly(card, [points.astype(np.int32)], tuple(map(float, colour)), cv2.LINE_AA)
        level += height * rng.uniform(0.03, 0.2)
    return done(card)


def gouache(width: int, height: int, rng: Random) -> np.ndarray:
    """Flat opaque patches with uneven sides, paper or a dark ground between them."""
    ground = paper(rng) if rng.random() < 0.6 else palette(rng, 1)[0]
    card, colours = blank(width, height, ground), palette(rng, 5)
    if rng.random() < 0.5:
        gap = rng.uniform(0.8, 1.0)
        for cell in facets(width, height, int(rng.integers(4, 40)), rng):
            middle = cell.mean(axis=0)
            inner = ((cell - middle) * gap + middle).astype(np.int32)
            cv2.fillPoly(card, [inner], one_of(rng, colours), cv2.LINE_AA)
    else:
        for _ in range(int(rng.integers(3, 14))):
            at = rng.uniform(0, 1, 2) * (width, height)
            outline = blob(at, width * rng.uniform(0.05, 0.45), rng, rng.uniform(0.1, 0.5))
            cv2.fillPoly(card, [outline], one_of(rng, colours), cv2.LINE_AA)
    card = wobbled(card, rng, width * rng.uniform(0.004, 0.03), rng.uniform(5, 20))
    return done(card + cloud(width, height, 40, rng) * rng.uniform(0, 12))


def alcohol_ink(width: int, height: int, rng: Random) -> np.ndarray:
    """Inks that pushed each other about: bands round soft islands, here and there a bright rim."""
    one = field(width, height, rng.uniform(1.5, 4), rng, 4)
    wave = one + 0.3 * np.sin(field(width, height, 3, rng, 2) * rng.uniform(3, 9))
    colours = palette(rng, 4)
    if rng.random() < 0.6:
        colours[1] = white(rng)
    card = through(ramp(colours, rng), wave, rng.uniform(0.3, 1.6)).astype(np.float32)
    if rng.random() < 0.6:
        rim = np.clip(1 - np.abs((wave * rng.uniform(1, 4)) % 1 - 0.5) * 18, 0, 1)
        rim_colour = [[205, 165, 75], [250, 250, 250], [20, 25, 40]][int(rng.integers(3))]
        blend(card, rim_colour, rim * np.float32(rng.uniform(0.3, 0.9)))
    if rng.random() < 0.5:
        bare = np.clip((field(width, height, 3, rng, 3) - rng.uniform(0, 0.5)) * 9, 0, 1)
        blend(card, white(rng), bare)
    return done(card)


def impasto(width: int, height: int, rng: Random) -> np.ndarray:
    """Thick short strokes along a common flow, lit from one side."""
    colours = palette(rng, 6)
    card = blank(width, height, colours[0])
    flow = cloud(24, 24, rng.uniform(1, 5), rng)[..., 0] * rng.uniform(0.5, 4) + rng.uniform(0, 6)
    short, thick = width * rng.uniform(0.05, 0.25), max(int(width * rng.uniform(0.02, 0.07)), 2)
    count = int(min(4 * width * height / (short * thick) * rng.uniform(0.4, 0.8), 260))
    far = rng.uniform(0, 1, (count, 2))
    flows = flow[(far[:, 1] * 23).astype(int), (far[:, 0] * 23).astype(int)]
    bands = rng.integers(1, 6, 12)
    for at, turn, light in zip(far, flows, rng.uniform(0.75, 1.2, count), strict=True):
        colour = colours[bands[int(at[1] * 11.9)]] if rng.random() < 0.7 else one_of(rng, colours)
        one = at * (width, height)
        two = one + np.array([np.cos(turn), np.sin(turn)]) * short
        cv2.line(card, one.astype(int).tolist(), two.astype(int).tolist(),
                 [min(float(v) * light, 255) for v in colour], thick)
    bristle = cv2.blur(np.ascontiguousarray(speckle(width, height, rng)), (7, 2))
    lit = card.astype(np.float32) + bristle[..., None] * rng.uniform(5, 30)
    grey = cv2.cvtColor(card, cv2.COLOR_RGB2GRAY).astype(np.float32)
    relief = cv2.Sobel(grey, cv2.CV_32F, 1, 1, ksize=3)
    return done(lit + np.clip(relief, -60, 60)[..., None] * rng.uniform(0.1, 0.5))


def splatter(width: int, height: int, rng: Random) -> np.ndarray:
    """Thrown and dripped paint on paper or on a coloured or dark ground."""
    card = blank(width, height, paper(rng) if rng.random() < 0.7 else palette(rng, 1)[0])
    colours = palette(rng, 4)
    for _ in range(int(rng.integers(1, 5))):
        about = rng.uniform(0.1, 0.9, 2) * (width, height)
        some = [one_of(rng, colours)]
        drops(card, int(rng.integers(10, 70)), width * rng.uniform(0.02, 0.12), some, rng, about,
              rng.uniform(0.1, 0.5))
        for _ in range(int(rng.integers(0, 6))):
            line = path(about, rng.uniform(0, 6.3), width * rng.uniform(0.2, 1.2), 0.25, rng)
            thick = max(int(width * rng.uniform(0.003, 0.02)), 1)
            cv2.polylines(card, [line.astype(np.int32)], False, some[0], thick, cv2.LINE_AA)
    return card


def pour(width: int, height: int, rng: Random) -> np.ndarray:
    """Poured acrylics: cells within streams, rims of another colour."""
    colours = palette(rng, 5)
    stream = field(width, height, rng.uniform(1.2, 3.5), rng, 3)
    card = through(ramp(colours, rng), stream, rng.uniform(0.4, 2.5))
    largest = width * rng.uniform(0.04, 0.14)
    for _ in range(int(rng.integers(20, 110))):
        at = (rng.uniform(0, 1, 2) * (width, height)).astype(int).tolist()
        size, rim = largest * rng.uniform(0.1, 1) ** 2 + 1, one_of(rng, colours)
        for share, colour in ((1, rim), (0.8, one_of(rng, colours)), (0.35, rim)):
            cv2.circle(card, at, int(size * share), colour, -1, cv2.LINE_AA)
    return wobbled(card, rng, width * rng.uniform(0.01, 0.08), rng.uniform(3, 9))


def blots(width: int, height: int, rng: Random) -> np.ndarray:
    """Ink blots, folded over so that both halves match, or blown about."""
    card = np.full((height, width, 3), paper(rng), np.float32)
    rough = field(width, height, rng.uniform(2, 6), rng, 4)
    if rng.random() < 0.6:
        half = width // 2
        rough[:, width - half :] = rough[:, :half][:, ::-1]
    rough += np.clip(apart(width, height, (0, 0, width, height)) / width * 4, 0, 1) - 0.75
    ink = np.clip((rough - rng.uniform(-0.2, 0.4)) * rng.uniform(10, 40), 0, 1)
    shade = 0.75 + 0.25 * np.clip(rough, 0, 1)
    glaze(card, dark_ink(rng) if rng.random() < 0.6 else palette(rng, 1)[0], ink * shade)
    if rng.random() < 0.4:
        more = np.clip((rough[::-1] - 0.3) * 30, 0, 1)
        glaze(card, palette(rng, 1)[0], more)
    return done(card)


def dry_brush(width: int, height: int, rng: Random) -> np.ndarray:
    """Broad strokes that run dry, at one slant or crossing."""
    card = np.full((height, width, 3), paper(rng), np.float32)
    colours, slant = palette(rng, 4), rng.uniform(0, 180)
    wide, tall = int(width * 1.1), max(int(height * rng.uniform(0.08, 0.4)), 4)
    for _ in range(int(rng.integers(1, 8))):
        hairs = speckle(1, tall, rng)[..., 0] * 0.55
        grain = cv2.blur(np.ascontiguousarray(speckle(wide, tall, rng)), (15, 1))
        ends = np.minimum(np.arange(wide), np.arange(wide)[::-1] * 2) / wide * rng.uniform(3, 12)
        mask = np.clip((hairs + grain * 2 + np.clip(ends, 0, 1) * rng.uniform(0.8, 2) - 0.5) * 3,
                       0, 1).astype(np.float32)
        slant += rng.choice([0, 90, 3, -4]) if rng.random() < 0.6 else rng.normal() * 15
        onto = cv2.getRotationMatrix2D((wide / 2, tall / 2), slant, 1.0)
        onto[:, 2] += rng.uniform(0.2, 0.8, 2) * (width, height) - (wide / 2, tall / 2)
        blend(card, one_of(rng, colours), cv2.warpAffine(mask, onto, (width, height)))
    return done(card)


def rough_wash(width: int, height: int, rng: Random) -> np.ndarray:
    """A wash that fills most of the card and ends in a rough rectangle of its own."""
    card = np.full((height, width, 3), white(rng), np.float32)
    low, high = sorted(rng.uniform(0.03, 0.22, 2))
    left, top, right, bottom = rng.uniform(low, high, 4) * width
    inner = apart(width, height, (left, top, width - right, height - bottom))
    inner += field(width, height, rng.uniform(5, 25), rng, 3) * width * rng.uniform(0.002, 0.03)
    wash = np.clip(inner / rng.uniform(0.7, 5) + 0.5, 0, 1)
    edge = np.clip(1 - np.abs(inner - 2) / rng.uniform(1.5, 4), 0, 1) * rng.uniform(0, 0.6)
    mood = list(MOODS)[int(rng.integers(len(MOODS)))]
    stream = field(width, height, rng.uniform(1, 5), rng, 4)
    if rng.random() < 0.5:
        stream = stream * 0.3 + np.linspace(0, 1, height, dtype=np.float32)[:, None]
    colours = through(ramp(palette(rng, 3, mood), rng), stream, rng.uniform(0.2, 0.7))
    strength = wash * np.float32(rng.uniform(0.6, 1)) + edge
    card *= 1 - np.clip(strength, 0, 1)[..., None] * (1 - colours / np.float32(255))
    return done(card)


def marbled(width: int, height: int, rng: Random) -> np.ndarray:
    """Combed or swirled bands, as on endpapers."""
    turn = rng.uniform(0, np.pi)
    x = np.linspace(0, 1, width, dtype=np.float32) * np.cos(turn)
    y = np.linspace(0, 1, height, dtype=np.float32)[:, None] * np.sin(turn)
    along = x + y + cloud(width, height, rng.uniform(2, 7), rng)[..., 0] * rng.uniform(0.05, 0.4)
    comb = np.abs(((y - x) * rng.uniform(3, 14)) % 1 - 0.5) * rng.uniform(0, 0.3)
    card = through(ramp(palette(rng, 5), rng, rng.random() < 0.5), along + comb,
                   rng.uniform(2, 9))
    return card


PAINTED = (watercolour, watercolour, wet_sky, gouache, alcohol_ink, impasto, splatter, pour, blots,
           dry_brush, rough_wash, rough_wash, rough_wash, marbled)
"""What paint can be, those more often that fool a finder more."""
