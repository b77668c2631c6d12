"""The decisions of DEVELOPERS.md stay short, and name guards that exist."""

import re
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]
DECISIONS = (TOP / "DEVELOPERS.md").read_text("utf-8").split("\n## Decisions\n")[1]
ENTRIES = dict(
    entry.split("\n", 1)
    for entry in DECISIONS.split("\n## ")[0].split("\n### ")[1:]
)


def test_there_are_decisions():
    assert len(ENTRIES) > 30


@pytest.mark.parametrize("title", ENTRIES)
def test_a_decision_has_at_most_eight_lines_and_guards_that_exist(title):
    """As the page itself says of them."""
    lines = [line for line in ENTRIES[title].split("\n") if line.strip()]
    assert len(lines) <= 8 and max(map(len, lines)) <= 115
    guarded = ENTRIES[title].partition("**Guarded by**")[2]
    assert guarded.strip()
    for path in re.findall(r"`(tests/[^`]+)`", guarded):
        assert (TOP / path).exists(), path
