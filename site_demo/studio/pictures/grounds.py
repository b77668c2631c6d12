"""What lies behind a subject: ridges, bands of water, stars, rain, rows."""

import numpy as np

from ..line import blade, box, ellipse, ribbon

Array = np.ndarray


def whole(size: tuple[int, int]) -> Array:
    """The whole card."""
    return box(-4, -4, size[0] + 4, size[1] + 4)


def ridge(size: tuple[int, int], y: float, rise: float, seed: int, lumps: int = 4) -> Array:
    """A skyline across the card about the height `y`, closed below the lower edge."""
    rng = np.random.default_rng(seed)
    x = np.linspace(-10, size[0] + 10, 60)
    line = np.zeros(60)
    for octave in range(3):
        line += np.sin(x / size[0] * np.pi * lumps * 2**octave * rng.uniform(0.7, 1.3)
                       + rng.uniform(0, 6)) / 2**octave
    top = np.stack([x, y - rise * line / 1.6], 1)
    return np.vstack([top, [(size[0] + 10, size[1] + 10), (-10, size[1] + 10)]])


def peaks(size: tuple[int, int], y: float, rise: float, seed: int, count: int = 5) -> Array:
    """A jagged skyline of `count` summits, closed below the lower edge."""
    rng = np.random.default_rng(seed)
    points = [(-10.0, y)]
    for number in range(count):
        x = size[0] * (number + rng.uniform(0.3, 0.7)) / count
        points += [(x, y - rise * rng.uniform(0.5, 1.0)),
                   (size[0] * (number + 1) / count, y - rise * rng.uniform(0.0, 0.25))]
    return np.vstack([points, [(size[0] + 10, y), (size[0] + 10, size[1] + 10),
                               (-10, size[1] + 10)]])


def snow_caps(outline: Array, share: float, seed: int) -> list[Array]:
    """The upper part of each summit of `peaks`, with a ragged lower edge."""
    rng = np.random.default_rng(seed)
    caps = []
    for number in range(1, len(outline) - 4, 2):
        left, top, right = outline[number - 1], outline[number], outline[number + 1]
        a, b = top + (left - top) * share, top + (right - top) * share
        ragged = [a + (b - a) * t + (0, rng.uniform(-14, 18)) for t in (0.2, 0.4, 0.6, 0.8)]
        caps.append(np.vstack([[top], [b], ragged[::-1], [a]]))
    return caps


def ripples(area: tuple[float, float, float, float], count: int, seed: int,
            long: float = 90.0, thick: float = 5.0) -> list[Array]:
    """Level strokes on water within (left, top, right, bottom), longer towards the front."""
    rng = np.random.default_rng(seed)
    left, top, right, bottom = area
    made = []
    for _ in range(count):
        share = rng.random() ** 0.8
        y, x = top + (bottom - top) * share, rng.uniform(left, right)
        half = long * (0.35 + 0.65 * share) * rng.uniform(0.4, 1) / 2
        line = np.stack([np.linspace(x - half, x + half, 9),
                         y + 2.5 * np.sin(np.linspace(0, 5, 9) + x)], 1)
        line[:, 0] = np.clip(line[:, 0], left, right)
        made.append(ribbon(line, thick * (0.4 + 0.6 * share), (0.1, 0.1)))
    return made


def stars(area: tuple[float, float, float, float], count: int, seed: int,
          largest: float = 5.0) -> list[Array]:
    """Small discs strewn over (left, top, right, bottom)."""
    rng = np.random.default_rng(seed)
    return [ellipse(rng.uniform(area[0], area[2]), rng.uniform(area[1], area[3]), r, r, count=14)
            for r in largest * rng.uniform(0.35, 1, count) ** 2]


def rain(area: tuple[float, float, float, float], count: int, seed: int, slant: float = 18.0,
         long: float = 46.0, thick: float = 4.0) -> list[Array]:
    """Slanting drops over (left, top, right, bottom)."""
    rng = np.random.default_rng(seed)
    made = []
    for _ in range(count):
        x, y = rng.uniform(area[0], area[2]), rng.uniform(area[1], area[3])
        reach = long * rng.uniform(0.5, 1.1)
        made.append(ribbon([(x, y), (x - slant * reach / long, y + reach)], thick, (0.3, 0.8)))
    return made


def tufts(area: tuple[float, float, float, float], count: int, seed: int, tall: float = 60.0,
          wide: float = 8.0) -> list[Array]:
    """Blades of grass with their feet in (left, top, right, bottom)."""
    rng = np.random.default_rng(seed)
    made = []
    for _ in range(count):
        x, y = rng.uniform(area[0], area[2]), rng.uniform(area[1], area[3])
        made.append(blade((x, y), (x + rng.normal(0, tall * 0.25), y - tall * rng.uniform(0.5, 1)),
                          wide, rng.normal(0, tall * 0.12)))
    return made
