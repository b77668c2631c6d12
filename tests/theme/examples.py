"""One example of every kind of page, and of all that stands on them."""

from dataclasses import replace
from datetime import date

from swapboard.records.types import Part, Want
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
    Aim,
    CallList,
    CardLiker,
    CardList,
    CardPage,
    ComposePage,
    FacetList,
    FeedsPage,
    HomePage,
    MakerList,
    MakerPage,
    MakerSwaps,
    NotFound,
    OfferList,
    OfferPage,
    SwapList,
    SwapMakers,
    Writable,
    WrittenPage,
)
from swapboard.views.types import Link, Writing
from theme.pieces import (
    ANYTHING,
    BIRDS,
    BIRDS_IN_LINOCUT,
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
    liked,
    maker,
    media,
    offer,
    offer_moments,
    picture,
    ring,
    series,
    swap,
    wide_maker,
)

__all__ = [
    "BIRDS", "GUEST", "INES", "LINOCUT", "NIGHT", "TAM", "WATERCOLOUR", "board", "call", "card",
    "cards", "closed_call", "facets", "feed", "maker", "media", "offer", "offer_moments",
    "picture", "series", "wide_maker", "card_list", "card_page", "call_page", "maker_page",
    "offer_list", "feeds_page", "swap_list", "maker_swaps", "ring", "swap", "compose_page",
    "pages",
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
        "swaps": () if about == "all" else (swap(),),
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
        wants=(BIRDS_IN_LINOCUT, ANYTHING),
        offers=(offer(),),
        others=cards()[1:4],
        neighbours=series(),
        swaps=(swap(), ring()),
        likers=(CardLiker(TAM, True, BIRDS_IN_LINOCUT), CardLiker(GUEST, False, ANYTHING)),
        more_likers=True,
        swaps_path="swaps/ines-okafor.html",
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
        likes=(BIRDS_IN_LINOCUT, Want("anything small", 2, understood=False)),
        rather_not=(Want("theme cats", 3, (Part("theme", ("cats",)),)),),
        takes_up_to=3,
        links=("https://ines.example/prints",),
        cards=cards()[:3],
        calls=(Link("Small lights", "calls/small-lights.html"),),
        offers=(offer(),),
        feed=Link("Ines Okafor", "feeds/makers/ines-okafor.xml"),
        swaps_path="swaps/ines-okafor.html",
    )


def offer_list() -> OfferList:
    """Offers in two of the five groups."""
    groups = (("agreed", (offer(),)), ("ended", (offer("old", "lost"),)))
    return OfferList(groups, facets()[:2], media())


def swap_list() -> SwapList:
    """A pair and a ring, chosen with every kind of verdict."""
    aims = (
        Aim("moved", (7,), "within", "0.4"), Aim("rings", (3,), "at least", "0"),
        Aim("liking", (15,), "proven"), Aim("parcels", (5,), "unknown"),
        Aim("fairness", (3, 2), "unknown"),
    )  # fmt: skip
    makers = (Link("Ines Okafor", "swaps/ines-okafor.html"),)
    birds, night = facets()[:2]
    themes = (replace(birds, path="themes/birds.swaps.html"),
              replace(night, path=f"{night.path}#swaps"))  # fmt: skip
    made = tuple(replace(each, path=f"{each.path}#swaps") for each in media())
    return SwapList((swap(), ring()), aims, 3, makers, themes, made, count=2, late=True)


def theme_swaps(**changes) -> SwapList:
    """The first sheet of the swaps of one theme, which lead on to a second."""
    themes = (replace(facets()[0], path="themes/birds.swaps.html"),)
    made = SwapList((swap(),), (), 3, (), themes, (), "theme", "birds", 50,
                    older="themes/birds.swaps.page-2.html")  # fmt: skip
    return replace(made, **changes)


def round_offer() -> OfferPage:
    """A parcel of a round: it asks nothing, and names its makers and the other parcels."""
    tile = replace(offer(), asks=(), round=(INES, TAM, GUEST))
    other = Link("Fern, in a round of three", "offers/heron-for-fern.html")
    return OfferPage(tile, offer_moments(), Writing(""), parcels=(other,))


def maker_swaps() -> MakerSwaps:
    """A maker with somebody to swap with, somebody who only has something, and others."""
    shown = cards()
    tam = Writable(TAM, "swaps/tam-brackwater.html", True, (liked(shown[1]),),
                   (liked(shown[0]), liked(shown[2])), 1, 4)  # fmt: skip
    far = Writable(TAM, "", False, (liked(shown[1]),), (liked(shown[0]),), 1, 1)
    guest = Writable(GUEST, "", False, (liked(shown[6]),), (), 1, 0)
    others = (Writable(TAM, "", True, (), (), 2, 1), Writable(GUEST, "", False, (), (), 1, 0))
    return MakerSwaps(INES, (swap(), ring()), (tam, far, guest), others, 3)


def older_offers() -> OfferList:
    """The oldest sheet of two: nothing leads on from it but what is newer."""
    return OfferList((("ended", (offer("old", "lost"),)),), number=1, newer="offers.html")


def feeds_page() -> FeedsPage:
    """Feeds of everything there is."""
    return FeedsPage(
        board=feed(),
        themes=(Link("birds", "feeds/themes/birds.xml"),),
        media=(Link("linocut", "feeds/media/linocut.xml"),),
        makers=(Link("Ines Okafor", "feeds/makers/ines-okafor.xml"),),
        feed=feed(),
    )


def compose_page() -> ComposePage:
    """The composer, with one call to sign up for and one that opens later."""
    calls = (("small-lights", "Small lights", None), ("frost", "Frost", date(2026, 11, 1)))
    return ComposePage("data/compose.js", ("Finland", "Ghana", "Portugal"), calls)


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
        "offers.page-1.html": ("offers.html", older_offers()),
        "themes/birds.offers.html": (
            "offers.html", replace(offer_list(), about="theme", name="birds",
                                   older="offers.page-1.html")),
        "offers/heron-for-fern.html": (
            "offer.html", OfferPage(offer(), offer_moments(), Writing("Gladly."))),
        "swaps.html": ("swaps.html", swap_list()),
        "themes/birds.swaps.html": ("swaps.html", theme_swaps()),
        "themes/birds.swaps.page-2.html": (
            "swaps.html", theme_swaps(newer="themes/birds.swaps.html", older="", themes=(),
                                      number=2)),
        "swaps.makers.html": ("swap_makers.html", SwapMakers((INES, TAM))),
        "offers/in-a-round.html": ("offer.html", round_offer()),
        "swaps/ines-okafor.html": ("maker_swaps.html", maker_swaps()),
        "makers.html": ("makers.html", MakerList((maker(), wide_maker()))),
        "makers/ines-okafor.html": ("maker.html", maker_page()),
        "feeds.html": ("feeds.html", feeds_page()),
        "pages/about.html": ("written.html", WrittenPage("About", Writing("All invented."))),
        "compose.html": ("compose.html", compose_page()),
        "404.html": ("not-found.html", NotFound()),
    }  # fmt: skip
