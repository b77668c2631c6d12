"""What the pages say of calls, offers, series and feeds, and what they say of nothing."""

from dataclasses import replace

import pytest

from swapboard.views.types import Link
from theme import examples
from theme.rendering import PAGES, classed, drawn, page, parsed, text


def test_an_empty_board_says_so():
    """Lists with nothing in them say it in words."""
    cards = {"cards": (), "count": 0, "themes": (), "media": (), "older": ""}
    assert "No card has been pinned up yet." in text(drawn("cards.html", **cards))
    none = drawn("offers.html", offers=(), themes=(), media=())
    assert "Nobody has made an offer yet." in text(none)
    assert [s.get("src") for s in none.iter("script")] == ["theme/js/hand.js"]
    assert not list(none.iter("details"))
    assert "No call is open just now." in text(drawn("calls.html", open=(), closed=()))
    assert "Nobody is here yet." in text(drawn("makers.html", makers=()))
    assert "No card names a theme yet." in text(drawn("themes.html", facets=()))
    home = drawn("index.html", newest=(), calls=(), counts=(0, 0, 0, 0))
    assert "Nine pockets, and all of them free" in text(home)
    assert "When a host names a theme, its dates will run along here." in text(home)
    assert len(classed(home, "pocket-page__pocket")) == 9


def test_nine_pockets_hold_the_newest_cards():
    """The front page shows a leaf of nine; pockets that are free are there, but not spoken of."""
    pockets = classed(drawn("index.html"), "pocket-page__pocket")
    assert [p.get("aria-hidden") for p in pockets] == [None] * 7 + ["true"] * 2
    assert text(pockets[0]) == "Heron, waiting Ines Okafor"


def test_a_call_says_what_is_next_and_when_that_was_counted():
    """Days left stand beside the day on which they were counted; a closed call counts none."""
    said = text(drawn("index.html"))
    assert "Cards arrive by: 35 days left counted on October 10, 2026" in said
    home = drawn("index.html")
    stops = [text(li) for li in classed(home, "moments__stop")]
    assert stops == ["Sign up by September 30, 2026", "Cards arrive by November 14, 2026"]
    closed = drawn("calls.html", open=())
    assert "counted on" not in text(closed) and "Announced" in text(closed)


@pytest.mark.parametrize(
    "pages, said",
    [
        ((Link("About", "pages/about.html"),), "The page “About” says where to."),
        ((), "The keeper of this board passes it on."),
    ],
)
def test_where_to_write_is_said_by_the_keepers_page(pages, said):
    """A visitor is sent to the page "about" where the keeper has one."""
    template, view = PAGES["index.html"]
    board = replace(examples.board(), pages=pages)
    tree = parsed(page(template, view, board, "index.html"))
    assert said in text(tree)
    assert ("More in “House rules”" in text(tree)) is False


@pytest.mark.parametrize(
    "path, feed",
    [
        ("index.html", "feeds/board.xml"),
        ("cards.html", "feeds/board.xml"),
        ("cards.page-1.html", None),
        ("themes/birds.html", "../feeds/themes/birds.xml"),
        ("makers/ines-okafor.html", "../feeds/makers/ines-okafor.xml"),
        ("pages/about.html", None),
    ],
)
def test_a_page_that_has_a_feed_says_so_in_its_head(path, feed):
    """Feed readers find a page's feed by its alternate link (RFC 4287's type)."""
    links = [e for e in drawn(path).iter("link") if e.get("rel") == "alternate"]
    assert [e.get("href") for e in links] == ([feed] if feed else [])
    assert all(e.get("type") == "application/atom+xml" and e.get("title") for e in links)


def test_a_series_is_shown_by_day():
    """Each neighbour has its day where it has one; the card itself is marked among them."""
    tree = drawn("cards/heron.html")
    places = classed(tree, "series__place")
    assert [text(place) for place in places] == [
        "Day 3 The last tram up the hill", "Day 4 Heron, waiting", "Day 5 Moth",
        "No picture yet Not photographed yet",
    ]  # fmt: skip
    assert [a.get("aria-current") for a in classed(tree, "series__link")] == [
        None, "page", None, None
    ]


def test_offers_are_reached_by_what_became_of_them_and_by_theme():
    """Jump links lead to each group; themes and media to the offers on their own pages."""
    tree = drawn("offers.html")
    ids = {e.get("id") for e in tree.iter()}
    jumps = [a.get("href") for a in classed(tree, "jump")[0].iter("a")]
    assert jumps == ["#agreed", "#ended"] and {j[1:] for j in jumps} <= ids
    links = [a.get("href") for a in classed(tree, "filters__choice")]
    assert links == ["themes/birds.html#offers", "themes/night.html#offers",
                     "media/linocut.html#offers"]  # fmt: skip
    rows = [(li.get("data-theme"), li.get("data-medium")) for li in tree.iter("li")
            if "data-offer" in li.attrib]  # fmt: skip
    assert rows == [("birds night", "linocut")] * 2
    assert "offers" in {e.get("id") for e in drawn("themes/birds.html").iter()}
