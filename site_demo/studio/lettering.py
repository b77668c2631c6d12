"""Hand-printed capitals of single strokes, for the backs of cards."""

import numpy as np

from .line import along, ribbon, wobble
from .sheet import stamped

Array = np.ndarray
Random = np.random.Generator

# Each letter on a box 4 wide and 6 high, x right and y down; a space parts its strokes.
STROKES = {
    "A": "06-20-46 13-33", "B": "00-06-36-45-44-33-03 33-42-41-30-00",
           "C": "41-30-10-01-05-16-36-45",
    "D": "00-06-26-44-42-20-00", "E": "40-00-06-46 03-33", "F": "40-00-06 03-33",
    "G": "41-30-10-01-05-16-36-45-43-23", "H": "00-06 40-46 03-43", "I": "20-26",
    "J": "40-45-36-16-05", "K": "00-06 40-03-46", "L": "00-06-46", "M": "06-00-23-40-46",
    "N": "06-00-46-40", "O": "10-01-05-16-36-45-41-30-10", "P": "06-00-30-41-42-33-03",
    "Q": "10-01-05-16-36-45-41-30-10 24-46", "R": "06-00-30-41-42-33-03 23-46",
    "S": "41-30-10-01-02-13-33-44-45-36-16-05", "T": "00-40 20-26", "U": "00-05-16-36-45-40",
    "V": "00-26-40", "W": "00-16-23-36-40", "X": "00-46 40-06", "Y": "00-23-40 23-26",
    "Z": "00-40-06-46", "0": "10-01-05-16-36-45-41-30-10", "1": "11-20-26",
           "2": "01-10-30-41-42-06-46",
    "3": "00-40-23-33-44-45-36-16-05", "4": "36-30-04-44", "5": "40-10-02-32-43-45-36-06",
    "6": "30-02-05-16-36-45-44-33-13-04", "7": "00-40-16",
           "8": "10-01-02-13-33-44-45-36-16-05-04-13 "
    "33-42-41-30-10", "9": "16-44-41-30-10-01-02-13-33-42", "/": "40-06", ".": "26-25",
           ",": "25-17",
    "-": "13-33", "×": "12-35 32-15",
}


def lettered(plate: Array, text: str, at: tuple[float, float], height: float, rng: Random,
             pen: float = 3.4) -> float:
    """Write `text` into a uint8 plate with its base line at `at`; returns where it ends, x in px.

    No two letters come out alike; what has no strokes leaves a gap.
    """
    x, y = at
    unit = height / 6
    for letter in text.upper():
        narrow = letter in "I1.,/ "
        x -= unit * 1.1 * narrow
        for stroke in STROKES.get(letter, "").split():
            points = np.array([[int(c) for c in pair] for pair in stroke.split("-")], float)
            points = points * (unit * 0.86, unit) + (x, y - height)
            points[:, 0] += (y - points[:, 1]) * 0.10
            line = wobble(along(points, 3), height * 0.022, 5, rng)
            stamped(plate, ribbon(line, pen * rng.uniform(0.85, 1.15), (0.8, 0.5)))
        x += unit * (3.9 if narrow else 4.9) + rng.normal(0, unit * 0.12)
    return x
