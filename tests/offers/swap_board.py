"""A board without photos on which two makers swap; everything on it is invented."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path

DAY = date(2026, 10, 10)
OFFER = "offers/heron-for-moth.md"
HEAD = "From: ines-okafor\nTo: tom-varga\nGives: night-heron\nAsks: moth\n"
FILES = {
    "board.toml": 'format = 1\n\n[board]\nname = "Reed Street"\nkeeper = "ines-okafor"\n',
    "makers/ines-okafor.md": "Name: Inés Okafor\nCountry: Portugal\nLikes: theme moths, dearly\n",
    "makers/tom-varga.md": "Name: Tom Varga\nCountry: Hungary\n",
    "cards/night-heron.md": "Title: Night heron\nThemes: birds\n",
    "cards/river-fox.md": "Title: River fox\n",
    "cards/moth.md": "Title: Moth\nMaker: tom-varga\nThemes: moths\n",
    "cards/fern.md": "Title: Fern\nMaker: tom-varga\n",
    OFFER: HEAD + "2026-10-01: proposed\n\nWould you?\n",
}


def make(folder: Path, files: Mapping[str, str | bytes | None] | None = None) -> Path:
    """The board in `folder`, with files added, replaced or (None) left out."""
    for path, content in {**FILES, **(files or {})}.items():
        if content is not None:
            file = folder / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(content.encode() if isinstance(content, str) else content)
    return folder
