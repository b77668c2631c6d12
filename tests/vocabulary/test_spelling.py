"""A text as the name of a new file."""

import pytest

from swapboard.vocabulary import slug, stem_of


@pytest.mark.parametrize("text", ["a" * 300, "ж" * 300, "Night heron", "a-" * 60, "???"])
def test_a_stem_leaves_room_for_a_number(text):
    """At most 80 bytes, whole characters, no hyphen left over, and its own slug."""
    stem = stem_of(text)
    assert 0 < len(stem.encode()) <= 80
    assert slug(stem) == stem
