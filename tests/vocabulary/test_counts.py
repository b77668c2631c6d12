"""One of a thing is told as one."""

from swapboard.vocabulary.counts import counted


def test_a_count_is_told_in_the_right_number():
    """One card, and two or no cards; a word may have a plural of its own."""
    assert [counted(n, "card") for n in (0, 1, 2)] == ["0 cards", "1 card", "2 cards"]
    assert counted(1, "person", "people") == "1 person"
    assert counted(2, "person", "people") == "2 people"
