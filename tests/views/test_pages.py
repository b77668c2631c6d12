"""What pages show of series, offers, themes and feeds follows from the board alone."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from swapboard.records.types import Board, Call, Card, Event, Maker, Offer
from swapboard.settings import Settings
from swapboard.views.calls import call_tile
from swapboard.views.cards import card_lists, card_page, facet_lists
from swapboard.views.feeds import feeds, feeds_page
from swapboard.views.home import home_page
from swapboard.views.offers import (
    OFFERS_PER_PAGE,
    OFFERS_WITH_CARDS,
    facet_offer_lists,
    offer_lists,
)
from swapboard.views.showing import SECTIONS, Showing
from swapboard.views.types import Picture

TODAY = date(2026, 10, 10)
PICTURE = Picture((), ("pictures/a-480.jpg", 480, 672), "")


def card(name, day=None, maker="ines", themes=("night",), series="Marsh diary", **changes):
    made = {"media": ("linocut",), "date": date(2026, 9, 1), "series": series, "day": day}
    return Card(name, f"cards/{name}.md", name.title(), maker, themes=themes, **(made | changes))


def offer(name, gives, asks, *what):
    events = tuple(Event(date(2026, 10, 5), word, by, 1) for word, by in what)
    return Offer(name, f"offers/{name}.md", name, "ines", "tam", (gives,), (asks,), events)


CARDS = {c.name: c for c in (
    card("fog", 3), card("reed", 1), card("owl", 2, themes=("birds", "night")), card("late"),
    card("moth", 4), card("tram", 5, maker="tam", themes=()), card("lone", series=""),
)}  # fmt: skip
OFFERS = {o.name: o for o in (
    offer("a", "fog", "tram", ("proposed", "")),
    offer("b", "owl", "tram", ("proposed", ""), ("declined", "")),
    offer("c", "reed", "tram", ("proposed", ""), ("withdrawn", "")),
)}  # fmt: skip
MAKERS = {n: Maker(n, f"makers/{n}.md", n.title()) for n in ("ines", "tam")}
CALLS = {"lights": Call(
    "lights", "calls/lights.md", "Lights", date(2026, 9, 1), host="ines", places=2,
    sign_up_by=date(2026, 10, 17), arrive_by=date(2026, 11, 20),
)}  # fmt: skip


@pytest.fixture
def showing():
    return shown()


def shown(sections=SECTIONS, pictures=(), today=TODAY):
    board = Board(CARDS, MAKERS, CALLS, OFFERS, {})
    return Showing(board, Settings(), {(n, "front"): PICTURE for n in pictures}, today, sections)


def test_neighbours_in_a_series_go_by_day(showing):
    """Two on either side, the card itself among them; cards without a day come last."""
    def days(name):
        return [(p.tile.name, p.day, p.is_here) for p in card_page(showing, name).neighbours]

    assert days("fog") == [("reed", 1, False), ("owl", 2, False), ("fog", 3, True),
                           ("moth", 4, False), ("tram", 5, False)]  # fmt: skip
    assert [name for name, _, _ in days("tram")] == ["fog", "moth", "tram", "late"]
    assert days("lone") == []


def test_offers_that_ended_without_a_swap_stand_together(showing):
    """Groups follow what a visitor looks for; the links count only offers still alive."""
    listed = dict(offer_lists(showing))["offers.html"]
    assert [(g, [t.name for t in tiles]) for g, tiles in listed.offers] == [
        ("open", ["a"]), ("ended", ["b", "c"]),
    ]  # fmt: skip
    assert [(f.text, f.path, f.count) for f in listed.themes] == [
        ("night", "themes/night.html", 1)
    ]


def many_offers(over):
    """Four sheets of offers, a day apart; those that `over` names by number were declined."""
    made = {}
    for n in range(4 * OFFERS_PER_PAGE):
        words = ("proposed", "declined") if n in over else ("proposed",)
        days = tuple(Event(date(2025, 1, 1) + timedelta(days=n), w, "", 1) for w in words)
        name = f"offer-{n:03}"
        made[name] = replace(offer(name, "fog", "tram"), events=days)
    board = Board(CARDS, MAKERS, CALLS, made, {})
    return dict(offer_lists(Showing(board, Settings(), {}, date(2025, 1, 2), SECTIONS)))


def test_offers_are_leafed_through_from_what_can_still_change():
    """Each offer stands on one page; those that can still change come before those that are
    over; pages lead to each other, and only the first has the links by theme and medium."""
    pages = many_offers(over=range(100))
    assert list(pages) == ["offers.html", "offers.page-3.html", "offers.page-2.html",
                           "offers.page-1.html"]  # fmt: skip
    states = [tile.state for view in pages.values() for _, tiles in view.offers for tile in tiles]
    assert states == ["proposed"] * 60 + ["declined"] * 100
    shown_once = {t.name for view in pages.values() for _, tiles in view.offers for t in tiles}
    assert len(shown_once) == len(states)
    assert [(v.newer, v.older) for v in pages.values()] == [
        ("", "offers.page-3.html"), ("offers.html", "offers.page-2.html"),
        ("offers.page-3.html", "offers.page-1.html"), ("offers.page-2.html", ""),
    ]  # fmt: skip
    assert [bool(v.themes) for v in pages.values()] == [True, False, False, False]


def test_an_offer_that_ends_leaves_older_pages_as_they_are():
    """Pages of offers that were over before hold the same when another one ends."""
    before, after = many_offers(over=range(100)), many_offers(over=range(101))
    same = [path for path in before if before[path] == after[path]]
    assert same == ["offers.page-2.html", "offers.page-1.html"]


def test_a_themes_page_shows_its_live_offers(showing):
    """Every link of the offers page leads to a page that shows such an offer, and no page of
    all cards shows any."""
    lists = dict(card_lists(showing))
    assert [t.name for t in lists["themes/night.html"].offers] == ["a"]
    assert lists["themes/birds.html"].offers == () == lists["cards.html"].offers
    listed = dict(offer_lists(showing))["offers.html"]
    for facet in (*listed.themes, *listed.media):
        assert len(lists[facet.path].offers) == facet.count


def test_a_theme_of_many_offers_has_a_list_of_them():
    """Its page shows the first and leads to the list, where all are, sheet after sheet; what
    has ended is in neither."""
    board = Board(CARDS, MAKERS, CALLS, {
        f"offer-{n:03}": replace(offer("a", "owl", "tram", ("proposed", ""), *(
            [("declined", "")] if n % 5 == 4 else [])), name=f"offer-{n:03}")
        for n in range(120)
    }, {})  # fmt: skip
    showing = Showing(board, Settings(), {}, TODAY, SECTIONS)
    lists = dict(offer_lists(showing)) | dict(facet_offer_lists(showing))
    cards = dict(card_lists(showing))
    told = {facet.text: (facet.path, facet.count) for facet in lists["offers.html"].themes}
    assert told["birds"] == ("themes/birds.offers.html", 96)
    sheets = [view for path, view in lists.items() if path.startswith("themes/birds.offers.")]
    tiles = [tile for view in sheets for _, group in view.offers for tile in group]
    assert len(sheets) == 2 and len({tile.name for tile in tiles}) == len(tiles) == 96
    assert (sheets[0].about, sheets[0].name, sheets[1].newer) == (
        "theme", "birds", "themes/birds.offers.html")
    page = cards["themes/birds.html"]
    assert (len(page.offers), page.more_offers, page.offers_path) == (
        OFFERS_WITH_CARDS, 96 - OFFERS_WITH_CARDS, "themes/birds.offers.html")


def test_each_theme_has_a_sample_of_its_own():
    """Where there are enough pictures no two themes show the same card."""
    themes = dict(facet_lists(shown(pictures=("owl", "fog"))))["themes.html"].facets
    assert [(f.text, f.count, f.sample.name) for f in themes] == [
        ("night", 6, "fog"), ("birds", 1, "owl"),
    ]  # fmt: skip
    alone = dict(facet_lists(shown(pictures=("owl",))))["themes.html"].facets
    assert [f.sample.name for f in alone] == ["owl", "owl"]


def test_days_left_are_counted_to_the_next_date(showing):
    """A call's next date, the days until it, and the stretch of its line that it is on."""
    tile = call_tile(showing, "lights")
    assert (tile.days_left, tile.counted_on, tile.places_left) == (7, TODAY, 2)
    assert [m.what for m in tile.stretch] == ["announced", "sign up by"]
    early = call_tile(shown(today=date(2026, 8, 1)), "lights")
    assert [m.what for m in early.stretch] == ["announced", "sign up by"]
    # On its first day one looks ahead, on the last day to sign up it is not over.
    first = call_tile(shown(today=tile.moments[0].on), "lights")
    assert first.next.what == "sign up by" and first.days_left > 0
    last = call_tile(shown(today=tile.next.on), "lights")
    assert (last.next.what, last.days_left) == ("sign up by", 0)
    over = call_tile(shown(today=date(2027, 1, 1)), "lights")
    assert (over.days_left, over.counted_on, over.stretch) == (None, None, ())
    assert replace(tile, places_taken=5).places_left == 0
    assert replace(tile, places=None).places_left is None


def test_every_feed_that_is_listed_or_linked_is_made(showing):
    """The feeds page lists each feed once, and pages point only to feeds that exist."""
    made = [feed.path for feed in feeds(showing)]
    page = feeds_page(showing)
    listed = [link.path for link in (page.board, *page.themes, *page.media, *page.makers)]
    assert sorted(listed) == sorted(made) and len(set(made)) == len(made)
    linked = {view.feed.path for _, view in card_lists(showing) if view.feed}
    assert linked | {home_page(showing).feed.path} <= set(made)


def test_without_feeds_no_page_points_to_one():
    """A site built without that plugin has no link to any feed."""
    bare = shown(SECTIONS - {"feeds"})
    assert home_page(bare).feed is None
    assert all(view.feed is None for _, view in card_lists(bare))
