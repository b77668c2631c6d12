"""A whole board read at once."""

import random

from hypothesis import given, settings
from hypothesis import strategies as st
from sample_board import GOOD, PHOTOS, changed, messages, read_with

from swapboard.problems import in_order
from swapboard.records.board import read_board
from swapboard.records.call import CALL_KEYS
from swapboard.records.card import CARD_KEYS
from swapboard.records.maker import MAKER_KEYS
from swapboard.records.offer import OFFER_KEYS
from swapboard.records.types import Corners, Edge, Kind, PhotoSpot


def test_every_field_is_read():
    """The good board's posts come out as typed records."""
    board, problems = read_with({})
    assert problems == []
    heron, moth = board.cards["night-heron"], board.cards["moth"]
    assert (heron.kind, heron.copies_left) == (Kind("print", 3, 20), 2)
    assert (heron.maker, heron.title, heron.lines["body"]) == ("ines-okafor", "Night heron", 10)
    assert (moth.photo, moth.edge) == (PhotoSpot("table.jpg", (0.41, 0.22)), Edge.TORN)
    assert (moth.title, moth.themes) == ("Moth", ("Moths",))
    ines = board.makers["ines-okafor"]
    assert (ines.country, ines.media, ines.takes_up_to) == (
        "Portugal",
        ("linocut", "watercolour"),
        6,
    )
    call = board.calls["small-lights"]
    assert call.return_postage == (
        ("Germany", "two international reply stamps"),
        ("United States", "none"),
    )
    assert [(p.maker, p.line) for p in call.people] == [("ines-okafor", 2), ("A guest", 3)]


def test_dates_default_to_when_a_card_was_made():
    """A card without Date is dated by Made, or not at all."""
    cards = {"cards/a.md": "Title: a\nMade: 2026-08-01\n", "cards/b.md": "Title: b\n"}
    board, _ = read_with(cards)
    assert str(board.cards["a"].date) == "2026-08-01"
    assert board.cards["b"].date is None


def test_corners_are_pixels_or_shares():
    """A keeper's own corners are kept in pixels, or with % as shares of the picture."""
    both = {
        "cards/a.md": "Photo: heron.jpg\nCut out at: 412 230, 1288 244, 1301 1470, 398 1455\n",
        "cards/b.md": "Photo: moth.png\nCut out at: -1% 10%, 90% 10.5%, 90% 90%, 10% 90%\n",
    }
    board, problems = read_with(both)
    assert not problems
    assert board.cards["a"].cut_out_at == Corners(
        ((412.0, 230.0), (1288.0, 244.0), (1301.0, 1470.0), (398.0, 1455.0)), False
    )
    assert board.cards["b"].cut_out_at.points[1] == (0.9, 0.105)


def test_the_first_spelling_of_a_theme_is_shown():
    """Themes that differ in case alone are one, spelt as in the first file."""
    board, problems = read_with({"cards/zebra.md": "Title: Zebra\nThemes: BIRDS, night\n"})
    assert not problems
    assert board.cards["zebra"].themes == ("birds", "night")


def test_american_boards_have_american_media():
    """Media are spelt in the language of the board."""
    board, _ = read_with(changed("board.toml", "[board]\n", '[board]\nlanguage = "en-US"\n'))
    assert board.makers["ines-okafor"].media == ("linocut", "watercolor")


def test_names_are_nfc_and_pictures_are_found_in_either_form():
    """A picture whose name is decomposed on disk is found by its composed name."""
    texts = GOOD | {"cards/he\u0301ron.md": "Photo: he\u0301ron.jpg\n"}
    board, _, problems = read_board(texts, {*PHOTOS, "he\u0301ron.jpg"})
    assert not problems
    assert board.cards["h\xe9ron"].photo == PhotoSpot("he\u0301ron.jpg")


def test_a_want_that_cannot_be_read_is_shown_an_example():
    """An unreadable want is a warning with an example in the board's own words."""
    assert messages({"cards/a.md": "Title: a\nWants: something blue-ish perhaps\n"}) == [
        "cards/a.md:2: Wants: cannot be read as a want, so it takes no part in matching "
        '(got "something blue-ish perhaps"). '
        "Fix: write it like this: theme Moths and medium acrylic, up to 2."
    ]


def test_rather_not_lists_dislikes_one_by_one():
    """Under "Rather not" commas part the dislikes, and "no" changes nothing."""
    makers = {"makers/ada.md": "Rather not: cats, no birds\n    medium felt\n"}
    board, problems = read_with(makers)
    assert not problems
    assert [
        (w.text, w.all_of[0].kind, w.all_of[0].names) for w in board.makers["ada"].rather_not
    ] == [
        ("cats", "theme", ("cats",)),
        ("no birds", "theme", ("birds",)),
        ("medium felt", "medium", ("felt",)),
    ]


@given(st.randoms(use_true_random=False))
@settings(deadline=None, max_examples=10)
def test_the_order_of_reading_does_not_matter(order: random.Random):
    """Any order of files gives the same board, in the same order, and the same problems."""
    bad = {"cards/bad.md": "Titel: x\nThemes: BIRDS\n", "offers/bad.md": "Asks: moth\n"}
    paths = [*GOOD, *bad]
    order.shuffle(paths)
    photos = sorted(PHOTOS)
    order.shuffle(photos)
    mixed = read_board({path: (GOOD | bad)[path] for path in paths}, photos)
    straight = read_board(GOOD | bad, sorted(PHOTOS))
    assert mixed == straight
    assert repr(mixed) == repr(straight)
    assert mixed[2] == in_order(mixed[2])


KEYS = [*CARD_KEYS.known, *OFFER_KEYS.known, *CALL_KEYS.known, *MAKER_KEYS.known, "2026-09-28"]
VALUES = """moth, fern|night-heron|1/0|print 3/20|print 99999/1|0|-1|٣|4|2026-02-29|2026-09-28|
proposed|agreed|lost|mailed by|mailed by tom-varga|table.jpg at 1% 1%|a% at b%|..|/|traded|keeping|
1 1, 2 1, 2 2, 1 2|0 0, 0 0, 0 0, 0 0|birds, no|but not|up to|http://[|https://a:b/|Germany: x|:|
in person"""
values = st.one_of(st.text(max_size=30), st.sampled_from(VALUES.replace("\n", "").split("|")))
posts = st.one_of(
    st.text(max_size=60),
    st.lists(st.tuples(st.sampled_from(KEYS), values), max_size=6).map(
        lambda pairs: "\n".join(f"{key}: {value}" for key, value in pairs)
    ),
)
files = st.dictionaries(
    st.one_of(
        st.sampled_from([*GOOD, "cards/x.md", "offers/x.md", "calls/x.md", "calls/x.people.csv"]),
        st.text(max_size=12),
    ),
    posts,
    max_size=4,
)


@settings(deadline=None, max_examples=150)
@given(files)
def test_no_texts_raise(changes):
    """Whatever the files hold, reading gives a board and problems within the files."""
    texts = GOOD | changes
    _, _, problems = read_board(texts, PHOTOS)
    for problem in problems:
        text = texts.get(problem.path, "")
        lines = text.replace("\r\n", "\n").replace("\r", "\n").count("\n") + 1
        assert problem.line <= lines
        assert str(problem) and problem.fix


def test_a_misspelt_want_is_shown_the_word_and_an_example():
    """A word that is nearly a name is named beside the example."""
    said = messages({"cards/a.md": "Title: a\nWants: maker ines-okafor and medium linocutt\n"})
    assert said[0].endswith(
        'Fix: did you mean "linocut"? Otherwise write it like this: '
        "theme Moths and medium acrylic, up to 2."
    )
