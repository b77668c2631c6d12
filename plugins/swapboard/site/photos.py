"""Plugin: the cut cards, in every size that pages show them in."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from pelican import signals

from swapboard.disk.photo_cache import CutCard
from swapboard.records.types import Board
from swapboard.site.generator import BoardGenerator
from swapboard.views.types import Picture

Cut = Mapping[tuple[str, str], CutCard]


class PhotosGenerator(BoardGenerator):
    """pictures/CARD-KEY-WIDTH.avif and .jpg"""

    def generate_output(self, writer: Any) -> None:
        cache: Path = self.settings["SWAPBOARD_PHOTO_CACHE"]
        # The back of "heron" and the front of "heron-back", cut from one photo, are
        # one picture under one name.
        wanted = {
            path: kept
            for (card, side), cut in self.settings["SWAPBOARD_CUT"].items()
            for path, kept in _files(card, side, cut)
        }
        for path, kept in sorted(wanted.items()):
            self.run.staging.put(path, kept, (cache / kept).read_bytes)


def pictures_of(board: Board, cut: Cut) -> dict[tuple[str, str], Picture]:
    """Each cut card as the pages show it: with its words and its edge."""
    found = {}
    for (name, side), one in cut.items():
        card = board.cards.get(name)
        if card is None:
            continue
        sizes = [(path, width, height) for path, _, width, height in _sized(name, side, one)]
        avif = tuple(sorted((s for s in sizes if s[0].endswith(".avif")), key=lambda s: s[1]))
        jpeg = next(size for size in sizes if size[0].endswith(".jpg"))
        words = card.alt if side == "front" else ""
        found[name, side] = Picture(avif, jpeg, words, card.edge.value, one.found.doubtful)
    return found


def _files(card: str, side: str, cut: CutCard) -> Iterator[tuple[str, str]]:
    return ((path, kept) for path, kept, _, _ in _sized(card, side, cut))


def _sized(card: str, side: str, cut: CutCard) -> Iterator[tuple[str, str, int, int]]:
    """(path in the site, file in the cache, width, height) of each size."""
    stem = f"{card}-back" if side == "back" else card
    for kind, width, height, kept in cut.files:
        ending = "avif" if kind == "avif" else "jpg"
        yield f"pictures/{stem}-{cut.key[:10]}-{width}.{ending}", kept, width, height


def _generators(_pelican: object) -> type[PhotosGenerator]:
    return PhotosGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
