"""The fonts that everything printed is set in: DejaVu Sans, free to embed and pass on."""

from functools import cache
from pathlib import Path

from swapboard.printing.paper import Fonts

FOLDER = Path(__file__).resolve().parents[1] / "printing" / "fonts"


@cache
def fonts() -> Fonts:
    """Both fonts; they have Latin, Greek, Cyrillic, Armenian and Georgian."""
    return Fonts((FOLDER / "DejaVuSans.ttf").read_bytes(),
                 (FOLDER / "DejaVuSans-Bold.ttf").read_bytes())
