"""board.toml: every key documented, everything wrong with it named."""

import tomllib
from dataclasses import fields

import pytest
from hypothesis import given
from hypothesis import strategies as st

from swapboard.settings import (
    SETTINGS,
    TABLES,
    BoardSettings,
    Settings,
    SwapSettings,
    Words,
    read_settings,
)
from swapboard.settings.text import settings_reference, starter_toml
from swapboard.settings.toml_lines import lines_of_keys


def test_every_key_is_documented_and_no_other():
    """The table of settings names exactly the fields of the dataclasses, with a sentence each."""
    documented = [(s.table, s.key) for s in SETTINGS if s.table]
    assert documented == [(name, f.name) for name, kind in TABLES.items() for f in fields(kind)]
    assert all(s.sentence.endswith(".") for s in SETTINGS)


def test_the_reference_shows_every_key_with_its_default():
    """The docs' table has a row for each key with its type and default."""
    rows = settings_reference().splitlines()
    assert len(rows) == 2 + len(SETTINGS)
    assert (
        "| `[swaps]` | `offer_days` | whole number, 1 to 3650 | `14` | "
        "An offer unanswered so many days expires. |" in rows
    )


@given(st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=40))
def test_a_new_boards_file_is_read_as_it_was_asked_for(name):
    """A new board.toml holds every key and reads back to the defaults and what was given."""
    text = starter_toml(name, "https://cards.example/b", "ines-okafor")
    board = BoardSettings(name=name, address="https://cards.example/b/", keeper="ines-okafor")
    assert read_settings(text) == (Settings(board=board), [])
    data = tomllib.loads(text)
    assert {k for s in SETTINGS for k in [s.key]} == {
        key for top, value in data.items() for key in (value if isinstance(value, dict) else [top])
    }


def test_all_values_are_read():
    """Numbers, lists and pairs come out typed, and a byte order mark is no matter."""
    text = (
        "\ufeffformat = 1\r\n[swaps]\r\noffer_days = 21\r\n[words]\r\n"
        'media = ["moss"]\r\nsame_as = { "peat" = "moss" }\r\n'
    )
    found, problems = read_settings(text)
    assert not problems
    assert found.swaps == SwapSettings(offer_days=21)
    assert found.words == Words(("moss",), (("peat", "moss"),))
    assert found.lines["words.same_as"] == 6


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("format = 2\nfuture = true",
         'board.toml:1: format: must be 1 (got "2"). '
         "Fix: this board was made for another version of the program: install that one."),
        ("[board]\nname = \n",
         'board.toml:2: must be readable as TOML (got "Invalid value"). '
         'Fix: look at this line: texts stand in quotes, like name = "My board".'),
        ("[board]\n\nnmae = 'x'",
         'board.toml:3: nmae: must be a key that the table [board] knows (got "nmae"). '
         'Fix: did you mean "name"?'),
        ("colour = 'red'",
         'board.toml:1: colour: must be a key that board.toml knows (got "colour"). Fix: take it '
         "out; board.toml knows board, format, lists, photos, swaps, words."),
        ("[borad]",
         'board.toml:1: borad: must be a key that board.toml knows (got "borad"). '
         'Fix: did you mean "board"?'),
        ("board = 3",
         'board.toml:1: board: must be a table (got "3"). '
         "Fix: write its keys below a line [board]."),
        ("[board]\nname = 3",
         'board.toml:2: name: must be a text (got "3"). Fix: write it in quotes: name = "…".'),
        ("[board]\nlanguage = 'english'",
         'board.toml:2: language: must be a language tag (got "english"). '
         'Fix: write a tag like "en", "en-US" or "de".'),
        ("[board]\ntime_zone = 'Europe/Viena'",
         'board.toml:2: time_zone: must be a time zone by its place (got "Europe/Viena"). '
         'Fix: did you mean "Europe/Vienna"?'),
        ("[board]\npaper = 'A5'",
         'board.toml:2: paper: must be "A4" or "Letter" (got "A5"). '
         'Fix: write paper = "A4" or paper = "Letter".'),
        ("[photos]\nlargest_megabytes = true",
         "board.toml:2: largest_megabytes: must be a whole number from 1 to 500 "
         '(got "True"). Fix: write largest_megabytes = 40, or leave the line out.'),
        ("[lists]\ncards_per_page = 0",
         "board.toml:2: cards_per_page: must be a whole number from 1 to 1000 "
         '(got "0"). Fix: write cards_per_page = 18, or leave the line out.'),
        ("[words]\nmedia = 'moss'",
         'board.toml:2: media: must be a list of texts (got "moss"). Fix: write media = '
         '["one", "another"], each at most 60 characters, no commas.'),
    ],
)  # fmt: skip
def test_each_bad_setting_is_named(text, message):
    """What board.toml may not hold is told with its line and a way to mend it."""
    assert [str(problem) for problem in read_settings(text)[1]] == [message]


@pytest.mark.parametrize(
    "address",
    [
        "ftp://cards.example/",
        "cards.example",
        "https://",
        "https://me@cards.example/",
        "https://cards.example/?a=1",
        "https://cards.example/#top",
        "https://cards.example/a b",
        "https://cards.example/../x",
        "https://cards.example//x",
        "javascript:alert(1)",
    ],
)
def test_an_address_is_a_plain_web_address(address):
    """Only http and https, with nothing after the folder, is an address."""
    found, problems = read_settings(f"[board]\naddress = '{address}'")
    assert [problem.field for problem in problems] == ["address"]
    assert found.board.address == ""


@pytest.mark.parametrize(
    "mail",
    ["ada", "ada@", "@board.example", "ada@board", "a b@board.example", "Ada <a@board.example>",
     "a@board.example?cc=b@board.example", "a@board.example, b@board.example", "mailto:a@b.example",
     "a@b.example\\r\\nBcc: c@d.example"],
)  # fmt: skip
def test_a_public_mail_address_is_one_address(mail):
    """Nothing that could mean more than one plain address is one."""
    found, problems = read_settings(f'[board]\nmail = "{mail}"')
    assert [problem.field for problem in problems] == ["mail"]
    assert found.board.mail == ""
    good, none = read_settings('[board]\nmail = " cards@board.example "')
    assert (good.board.mail, none) == ("cards@board.example", [])


def test_lines_are_found_past_many_line_texts():
    """A key named inside a text of many lines is not taken for a key."""
    text = '[board]\nabout = """\nname = 1\n[lists]\n"""\nname = "x"\n[words]\n"media" = []\n'
    assert lines_of_keys(text) == {
        "board": 1,
        "board.about": 2,
        "board.name": 6,
        "words": 7,
        "words.media": 8,
    }


tables = st.dictionaries(
    st.sampled_from(["board", "photos", "words", "format", "x"]),
    st.one_of(
        st.integers(-2, 60).map(str),
        st.sampled_from(['"a"', "[1]", "{ name = 1 }", '{ media = [""], same_as = { a = 1 } }']),
    ),
)


@given(st.one_of(st.text(), tables.map(lambda t: "\n".join(f"{k} = {v}" for k, v in t.items()))))
def test_any_text_is_read(text):
    """No text raises; it gives settings, and problems within its lines."""
    found, problems = read_settings(text)
    assert isinstance(found, Settings)
    assert all(0 <= problem.line <= text.count("\n") + 1 for problem in problems)


def test_very_deep_brackets_are_a_problem():
    """Brackets nested without end are named like any other unreadable text."""
    assert len(read_settings("a = " + "[" * 100_000)[1]) == 1
