"""One example of every piece that pages show: hand-made, invented throughout."""

from dataclasses import replace
from datetime import date

from swapboard.records.types import Part, Want
from swapboard.views.pages import SeriesPlace
from swapboard.views.types import (
    BoardView,
    CallTile,
    CardTile,
    Facet,
    LikedCard,
    Link,
    MakerTile,
    Moment,
    OfferTile,
    Picture,
    SwapParcel,
    SwapTile,
)

INES = Link("Ines Okafor", "makers/ines-okafor.html")
TAM = Link("Tam Brackwater", "makers/tam-brackwater.html")
GUEST = Link("a guest from Oulu")
BIRDS, NIGHT = Link("birds", "themes/birds.html"), Link("night", "themes/night.html")
LINOCUT = Link("linocut", "media/linocut.html")
WATERCOLOUR = Link("watercolour", "media/watercolour.html")


def board(direction: str = "ltr", language: str = "en") -> BoardView:
    """The board around every page."""
    return BoardView(
        name="The Tidewrack Board",
        about="Small works from four kitchen tables, to be swapped by post.",
        address="https://board.example/",
        language=language,
        direction=direction,
        pages=(Link("About", "pages/about.html"), Link("House rules", "pages/house-rules.html")),
    )


def picture(name: str, landscape: bool = False, edge: str = "square", alt: str = "") -> Picture:
    """A cut card in two AVIF sizes and a JPEG."""
    sizes = [(240, 336), (480, 672)]
    turned = [(high, wide) if landscape else (wide, high) for wide, high in sizes]
    return Picture(
        avif=tuple((f"pictures/{name}-{max(size)}.avif", *size) for size in turned),
        jpeg=(f"pictures/{name}.jpg", *turned[-1]),
        alt=alt or f"What can be seen on {name}",
        edge=edge,
    )


def card(
    name: str = "heron", title: str = "Heron, waiting", maker: Link = INES, **changes
) -> CardTile:
    """An available original with a picture, unless `changes` say otherwise."""
    made = {"picture": picture(name), "state": "available"} | changes
    return CardTile(name=name, path=f"cards/{name}.html", title=title, maker=maker, **made)


def cards() -> tuple[CardTile, ...]:
    """Cards of every kind: each state, shape, edge and edition, and one without a picture."""
    return (
        card(),
        card("night-tram", "The last tram up the hill", TAM, picture=picture("tram", True)),
        card("moth", "Moth", edition=("print", 3, 20), copies_left=4),
        card("fern", "Fern", TAM, state="spoken for", picture=picture("fern", edge="torn")),
        card("moon", "Moon", state="traded", picture=picture("moon", edge="rounded")),
        card("kettle", "Kettle", GUEST, state="keeping", edition=("set", 2, 7)),
        card("plain", "Not photographed yet", TAM, picture=None, edition=("print", None, None)),
    )


def offer(name: str = "heron-for-fern", state: str = "agreed") -> OfferTile:
    """Two cards for two."""
    return OfferTile(
        name=name,
        path=f"offers/{name}.html",
        title="Heron and moth for fern and tram",
        from_maker=INES,
        to_maker=TAM,
        gives=(cards()[0], cards()[2]),
        asks=(cards()[3], cards()[1]),
        state=state,
        latest=offer_moments()[1],
        themes=(BIRDS, NIGHT),
        media=(LINOCUT, Link("watercolour")),
    )


def swap() -> SwapTile:
    """Two cards for two that the board proposes."""
    shown = cards()
    return SwapTile(
        (
            SwapParcel(INES, TAM, (liked(shown[0]), liked(shown[2], ANYTHING))),
            SwapParcel(TAM, INES, (liked(shown[1]), liked(shown[6]))),
        ),
        2, (BIRDS, NIGHT), (LINOCUT, WATERCOLOUR),
    )  # fmt: skip


def ring() -> SwapTile:
    """A card each round three makers, one of whom has no page."""
    shown = cards()
    return SwapTile((
        SwapParcel(INES, TAM, (liked(shown[0]),)),
        SwapParcel(TAM, GUEST, (liked(shown[1]),)),
        SwapParcel(GUEST, INES, (liked(shown[6]),)),
    ), 1, (BIRDS,), ())  # fmt: skip


BIRDS_IN_LINOCUT = Want(
    "theme birds and medium linocut, up to 2, dearly", 1,
    (Part("theme", ("birds",)), Part("medium", ("linocut",))), up_to=2, weight=3,
)  # fmt: skip
ANYTHING = Want("anything", 1, (Part("anything"),))


def liked(tile: CardTile, reason: Want = BIRDS_IN_LINOCUT) -> LikedCard:
    """A card with the want that it suits."""
    return LikedCard(tile, reason)


def offer_moments() -> tuple[Moment, ...]:
    """An offer that is on its way, with its last stop on the day itself."""
    return (
        Moment("proposed", date(2026, 9, 20), "past"),
        Moment("agreed", date(2026, 9, 28), "past"),
        Moment("mailed", date(2026, 10, 2), "past", INES),
        Moment("mailed", date(2026, 10, 10), "today", TAM),
    )


def call(name: str = "small-lights", phase: str = "making") -> CallTile:
    """A call between two of its dates."""
    moments = (
        Moment("announced", date(2026, 9, 1), "past"),
        Moment("sign up by", date(2026, 9, 30), "past"),
        Moment("arrive by", date(2026, 11, 14), "to come"),
        Moment("mail out by", date(2026, 11, 28), "to come"),
    )
    return CallTile(
        name=name,
        path=f"calls/{name}.html",
        title="Small lights",
        theme="lamps, embers, windows",
        host=TAM,
        by="post",
        send=4,
        receive=3,
        places=12,
        places_taken=7,
        phase=phase,
        moments=moments,
        next=moments[2],
        days_left=35,
        counted_on=date(2026, 10, 10),
    )


def closed_call() -> CallTile:
    """A call that is over: nothing is next, and nothing is counted."""
    past = tuple(replace(moment, state="past") for moment in call().moments)
    return replace(call("old", "closed"), moments=past, next=None, days_left=None, counted_on=None)


def maker(name: str = "ines-okafor") -> MakerTile:
    """A maker with a hand of three."""
    return MakerTile(
        name, f"makers/{name}.html", "Ines Okafor", "Portugal", 7, 5, cards()[:3],
        (BIRDS_IN_LINOCUT, ANYTHING),
    )  # fmt: skip


def wide_maker() -> MakerTile:
    """A maker whose hand is as wide as a hand can be: three cards on their sides."""
    return replace(maker("tam-brackwater"), title="Tam Brackwater", sample=(cards()[1],) * 3)


def facets() -> tuple[Facet, ...]:
    """Three themes: with an upright card, with one that lies, with one not photographed."""
    return (
        Facet("birds", "themes/birds.html", 4, cards()[0]),
        Facet("night", "themes/night.html", 1, cards()[1]),
        Facet("fog", "themes/fog.html", 1, cards()[6]),
    )


def media() -> tuple[Facet, ...]:
    """One medium."""
    return (Facet("linocut", "media/linocut.html", 3, cards()[2]),)


def feed() -> Link:
    """The board's feed."""
    return Link("The Tidewrack Board", "feeds/board.xml")


def series() -> tuple[SeriesPlace, ...]:
    """Three days of a series, the card's own in the middle, and a card without a day."""
    shown = cards()
    return (
        SeriesPlace(3, shown[1]), SeriesPlace(4, shown[0], True), SeriesPlace(5, shown[2]),
        SeriesPlace(None, shown[6]),
    )  # fmt: skip
