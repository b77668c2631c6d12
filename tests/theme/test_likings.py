"""What makers like, read from their sentences and said in words on pages."""

import pytest

from swapboard.records.types import Board, Card, Maker
from swapboard.records.want import parse_want
from swapboard.records.want_words import WantWords
from swapboard.views.likings import liking
from theme import examples
from theme.rendering import component

WORDS = WantWords({
    "theme": [(name, name) for name in ("birds", "boats", "night")],
    "medium": [(name, name) for name in ("linocut", "felt")],
    "maker": [("tom-varga", "tom-varga"), ("ines", "ines")],
    "card": [("night-heron", "night-heron")],
})
BOARD = Board(
    {"night-heron": Card("night-heron", "cards/night-heron.md", "Night <heron>", "ines")},
    {"tom-varga": Maker("tom-varga", "makers/tom-varga.md", "Tom Varga")}, {}, {}, {},
)  # fmt: skip

SAID = [
    ("theme birds", "birds"),
    ("theme birds or boats, dearly", "birds or boats, dearly"),
    ("medium linocut and theme birds", "birds in linocut"),
    ("theme birds and theme night", "birds and night"),
    ("medium linocut and medium felt", "linocut and felt"),
    ("theme birds and medium linocut and medium felt", "birds in linocut and felt"),
    ("medium linocut or felt, if need be", "linocut or felt, if need be"),
    ("maker tom-varga but not theme boats, dearly", "cards by Tom Varga, but not boats, dearly"),
    ("theme birds and maker tom-varga or ines", "birds by Tom Varga or ines"),
    ("anything but not maker tom-varga", "anything, but not by Tom Varga"),
    ("anything but not theme boats or birds", "anything, but not boats or birds"),
    ("card night-heron", "the card Night &lt;heron&gt;"),
    ("anything, up to 3", "anything, up to 3 cards"),
]


@pytest.mark.parametrize("written, said", SAID)
def test_a_liking_is_said_in_words(written, said):
    """Titles in place of file names, no word of the post's own grammar, marks escaped."""
    want = liking(BOARD, parse_want(written, 1, WORDS))
    assert component("liking(want, true)", "liking", examples.board(), want=want) == said


def test_why_a_card_suits_does_not_count():
    """How many of a kind somebody takes is no reason for one card."""
    for written, said in (
        ("theme birds, up to 2", "likes birds"), ("anything, dearly", "dearly likes anything"),
        ("anything but not theme boats, if need be", "takes anything, but not boats, if need be"),
    ):  # fmt: skip
        want = liking(BOARD, parse_want(written, 1, WORDS))
        assert component("why(want)", "liking", examples.board(), want=want) == said


def test_a_card_that_is_not_shown_is_named_as_its_admirer_did():
    """Its post was left out: no file name of it comes onto a page."""
    words = WantWords({"card": [("fern", "fern-2")]})
    want = liking(BOARD, parse_want("card fern", 1, words))
    assert component("liking(want)", "liking", examples.board(), want=want) == "card fern"
    assert component("why(want)", "liking", examples.board(), want=want) == "likes: card fern"


def test_a_sentence_that_was_not_understood_stays_as_written():
    """Nothing is lost of what a maker wrote in words of their own."""
    want = liking(BOARD, parse_want("whatever <makes> me smile", 1, WORDS))
    said = component("liking(want, true)", "liking", examples.board(), want=want)
    assert said == "whatever &lt;makes&gt; me smile"
