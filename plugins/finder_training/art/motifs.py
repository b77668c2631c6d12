"""Small things makers draw: animals, plants, faces, houses, signs; as outlines of unit size."""

import cv2
import numpy as np

from finder_training.noise import Random

TURN = np.linspace(0, 2 * np.pi, 32, endpoint=False)


def ring(x: float = 0, y: float = 0, wide: float = 1, tall: float | None = None) -> np.ndarray:
    """An ellipse's outline about (x, y) with these half axes, [32, 2]."""
    tall = wide if tall is None else tall
    return np.column_stack([x + wide * np.cos(TURN), y + tall * np.sin(TURN)])


def _at(*points: float) -> np.ndarray:
    return np.array(points, float).reshape(-1, 2)


def bird(rng: Random) -> list[np.ndarray]:
    """A body, a head with a beak, a tail, a wing, legs."""
    slim = rng.uniform(0.35, 0.55)
    return [ring(0, 0.1, 0.6, slim), ring(0.5, -0.35, 0.28),
            _at(0.74, -0.4, 1.05, -0.3, 0.74, -0.22),
            _at(-0.45, 0, -1.1, rng.uniform(-0.5, 0.5), -0.9, 0.35), ring(-0.1, 0.1, 0.32, 0.2),
            _at(0, 0.5, 0.02, 0.95, 0.06, 0.5)]


def fish(rng: Random) -> list[np.ndarray]:
    """A body, a tail, fins, an eye."""
    tall = rng.uniform(0.25, 0.6)
    return [ring(0.1, 0, 0.75, tall), _at(-0.5, 0, -1.05, -0.5, -0.9, 0, -1.05, 0.5),
            _at(-0.2, -tall * 0.8, 0.1, -tall * 1.6, 0.4, -tall * 0.8), ring(0.55, -0.08, 0.08)]


def cat(rng: Random) -> list[np.ndarray]:
    """One that sits: body, head with ears, tail."""
    turn = np.linspace(0, 2.5, 12)
    tail = np.column_stack([0.4 + 0.45 * np.sin(turn), 0.9 - 0.4 * turn * rng.uniform(0.5, 1)])
    return [ring(0, 0.45, rng.uniform(0.35, 0.55), 0.55), ring(0, -0.35, 0.36, 0.32),
            _at(-0.34, -0.45, -0.3, -0.95, -0.05, -0.62), _at(0.34, -0.45, 0.3, -0.95, 0.05, -0.62),
            np.vstack([tail, tail[::-1] + (0.1, 0)])]


def leaf(rng: Random) -> list[np.ndarray]:
    """A blade on a stalk."""
    share = np.linspace(0, np.pi, 16)
    wide = np.sin(share) * rng.uniform(0.2, 0.5)
    down = np.linspace(-0.9, 0.6, 16)
    blade = np.vstack([np.column_stack([wide, down]), np.column_stack([-wide, down])[::-1]])
    return [blade, _at(-0.02, -0.7, 0.02, -0.7, 0.04, 1, -0.04, 1)]


def flower(rng: Random) -> list[np.ndarray]:
    """Petals about a heart, now and then on a stem."""
    count = int(rng.integers(4, 13))
    out, wide = rng.uniform(0.45, 0.65), rng.uniform(0.14, 0.34)
    parts = []
    for turn in np.arange(count) * 2 * np.pi / count:
        spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
        parts.append(ring(out, 0, 0.4, wide) @ spin.T)
    if rng.random() < 0.4:
        parts = [p * 0.6 - (0, 0.4) for p in parts]
        return [_at(-0.03, -0.3, 0.03, -0.3, 0.05, 1, -0.02, 1), *parts, ring(0, -0.4, 0.15)]
    return [*parts, ring(0, 0, 0.28)]


def sprig(rng: Random) -> list[np.ndarray]:
    """A stem that bends, with leaves or berries on both sides."""
    share = np.linspace(0, 1, 10)
    bend = rng.normal() * 0.4
    stem = np.column_stack([bend * (share - 0.5) ** 2 * 3, 1 - 2 * share])
    parts = [np.vstack([stem, stem[::-1] + (0.04, 0)])]
    long, thin, berries = rng.uniform(0.25, 0.5), rng.uniform(0.2, 0.45), rng.random() < 0.25
    for i in range(1, 10):
        for side in (-1, 1):
            turn = side * rng.uniform(0.5, 1.1) - np.pi / 2
            way = np.array([np.cos(turn), np.sin(turn)])
            middle = stem[i] + way * long * 0.6
            spin = np.array([way, [-way[1], way[0]]])
            blade = ring(0, 0, long * 0.5, long * thin * 0.5) @ spin
            parts.append((ring(0, 0, 0.09) if berries else blade) + middle)
    return parts


def face(rng: Random) -> list[np.ndarray]:
    """Hair, an oval, eyes, a nose, a mouth."""
    wide, eyes = rng.uniform(0.5, 0.75), rng.uniform(-0.2, 0)
    apart = wide * rng.uniform(0.35, 0.5)
    return [ring(0, -0.35, wide * rng.uniform(1, 1.4), rng.uniform(0.5, 0.75)),
            ring(0, 0.05, wide, 0.85), ring(-apart, eyes, 0.13, rng.uniform(0.05, 0.12)),
            ring(apart, eyes, 0.13, rng.uniform(0.05, 0.12)),
            _at(0.02, eyes, 0.1, 0.3, -0.06, 0.3), ring(0, 0.52, rng.uniform(0.1, 0.3), 0.07)]


def house(rng: Random) -> list[np.ndarray]:
    """Walls, a roof, a door, windows, a chimney."""
    wide, eaves = rng.uniform(0.4, 0.8), rng.uniform(-0.4, 0.1)
    parts = [_at(-wide, eaves, wide, eaves, wide, 1, -wide, 1),
             _at(-wide * 1.15, eaves, 0, rng.uniform(-1, eaves - 0.2), wide * 1.15, eaves),
             _at(-0.12, 0.5, 0.12, 0.5, 0.12, 1, -0.12, 1)]
    for x in (-0.6 * wide, 0.6 * wide):
        parts.append(_at(-0.1, -0.12, 0.1, -0.12, 0.1, 0.12, -0.1, 0.12) + (x, eaves + 0.3))
    return parts


def heart(rng: Random) -> list[np.ndarray]:
    """A heart."""
    across = np.sin(TURN) ** 3
    down = sum(c * np.cos(k * TURN) for k, c in ((1, -13), (2, 5), (3, 2), (4, 1)))
    return [np.column_stack([across, down / 16])]


def star(rng: Random) -> list[np.ndarray]:
    """A star of four to nine points."""
    count = int(rng.integers(4, 10))
    turn = np.arange(2 * count) * np.pi / count - np.pi / 2
    far = np.where(np.arange(2 * count) % 2, rng.uniform(0.25, 0.7), 1)
    return [np.column_stack([np.cos(turn), np.sin(turn)]) * far[:, None]]


def mushroom(rng: Random) -> list[np.ndarray]:
    """A cap with spots on a stem."""
    cap = ring(0, -0.1, 0.9, rng.uniform(0.5, 0.85))
    cap[:, 1] = np.minimum(cap[:, 1], 0.05)
    spots = [ring(*rng.uniform((-0.5, -0.45), (0.5, -0.05)), 0.1) for _ in range(4)]
    return [_at(-0.2, 0, 0.2, 0, rng.uniform(0.2, 0.4), 1, -0.3, 1), cap, *spots]


def butterfly(rng: Random) -> list[np.ndarray]:
    """Four wings and a body."""
    parts = []
    for side in (-1, 1):
        parts.append(ring(side * 0.5, -0.3, 0.45, rng.uniform(0.35, 0.55)))
        parts.append(ring(side * 0.35, 0.4, 0.32, rng.uniform(0.3, 0.45)))
    return [*parts, ring(0, 0, 0.07, 0.6)]


def cup(rng: Random) -> list[np.ndarray]:
    """A cup, vase or pot with a handle."""
    foot = rng.uniform(0.3, 0.7)
    return [ring(0.75, 0.1, 0.35), ring(0.75, 0.1, 0.2),
            _at(-0.75, -0.5, 0.75, -0.5, foot, 0.9, -foot, 0.9), ring(0, -0.5, 0.75, 0.15)]


def tree(rng: Random) -> list[np.ndarray]:
    """A trunk under a round, pointed or ragged crown."""
    trunk = _at(-0.1, 0.2, 0.1, 0.2, 0.14, 1, -0.14, 1)
    if rng.random() < 0.4:
        levels = ((y, 0.3 + 0.3 * y) for y in (-0.4, 0.1, 0.6))
        return [trunk, *[_at(0, y - 0.6, wide, y, -wide, y) for y, wide in levels]]
    return [trunk, *[ring(*rng.uniform((-0.4, -0.7), (0.4, 0)), rng.uniform(0.25, 0.5))
                     for _ in range(5)]]


def moon(rng: Random) -> list[np.ndarray]:
    """A crescent."""
    turn = np.linspace(-2.2, 2.2, 20)
    outer = np.column_stack([np.cos(turn), np.sin(turn)])
    return [np.vstack([outer, (outer * (rng.uniform(0.3, 0.8), 1))[::-1]])]


def person(rng: Random) -> list[np.ndarray]:
    """One who stands: hair, head, dress or trousers, arms."""
    wide, arm = rng.uniform(0.2, 0.6), rng.uniform(-0.3, 0.5)
    return [ring(0, -0.68, 0.24, 0.3), _at(-0.18, -0.4, 0.18, -0.4, wide, 0.6, -wide, 0.6),
            ring(0, -0.62, 0.18, 0.22), _at(-0.18, -0.35, -0.6, arm, -0.5, arm + 0.08, -0.12, -0.2),
            _at(0.18, -0.35, 0.6, arm, 0.5, arm + 0.08, 0.12, -0.2),
            _at(-0.18, 0.6, -0.06, 0.6, -0.08, 1, -0.18, 1),
            _at(0.06, 0.6, 0.18, 0.6, 0.18, 1, 0.08, 1)]


def boat(rng: Random) -> list[np.ndarray]:
    """A hull, a mast, sails."""
    tall = rng.uniform(-1, -0.6)
    return [_at(-0.9, 0.3, 0.9, 0.3, 0.6, 0.75, -0.6, 0.75),
            _at(-0.03, 0.3, -0.03, tall, 0.03, tall, 0.03, 0.3),
            _at(0.08, 0.2, 0.08, tall, rng.uniform(0.5, 0.9), 0.2),
            _at(-0.08, 0.2, -0.08, tall * 0.8, -rng.uniform(0.3, 0.7), 0.2)]


def eye(rng: Random) -> list[np.ndarray]:
    """An eye, open more or less."""
    share = np.linspace(0, np.pi, 16)
    lid = np.column_stack([-np.cos(share), -np.sin(share) * rng.uniform(0.3, 0.7)])
    low = np.column_stack([np.cos(share), np.sin(share) * rng.uniform(0.3, 0.6)])
    return [np.vstack([lid, low]), ring(0, -0.02, 0.33), ring(0, -0.02, 0.15),
            ring(0.08, -0.1, 0.06)]


def cactus(rng: Random) -> list[np.ndarray]:
    """A stem with arms in a pot."""
    side = rng.choice([-1, 1])
    return [ring(0, -0.2, 0.3, 0.75), ring(side * 0.42, -0.3, 0.13, 0.35),
            _at(0, 0, side * 0.45, 0, side * 0.45, -0.12, 0, -0.12),
            _at(-0.42, 0.4, 0.42, 0.4, 0.3, 1, -0.3, 1), ring(0, -0.95, 0.1)]


def balloon(rng: Random) -> list[np.ndarray]:
    """A balloon with its basket, or on a string."""
    low = rng.uniform(0.6, 0.9)
    return [_at(-0.3, 0.1, 0.3, 0.1, 0.12, low, -0.12, low), ring(0, -0.35, 0.6, 0.62),
            ring(0, -0.35, 0.25, 0.62), _at(-0.14, low, 0.14, low, 0.12, 1, -0.12, 1)]


def shell(rng: Random) -> list[np.ndarray]:
    """A snail's house or a rolled shell."""
    turn = np.linspace(0, rng.uniform(2.5, 5) * np.pi, 60)
    coil = np.column_stack([np.cos(turn), np.sin(turn)]) * (turn / turn[-1])[:, None]
    return [ring(0, 0, 1.02), np.vstack([coil, coil[::-1] * 0.93])]


MOTIFS = (bird, fish, cat, leaf, flower, sprig, face, house, heart, star, mushroom, butterfly, cup,
          tree, moon, person, person, boat, eye, cactus, balloon, shell)


def draw(card: np.ndarray, parts: list[np.ndarray], middle: tuple, size: float, colours: list,
         turn: float = 0.0, line: tuple | None = None, thick: int = 1) -> None:
    """A motif's parts on a uint8 card in place: filled with `colours` in turn, if any are
    given, and drawn about with `line`, if given."""
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]]) * size * 8
    for i, part in enumerate(parts):
        points = (part @ spin.T + np.array(middle) * 8).astype(np.int32)
        if colours:
            colour = tuple(int(v) for v in colours[i % len(colours)])
            cv2.fillPoly(card, [points], colour, cv2.LINE_AA, 3)
        if line is not None:
            cv2.polylines(card, [points], True, line, thick, cv2.LINE_AA, 3)


def any_motif(rng: Random) -> list[np.ndarray]:
    """The parts of one of them, to be drawn."""
    return MOTIFS[int(rng.integers(len(MOTIFS)))](rng)
