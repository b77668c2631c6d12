"""Plugin: what a call is announced with: flyers, a picture to share, text to paste."""

import hashlib
from typing import Any

from pelican import signals

from swapboard.disk.share_picture import share_picture
from swapboard.printing.flyer import flyer
from swapboard.printing.paper import Fonts
from swapboard.site.generator import BoardGenerator
from swapboard.views.announcement import Announcement, announcement, text_to_paste
from swapboard.vocabulary.paper import PAPER

_FACTS_SHOWN = 4


class AnnouncementsGenerator(BoardGenerator):
    """calls/NAME-flyer-a4.pdf, -flyer-letter.pdf, -share.png and NAME.txt"""

    section = "announcements"

    def generate_output(self, writer: Any) -> None:
        if "calls" not in self.run.sections:
            return
        fonts = self.settings["SWAPBOARD_FONTS"]
        own = hashlib.sha256(fonts.own).hexdigest()
        for name in sorted(self.run.showing.board.calls):
            told = announcement(self.run.showing, name)
            source = f"{self.run.recipe}\0{own}\0{told!r}".encode("utf-8", "surrogatepass")
            mark = hashlib.sha256(source).hexdigest()
            for ending, draw in _DRAWN.items():
                path = f"calls/{name}{ending}"
                self.run.staging.put(path, mark, lambda draw=draw, told=told: draw(told, fonts))


def _flyer(paper: str):
    def draw(told: Announcement, fonts: Fonts) -> bytes:
        over = f"Swap call · {told.board}"
        return flyer(told.title, over, told.facts, told.body, told.address, paper, fonts)

    return draw


def _picture(told: Announcement, fonts: Fonts) -> bytes:
    lines = [f"{key}: {value}" for key, value in told.facts[:_FACTS_SHOWN]]
    return share_picture(told.title, f"Swap call · {told.board}", lines, fonts)


_DRAWN = {
    **{f"-flyer-{paper.lower()}.pdf": _flyer(paper) for paper in PAPER},
    "-share.png": _picture,
    ".txt": lambda told, fonts: text_to_paste(told).encode("utf-8"),
}


def _generators(_pelican: object) -> type[AnnouncementsGenerator]:
    return AnnouncementsGenerator


def register() -> None:
    """Called by Pelican."""
    signals.get_generators.connect(_generators)
