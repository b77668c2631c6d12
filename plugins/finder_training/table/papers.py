"""Papers that cards lie on: crumpled, written, printed, ruled, and films that wrap things."""

import cv2
import numpy as np

from finder_training.art.cards import words
from finder_training.noise import Random, any_colour, cloud, ink, layered
from finder_training.table.cloths import repeated
from finder_training.table.shapes import leaf_shape, palette


def pale(rng: Random) -> np.ndarray:
    """A paper's white, cream or grey, float64 [3]."""
    return np.clip(rng.uniform(205, 250) + np.array([2, 0, -rng.uniform(0, 22)]), 0, 255)


def _crumples(width: int, height: int, rng: Random) -> np.ndarray:
    """Flat facets that meet in sharp creases, float32 [height, width, 1], about -1 to 1."""
    half = (height // 2 + 1, width // 2 + 1)
    y, x = np.arange(half[0], dtype=np.float32)[:, None], np.arange(half[1], dtype=np.float32)
    lit = np.zeros(half, np.float32)
    for _ in range(int(rng.integers(14, 34))):
        way, at = rng.uniform(0, 2 * np.pi), rng.uniform(0, 1, 2) * half
        far = (x - np.float32(at[1])) * np.float32(np.cos(way))
        far = far + (y - np.float32(at[0])) * np.float32(np.sin(way))
        lit += np.clip(far * np.float32(10 ** rng.uniform(-2.2, -0.3)), -1, 1) * rng.normal()
        if rng.random() < 0.25:
            lit = np.abs(lit) - 0.5
    lit /= max(float(lit.std()), 1e-3) * 1.6
    return cv2.resize(lit, (width, height), interpolation=cv2.INTER_LINEAR)[..., None]


def _crumpled(width: int, height: int, rng: Random) -> np.ndarray:
    """Kraft, tissue or white paper that was crumpled and smoothed."""
    kraft = np.array([192, 152, 108]) * rng.uniform(0.65, 1.15)
    base = [kraft, pale(rng), any_colour(rng)][int(rng.integers(3))]
    strong = np.float32(rng.uniform(0.04, 0.2))
    return np.float32(base) * (1 + _crumples(width, height, rng) * strong)


def _foil(width: int, height: int, rng: Random) -> np.ndarray:
    """Metal foil or shiny film: facets from dark to blinding."""
    field = _crumples(width, height, rng) + layered(width, height, 6, rng, 2) * 0.4
    tints = np.array([[1, 1, 1.03], [1, 0.82, 0.45], [1, 0.6, 0.65], [0.6, 0.8, 1]])
    tint = np.float32(tints[int(rng.choice([0, 0, 1, 2, 3]))] * rng.uniform(110, 190))
    return tint * (0.25 + np.abs(np.sin(field * np.float32(rng.uniform(1, 3.5)))) * 1.3)


def _bubbles(width: int, height: int, rng: Random) -> np.ndarray:
    """Bubble wrap over a plain ground, each bubble with its gloss."""
    side = int(10 ** rng.uniform(1.1, 1.7))
    cell = np.full((side, side, 3), any_colour(rng, 40, 235), np.uint8)
    base, middle, reach = cell[0, 0].astype(float), (side * 8, side * 8), side * 6.8
    light = rng.uniform(-0.4, 0.4, 2) * reach
    for share, gain in ((1, 0.82), (0.92, 1.08), (0.6, 1.0)):
        cv2.circle(cell, middle, int(reach * share), ink(np.clip(base * gain, 0, 255)), -1,
                   cv2.LINE_AA, 4)
    shine = (int(middle[0] + light[0]), int(middle[1] + light[1]))
    cv2.circle(cell, shine, max(int(reach * rng.uniform(0.12, 0.3)), 12),
               ink(np.clip(base + 70, 0, 255)), -1, cv2.LINE_AA, 4)
    made = repeated(cell, width, height, rng)
    return made * (1 + cloud(width, height, 6, rng) * np.float32(rng.uniform(0.02, 0.15)))


def _ruled_mat(width: int, height: int, rng: Random) -> np.ndarray:
    """A cutting mat whole: border with ticks and numbers, slanting lines, arcs."""
    bases = [[28, 92, 78], [45, 70, 120], [55, 55, 60], [190, 110, 140], [215, 215, 210]]
    base = np.array(bases[int(rng.integers(5))]) * rng.uniform(0.75, 1.2)
    made = np.full((height, width, 3), np.clip(base, 0, 250), np.uint8)
    pale_line = np.array([225, 225, 190]) if base[1] < 180 else np.array([60, 70, 80])
    line = ink(base + (pale_line - base) * rng.uniform(0.35, 1))
    step, edge = int(10 ** rng.uniform(1.4, 2)), int(rng.uniform(0.02, 0.09) * width)
    for number, x in enumerate(range(edge, width - edge, step)):
        cv2.line(made, (x, edge), (x, height - edge), line, 1 + (number % 5 == 0), cv2.LINE_AA)
        cv2.putText(made, str(number), (x + 2, edge - 3), 0, step / 110, line, 1, cv2.LINE_AA)
        for tick in range(0, step, max(step // 8, 4)):
            cv2.line(made, (x + tick, edge), (x + tick, edge - 3 - step // 12), line, 1)
    for number, y in enumerate(range(edge, height - edge, step)):
        cv2.line(made, (edge, y), (width - edge, y), line, 1 + (number % 5 == 0), cv2.LINE_AA)
        cv2.putText(made, str(number), (1, y - 2), 0, step / 110, line, 1, cv2.LINE_AA)
    corner, long = np.array([edge, height - edge]), float(height + width)
    for angle in np.radians([15, 30, 45, 60, 75])[: int(rng.integers(1, 6))]:
        end = corner + np.array([np.cos(angle), -np.sin(angle)]) * long
        cv2.line(made, tuple(corner), tuple(end.astype(int)), line, 1, cv2.LINE_AA)
    cv2.ellipse(made, (width // 2, height - edge), (width // 4,) * 2, 0, 180, 360, line, 1)
    return made


def _photo(box: np.ndarray, rng: Random) -> None:
    """A printed photograph: land and sky, or heads, in the tones of the print, in place."""
    height, width = box.shape[:2]
    grey = rng.random() < 0.6
    box[:] = ink(any_colour(rng, 110, 230))
    for _ in range(int(rng.integers(2, 7))):
        at = (int(rng.uniform(0, width)), int(height * rng.uniform(0.3, 1.1)))
        axes = (int(width * rng.uniform(0.08, 0.5)), int(height * rng.uniform(0.1, 0.5)))
        cv2.ellipse(box, at, axes, rng.uniform(-20, 20), 0, 360, ink(any_colour(rng, 20, 220)), -1,
                    cv2.LINE_AA)
    if grey:
        box[:] = box.mean(axis=2, keepdims=True)


def text_page(made: np.ndarray, rng: Random, columns: int, size: int) -> list[tuple]:
    """Columns of small set text with headings, gaps and photographs, in place.

    Answers where the photographs are: left, top, right, bottom as shares of the page.
    """
    height, width = made.shape[:2]
    photographs = []
    edge, dark = max(width // 25, 3), ink(rng.uniform(15, 90, 1).repeat(3))
    step = max((width - edge) // columns, 1)
    for left in range(edge, width - step // 2, step):
        y = edge
        while y < height - size * 3:
            roll, tall = rng.random(), int(size * rng.uniform(6, 30))
            box = made[y : min(y + tall, height - edge), left : left + step - edge]
            if roll < 0.2 and min(box.shape[:2]) > 16:
                _photo(box, rng)
                low, right = y + box.shape[0], left + box.shape[1]
                photographs.append((left / width, y / height, right / width, low / height))
            elif roll < 0.35:
                tall = size * 4
                words(box[:tall], rng, dark, max(int(size * rng.uniform(1.5, 3)), 3))
            elif box.size:
                words(box, rng, dark, size)
            y += tall + size
    return photographs


def _news(width: int, height: int, rng: Random) -> np.ndarray:
    made = np.full((height, width, 3), pale(rng) * rng.uniform(0.78, 1), np.uint8)
    text_page(made, rng, int(rng.integers(2, 7)), int(rng.integers(2, 7)))
    return made


def _book(width: int, height: int, rng: Random) -> np.ndarray:
    """Two pages of a book lying open, darker towards the gutter."""
    made = np.full((height, width, 3), pale(rng), np.uint8)
    fold = int(width * rng.uniform(0.3, 0.7))
    for part in (made[:, :fold], made[:, fold:]):
        if rng.random() < 0.85:
            text_page(part, rng, 1 if rng.random() < 0.7 else 2, int(rng.integers(2, 8)))
    far = np.abs(np.arange(width, dtype=np.float32) - fold)
    shade = 1 - rng.uniform(0.2, 0.7) * np.exp(-far / (width * rng.uniform(0.01, 0.06)))
    return made * np.float32(shade)[None, :, None]


def _music(width: int, height: int, rng: Random) -> np.ndarray:
    """Staves with notes, stems, beams and bars."""
    made = np.full((height, width, 3), pale(rng), np.uint8)
    gap, dark = 10 ** rng.uniform(0.5, 1.1), ink(rng.uniform(10, 80, 1).repeat(3))
    for top in np.arange(gap * 2, height, gap * rng.uniform(8, 13)):
        for line in range(5):
            y = int(top + line * gap)
            cv2.line(made, (0, y), (width, y), dark, 1, cv2.LINE_AA)
        x = gap * 4
        while x < width:
            y, group = top + rng.uniform(-1, 5) * gap, int(rng.integers(1, 5))
            beam = int(y - gap * 3.5)
            for k in range(group):
                at = (int(x + k * gap * 1.8), int(y + rng.uniform(-1, 1) * gap))
                cv2.ellipse(made, at, (int(gap * 0.62), int(gap * 0.45)), -20, 0, 360, dark,
                            int(rng.choice([-1, -1, 1])), cv2.LINE_AA)
                stem = (int(at[0] + gap * 0.55), at[1])
                cv2.line(made, stem, (stem[0], beam), dark, 1, cv2.LINE_AA)
            if group > 1:
                end = int(x + (group - 1) * gap * 1.8 + gap * 0.55)
                cv2.line(made, (int(x + gap * 0.55), beam), (end, beam), dark, max(int(gap / 2), 1))
            x += group * gap * 1.8 + gap * rng.uniform(1, 4)
            if rng.random() < 0.3:
                cv2.line(made, (int(x), int(top)), (int(x), int(top + 4 * gap)), dark, 1)
    return made


def _map(width: int, height: int, rng: Random) -> np.ndarray:
    """Roads, a river, parks, contour lines, names."""
    base = np.array([[242, 238, 226], [225, 232, 215], [250, 245, 230], [60, 70, 80]])
    made = np.full((height, width, 3), base[int(rng.integers(4))] * rng.uniform(0.9, 1), np.uint8)
    if rng.random() < 0.5:
        field = np.clip(layered(width, height, rng.uniform(2, 6), rng, 2) * 40 + 128, 0, 255)
        rings = cv2.Canny((field.astype(np.uint8) // 12) * 12, 1, 2)
        made[rings > 0] = ink(any_colour(rng, 90, 200))
    for tone, reach in ((any_colour(rng, 150, 220) * (0.8, 1, 0.8), 0.16), ([150, 190, 215], 0.1)):
        for _ in range(int(rng.integers(1, 5))):
            at = rng.uniform(0, 1, 2) * (width, height)
            spots = at + rng.normal(size=(9, 2)) * width * reach
            cv2.fillPoly(made, [cv2.convexHull(spots.astype(np.int32))], ink(tone), cv2.LINE_AA)
    for thick, many in ((1, 26), (3, 9), (6, 3)):
        edge, core = ink(any_colour(rng, 90, 180)), ink(any_colour(rng, 200, 255))
        for _ in range(int(rng.integers(many // 3, many))):
            way, at = rng.uniform(0, 6.3), rng.uniform(-0.1, 1.1, 2) * (width, height)
            ways = way + np.cumsum(rng.normal(size=26) * rng.uniform(0.02, 0.3))
            steps = np.column_stack([np.cos(ways), np.sin(ways)]) * width / 22
            path = [(at + np.cumsum(steps, axis=0)).astype(np.int32)]
            cv2.polylines(made, path, False, edge, thick + 2, cv2.LINE_AA)
            cv2.polylines(made, path, False, core, thick, cv2.LINE_AA)
    for _ in range(int(rng.integers(4, 30))):
        at = tuple((rng.uniform(0, 1, 2) * (width, height)).astype(int))
        name = "".join(rng.choice(list("aeioulmnrst"), int(rng.integers(4, 9))))
        cv2.putText(made, name.title(), at, 0, rng.uniform(0.25, 0.6), (60, 60, 70), 1, cv2.LINE_AA)
    return made


def _graph(width: int, height: int, rng: Random) -> np.ndarray:
    """Dotted, squared, or finely squared paper, in the colours such paper has."""
    side = int(10 ** rng.uniform(0.9, 1.7))
    cell = np.full((side, side, 3), pale(rng), np.uint8)
    line = ink(np.array([[120, 160, 210], [150, 190, 150], [225, 160, 130], [150, 150, 150]])[
        int(rng.integers(4))])
    roll = rng.random()
    if roll < 0.4:
        cv2.circle(cell, (side * 8, side * 8), max(side, 12), line, -1, cv2.LINE_AA, 4)
        return np.tile(cell, (height // side + 1, width // side + 1, 1))[:height, :width]
    cell[0], cell[:, 0] = line, line
    made = np.tile(cell, (5, 5, 1))
    made[:2], made[:, :2] = (line, line) if roll < 0.7 else (made[:2], made[:, :2])
    times = (height // len(made) + 1, width // len(made) + 1, 1)
    return np.tile(made, times)[:height, :width]


def _motif(cell: np.ndarray, size: float, colour: tuple, kind: int, rng: Random) -> None:
    """A star, heart, fir, balloon, leaf or snow crystal in the cell's middle."""
    middle, turn = np.array(cell.shape[1::-1]) / 2, rng.normal() * 0.4
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    ways = np.linspace(0, 2 * np.pi, 21)[:-1]
    if kind == 0:
        reach = np.where(np.arange(20) % 4 == 0, 1, 0.55 - 0.12 * (np.arange(20) % 4 == 2))
        shape = np.column_stack([np.sin(ways), -np.cos(ways)]) * reach[:, None]
    elif kind == 1:
        across = np.sin(ways) ** 3
        shape = np.column_stack([across, -(13 * np.cos(ways) - 5 * np.cos(2 * ways)
                                           - 2 * np.cos(3 * ways)) / 16])
    elif kind == 2:
        shape = np.array([[0, -1.2], [0.5, -0.4], [0.25, -0.4], [0.8, 0.5], [0.12, 0.5], [0.12, 1],
                          [-0.12, 1], [-0.12, 0.5], [-0.8, 0.5], [-0.25, -0.4], [-0.5, -0.4]])
    elif kind == 3:
        shape = np.column_stack([np.sin(ways) * 0.8, np.cos(ways)])
        end = tuple((middle + (0, size * 2)).astype(int))
        cv2.line(cell, tuple(middle.astype(int)), end, colour, 1, cv2.LINE_AA)
    else:
        for way in ways[::4] if kind == 4 else ways[::3]:
            leaf = leaf_shape(middle, size, size * (0.3 if kind == 4 else 0.06), way + turn)
            cv2.fillPoly(cell, [leaf], colour, cv2.LINE_AA, 4)
        return
    points = (shape * size) @ spin + middle
    cv2.fillPoly(cell, [(points * 16).astype(np.int32)], colour, cv2.LINE_AA, 4)


def _wrapping(width: int, height: int, rng: Random) -> np.ndarray:
    """Wrapping paper with motifs, now and then metallic."""
    side, colours = int(10 ** rng.uniform(1.6, 2.35)), palette(rng, 3)
    cell = np.full((side, side, 3), any_colour(rng), np.uint8)
    kinds = rng.integers(0, 6, int(rng.integers(1, 4)))
    for i in range(int(rng.integers(2, 10))):
        cell = np.roll(cell, rng.integers(0, side, 2), axis=(0, 1))
        _motif(cell, side * rng.uniform(0.06, 0.2), ink(colours[i % 3]),
               int(kinds[i % len(kinds)]), rng)
    made = repeated(cell, width, height, rng)
    if rng.random() < 0.5:
        return made * (1 + _crumples(width, height, rng) * np.float32(rng.uniform(0.02, 0.15)))
    return made


PAPERS = {
    "crumpled": _crumpled, "foil": _foil, "bubbles": _bubbles, "ruled mat": _ruled_mat,
    "news": _news, "book": _book, "music": _music, "map": _map, "graph": _graph,
    "wrapping": _wrapping,
}
"""Drawers of papers by name: width, height px and `rng` → [height, width, 3] about 0–255."""
