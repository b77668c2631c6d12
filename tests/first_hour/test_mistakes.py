"""What goes wrong in a first hour is answered with what to do."""

import pytest

from swapboard.problems import WARNING
from swapboard.records.board import read_board
from swapboard.records.fields import date_fix

BOARD = {
    "board.toml": 'format = 1\n[board]\nkeeper = "ines"\n',
    "makers/ines.md": "Name: Ines\n",
}
PHOTOS = {"heron.jpeg", "first-card.jpg"}


def fixes(text, path="cards/heron.md"):
    """The places and fixes of what is wrong with a board that has this file."""
    _, _, problems = read_board({**BOARD, path: text}, PHOTOS)
    return {f"{problem.line}: {problem.fix}" for problem in problems}


@pytest.mark.parametrize(
    ("text", "fix"),
    [
        ("Title: A\nPhoto: ~/Pictures/moth.jpg\n",
         "2: put the picture into photos/ and write moth.jpg; swapboard add card does both."),
        ("Title: A\nPhoto: C:\\Users\\me\\moth.jpg\n",
         "2: put the picture into photos/ and write moth.jpg; swapboard add card does both."),
        ("Title: A\nPhoto: photos/heron.jpeg\n", "2: write heron.jpeg."),
        ("Title: A\nPhoto: heron.jpg\n",
         "2: write heron.jpeg: the ending is part of the name."),
        ("Title: A\nPhoto: HERON.JPEG\n",
         "2: write heron.jpeg: that file exists, and names are case sensitive."),
        ("Title: A\nPhoto: “heron.jpeg”\n", "2: write heron.jpeg."),
        ("Title: A\nThemes: birds\nI drew it in the rain.\n",
         "3: put an empty line above it if the text begins here, or indent it by four spaces if "
         "it goes on with the line above."),
        ("Title: A\nThemes=birds\n", "2: write it with a plain colon: Themes: birds"),
        ("Title: A\nThemes; birds\n", "2: write it with a plain colon: Themes: birds"),
        ("Title: A\n\nThemes: birds\n", "3: take out the empty line above it."),
        ("Title: A\nThemes： birds\n", "2: write it with a plain colon: Themes: birds"),
        ("\tTitle: A\n", "1: take out the spaces or the tab before it."),
        ("Title: A\nCopies left 3\n", "2: put a colon after the key: Copies left: 3"),
        ("# Heron\n",
         "1: begin with a line like Title: Night heron; the text comes after an empty line."),
        ("Title: A\nMade: 28.9.2026\n", "2: write 2026-09-28."),
        ("Title: A\nThemes: ‘birds’\n", "2: write birds without quotes."),
    ],
)
def test_a_first_mistake_is_answered_with_what_to_do(text, fix):
    """The fix is what to write, not what the program would like in general."""
    assert fix in fixes(text)


def test_prose_with_a_colon_is_seen_to_be_prose():
    """Where the empty line is missing, a sentence with a colon is not just an unknown key."""
    (fix,) = fixes("Title: A\nThemes: birds\nI drew it: in the rain.\n")
    assert fix.startswith("3: put an empty line above it if the text begins here, or take it out")


def test_one_misspelt_title_is_one_message():
    """That the card has no title goes without saying then."""
    assert fixes("Titel: Heron\n") == {'1: did you mean "Title"?'}


def test_an_offers_word_without_its_day_is_given_one():
    """What happened stands on a line that begins with its day."""
    text = "From: ines\nTo: ines\nGives: a\nAsks: b\n2026-09-28: proposed\nagreed\n"
    wanted = "6: begin it with its day if it says what happened, like 2026-09-28: agreed"
    assert wanted in fixes(text, "offers/a-for-b.md")


def test_text_that_only_looks_like_a_key_is_left_alone():
    """A text may begin with any word and a colon; only a key that the header lacks is told of."""
    assert fixes("Title: A\n\nNote: it is small.\n") == set()
    assert fixes("Title: A\nMedia: ink\n\nMedia: ink, and a lot of it.\n") == set()


def test_a_space_in_a_file_name_is_answered_with_a_name():
    """The fix names the file as it could be called."""
    assert "0: rename the file to night-heron.md." in fixes("Title: A\n", "cards/night heron.md")


def test_curly_quotes_in_the_settings_are_seen():
    """An editor's own quotes in board.toml are what the fix is about."""
    (problem,) = read_board({**BOARD, "board.toml": "format = 1\n[board]\nname = “A”\n"}, ())[2]
    assert problem.line == 3 and problem.fix.startswith("use straight quotes")


def test_quotes_round_a_theme_do_not_stop_a_build():
    """They may be meant: a warning is enough."""
    _, _, problems = read_board({**BOARD, "cards/a.md": "Title: A\nThemes: “night”\n"}, ())
    assert {problem.severity for problem in problems} == {WARNING}


@pytest.mark.parametrize(
    ("written", "day"),
    [
        ("28.9.2026", "2026-09-28"), ("28. 9. 2026", "2026-09-28"), ("3.4.2026", "2026-04-03"),
        ("9/28/2026", "2026-09-28"), ("28/9/2026", "2026-09-28"), ("5/5/2026", "2026-05-05"),
        ("2026/9/8", "2026-09-08"), ("2026-9-8", "2026-09-08"), ("2026.09.28", "2026-09-28"),
        ("28 September 2026", "2026-09-28"), ("Sept 28th, 2026", "2026-09-28"),
    ],
)
def test_a_date_beyond_doubt_is_written_out(written, day):
    """A day that can be read one way only stands in the fix as it has to be."""
    assert date_fix(written) == f"write {day}."


@pytest.mark.parametrize("written", ["3/4/2026", "last week", "31.2.2026", "2026", "28 Foo 2026"])
def test_a_date_in_doubt_is_not_guessed(written):
    """Where two days or none could be meant, only the form is told."""
    assert "year, month and day" in date_fix(written)
