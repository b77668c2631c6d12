"""Feeds are Atom as RFC 4287 has it, and the same every time."""

import xml.etree.ElementTree as ET
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from swapboard.facets.feeds import Feed, FeedEntry, atom
from swapboard.views.types import Picture

ATOM = "{http://www.w3.org/2005/Atom}"  # RFC 4287, section 2
PICTURE = Picture((), ("pictures/moth-480.jpg", 480, 672), 'A "moth" & more')
ENTRY = FeedEntry("cards/moth é.html", "Moth", "Ines", date(2026, 9, 28), ("night",), PICTURE)


def read(feed, address="https://swap.example/b/"):
    return ET.fromstring(atom(feed, address, "en"))


def made(*entries):
    return Feed("feeds/themes/night.xml", "themes/night.html", "Board: night", entries)


def test_a_feed_has_all_that_the_standard_asks_for():
    """RFC 4287, 4.1.1 and 4.1.2: id, title, updated, author, and a link from each entry."""
    root = read(made(ENTRY))
    assert root.tag == f"{ATOM}feed"
    entry = root.find(f"{ATOM}entry")
    for element in (root, entry):
        for name in ("id", "title", "updated"):
            assert len(element.findall(f"{ATOM}{name}")) == 1
    assert root.find(f"{ATOM}author/{ATOM}name").text
    links = {link.get("rel"): link.get("href") for link in root.findall(f"{ATOM}link")}
    assert links["self"] == "https://swap.example/b/feeds/themes/night.xml"
    assert links["alternate"] == "https://swap.example/b/themes/night.html"
    assert entry.find(f"{ATOM}link").get("href") == "https://swap.example/b/cards/moth%20%C3%A9.html"


def test_days_are_written_as_rfc_3339_has_it():
    """The day's first moment, in UTC."""
    assert read(made(ENTRY)).find(f"{ATOM}updated").text in (
        "2026-09-28T00:00:00Z", "2026-09-28T00:00:00+00:00"
    )


def test_an_identity_outlives_titles_and_pictures():
    """RFC 4287, 4.2.6: an id never changes; RFC 4151: a tag URI of the host."""
    other = FeedEntry(ENTRY.path, "Another title", "Tom", date(2027, 1, 1))
    first, second = (read(made(e)).find(f"{ATOM}entry/{ATOM}id").text for e in (ENTRY, other))
    assert first == second == "tag:swap.example,2026:/b/cards/moth%20%C3%A9.html"


def test_without_an_address_links_are_relative():
    """A board that has no home yet still has feeds that lead to its pages."""
    entry = read(made(ENTRY), "").find(f"{ATOM}entry")
    assert entry.find(f"{ATOM}link").get("href") == "../../cards/moth%20%C3%A9.html"
    assert entry.find(f"{ATOM}id").text.startswith("urn:uuid:")


def test_a_picture_is_shown_with_its_words():
    """The content is HTML with the picture, its size and its alternative text."""
    content = read(made(ENTRY)).find(f"{ATOM}entry/{ATOM}content")
    assert content.get("type") == "html"
    assert 'alt="A &quot;moth&quot; &amp; more"' in content.text
    assert 'src="https://swap.example/b/pictures/moth-480.jpg"' in content.text


@pytest.mark.parametrize("on", [None, date(1900, 1, 1)])
def test_a_card_without_a_day_is_in_the_feed_all_the_same(on):
    """Nothing depends on the moment of the build."""
    feed = made(FeedEntry("cards/a.html", "A", "Ines", on))
    assert atom(feed, "", "en") == atom(feed, "", "en")
    assert read(feed).find(f"{ATOM}entry/{ATOM}title").text == "A"


def test_a_feed_without_entries_does_not_depend_on_the_clock():
    """A maker without cards has a feed too, the same in every build."""
    assert "1970-01-01T00:00:00" in atom(made(), "", "en")


@given(st.text(alphabet=st.characters(exclude_categories=["Cs"])))
def test_any_title_makes_a_feed_that_can_be_read(title):
    """Markup and control characters in a title never break the document."""
    entry = FeedEntry("cards/a.html", title, title, None, (title,), None)
    assert read(made(entry)).find(f"{ATOM}entry") is not None
