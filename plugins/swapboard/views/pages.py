"""What each kind of page shows, put together from the pieces in `types`."""

from dataclasses import dataclass
from datetime import date

from swapboard.records.types import Want
from swapboard.views.types import (
    CallTile,
    CardTile,
    Facet,
    LikedCard,
    Link,
    MakerTile,
    Moment,
    OfferTile,
    Picture,
    SwapTile,
    Writing,
)


@dataclass(frozen=True, slots=True)
class SeriesPlace:
    """A card of a series and its day there; `is_here` for the card whose page it is."""

    day: int | None
    tile: CardTile
    is_here: bool = False


@dataclass(frozen=True, slots=True)
class CardLiker:
    """Somebody who would like a card, and why; `both` says that they have a card that it
    could go for."""

    maker: Link
    both: bool
    reason: Want


@dataclass(frozen=True, slots=True)
class CardPage:
    """cards/NAME.html; `neighbours` are the card and those around it in its series.
    `likers` are the first of those who might swap for it, `more_likers` says that there
    are others, and `swaps_path` is the page where all of them are."""

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
    wants: tuple[Want, ...]
    offers: tuple[OfferTile, ...]
    others: tuple[CardTile, ...]
    neighbours: tuple[SeriesPlace, ...] = ()
    swaps: tuple[SwapTile, ...] = ()
    likers: tuple[CardLiker, ...] = ()
    more_likers: bool = False
    swaps_path: str = ""


@dataclass(frozen=True, slots=True)
class OfferPage:
    """offers/NAME.html; of an overtaken proposal the offer that overtook it, and the card
    that went with that one; in a round `parcels` are its other offers."""

    tile: OfferTile
    moments: tuple[Moment, ...]
    body: Writing
    overtaken_by: Link | None = None
    taken_card: Link | None = None
    parcels: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True)
class MakerPage:
    """makers/NAME.html"""

    tile: MakerTile
    body: Writing
    media: tuple[Link, ...]
    likes: tuple[Want, ...]
    rather_not: tuple[Want, ...]
    takes_up_to: int | None
    links: tuple[str, ...]
    cards: tuple[CardTile, ...]
    calls: tuple[Link, ...]
    offers: tuple[OfferTile, ...]
    feed: Link | None = None
    swaps_path: str = ""


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
    `number` of `pages`, the newest being the last. `offers` are the
    first of those that hold one of the cards and have not ended, `swaps` the first that are
    proposed with one of them; where there are more, that many more, all are at `…_path`."""

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
    swaps: tuple[SwapTile, ...] = ()
    more_swaps: int = 0
    swaps_path: str = ""
    more_offers: int = 0
    offers_path: str = ""


@dataclass(frozen=True, slots=True)
class CallList:
    """calls.html"""

    open: tuple[CallTile, ...]
    closed: tuple[CallTile, ...]
    feed: Link | None = None


@dataclass(frozen=True, slots=True)
class OfferList:
    """offers.html and its older pages: offers by what has become of them: "open",
    "agreed", "on their way", "complete", "ended"; groups without any are left out.
    Pages count from the oldest, as those of a `CardList` do; `about` and `name` are as
    there. `themes` and `media` are those whose own pages show an offer; their `count` says
    how many offers that is.
    `lines` has each offer's line of dates by its name."""

    offers: tuple[tuple[str, tuple[OfferTile, ...]], ...]
    themes: tuple[Facet, ...] = ()
    media: tuple[Facet, ...] = ()
    about: str = "all"
    name: str = ""
    number: int = 1
    newer: str = ""
    older: str = ""
    lines: tuple[tuple[str, tuple[Moment, ...]], ...] = ()


@dataclass(frozen=True, slots=True)
class Aim:
    """One aim that proposed swaps were chosen by, in its order: `code` is "moved",
    "rings", "liking", "parcels" or "fairness". `values` has its number, for fairness how
    many makers get one card, two cards and so on. `verdict` is "proven", "within" (of the
    best possible by `figure` percent), "at least" (`figure` is the least) or "unknown"."""

    code: str
    values: tuple[int, ...]
    verdict: str
    figure: str = ""


@dataclass(frozen=True, slots=True)
class SwapList:
    """A sheet of swaps.html, or of the swaps with cards of one theme or medium: what is
    proposed, by which aims, and who has a page of their own; the last two and the facets
    only on the first sheet of all. `about` and `name` are as in a `CardList`, `rings` is
    the most makers in one swap, `count` that of the swaps on all sheets; sheets count from
    the first. `makers_path` is the page of all makers where they are many. `late` says that
    the search ran out of time, so that another build might propose otherwise."""

    swaps: tuple[SwapTile, ...]
    aims: tuple[Aim, ...]
    rings: int
    makers: tuple[Link, ...]
    themes: tuple[Facet, ...] = ()
    media: tuple[Facet, ...] = ()
    about: str = "all"
    name: str = ""
    count: int = 0
    number: int = 1
    newer: str = ""
    older: str = ""
    makers_path: str = ""
    late: bool = False


@dataclass(frozen=True, slots=True)
class SwapMakers:
    """swaps.makers.html: everybody who has a page of swaps of their own."""

    makers: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class Writable:
    """Somebody worth writing to: a few of their cards to be liked (`gets`) and a few of
    the maker's that they would like (`gives`), and how many there are of each. `both`
    says that a card could go for a card."""

    maker: Link
    path: str
    both: bool
    gets: tuple[LikedCard, ...]
    gives: tuple[LikedCard, ...]
    gets_count: int
    gives_count: int


@dataclass(frozen=True, slots=True)
class MakerSwaps:
    """swaps/NAME.html: everyone worth writing to, the first with pictures, the others by
    name; `left_out` counts who is not even named."""

    maker: Link
    swaps: tuple[SwapTile, ...]
    worth_writing: tuple[Writable, ...]
    others: tuple[Writable, ...]
    left_out: int = 0


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
class ComposePage:
    """compose.html: an offer, or a sign-up for one of `calls`, (name, title, the day that
    sign-up opens or None where it has) each. `index` is the data it works on; `countries` are
    all there are, in the board's language."""

    index: str
    countries: tuple[str, ...]
    calls: tuple[tuple[str, str, date | None], ...] = ()


@dataclass(frozen=True, slots=True)
class NotFound:
    """404.html"""
