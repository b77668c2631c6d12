"""A post taken apart into header and body."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from swapboard.records.header import Keys, read_header, write_post

KEYS = Keys(("Title", "Cut out at", "Wants"), {"status": "State"})
OFFER_KEYS = Keys(("From",), dated=True)


def said(text: str, keys: Keys = KEYS) -> list[str]:
    return [str(problem) for problem in read_header("cards/x.md", text, keys)[1]]


def test_keys_hold_spaces_and_any_case():
    """A key matches its canonical spelling whatever its case and inner spaces."""
    header, problems = read_header("cards/x.md", "cut  OUT at: 1 2\nTITLE:a: b\n\nText", KEYS)
    assert not problems
    assert {f.key: (f.value, f.line) for f in header.fields.values()} == {
        "Cut out at": ("1 2", 1),
        "Title": ("a: b", 2),
    }
    assert (header.body, header.body_line) == ("Text", 4)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_end_at_cr_and_lf_only(end):
    """Line numbers count CR, LF and CRLF, and a line separator in the body is no line."""
    text = end.join(["\ufeffTitle: a", "Wants: x", "    y", "", "one\u2028two", "three\x85four"])
    header, problems = read_header("cards/x.md", text, KEYS)
    assert not problems
    assert header.fields["wants"].value == "x\ny"
    assert header.body == "one\u2028two\nthree four"


def test_value_below_its_key_counts_from_its_own_line():
    """A value that starts on the line below its key is found on that line."""
    header, _ = read_header("cards/x.md", "Wants:\n    a\n\tb\n", KEYS)
    assert (header.fields["wants"].value, header.fields["wants"].line) == ("a\nb", 2)


def test_dated_lines_are_kept_in_order_with_or_without_colon():
    """Lines that begin with a date are read where the kind of post has them."""
    header, problems = read_header("o.md", "2026-09-28: agreed\n2026-9-1 lost\n\n", OFFER_KEYS)
    assert not problems
    assert [(f.key, f.value, f.line) for f in header.dated] == [
        ("2026-09-28", "agreed", 1),
        ("2026-9-1", "lost", 2),
    ]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "Titel: a",
            'cards/x.md:1: Titel: must be a key that this kind of post has (got "Titel"). '
            'Fix: did you mean "Title"?',
        ),
        (
            "Title: a\nStatus: b",
            'cards/x.md:2: Status: must be a key that this kind of post has (got "Status"). '
            'Fix: write "State" instead.',
        ),
        (
            "Title: a\ntitle: b",
            'cards/x.md:2: Title: must stand only once (got "b"). '
            "Fix: keep one of them; the first is on line 1.",
        ),
        (
            "---\nTitle: a\n---\n\nText",
            'cards/x.md:1: must begin with Key: value lines (got "---"). Fix: begin with a line '
            "like Title: Night heron, and end the lines with an empty one.",
        ),
        (
            "Title: a\n  b",
            'cards/x.md:2: must be a header line like Title: Night heron (got "  b"). Fix: put '
            "an empty line above it if the text begins here, or indent it by four spaces if it "
            "goes on with the line above.",
        ),
        (
            "\n\nTitle: a",
            'cards/x.md:3: Title: must stand on the first line (got "Title: a"). '
            "Fix: take out the empty lines above it.",
        ),
        (
            "Title: a\u202eb",
            'cards/x.md:1: Title: must hold no hidden control characters (got "U+202E"). '
            "Fix: type the line anew: it holds a character that cannot be seen.",
        ),
        (
            "Title: a\nWants: a\n    \x00",
            'cards/x.md:3: Wants: must hold no hidden control characters (got "U+0000"). '
            "Fix: type the line anew: it holds a character that cannot be seen.",
        ),
        (
            "Title: a\n\nok\n\x07",
            'cards/x.md:4: must hold no control characters (got "U+0007"). '
            "Fix: type the line anew: it holds a character that cannot be seen.",
        ),
        (
            "2026-09-28: agreed",
            'cards/x.md:1: 2026-09-28: must be a key, not a date (got "2026-09-28: agreed"). '
            "Fix: take the line out; only offers and calls have lines that begin with a date.",
        ),
    ],
)
def test_each_bad_header_is_named(text, message):
    """What a header may not hold is told with its line and a way to mend it."""
    assert said(text) == [message]


def test_a_paragraph_in_the_header_is_told_once():
    """Text without an empty line above it is one problem, not one a line."""
    assert len(said("Title: a\n" + "some words\n" * 30)) == 1


def test_sizes_are_capped():
    """Posts over 256 kB, body lines over 20,000 and header lines over 2,000 are refused."""
    assert "256 kB" in said("Title: a\n\n" + "é" * 131_073)[0]
    assert said("Title: a\n\n" + "*a" * 10_001)[0].startswith("cards/x.md:3: must be at most 20000")
    assert said("Title: " + "a" * 2000)[0].startswith("cards/x.md:1: must be at most 2000")
    assert not said("Title: a\n\n" + ("*a" * 10_000 + "\n") * 5)


@given(st.text())
def test_any_text_is_read(text):
    """No text raises, and each problem's line lies within it."""
    header, problems = read_header("cards/x.md", text, KEYS)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").count("\n") + 1
    assert all(0 <= problem.line <= lines for problem in problems)
    assert all(1 <= f.line <= lines for f in header.fields.values())


plain = st.text(
    st.characters(codec="utf-8", exclude_categories=["C", "Z", "M"]), min_size=1, max_size=20
).map(lambda text: unicodedata.normalize("NFC", text))
values = st.lists(plain, min_size=1, max_size=4).map("\n".join)


@given(st.dictionaries(st.sampled_from(KEYS.known), values), plain)
def test_what_is_written_is_read_again(fields, body):
    """Writing fields and a body and reading them gives the same fields and body."""
    header, problems = read_header("x.md", write_post(fields.items(), body), KEYS)
    if not fields:
        return
    assert not problems
    assert {f.key: f.value for f in header.fields.values()} == fields
    assert header.body == body
