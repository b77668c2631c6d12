"""Sheets of labels by their dimensions, in millimetres; no maker's numbers.

The sizes are those that shops sell (common practice, no source).
"""

from dataclasses import dataclass

_INCH = 25.4


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """A sheet: its paper, columns and rows, a label's width and height, where the first
    one begins from the left and the top, and from one label's edge to the next one's."""

    paper: str
    columns: int
    rows: int
    width: float
    height: float
    left: float
    top: float
    across: float
    down: float

    @property
    def count(self) -> int:
        """Labels on a sheet."""
        return self.columns * self.rows

    def place(self, number: int) -> tuple[float, float]:
        """The top left corner of a label, counted from 0 along the rows, from the
        sheet's top left."""
        row, column = divmod(number, self.columns)
        return self.left + column * self.across, self.top + row * self.down


LABEL_SHEETS: dict[str, LabelSheet] = {
    "63.5x38.1mm": LabelSheet("A4", 3, 7, 63.5, 38.1, 7.2, 15.15, 66.04, 38.1),
    "63.5x33.9mm": LabelSheet("A4", 3, 8, 63.5, 33.9, 7.2, 12.9, 66.04, 33.9),
    "70x37mm": LabelSheet("A4", 3, 8, 70.0, 37.0, 0.0, 0.5, 70.0, 37.0),
    "99.1x38.1mm": LabelSheet("A4", 2, 7, 99.1, 38.1, 4.65, 15.15, 101.6, 38.1),
    "99.1x67.7mm": LabelSheet("A4", 2, 4, 99.1, 67.7, 4.65, 13.1, 101.6, 67.7),
    "2.625x1in": LabelSheet("Letter", 3, 10, 2.625 * _INCH, _INCH, 0.1875 * _INCH, 0.5 * _INCH,
                            2.75 * _INCH, _INCH),
    "4x2in": LabelSheet("Letter", 2, 5, 4 * _INCH, 2 * _INCH, 0.15625 * _INCH, 0.5 * _INCH,
                        4.1875 * _INCH, 2 * _INCH),
    "4x3.33in": LabelSheet("Letter", 2, 3, 4 * _INCH, 10 / 3 * _INCH, 0.15625 * _INCH,
                           0.5 * _INCH, 4.1875 * _INCH, 10 / 3 * _INCH),
}  # fmt: skip
USUAL = {"A4": "63.5x38.1mm", "Letter": "2.625x1in"}
