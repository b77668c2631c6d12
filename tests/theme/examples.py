"""One example of everything the theme can show: hand-made views, invented throughout."""

from dataclasses import replace
from datetime import date

from swapboard.views.pages import (
    CallList,
    CallPage,
    CallPerson,
    CardList,
    CardPage,
    FacetList,
    FeedsPage,
    HomePage,
    MakerList,
    MakerPage,
    NotFound,
    OfferList,
    OfferPage,
    SeriesPlace,
    WrittenPage,
)
from swapboard.views.types import (
    BoardView,
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
        ("theme birds", "medium embroidery, dearly"),
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


def card_list(about: str = "all", **changes) -> CardList:
    """The newest sheet of a list of cards."""
    made = {
        "about": about,
        "name": "" if about == "all" else "birds",
        "cards": cards(),
        "count": 7,
        "number": 2,
        "pages": 2,
        "newer": "",
        "older": "cards.page-1.html",
        "themes": facets(),
        "media": media(),
        "index": "data/cards.js",
        "offers": () if about == "all" else (offer(),),
        "feed": feed() if about == "all" else Link("birds", "feeds/themes/birds.xml"),
    }
    return CardList(**(made | changes))


def card_page() -> CardPage:
    """A card with everything said of it."""
    return CardPage(
        tile=card(edition=("print", 3, 20), copies_left=2, panels=3),
        back=picture("heron-back"),
        body=Writing("Cut on the kitchen table.\n\nThe reeds took *three* tries."),
        date=date(2026, 10, 1),
        made=date(2026, 9, 28),
        made_on="card stock, 300 g/m²",
        themes=(BIRDS, NIGHT),
        media=(LINOCUT, Link("watercolour")),
        series="Marsh diary",
        day=4,
        wants=("theme birds and medium linocut, up to 2, dearly", "anything"),
        offers=(offer(),),
        others=cards()[1:4],
        neighbours=series(),
    )


def call_page() -> CallPage:
    """A call with every rule set."""
    return CallPage(
        tile=call(),
        body=Writing("A lamp, an ember, a window across the street."),
        place="the reading room, Saltby",
        hour="14:30",
        chosen_by="host",
        host_takes_part=True,
        media=(LINOCUT, WATERCOLOUR),
        not_wanted=("anything wet",),
        must_have=("name on the back",),
        thickness="up to 2 mm",
        countries=("Portugal", "Finland"),
        return_postage=(("Finland", "two stamps"), ("", "or coins")),
        adults_only=True,
        people=(
            CallPerson(INES, 4, date(2026, 9, 4), date(2026, 10, 8), ""),
            CallPerson(GUEST, 4, None, None, "will send late"),
        ),
    )


def maker_page() -> MakerPage:
    """A maker with everything said of them."""
    return MakerPage(
        tile=maker(),
        body=Writing("I print on what the tide leaves."),
        media=(LINOCUT,),
        likes=("theme birds", "anything small"),
        rather_not=("theme cats",),
        takes_up_to=3,
        links=("https://ines.example/prints",),
        cards=cards()[:3],
        calls=(Link("Small lights", "calls/small-lights.html"),),
        offers=(offer(),),
        feed=Link("Ines Okafor", "feeds/makers/ines-okafor.xml"),
    )


def offer_list() -> OfferList:
    """Offers in two of the five groups."""
    groups = (("agreed", (offer(),)), ("ended", (offer("old", "lost"),)))
    return OfferList(groups, facets()[:2], media())


def feeds_page() -> FeedsPage:
    """Feeds of everything there is."""
    return FeedsPage(
        board=feed(),
        themes=(Link("birds", "feeds/themes/birds.xml"),),
        media=(Link("linocut", "feeds/media/linocut.xml"),),
        makers=(Link("Ines Okafor", "feeds/makers/ines-okafor.xml"),),
        feed=feed(),
    )


def pages() -> dict[str, tuple[str, object]]:
    """Every kind of page: path → (template, view)."""
    older = {"count": 0, "number": 1, "pages": 0, "newer": "cards.html", "older": "",
             "themes": (), "media": (), "index": "", "feed": None}  # fmt: skip
    home = HomePage("Small works.", (call(),), cards(), (7, 2, 1, 1), feed())
    return {
        "index.html": ("home.html", home),
        "cards.html": ("cards.html", card_list()),
        "cards.page-1.html": ("cards.html", card_list(**older)),
        "themes/birds.html": ("cards.html", card_list("theme", older="")),
        "media/linocut.html": ("cards.html", card_list("medium", older="")),
        "themes.html": ("facets.html", FacetList("theme", facets())),
        "media.html": ("facets.html", FacetList("medium", media())),
        "cards/heron.html": ("card.html", card_page()),
        "calls.html": ("calls.html", CallList((call(),), (closed_call(),), feed())),
        "calls/small-lights.html": ("call.html", call_page()),
        "offers.html": ("offers.html", offer_list()),
        "offers/heron-for-fern.html": (
            "offer.html", OfferPage(offer(), offer_moments(), Writing("Gladly."))),
        "makers.html": ("makers.html", MakerList((maker(), wide_maker()))),
        "makers/ines-okafor.html": ("maker.html", maker_page()),
        "feeds.html": ("feeds.html", feeds_page()),
        "pages/about.html": ("written.html", WrittenPage("About", Writing("All invented."))),
        "404.html": ("not-found.html", NotFound()),
    }  # fmt: skip
