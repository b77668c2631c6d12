"""What each kind of page shows, put together from the pieces in `types`."""

from dataclasses import dataclass
from datetime import date

from swapboard.views.types import (
    CallTile,
    CardTile,
    Facet,
    Link,
    MakerTile,
    Moment,
    OfferTile,
    Picture,
    Writing,
)


@dataclass(frozen=True, slots=True)
class SeriesPlace:
    """A card of a series and its day there; `is_here` for the card whose page it is."""

    day: int | None
    tile: CardTile
    is_here: bool = False


@dataclass(frozen=True, slots=True)
class CardPage:
    """cards/NAME.html; `neighbours` are the card and those around it in its series."""

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
    offers: tuple[OfferTile, ...]
    others: tuple[CardTile, ...]
    neighbours: tuple[SeriesPlace, ...] = ()


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
class OfferPage:
    """offers/NAME.html"""

    tile: OfferTile
    moments: tuple[Moment, ...]
    body: Writing


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
    feed: Link | None = None


@dataclass(frozen=True, slots=True)
class FacetList:
    """themes.html and media.html; `about` is "theme" or "medium"."""

    about: str
    facets: tuple[Facet, ...]


@dataclass(frozen=True, slots=True)
class CardList:
    """A list of cards: cards.html, themes/NAME.html or media/NAME.html and
    their older pages. `about` is "all", "theme" or "medium"; `name` the theme
    or medium. Pages count from the oldest, so that a new card changes few:
    `number` of `pages`, the newest being the last. `offers` are those that hold
    one of the cards and have not ended."""

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
    offers: tuple[OfferTile, ...] = ()
    feed: Link | None = None


@dataclass(frozen=True, slots=True)
class CallList:
    """calls.html"""

    open: tuple[CallTile, ...]
    closed: tuple[CallTile, ...]
    feed: Link | None = None


@dataclass(frozen=True, slots=True)
class OfferList:
    """offers.html: offers by what has become of them: "open", "agreed", "on their way",
    "complete", "ended"; groups without any are left out. `themes` and `media` are
    those whose own pages show an offer; `count` says how many offers that is."""

    offers: tuple[tuple[str, tuple[OfferTile, ...]], ...]
    themes: tuple[Facet, ...] = ()
    media: tuple[Facet, ...] = ()


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
    feed: Link | None = None


@dataclass(frozen=True, slots=True)
class FeedsPage:
    """feeds.html: the feed of the whole board, those of each theme, medium and maker, and
    the calendar of all calls."""

    board: Link
    themes: tuple[Link, ...]
    media: tuple[Link, ...]
    makers: tuple[Link, ...]
    feed: Link | None = None
    calendar: Link | None = None


@dataclass(frozen=True, slots=True)
class WrittenPage:
    """pages/NAME.html"""

    title: str
    body: Writing


@dataclass(frozen=True, slots=True)
class NotFound:
    """404.html"""
