"""A small board with photos that a finder is sure of, and with some that it is not."""

from pathlib import Path

import numpy as np
from PIL import Image

SHARP = "<img src=x onerror=document.title='run'>"
SHARP_FILE = "a\"'<b onclick=1> & <script>.png"
TILTED = ((130.0, 90.0), (520.0, 140.0), (560.0, 660.0), (90.0, 610.0))

POSTS = {
    "board.toml": f'format = 1\n[board]\nname = "Low tide {SHARP}"\n',
    "makers/keeper.md": "Name: Keeper\nCountry: Portugal\n",
    "cards/fern.md": "Title: Fern\nMaker: keeper\nPhoto: two.png at 25% 43%\nAlt: A fern\n",
    "cards/moth.md": f"Title: Moth {SHARP}\nMaker: keeper\nPhoto: smooth.png\nAlt: A moth\n",
    "cards/tram.md": f"Title: Tram\nMaker: keeper\nPhoto: {SHARP_FILE}\nAlt: A tram\n",
}


def card_on_table(*places: tuple[int, int]) -> np.ndarray:
    """Pale cards of 150 × 210 px with a dark patch on a dark table, 800 × 600 px."""
    picture = np.full((600, 800, 3), (60, 90, 70), np.uint8)
    for x, y in places:
        picture[y : y + 210, x : x + 150] = (240, 235, 225)
        picture[y + 60 : y + 120, x + 40 : x + 100] = (130, 40, 60)
    return picture


def smooth() -> np.ndarray:
    """A picture without any edge, 750 × 700 px, in which no card can be found."""
    y, x = np.mgrid[0:750, 0:700] / 100
    bands = [128 + 80 * np.sin(x + 0.4 * y), 128 + 80 * np.cos(1.3 * y - x), 90 + 16 * x]
    return np.dstack(bands).astype(np.uint8)


def write_board(folder: Path) -> Path:
    """The board in `folder`; "moth" and "tram" get no sure crop, and two.png shows a second
    card that no post asks for."""
    for path, text in POSTS.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, "utf-8")
    (folder / "photos").mkdir()
    Image.fromarray(card_on_table((120, 150), (480, 160))).save(folder / "photos" / "two.png")
    Image.fromarray(smooth()).save(folder / "photos" / "smooth.png")
    Image.fromarray(card_on_table()).save(folder / "photos" / SHARP_FILE)
    return folder
