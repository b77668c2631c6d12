"""The tables of board.toml as frozen dataclasses, and every key documented."""

from dataclasses import dataclass, field
from typing import Any

PATH = "board.toml"
FORMAT = 1


@dataclass(frozen=True, slots=True)
class BoardSettings:
    """The table [board]."""

    name: str = "A swap board"
    address: str = ""
    about: str = ""
    keeper: str = "keeper"
    language: str = "en"
    time_zone: str = "UTC"
    paper: str = "A4"
    mail: str = ""
    font: str = ""


@dataclass(frozen=True, slots=True)
class PhotoSettings:
    """The table [photos]."""

    largest_megabytes: int = 40
    largest_megapixels: int = 64


@dataclass(frozen=True, slots=True)
class SwapSettings:
    """The table [swaps]: house limits."""

    offer_days: int = 14
    mail_days: int = 14
    arrive_days: int = 30
    cards_per_call_at_most: int = 50
    rings: int = 3
    match_seconds: int = 60
    build_match_seconds: int = 3


@dataclass(frozen=True, slots=True)
class ListSettings:
    """The table [lists]."""

    cards_per_page: int = 18


@dataclass(frozen=True, slots=True)
class Words:
    """The table [words]: a keeper's own additions to the vocabulary."""

    media: tuple[str, ...] = ()
    same_as: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Settings:
    """A whole board.toml."""

    board: BoardSettings = BoardSettings()
    photos: PhotoSettings = PhotoSettings()
    swaps: SwapSettings = SwapSettings()
    lists: ListSettings = ListSettings()
    words: Words = Words()
    format: int = FORMAT
    lines: dict[str, int] = field(default_factory=dict, compare=False, repr=False)


TABLES: dict[str, type] = {
    "board": BoardSettings,
    "photos": PhotoSettings,
    "swaps": SwapSettings,
    "lists": ListSettings,
    "words": Words,
}

TEXT, WHOLE, LIST, PAIRS = "text", "whole number", "list of texts", "table of texts"


@dataclass(frozen=True, slots=True)
class Setting:
    """One key: its table ("" for the top of the file), type and sentence.

    `least` and `most` bound a whole number."""

    table: str
    key: str
    type: str
    sentence: str
    least: int = 0
    most: int = 0

    @property
    def default(self) -> Any:
        """What holds where the key is missing."""
        return FORMAT if not self.table else getattr(TABLES[self.table](), self.key)


SETTINGS: tuple[Setting, ...] = (
    Setting("", "format", WHOLE, "The form of this folder; always 1 for now.", 1, 1),
    Setting("board", "name", TEXT, "The board's name, as it stands on every page."),
    Setting("board", "address", TEXT, "Where the board is on the web; empty until you know."),
    Setting("board", "about", TEXT, "One or two sentences for the home page."),
    Setting("board", "keeper", TEXT, "Who keeps the board: the name of a file in makers/."),
    Setting("board", "language", TEXT, 'The language of the board, as a tag like "en" or "en-US".'),
    Setting("board", "time_zone", TEXT, 'Where the board\'s day begins, like "Europe/Vienna".'),
    Setting("board", "paper", TEXT, 'The paper that you print on: "A4" or "Letter".'),
    Setting("board", "mail", TEXT, "A public mail address that offers may be sent to, or none."),
    Setting("board", "font", TEXT,
            'A TrueType font in this folder, for letters that paper lacks, like "own.ttf".'),
    Setting("photos", "largest_megabytes", WHOLE, "A bigger photo file is refused.", 1, 500),
    Setting("photos", "largest_megapixels", WHOLE, "A photo of more pixels is refused.", 1, 400),
    Setting("swaps", "offer_days", WHOLE, "An offer unanswered so many days expires.", 1, 3650),
    Setting("swaps", "mail_days", WHOLE, "Agreed cards are to be mailed in so many days.", 1, 365),
    Setting("swaps", "arrive_days", WHOLE, "Mailed cards are to arrive in so many days.", 1, 365),
    Setting("swaps", "cards_per_call_at_most", WHOLE, "No call asks for more cards each.", 1, 1000),
    Setting("swaps", "rings", WHOLE, "The most makers that a proposed swap goes round.", 2, 4),
    Setting("swaps", "match_seconds", WHOLE, "So long `match` looks for swaps, at most.", 1, 3600),
    Setting("swaps", "build_match_seconds", WHOLE,
            "So long a build looks for swaps, at most; what `match` found is used.", 1, 3600),
    Setting("lists", "cards_per_page", WHOLE, "How many cards a list shows on a page.", 1, 1000),
    Setting("words", "media", LIST, "Media of your own, added to the board's."),
    Setting("words", "same_as", PAIRS, "Other words for a medium, each with the word it means."),
)
