"""Letters on paper: words from the right, letters that join, and letters that no font has."""

import io

import pypdf
import pytest
from click.testing import CliRunner
from PIL import Image, ImageChops

from hostile.small_board import build, make
from printing.own_font import font_with
from printing.test_labels_and_lists import placed
from swapboard.cli import main
from swapboard.disk.print_fonts import fonts
from swapboard.disk.share_picture import share_picture
from swapboard.printing.flyer import flyer
from swapboard.printing.labels import Address, labels
from swapboard.printing.paper import REGULAR, Fonts, Sheet, lacking, measure, wrap
from swapboard.printing.reading_order import as_drawn, from_the_right
from swapboard.vocabulary.label_sheets import LABEL_SHEETS

CALL = "Title: 林 birds\nTheme: birds\nHost: ada\nSend: 3\nReceive: 3\n\nBring what flies.\n"
ADDRESSES = "maker,name,street,town,postcode,country\nada,林 Ada,12 Mill Lane,Wien,1010,AT\n"


@pytest.mark.parametrize(
    ("line", "drawn"),
    [
        ("Ørsted (Ada) 12", "Ørsted (Ada) 12"),
        # Unicode Standard Annex #9 writes Hebrew as capitals: car means CAR. → car means RAC.
        ("car means אבג.", "car means גבא."),
        ("אבג (abc) 12", "12 (abc) גבא"),
        ("אב 12-34, 5", "5 ,12-34 בא"),
        ("אָב", "ב" + "\u05b8" + "א"),
        ("a אב 5% b", "a 5% בא b"),
        ("אב, card 1", "card 1 ,בא"),
        ("\u200eאב, card 1", "בא, card 1"),
        ("\u200ecard", "card"),
        # Forms of the code charts, Arabic Presentation Forms-B: beh at the start, in the
        # middle and at the end; lam with alef; dal, which joins to what is before it alone.
        ("ببب", "\ufe90\ufe92\ufe91"),
        ("لا", "\ufefb"),
        ("بدب", "\ufe8f\ufeaa\ufe91"),
        ("ب\u200cب", "\ufe8f\ufe8f"),
        ("بَب", "\ufe90\u064e\ufe91"),
        ("سنة ١٢", "١٢ \ufe94\ufee8\ufeb3"),
    ],
)
def test_a_line_is_turned_and_joined_as_it_is_read(line, drawn):
    """By the rules of Unicode, so that a library that knows none draws it right."""
    assert as_drawn(line) == drawn


def test_a_label_read_from_the_right_begins_at_its_right_edge():
    """Each line by its own first letter: the street by the right edge, the country by the left."""
    sheet = LABEL_SHEETS["63.5x38.1mm"]
    street = "רחוב הגפן 12"
    address = Address("ada", "עדה", (street,), "12345", "עיר", "", "Israel", "IL")
    # The reader of PDFs turns words back and parts numbers from them.
    found = {text: x for _, x, _, _, text in placed(labels([address], sheet, fonts()))}
    left, right = sheet.place(0)[0] + 3, sheet.place(0)[0] + sheet.width - 3
    assert found["ISRAEL"] == pytest.approx(left, abs=0.1)
    for line, part in ((street, "12"), ("12345 עיר", "12345"), ("עדה", "עדה")):
        assert found[part] + measure(line, 12.0, REGULAR) == pytest.approx(right, abs=0.1)


def test_a_part_of_a_wrapped_line_is_read_the_way_that_the_line_is():
    """Whichever word a part begins with: an English line stays at the left edge."""
    Sheet("A4", fonts(), "fonts are known once a sheet is begun")
    for line, right in (("one two אבג דהו three", False), ("אבג דהו one two זחט", True)):
        parts = wrap(line, 12.0, 12.0, REGULAR)
        assert len(parts) > 2 and {from_the_right(part) for part in parts} == {right}


def test_what_the_fonts_lack_is_told_letter_by_letter():
    """And what would have to be joined in a way that is not known here counts as lacking."""
    assert lacking("Ørsted Κύα Жанна ő ş ž Հայ ქარ שלום محمد پژمان", fonts()) == ""
    assert lacking("A 林 B 林 한", fonts()) == "林한"
    own = Fonts(fonts().regular, fonts().bold, font_with("林न"))
    assert lacking("林 한 न", own) == "न한"


def test_a_letter_of_the_own_font_is_drawn_with_it():
    """On the flyer as text that can be found again, in the picture as other dots."""
    own = Fonts(fonts().regular, fonts().bold, font_with("林"))
    pdf = flyer("林 birds", "Over", (), "林", "", "A4", own)
    assert pypdf.PdfReader(io.BytesIO(pdf)).pages[0].extract_text().count("林") == 2
    pictures = [
        Image.open(io.BytesIO(share_picture("林 birds", "Over", [], one))) for one in (own, fonts())
    ]
    assert ImageChops.difference(*pictures).getbbox()


def check(board):
    return CliRunner().invoke(main, ["check", str(board)]).output


def test_a_call_that_paper_cannot_show_is_a_warning_and_a_font_mends_it(tmp_path):
    """The letters are named, and with a font in the board's folder the warning is gone."""
    board = make(tmp_path / "b", {"calls/wood.md": CALL})
    said = check(board)
    assert 'calls/wood.md: on paper: must be in letters' in said and '"林"' in said
    assert 'font = "own.ttf"' in said
    assert build(board).done
    before = (board / "output/calls/wood-flyer-a4.pdf").read_bytes()
    (board / "own.ttf").write_bytes(font_with("林"))
    toml = board / "board.toml"
    toml.write_text(toml.read_text() + '\n[board]\nfont = "own.ttf"\n'
                    if "[board]" not in toml.read_text()
                    else toml.read_text().replace("[board]", '[board]\nfont = "own.ttf"'))
    assert "on paper" not in check(board)
    assert build(board).done
    assert (board / "output/calls/wood-flyer-a4.pdf").read_bytes() != before


@pytest.mark.parametrize(
    ("font", "data"),
    [("own.ttf", None), ("own.ttf", b"no font"), ("own.otf", b"x"), ("../own.ttf", b"x")],
)
def test_a_font_that_is_none_is_an_error_with_its_line(tmp_path, font, data):
    """Nobody finds out from an empty sheet."""
    board = make(tmp_path / "b", {"board.toml": f'format = 1\n[board]\nfont = "{font}"\n'})
    if data is not None:
        (board / font).write_bytes(data)
    assert "board.toml:3: font: must be" in check(board)


def test_an_address_in_letters_that_paper_lacks_is_not_printed(tmp_path):
    """A label with empty boxes would be worse than none; the pick list is printed all the same."""
    board = make(tmp_path / "b", {"private/addresses.csv": ADDRESSES})
    words = ["print", "labels", str(tmp_path / "labels.pdf"), str(board)]
    done = CliRunner().invoke(main, words)
    assert done.exit_code == 1 and '"ada: 林"' in done.output
    assert not (tmp_path / "labels.pdf").exists()
