"""Whatever is typed, the text keeps its form and the file its text."""

import email
import email.policy
import random
from datetime import UTC, datetime

import pytest

from browser.composing import check_mail

pytestmark = pytest.mark.browser

NASTY = (
    "", " ", "\n", "End of offer", "\nEnd of offer\nSwap offer, form 1\nTo: tam", "a\r\nTo: tam",
    "a\u2028To: tam", "a\u0085To: tam", "a\x0bTo: tam\x0c", "\ud800x", "x\udfff", "\x00\x1b[31m",
    "\u202eevil\u202c", "é" * 300, "\U0001f426" * 120, "a" * 6000, "\tEnd of offer",
    "=?utf-8?B?YQ==?=", "From the marsh", ".\n.\n", "--=_swapboard_parts--",
    "Ünal & <Söhne>", "ا‎ب", "日本の鷺" * 40,
    "a\u200db", "क्षि",
)  # fmt: skip


@pytest.fixture(scope="module")
def text_page(chromium, made_site):
    """A page on which the composer's scripts are loaded."""
    context = chromium.new_context()
    page = context.new_page()
    page.goto(f"{made_site.as_uri()}/compose.html")
    yield page
    context.close()


def typed(seed: int) -> list[str]:
    """The nasty ones, and others made of their letters."""
    chance = random.Random(seed)
    letters = "".join(NASTY) + "\n\n\n    :,"
    return [*NASTY, *("".join(chance.choices(letters, k=chance.randrange(300))) for _ in range(40))]


def in_browser(page, code: str, values: list[str]):
    """What `code` makes of each value, in the browser. Lone halves of characters, which JSON
    may not carry, go as numbers."""
    units = [list(memoryview(v.encode("utf-16-le", "surrogatepass")).cast("H")) for v in values]
    return page.evaluate(
        f"all => all.map(units => ({code})(String.fromCharCode(...units)))", units
    )


OFFER = """text => offerText.offer({ board: 'B', from: text, country: text, to: 'ines', asks: ['a'],
  gives: ['b'], pictures: [text, 'x' + text], note: text })"""


def test_nothing_typed_can_break_the_form(text_page):
    """Keys and first and last lines stand once each, all that was typed is indented or after a
    key, and no hidden control is left."""
    values = typed(1)
    for value, text in zip(values, in_browser(text_page, OFFER, values), strict=True):
        lines = text.split("\n")
        flush = [line for line in lines if not line.startswith("    ")]
        keys = [line.partition(":")[0] for line in flush if line]
        country = ["Country"] if value else []
        assert keys == ["Swap offer, form 1", "Board", "From", *country, "To", "Asks", "Gives",
                        "Note", "End of offer"], value  # fmt: skip
        assert (lines[-1], lines[-2]) == ("", "End of offer")
        gives = lines[lines.index("Gives:") + 1 : lines.index("Note:")]
        assert [line.split(":")[0] for line in gives] == ["    b", "    picture 1", "    picture 2"]
        assert not [c for c in text if (not c.isprintable() and c not in "\n \u200d\u200e\u3000")
                    and c < "\U00010000"], value  # fmt: skip
        text.encode("utf-8")
        assert max(map(len, gives)) <= 4 + len("picture 1: ") + 200


def test_what_was_said_is_all_there(text_page):
    """A plain name, line and note stand in the text as they were typed, in NFC."""
    code = """text => offerText.offer({ board: 'Tide & <Co>', from: ' Zoe\\u0308  Ünal ', country:
      'Côte d’Ivoire', to: 'jo-lindqvist', asks: ['night-heron', 'river-fox'], gives: ['tide-pool'],
      pictures: ['Blue heron, gouache'], note: text })"""
    note = "First line\n\n  Second, set in\tby hand  \nEnd of offer"
    assert in_browser(text_page, code, [note]) == [
        "Swap offer, form 1\nBoard: Tide & <Co>\nFrom: Zoë Ünal\nCountry: Côte d’Ivoire\n"
        "To: jo-lindqvist\nAsks:\n    night-heron\n    river-fox\nGives:\n    tide-pool\n"
        "    picture 1: Blue heron, gouache\nNote:\n    First line\n\n"
        "      Second, set in    by hand\n    End of offer\nEnd of offer\n"
    ]


def test_any_file_is_read_whole_by_another_reader(text_page):
    """Python's reader of mail finds subject, date, text and pictures as they were given."""
    values = typed(2)
    code = """text => { const data = offerText.mailFile({ subject: text, text: text.replace(
      /\\p{Cs}|\\r/gu, ''), pictures: [new Uint8Array([255, 216, 0, 10, 13, 46]), new Uint8Array(
      300).fill(61)], date: new Date(Date.UTC(2026, 8, 3, 7, 5, 9)) });
      return [offerText.oneLine(text), text.replace(/\\p{Cs}|\\r/gu, ''), data]; }"""
    for subject, text, made in in_browser(text_page, code, values):
        data = made.encode("ascii")
        mail = email.message_from_bytes(data, policy=email.policy.default)
        body, pictures = check_mail(data, mail)
        assert body == text
        assert pictures == [bytes([255, 216, 0, 10, 13, 46]), b"=" * 300]
        assert str(mail["Subject"] or "").split() == subject.split()
        assert mail["Date"].datetime == datetime(2026, 9, 3, 7, 5, 9, tzinfo=UTC)


def test_a_mail_link_is_as_the_standard_has_it(text_page):
    """Line breaks are %0D%0A, letters UTF-8 (RFC 6068, section 5 and 6.1); too long is none."""
    code = "text => offerText.mailLink('cards+a@board.example', 'café & crème', text)"
    short, at_most, too_long = in_browser(text_page, code, ["a\nb?&=", "x" * 1827, "x" * 1828])
    head = "mailto:cards%2Ba@board.example?subject=caf%C3%A9%20%26%20cr%C3%A8me&body="
    assert short == head + "a%0D%0Ab%3F%26%3D"
    assert (len(head) + 1827, len(at_most), too_long) == (1900, 1900, "")
