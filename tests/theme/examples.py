"""One example of every kind of page, and of all that stands on them."""

from datetime import date

from swapboard.views.call_pages import (
    CallPage,
    CallPerson,
    DealShown,
    DealtTo,
    EarlierShown,
    MovedCard,
    RepairShown,
    VerifyPage,
)
from swapboard.views.pages import (
    CallList,
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
    WrittenPage,
)
from swapboard.views.types import Link, Writing
from theme.pieces import (
    BIRDS,
    GUEST,
    INES,
    LINOCUT,
    NIGHT,
    TAM,
    WATERCOLOUR,
    board,
    call,
    card,
    cards,
    closed_call,
    facets,
    feed,
    maker,
    media,
    offer,
    offer_moments,
    picture,
    series,
    wide_maker,
)

__all__ = [
    "BIRDS", "GUEST", "INES", "LINOCUT", "NIGHT", "TAM", "WATERCOLOUR", "board", "call", "card",
    "cards", "closed_call", "facets", "feed", "maker", "media", "offer", "offer_moments",
    "picture", "series", "wide_maker", "card_list", "card_page", "call_page", "maker_page",
    "offer_list", "feeds_page", "pages",
]  # fmt: skip


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
            CallPerson(GUEST, 4, None, None, "will send late", 2, "mailed", date(2026, 12, 4)),
        ),
        guardian=True,
        two_places=True,
        by_maker=True,
        waiting=(CallPerson(TAM, 4, date(2026, 9, 30), None, ""),),
        deal=deal_shown(),
        gallery=cards()[:2],
        numbers=(7, 28, 3),
    )


def deal_shown() -> DealShown:
    """A deal that was given up once, dealt, mended and opened."""
    moves = (MovedCard(INES, 2, TAM, None), MovedCard(GUEST, 4, None, TAM))
    return DealShown(
        frozen=date(2026, 11, 20),
        dealt=date(2026, 11, 21),
        opened=date(2026, 12, 5),
        makers=7,
        cards=21,
        commitment="c0" * 32,
        list_sha256="11" * 32,
        value_name="the draw of 21 November",
        value="2.5.8./",
        method="counting",
        guarantee="All ways to deal were counted.",
        relaxed=("1 card comes from a maker met before: fewer is not possible.",),
        apart=2,
        told=1,
        repairs=(
            RepairShown(
                date(2026, 11, 23), "a parcel came late", 2, 3, ("One.",), "d1" * 32, moves
            ),
        ),
        earlier=(EarlierShown(date(2026, 11, 18), "e0" * 32, "two parcels came late"),),
        envelopes=(
            DealtTo(TAM, ((INES, 1, Link("Ember", "cards/heron.html")), (GUEST, 4, None))),
            DealtTo(GUEST, ((TAM, 0, None),)),
        ),
        verify="verify/small-lights.html",
    )


def verify_page() -> VerifyPage:
    """The page on which that deal is verified."""
    return VerifyPage(
        "Small lights", Link("Small lights", "calls/small-lights.html"), deal_shown(),
        "swapboard list 1\nmaker\t3\tines-okafor\n", "5e" * 32, "verify/small-lights.json",
        "verify/small-lights.js",
    )  # fmt: skip


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
        "verify/small-lights.html": ("verify.html", verify_page()),
        "offers.html": ("offers.html", offer_list()),
        "offers/heron-for-fern.html": (
            "offer.html", OfferPage(offer(), offer_moments(), Writing("Gladly."))),
        "makers.html": ("makers.html", MakerList((maker(), wide_maker()))),
        "makers/ines-okafor.html": ("maker.html", maker_page()),
        "feeds.html": ("feeds.html", feeds_page()),
        "pages/about.html": ("written.html", WrittenPage("About", Writing("All invented."))),
        "404.html": ("not-found.html", NotFound()),
    }  # fmt: skip
