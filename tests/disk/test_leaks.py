"""Private fields are found however they are written, and chance is not a leak."""

import pytest

from swapboard.disk.leaks import LeakScan, fingerprint, private_fields

TABLE = """maker,name,street,postcode,town,country,phone,e-mail
ines,Ines O.,12 Lärchenweg,6020,Innsbruck,Austria,+43 512 555 0123,ines@example.org
tom,Tom B.,Flat 3 - 7 Quay Street,AB12 3CD,Portmere,United Kingdom,020 7946 0018,
"""


@pytest.fixture
def fields(tmp_path):
    (tmp_path / "private").mkdir()
    (tmp_path / "private" / "addresses.csv").write_text(TABLE, "utf-8")
    found, problems = private_fields(tmp_path)
    assert problems == []
    return found


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("<p>Write to 12 Lärchenweg</p>", "street"),
        ("<p>12 LARCHENWEG</p>", "street"),
        ("<p>12&nbsp;L&auml;rchen<b>weg</b></p>", "street"),
        ("<p>12<br>Lärchenweg</p>", "street"),
        ('<img alt="12, Lärchenweg">', "street"),
        ("flat 3, 7 quay street", "street"),
        ("<p>AB12 3CD</p>", "postcode"),
        ("<p>ab12-3cd</p>", "postcode"),
        ("<p>6020 Innsbruck</p>", "postcode"),
        ("<p>call 0043 (512) 555-0123</p>", "phone"),
        ("<p>0512 5550123</p>", "phone"),
        ("<p>tel. 020 7946 0018</p>", "phone"),
        ('<a href="mailto:INES@example.org">', "e-mail"),
        ("ines&#64;example.org", "e-mail"),
        ("ines@<wbr>example.org", "e-mail"),
        ("ines (at) example.org", "e-mail"),
        ("<p>Ines(AT)example(DOT)org</p>", "e-mail"),
        ("<p>ines [at] example [dot] org</p>", "e-mail"),
        ("ines &lt;at&gt; example.org", "e-mail"),
        ("ines <b>at</b> example.org", "e-mail"),
        ("write to ines&nbsp;at example dot org, please", "e-mail"),
        ("ines@example dot org", "e-mail"),
    ],
)
def test_a_private_field_is_found(fields, text, kind):
    """Case, accents, spacing and HTML do not hide it."""
    assert kind in {field.kind for field in LeakScan(fields).found_in(text)}


@pytest.mark.parametrize(
    "text",
    [
        "<p>Made in Innsbruck, Austria, by Ines O.</p>",
        "<p>6020 cards were swapped</p>",
        "<p>12 larches on the way</p>",
        "<p>Quay Street at night, 3 of 7</p>",
        "<p>555 0123</p>",
        "<p>2026-10-10, 480 672, 123456789012345678</p>",
        "Ines at example. Org charts are dull.",
        "<p>We met Ines (at Example, org.): she was early.</p>",
        "Ines is at example.org, or at home. Look at the dot at the edge.",
        "<td>Ines</td><td>at</td><td>Example</td>",
    ],
)
def test_public_words_are_no_leak(fields, text):
    """Names, towns, dates and counts may stand on the site."""
    assert LeakScan(fields).found_in(text) == []


def test_each_field_says_where_it_is_kept(fields):
    """File and line lead to the row."""
    street = next(f for f in LeakScan(fields).found_in("7 Quay Street Flat 3 - 7 Quay Street"))
    assert (street.path, street.line) == ("private/addresses.csv", 3)


def test_fingerprint_changes_with_the_fields(fields):
    """Something new to look for makes the whole site be looked at again."""
    assert fingerprint(fields) != fingerprint(fields[1:])
    assert fingerprint(fields) == fingerprint(list(reversed(fields)))


def test_a_table_that_cannot_be_read_stops_the_build(tmp_path):
    """Nothing is published while private fields cannot be compared."""
    (tmp_path / "private").mkdir()
    (tmp_path / "private" / "addresses.csv").write_bytes(b"street\n\xff\xfe\n")
    _, problems = private_fields(tmp_path)
    assert [p.path for p in problems] == ["private/addresses.csv"]
