"""Wants read from short sentences."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from swapboard.records.types import Part
from swapboard.records.want import DEARLY, IF_NEED_BE, USUAL, parse_want
from swapboard.records.want_words import WantWords

WORDS = WantWords(
    {
        "theme": [(t, t) for t in ("birds", "black", "black and white", "cats", "Mill & river")],
        "medium": [("ink pen", "ink pen"), ("linocut", "linocut"), ("lino", "linocut")],
        "maker": [("ines-okafor", "ines-okafor"), ("Inés of the reeds", "ines-okafor")],
        "card": [("night-heron", "night-heron"), ("river-fox", "river-fox"), ("cats", "cats")],
    }
)
ANYTHING = Part("anything")


def theme(*names: str) -> Part:
    return Part("theme", names)


def medium(*names: str) -> Part:
    return Part("medium", names)


READABLE = [
    (
        "theme birds and medium linocut, up to 2, dearly",
        ((theme("birds"), medium("linocut")), (), 2, DEARLY),
    ),
    (
        "card night-heron or river-fox",
        ((Part("card", ("night-heron", "river-fox")),), (), 1, USUAL),
    ),
    (
        "maker ines-okafor but not theme cats",
        ((Part("maker", ("ines-okafor",)),), (theme("cats"),), 1, USUAL),
    ),
    ("anything", ((ANYTHING,), (), 1, USUAL)),
    ("birds, linocut, no cats", ((theme("birds"), medium("linocut")), (theme("cats"),), 1, USUAL)),
    ("BLACK and white, if need be", ((theme("black and white"),), (), 1, IF_NEED_BE)),
    ("theme black and medium ink pen", ((theme("black"), medium("ink pen")), (), 1, USUAL)),
    ("theme black and white or birds", ((theme("black and white", "birds"),), (), 1, USUAL)),
    ("theme birds or theme cats up to three", ((theme("birds", "cats"),), (), 3, USUAL)),
    ("Night Heron", ((Part("card", ("night-heron",)),), (), 1, USUAL)),
    ("inés of the Reeds", ((Part("maker", ("ines-okafor",)),), (), 1, USUAL)),
    ("lino", ((medium("linocut"),), (), 1, USUAL)),
    ("mill  river", ((theme("Mill & river"),), (), 1, USUAL)),
    ("theme sea dragons or birds", ((theme("sea dragons", "birds"),), (), 1, USUAL)),
    (
        "birds but not theme cats and not medium lino, dearly",
        ((theme("birds"),), (theme("cats"), medium("linocut")), 1, DEARLY),
    ),
    ("anything but cats", ((ANYTHING,), (theme("cats"),), 1, USUAL)),
    ("no cats", ((ANYTHING,), (theme("cats"),), 1, USUAL)),
    ("birds, no dogs, linocut", ((theme("birds"), medium("linocut")), (theme("dogs"),), 1, USUAL)),
    ("card cats", ((Part("card", ("cats",)),), (), 1, USUAL)),
    ("no cats or dogs", ((ANYTHING,), (theme("cats", "dogs"),), 1, USUAL)),
    ("dearly, birds.", ((theme("birds"),), (), 1, DEARLY)),
]


@pytest.mark.parametrize(("text", "meaning"), READABLE)
def test_a_sentence_means(text, meaning):
    """Each form of the grammar is read as the design says."""
    want = parse_want(text, 7, WORDS)
    assert want.understood
    assert (want.all_of, want.none_of, want.up_to, want.weight) == meaning
    assert want.line == 7


@pytest.mark.parametrize(
    "text",
    [
        "",
        ",",
        "dragons",
        "birds linocut",
        "birds or linocut",
        "theme birds or linocut",
        "birds or dragons",
        "medium moss",
        "maker nobody",
        "birds and",
        "theme",
        "theme or birds",
        "birds, up to",
        "birds, up to 0",
        "birds, up to 100",
        "birds, up to many",
        "birds but cats",
        "birds but not cats and linocut",
        "birds but not cats, linocut",
        "no cats and birds",
        "not anything",
        "if need",
        "birds " * 60,
    ],
)
def test_a_sentence_of_doubtful_meaning_is_not_understood(text):
    """What could mean two things, or nothing, keeps its text and takes no part."""
    want = parse_want(text, 3, WORDS)
    assert not want.understood
    assert want.text == " ".join(text.split())
    assert (want.all_of, want.none_of) == ((), ())


def test_an_example_can_be_read():
    """The example shown beside an unreadable want is itself a want of that board."""
    assert WORDS.example() == "theme Mill & river and medium ink pen, up to 2"
    for words in (WORDS, WantWords({})):
        assert parse_want(words.example(), 1, words).understood


GRAMMAR = """theme medium maker card anything and or but not no up to 2 dearly if need be , birds
black white linocut ink pen cats night-heron dragons"""
vocabulary = st.sampled_from(GRAMMAR.split())


@given(st.one_of(st.text(), st.lists(vocabulary, max_size=14).map(" ".join)))
def test_any_sentence_is_read(text):
    """No sentence raises, and what is understood names what is wanted."""
    want = parse_want(text, 1, WORDS)
    assert bool(want.all_of) == want.understood
    assert 1 <= want.up_to <= 99 and want.weight in (1, 2, 3)


@given(
    st.sampled_from(["birds", "black and white", "cats"]),
    st.sampled_from(["linocut", "ink pen"]),
    st.integers(1, 99),
    st.sampled_from([(", dearly", 3), ("", 2), (", if need be", 1)]),
)
def test_a_written_want_is_read_again(a_theme, a_medium, count, weight):
    """A want put together by the grammar means what it was put together from."""
    text = f"theme {a_theme} and medium {a_medium}, up to {count}{weight[0]}"
    want = parse_want(text, 1, WORDS)
    assert want.all_of == (theme(a_theme), medium(a_medium))
    assert (want.up_to, want.weight) == (count, weight[1])
