"""What each page shows, as plain frozen data: all that a template can see.

A page's fingerprint is the hash of its view, so a page can never be stale in
something it shows. Views carry codes and dates, never interface words: those
stand in the templates, marked for translation. `path` is always relative to
the site's root; templates turn it into a link with `link(path)`.
"""

from dataclasses import dataclass
from datetime import date

from swapboard.records.types import Want


@dataclass(frozen=True, slots=True)
class Link:
    """A page of this site and the name it goes by; `path` "" is plain text."""

    text: str
    path: str = ""


@dataclass(frozen=True, slots=True)
class Writing:
    """Markdown as written; templates show it with the filter `markdown`, which
    renders and sanitises it only when the page itself is rendered. `links` are
    the posts it points to that exist: (as written, path of the page)."""

    text: str
    links: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Picture:
    """A cut card in all its sizes: (path, width, height), smallest first."""

    avif: tuple[tuple[str, int, int], ...]
    jpeg: tuple[str, int, int]
    alt: str
    edge: str = "square"
    doubtful: bool = False


@dataclass(frozen=True, slots=True)
class CardTile:
    """A card as it stands in a list."""

    name: str
    path: str
    title: str
    maker: Link
    picture: Picture | None
    state: str
    edition: tuple[str, int | None, int | None] = ("original", None, None)
    copies_left: int = 1
    panels: int = 1


@dataclass(frozen=True, slots=True)
class Moment:
    """One stop on a line of dates: `what` is a code, `state` "past", "today" or "to come"."""

    what: str
    on: date
    state: str
    by: Link | None = None


@dataclass(frozen=True, slots=True)
class CallTile:
    """A call as it stands in a list. `phase` is a code, one of `call_phase.PHASES`;
    `marks` are "extended" and "run short". `days_left` to the next date are counted on
    the day `counted_on`, and are None where nothing is to come."""

    name: str
    path: str
    title: str
    theme: str
    host: Link
    by: str
    send: int
    receive: int
    places: int | None
    places_taken: int
    phase: str
    moments: tuple[Moment, ...]
    next: Moment | None
    days_left: int | None = None
    counted_on: date | None = None
    marks: tuple[str, ...] = ()

    @property
    def places_left(self) -> int | None:
        """How many may still sign up; None where the host set no limit."""
        return None if self.places is None else max(0, self.places - self.places_taken)

    @property
    def stretch(self) -> tuple[Moment, ...]:
        """The part of the line that the call is on: the stop behind it and the next, or
        the first two where all is to come."""
        if self.next is None:
            return ()
        at = self.moments.index(self.next)
        return self.moments[max(0, at - 1) : max(2, at + 1)]


@dataclass(frozen=True, slots=True)
class OfferTile:
    """An offer as it stands in a list; `themes` and `media` are those of all its cards. In a
    `round` of makers it is the parcel of one of them, and asks nothing."""

    name: str
    path: str
    title: str
    from_maker: Link
    to_maker: Link
    gives: tuple[CardTile, ...]
    asks: tuple[CardTile, ...]
    state: str
    latest: Moment | None
    themes: tuple[Link, ...] = ()
    media: tuple[Link, ...] = ()
    round: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True)
class LikedCard:
    """A card that somebody would like; `reason` is the want that it suits, with names as shown."""

    tile: CardTile
    reason: Want


@dataclass(frozen=True, slots=True)
class SwapParcel:
    """What one maker would mail to another, and why each card suits them."""

    giver: Link
    taker: Link
    cards: tuple[LikedCard, ...]


@dataclass(frozen=True, slots=True)
class SwapTile:
    """A proposed swap: two parcels, or a ring in which each maker mails to the next,
    `count` cards each. `themes` and `media` are those of all its cards."""

    parcels: tuple[SwapParcel, ...]
    count: int
    themes: tuple[Link, ...] = ()
    media: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True)
class MakerTile:
    """A maker as they stand in a list."""

    name: str
    path: str
    title: str
    country: str
    cards: int
    available: int
    sample: tuple[CardTile, ...]
    likes: tuple[Want, ...] = ()


@dataclass(frozen=True, slots=True)
class Facet:
    """One theme or medium: how many cards carry it, its own page, and one of its cards."""

    text: str
    path: str
    count: int
    sample: CardTile | None = None


@dataclass(frozen=True, slots=True)
class BoardView:
    """What every page shows of the board around it; `mail` is the keeper's public address."""

    name: str
    about: str
    address: str
    language: str
    direction: str
    pages: tuple[Link, ...]
    sections: tuple[str, ...] = (
        "cards", "calls", "offers", "makers", "swaps", "feeds", "compose"
    )
    mail: str = ""
    time_zone: str = "UTC"

    def page(self, name: str) -> Link | None:
        """One of the keeper's own pages by its file's name, where there is one."""
        return next((link for link in self.pages if link.path == f"pages/{name}.html"), None)
