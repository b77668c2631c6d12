"""cards/NAME.md: text → card."""

import re
from dataclasses import dataclass

from swapboard.problems import Problem
from swapboard.records.fields import Fields
from swapboard.records.header import Keys
from swapboard.records.names import title_of
from swapboard.records.post import instead_for, open_post
from swapboard.records.spots import IN_QUOTES, read_corners, read_spot
from swapboard.records.types import Card, Edge, Kind, State, Want
from swapboard.settings import Settings
from swapboard.vocabulary.media import media_for

_KNOWN = (
    "Title", "Date", "Maker", "Photo", "Back", "Alt", "Themes", "Media", "On", "Made", "Kind",
    "Copies left", "Panels", "Edge", "Series", "Day", "Call", "State", "Wants", "Cut out at",
)  # fmt: skip
CARD_KEYS = Keys(_KNOWN, instead_for(_KNOWN, {"number": "Kind", "copies": "Copies left"}))

EDGES = {
    "square": Edge.SQUARE,
    "rounded": Edge.ROUNDED,
    "torn": Edge.TORN,
    "burnt": Edge.TORN,
    "torn or burnt": Edge.TORN,
}
STATES = {state.value: state for state in State}
_NUMBERED = re.compile(r"(print|set)\s+(\d{1,5})\s*/\s*(\d{1,5})", re.IGNORECASE)
_KIND_FIX = "write original, or print 3/20, or set 2/7."
UNKNOWN_MEDIUM = "must be a medium this board knows"
_MOST_COPIES = 10_000


@dataclass(frozen=True, slots=True)
class _Pieces:
    """What a card's kind says together with its copies."""

    kind: Kind
    copies_left: int


def read_card(path: str, text: str, settings: Settings) -> tuple[Card, list[Problem]]:
    """A card as its post has it, with defaults where a value cannot be read.

    Wants are still plain sentences and references unchecked: both need the
    whole board.
    """
    name, header, fields = open_post(path, text, CARD_KEYS)
    photo = read_spot(fields, "Photo")
    # Where a line above could not be read, that is the fault, and most often the title.
    if "Title" not in fields and "Photo" not in fields and not fields.problems:
        fix = "add a line Title: … or Photo: … at the top."
        fields.missing("", "must have a title or a photo", fix)
    made = fields.day("Made")
    pieces = _read_kind(fields)
    card = Card(
        name=name,
        path=path,
        title=fields.text("Title") or title_of(name),
        maker=fields.text("Maker", settings.board.keeper),
        date=fields.day("Date") or made,
        photo=photo,
        back=read_spot(fields, "Back"),
        alt=fields.text("Alt", most=1000),
        themes=tuple(_read_themes(fields)),
        media=read_media(fields, "Media", settings),
        made_on=fields.text("On"),
        made=made,
        kind=pieces.kind,
        copies_left=pieces.copies_left,
        panels=fields.whole("Panels", 1, 12, 1),
        edge=fields.choice("Edge", EDGES, Edge.SQUARE),
        series=fields.text("Series"),
        day=fields.whole("Day", 1, 366),
        call=fields.text("Call"),
        # A card sent in for a call goes to whoever it is dealt to.
        state=fields.choice("State", STATES, State.TRADED if "Call" in fields else State.AVAILABLE),
        wants=sentences(fields, "Wants"),
        cut_out_at=read_corners(fields, "Cut out at"),
        body=header.body,
        lines=fields.lines(header),
    )
    _check(fields, card)
    return card, fields.problems


def _read_themes(fields: Fields):
    """The themes as written; quotes around one make another theme of it, so they are
    pointed out."""
    for theme, line in fields.items("Themes"):
        if bare := IN_QUOTES.fullmatch(theme):
            fields.warn(line, "Themes", "stands in quotes, which make it a theme of its own",
                        theme, f"write {bare[1].strip()} without quotes.")
        yield theme


def sentences(fields: Fields, key: str) -> tuple[Want, ...]:
    """A field's lines as wants that are yet to be read."""
    return tuple(Want(text, line, understood=False) for text, line in fields.sentences(key))


def read_media(fields: Fields, key: str, settings: Settings) -> tuple[str, ...]:
    """A list of media by their names on this board; an unknown one is a problem."""
    media = media_for(settings.words, settings.board.language)
    found: list[str] = []
    for item, line in fields.items(key):
        medium = media.find(item)
        if medium is None:
            fix = media.suggest(item) or "add it to media under [words] in board.toml."
            fields.bad(fields.get(key), UNKNOWN_MEDIUM, item, fix, line)
        elif medium not in found:
            found.append(medium)
    return tuple(found)


def _read_kind(fields: Fields) -> _Pieces:
    kind, readable = Kind(), True
    if field := fields.get("Kind"):
        numbered = _NUMBERED.fullmatch(field.value.strip())
        if numbered:
            kind = Kind(numbered[1].casefold(), int(numbered[2]), int(numbered[3]))
            if not 1 <= kind.number <= kind.total:
                must = "must count from 1 up to the whole, like 3/20"
                fields.bad(field, must, fix=_KIND_FIX)
        elif field.value.strip().casefold() != "original":
            fields.bad(field, "must be original, print n/N or set n/N", fix=_KIND_FIX)
            readable = False
    copies = fields.whole("Copies left", 0, _MOST_COPIES, 1)
    field = fields.get("Copies left")
    if field and readable and kind.word != "print" and copies > 1:
        fix = "add Kind: print 1/20 (its number and how many there are), or take this line out."
        fields.bad(field, "must stand only on a print of an edition", fix=fix)
    elif field and kind.total and copies > kind.total:
        fix = f"an edition of {kind.total} has no more copies than that."
        fields.bad(field, f"must be at most {kind.total}", fix=fix)
    return _Pieces(kind, copies)


def _check(fields: Fields, card: Card) -> None:
    if card.made and card.date and card.made > card.date:
        fix = "a card is shown after it is made: mend one of the two dates."
        must = f"must not be before Made ({card.made})"
        fields.bad(fields.get("Date") or fields.get("Made"), must, fix=fix)
    if card.day is not None and not card.series and "Series" not in fields:
        fix = "add Series: and its name, or take this line out."
        fields.bad(fields.get("Day"), "must stand with a Series", fix=fix)
    if card.cut_out_at and "Photo" not in fields:
        fix = "add Photo: and the file these corners are in."
        fields.bad(fields.get("Cut out at"), "must stand with a Photo", fix=fix)
