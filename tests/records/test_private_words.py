"""Words that do not belong on a public page."""

import pytest

from swapboard.records.private_words import email_warning, private_in


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("write to ada.l+cards@mail.example", "an e-mail address"),
        ("+43 1 234 56 78", "a telephone number"),
        ("ring (020) 7946-0000 at night", "a telephone number"),
        ("lives at 12 Mill Lane", "a street address"),
        ("7b, Old Harbour Road", "a street address"),
        ("Lindenweg 12", "a street address"),
        ("Untere Hauptstr. 3a", "a street address"),
        ("rue de la Paix 7", "a street address"),
    ],
)
def test_private_words_are_found(text, what):
    """Addresses and telephone numbers are recognised by their common forms."""
    assert private_in(text) == what


@pytest.mark.parametrize(
    "text",
    [
        "",
        "Ines Okafor",
        "late, arrives 2026-10-12 or 2026-10-14",
        "2 square cards, 4 cards on the road",
        "came via post 3",
        "sends 4, receives 3 (2 linocuts)",
        "prints 3/20, 4/20 and 5/20",
        "@night",
    ],
)
def test_ordinary_notes_are_not(text):
    """Dates, counts and editions are not taken for something private."""
    assert private_in(text) is None


def test_the_warning_points_at_the_very_line():
    """The line of an address is counted from the first line of the text."""
    found = email_warning("pages/a.md", 3, "", "one\n\nme@mail.example")
    assert (found.line, found.got, found.severity) == (5, "me@mail.example", "warning")
