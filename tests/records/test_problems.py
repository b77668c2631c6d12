"""Problems as people read them."""

from hypothesis import given
from hypothesis import strategies as st

from swapboard.problems import WARNING, Problem, Suggestions, did_you_mean, errors, in_order

BAD = Problem("cards/a.md", 4, "Made", "must be a date", "last\nweek" + "!" * 90, "write one.")


def test_a_problem_is_one_line():
    """Where, what, what was found and what to do stand on one line, cut where it is long."""
    assert str(BAD) == f'cards/a.md:4: Made: must be a date (got "last week{"!" * 70}…"). ' + (
        "Fix: write one."
    )
    assert str(Problem("x.md", 0, "", "must be there", None, "add it.")) == (
        "x.md: must be there. Fix: add it."
    )


def test_errors_come_first_and_each_once():
    """Problems are sorted by weight, file and line, and a repeated one is told once."""
    warning = Problem("a.md", 1, "", "should", None, "do.", WARNING)
    later = Problem("cards/a.md", 10, "", "must", None, "do.")
    assert in_order([warning, later, BAD, BAD]) == [BAD, later, warning]
    assert errors([warning, BAD]) == [BAD]


def test_the_closest_word_is_meant():
    """The nearest word is named whatever its case; equally near ones by the alphabet."""
    assert did_you_mean("HERRON", ["heron", "moth"]) == 'did you mean "heron"?'
    assert did_you_mean("bat", ["cat", "bad"]) == 'did you mean "bad"?'
    assert did_you_mean("zzz", ["heron", "moth"]) == ""


@given(st.text(max_size=8), st.lists(st.text(max_size=8), max_size=8))
def test_the_order_of_known_words_does_not_matter(word, known):
    """The same words in any order give the same suggestion."""
    assert did_you_mean(word, known) == did_you_mean(word, known[::-1])


def test_suggestions_stop_after_many_words():
    """Past its limit a list is asked nothing new, but what it said stays said."""
    known = Suggestions(["heron"], most=1)
    assert known.near("herron") == 'did you mean "heron"?'
    for number in range(9):
        assert known.near(f"hero{number}") == 'did you mean "heron"?'
    assert known.near("hero") == ""
    assert known.near("Herron") == 'did you mean "heron"?'
