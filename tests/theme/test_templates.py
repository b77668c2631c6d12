"""Every page and component of the theme, drawn from hand-made views."""

import re
from dataclasses import replace

import html5lib
import pytest

from swapboard.views.pages import HomePage
from swapboard.views.types import Link
from theme import examples
from theme.rendering import PAGES, classed, component, drawn, page, parsed, text

POLICY = (
    "default-src 'none'; img-src 'self'; style-src 'self'; script-src 'self'; connect-src 'self'; "
    "base-uri 'none'; form-action 'none'"
)


def fragment(html: str):
    """Part of a page, which must be free of parse errors."""
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    return parser.parseFragment(html, container="main")


def tile_html(tile) -> str:
    """A card as its tile shows it."""
    return component("card_tile(link, tile)", "card_tile", examples.board(), tile=tile)


def line_of(stops):
    """A line of dates."""
    html = component("moments(link, stops)", "moments", examples.board(), stops=stops)
    return fragment(html)


@pytest.mark.parametrize("path", PAGES)
def test_every_page_parses_without_an_error(path):
    """A strict HTML parser finds nothing to mend in any kind of page."""
    assert drawn(path).tag == "html"


@pytest.mark.parametrize("path", PAGES)
def test_every_page_has_its_landmarks_and_one_heading(path):
    """Each page says its language and direction, and has one h1, one main and a skip link."""
    tree = drawn(path)
    assert (tree.get("lang"), tree.get("dir")) == ("en", "ltr")
    assert [len(list(tree.iter(tag))) for tag in ("h1", "main", "header", "footer")] == [1, 1, 1, 1]
    first = next(tree.iter("a"))
    assert first.get("href") == "#" + next(tree.iter("main")).get("id")
    assert all(nav.get("aria-label") for nav in tree.iter("nav"))


@pytest.mark.parametrize("path", PAGES)
def test_headings_never_skip_a_level(path):
    """From one heading to the next, the level goes down by one step at most."""
    levels = [int(e.tag[1]) for e in drawn(path).iter() if re.fullmatch(r"h[1-6]", str(e.tag))]
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in zip(levels, levels[1:], strict=False))


@pytest.mark.parametrize("path", PAGES)
def test_the_policy_comes_first_and_nothing_is_inline(path):
    """The content security policy opens the head; no style, script or handler is inline."""
    tree = drawn(path)
    first = tree.find("head")[0]
    assert first.get("http-equiv") == "Content-Security-Policy"
    assert first.get("content") == POLICY
    for element in tree.iter():
        assert not [k for k in element.attrib if k.startswith("on") or k == "style"]
        assert element.tag not in ("style", "iframe", "object", "embed", "base")
        assert element.tag != "script" or (element.get("src") and not element.text)


@pytest.mark.parametrize("path", PAGES)
def test_every_picture_has_its_size_and_words(path):
    """Pictures carry width, height and alt; all but the first few wait until they are near."""
    tree = drawn(path)
    images = [i for i in tree.iter("img") if not i.get("src").endswith("icon.svg")]
    for image in images:
        assert int(image.get("width")) > 0 and int(image.get("height")) > 0
        assert image.get("alt") and image.get("decoding") == "async"
    waiting = [image.get("loading") == "lazy" for image in images]
    assert sum(not each for each in waiting) <= 4
    assert waiting == sorted(waiting)


@pytest.mark.parametrize("path", PAGES)
def test_ids_are_unique_and_labels_point_to_them(path):
    """No id occurs twice, and whatever is named as a label is on the page."""
    tree = drawn(path)
    ids = [e.get("id") for e in tree.iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    assert {e.get("aria-labelledby") for e in tree.iter()} - {None} <= set(ids)


_PATHS = (
    "path", "avif", "jpeg", "index", "newer", "older", "body", "verify", "proof", "script",
)  # fmt: skip


@pytest.mark.parametrize("path", PAGES)
def test_what_people_wrote_cannot_become_markup(path):
    """Names and titles full of markup stay text on every page."""
    template, view = PAGES[path]
    sharp = "<script>alert(1)</script>\"'><img src=x onerror=alert(1)>"

    def sharpened(value):
        if isinstance(value, tuple):
            return tuple(sharpened(each) for each in value)
        if hasattr(value, "__dataclass_fields__"):
            changed = {
                name: sharpened(getattr(value, name))
                for name in value.__dataclass_fields__
                if name not in _PATHS
            }
            return replace(value, **changed)
        kept = not isinstance(value, str) or value in ("all", "theme", "medium")
        return value if kept else sharp

    board = replace(examples.board(), name=sharp, about=sharp)
    tree = parsed(page(template, sharpened(view), board, path))
    ours = re.compile(r"(\.\./|/)*(theme/js/[a-z-]+|data/compose|verify/small-lights)\.js")
    assert not [s for s in tree.iter("script") if not ours.fullmatch(s.get("src", ""))]
    assert not [e for e in tree.iter() if "onerror" in e.attrib or e.get("src") == "x"]


def test_a_card_tile_shows_what_sets_it_apart():
    """State and edition stand on a tile only where they are not the usual ones."""
    plain, _, print_, taken = (fragment(tile_html(tile)) for tile in examples.cards()[:4])
    assert text(plain) == "Heron, waiting Ines Okafor"
    assert text(print_) == "Moth Ines Okafor Print 3/20 · Copies left: 4"
    assert text(taken) == "Fern Tam Brackwater Spoken for"


def test_a_card_lies_as_its_picture_does():
    """A picture wider than high makes a landscape tile; any other a portrait one."""
    shapes = [
        fragment(tile_html(tile))[0].get("class").split()[1] for tile in examples.cards()
    ]
    assert shapes == ["portrait", "landscape"] + ["portrait"] * 5


def test_a_doubtful_crop_is_shown_like_any_other():
    """The keeper is told of a doubtful crop elsewhere; visitors see the card."""
    tile = examples.card()
    doubtful = replace(tile, picture=replace(tile.picture, doubtful=True))
    assert tile_html(doubtful) == tile_html(tile)


def test_a_picture_offers_every_size_and_a_fallback():
    """Sources list each AVIF with its width, linked from the page they are on; the JPEG is last."""
    made = component(
        "picture(link, of, '50vw')", "picture", examples.board(), "cards/heron.html",
        of=examples.picture("heron", edge="torn"),
    )  # fmt: skip
    source, image = list(fragment(made)[0])
    assert source.get("srcset") == (
        "../pictures/heron-336.avif 240w, ../pictures/heron-672.avif 480w"
    )
    assert image.get("src") == "../pictures/heron.jpg"
    assert "card-face--torn" in image.get("class")


def test_a_picture_nobody_described_is_named_after_its_card():
    """On its own page a picture without alternative text goes by the card's title."""
    tile = examples.card()
    tree = drawn("cards/heron.html", tile=replace(tile, picture=replace(tile.picture, alt="")))
    assert next(tree.iter("img")).get("alt") == "The card “Heron, waiting”"


def test_swaps_say_where_the_time_for_searching_ran_out():
    """In words, and only where it did."""
    assert "time for searching ran out" in text(drawn("swaps.html"))
    assert "time for searching" not in text(drawn("swaps.html", late=False))


def test_the_line_of_dates_shows_where_a_swap_is():
    """The stretch behind a swap is drawn through, and a card lies on the one it is on."""
    call = line_of(examples.call().moments)
    stretches = [li.get("class").split()[-1].rpartition("--")[2] for li in call.iter("li")]
    assert stretches == ["travelled", "travelling", "ahead", "last"]
    here = [li for li in call.iter("li") if classed(li, "moments__here")]
    assert [text(li) for li in here] == ["Sign up by September 30, 2026"]
    offer = line_of(examples.offer_moments())
    assert text(list(offer.iter("li"))[-1]) == "Mailed by Tam Brackwater October 10, 2026 today"
    assert not classed(offer, "moments__here")


def test_the_sides_of_an_offer_face_each_other():
    """What one gives stands before the swap sign, what the other is asked for after it."""
    html = component(
        "offer_pair(link, tile)", "offer_tile", examples.board(), tile=examples.offer()
    )
    pair = fragment(html)[0]
    assert [child.tag.rpartition("}")[2] for child in pair] == ["div", "svg", "div"]
    assert text(pair[0]) == "Ines Okafor gives Heron, waiting Moth"
    assert text(pair[2]) == "Tam Brackwater is asked for Fern The last tram up the hill"


def test_a_card_page_says_all_that_is_known():
    """Facts stand as terms and values, wants as written, and what is unknown is left out."""
    tree = drawn("cards/heron.html")
    facts = {text(f.find("dt")): text(f.find("dd")) for f in classed(tree, "facts__fact")}
    assert facts == {
        "Kind": "Print 3/20",
        "Copies left": "2",
        "Medium": "linocut watercolour",
        "Made on": "card stock, 300 g/m²",
        "Panels": "3",
        "Theme": "birds night",
        "Series": "Marsh diary, day 4",
        "Made": "September 28, 2026",
        "Pinned up": "October 1, 2026",
    }
    bare = drawn("cards/heron.html", tile=examples.card(), back=None, date=None, made=None,
                 made_on="", themes=(), media=(), series="", day=None, wants=(), offers=(),
                 others=(), neighbours=(), swaps=(), likers=())  # fmt: skip
    assert [text(f.find("dt")) for f in classed(bare, "facts__fact")] == ["Kind"]
    assert [section.get("aria-labelledby") for section in bare.iter("section")] == ["how"]
    gone = drawn("cards/heron.html", tile=examples.card(state="traded"))
    assert "How to offer a swap" not in text(gone)


def test_a_call_page_says_who_is_in_it():
    """Everybody in a call has a row: cards, days, and by their name a note where they have one."""
    tree = drawn("calls/small-lights.html")
    rows = [[text(cell) for cell in row] for row in next(tree.iter("table")).iter("tr")]
    assert rows == [
        ["Maker", "Cards", "Signed up", "Arrived", "Way back"],
        ["Ines Okafor", "4", "September 4, 2026", "October 8, 2026", "–"],
        ["a guest from Oulu two places will send late", "4", "–", "not yet",
         "Mailed December 4, 2026"],
    ]


def test_an_unknown_code_is_shown_as_it_is():
    """A state that the templates have no word for is still on the page."""
    assert "on loan" in tile_html(replace(examples.card(), state="on loan"))


def test_pages_older_than_the_newest_show_only_what_never_changes():
    """An older sheet has its number and the way on, but no counts and no filter."""
    tree = drawn("cards.page-1.html")
    assert not list(tree.iter("details"))
    assert [s.get("src") for s in tree.iter("script")] == ["theme/js/hand.js"]
    assert text(classed(tree, "pagination")[0]) == "Newer cards Sheet 1"
    newest = drawn("cards.html")
    assert text(classed(newest, "pagination")[0]) == "Sheet 2 Older cards"
    assert [s.get("src") for s in newest.iter("script")] == [
        "theme/js/hand.js", "theme/js/filter.js",
    ]  # fmt: skip


def test_themes_and_media_are_linked_with_their_counts():
    """Without any script, each theme and medium is a link with its number of cards."""
    tree = drawn("themes/birds.html")
    links = [a for a in classed(tree, "filters__choice") if a.tag == "a"]
    assert [(text(a), a.get("href")) for a in links] == [
        ("birds 4", "../themes/birds.html"),
        ("night 1", "../themes/night.html"),
        ("fog 1", "../themes/fog.html"),
        ("linocut 3", "../media/linocut.html"),
    ]
    assert [a.get("aria-current") for a in links] == ["page", None, None, None]


def test_a_kind_of_page_that_is_not_built_is_not_linked():
    """A board without calls and offers leads nobody to them."""
    board = replace(examples.board(), sections=("cards", "makers"))
    view = HomePage("", (), (), (0, 0, 0, 0))
    tree = parsed(page("home.html", view, board, "index.html"))
    links = {a.get("href") for a in tree.iter("a")}
    assert {"cards.html", "makers.html"} <= links
    assert not {"calls.html", "offers.html"} & links
    tile = replace(examples.card(), path="", maker=Link("Ines Okafor"))
    assert "<a" not in tile_html(tile)


def test_the_page_one_is_on_is_marked():
    """In the main navigation a list marks itself, and a page within it its list."""
    def marked(path):
        nav = next(drawn(path).iter("nav"))
        return [(text(a), a.get("aria-current")) for a in nav.iter("a") if a.get("aria-current")]

    assert marked("cards.html") == [("Cards", "page")]
    for within in ("themes.html", "themes/birds.html", "cards.page-1.html"):
        assert marked(within) == [("Cards", "true")]
    assert marked("offers.page-1.html") == [("Offers", "true")]
    assert marked("404.html") == []
