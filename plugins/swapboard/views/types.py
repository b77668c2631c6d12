"""What each page shows, as plain frozen data: all that a template can see.

A page's fingerprint is the hash of its view, so a page can never be stale in
something it shows. Views carry codes and dates, never interface words: those
stand in the templates, marked for translation. `path` is always relative to
the site's root; templates turn it into a link with `link(path)`.
"""

from dataclasses import dataclass
from datetime import date


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
class CardPage:
    """cards/NAME.html"""

    tile: CardTile
    back: Picture | None
    body: Writing
    date: date | None
    made: date | None
    made_on: str
    themes: tuple[Link, ...]
    media: tuple[Link, ...]
    series: str
    day: int | None
    wants: tuple[str, ...]
    offers: tuple["OfferTile", ...]
    others: tuple[CardTile, ...]


@dataclass(frozen=True, slots=True)
class CallTile:
    """A call as it stands in a list. `phase` is a code: "announced", "signing up",
    "making", "arriving", "mailing out", "closed"."""

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


@dataclass(frozen=True, slots=True)
class CallPerson:
    """Somebody in a call."""

    maker: Link
    cards: int
    signed_up: date | None
    arrived: date | None
    note: str


@dataclass(frozen=True, slots=True)
class CallPage:
    """calls/NAME.html"""

    tile: CallTile
    body: Writing
    place: str
    hour: str
    chosen_by: str
    host_takes_part: bool
    media: tuple[Link, ...]
    not_wanted: tuple[str, ...]
    must_have: tuple[str, ...]
    thickness: str
    countries: tuple[str, ...]
    return_postage: tuple[tuple[str, str], ...]
    adults_only: bool
    people: tuple[CallPerson, ...]


@dataclass(frozen=True, slots=True)
class OfferTile:
    """An offer as it stands in a list."""

    name: str
    path: str
    title: str
    from_maker: Link
    to_maker: Link
    gives: tuple[CardTile, ...]
    asks: tuple[CardTile, ...]
    state: str
    latest: Moment | None


@dataclass(frozen=True, slots=True)
class OfferPage:
    """offers/NAME.html"""

    tile: OfferTile
    moments: tuple[Moment, ...]
    body: Writing


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


@dataclass(frozen=True, slots=True)
class MakerPage:
    """makers/NAME.html"""

    tile: MakerTile
    body: Writing
    media: tuple[Link, ...]
    likes: tuple[str, ...]
    rather_not: tuple[str, ...]
    takes_up_to: int | None
    links: tuple[str, ...]
    cards: tuple[CardTile, ...]
    calls: tuple[Link, ...]
    offers: tuple[OfferTile, ...]


@dataclass(frozen=True, slots=True)
class Facet:
    """One theme or medium: how many cards carry it, and its own page."""

    text: str
    path: str
    count: int


@dataclass(frozen=True, slots=True)
class CardList:
    """A list of cards: cards.html, themes/NAME.html or media/NAME.html and
    their older pages. `about` is "all", "theme" or "medium"; `name` the theme
    or medium. Pages count from the oldest, so that a new card changes few:
    `number` of `pages`, the newest being the last."""

    about: str
    name: str
    cards: tuple[CardTile, ...]
    count: int
    number: int
    pages: int
    newer: str
    older: str
    themes: tuple[Facet, ...]
    media: tuple[Facet, ...]
    index: str


@dataclass(frozen=True, slots=True)
class CallList:
    """calls.html"""

    open: tuple[CallTile, ...]
    closed: tuple[CallTile, ...]


@dataclass(frozen=True, slots=True)
class OfferList:
    """offers.html"""

    offers: tuple[tuple[str, tuple[OfferTile, ...]], ...]


@dataclass(frozen=True, slots=True)
class MakerList:
    """makers.html"""

    makers: tuple[MakerTile, ...]


@dataclass(frozen=True, slots=True)
class HomePage:
    """index.html"""

    about: str
    calls: tuple[CallTile, ...]
    newest: tuple[CardTile, ...]
    counts: tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class WrittenPage:
    """pages/NAME.html"""

    title: str
    body: Writing


@dataclass(frozen=True, slots=True)
class NotFound:
    """404.html"""


@dataclass(frozen=True, slots=True)
class BoardView:
    """What every page shows of the board around it."""

    name: str
    about: str
    address: str
    language: str
    direction: str
    pages: tuple[Link, ...]
    sections: tuple[str, ...] = ("cards", "calls", "offers", "makers")
