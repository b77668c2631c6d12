"""A call can be announced: flyers whose code is read, a picture, a text; same bytes twice."""

import io

import cv2
import numpy as np
import pypdf
import pytest
from click.testing import CliRunner
from PIL import Image

from hostile.small_board import build, errors_of, make
from swapboard.cli import main
from swapboard.disk.print_fonts import fonts
from swapboard.disk.share_picture import share_picture
from swapboard.printing.flyer import code_modules, flyer
from swapboard.printing.paper import POINT
from swapboard.vocabulary.paper import PAPER

CALL = (
    "Title: Листья и Φύλλα\nTheme: leaves\nHost: ada\nSend: 3\nReceive: 3\nDate: 2026-10-01\n"
    "Sign up by: 2026-10-20\nArrive by: 2026-11-20\n\nBring what fell.\n"
)
BOARD = 'format = 1\n\n[board]\nname = "Small"\naddress = "https://board.example/swap/"\n'


@pytest.mark.parametrize("address", ["https://board.example/swap/calls/leaf.html",
                                     "https://b.example/" + "long-" * 60])
def test_the_code_is_read_by_a_reader_that_is_not_ours(address):
    """OpenCV's reader finds the address in the modules."""
    modules = np.array(code_modules(address))
    picture = np.where(modules, 0, 255).astype(np.uint8).repeat(8, 0).repeat(8, 1)
    assert cv2.QRCodeDetector().detectAndDecode(picture)[0] == address


@pytest.mark.parametrize("paper", sorted(PAPER))
def test_a_flyer_is_one_page_with_all_that_was_said(paper):
    """However long the text is, its last word is on the page and the page is the paper's."""
    body = "\n".join(f"Line {i} of many words that fill a page." for i in range(120)) + "\nLast."
    pdf = flyer("A long title " * 12, "Over", (("Must have", "x " * 400),), body,
                "https://board.example/", paper, fonts())
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    (page,) = reader.pages
    assert float(page.mediabox.width) * POINT == pytest.approx(PAPER[paper][0], abs=0.01)
    lows = []
    page.extract_text(visitor_text=lambda t, m, at, f, s: lows.append(at[5]) if t.strip() else 0)
    assert min(lows) > 0 and "Last." in page.extract_text()
    assert pdf == flyer("A long title " * 12, "Over", (("Must have", "x " * 400),), body,
                        "https://board.example/", paper, fonts())


def test_a_share_picture_has_its_size_and_keeps_its_bytes():
    """1200 × 630, also for a title without a place to break."""
    for title in ("Leaf", "W" * 300):
        data = share_picture(title, "Over", ["Theme: leaves"], fonts())
        assert Image.open(io.BytesIO(data)).size == (1200, 630)
        assert data == share_picture(title, "Over", ["Theme: leaves"], fonts())


def test_a_call_page_leads_to_all_of_it(tmp_path):
    """The build has every file and links to it, with whole addresses for who shares it."""
    board = make(tmp_path / "b", {"board.toml": BOARD, "calls/leaf.md": CALL})
    built = build(board)
    assert built.done, errors_of(built)
    page = (board / "output/calls/leaf.html").read_text("utf-8")
    for ending in (".ics", ".txt", "-flyer-a4.pdf", "-flyer-letter.pdf", "-share.png"):
        assert f'leaf{ending}"' in page and (board / f"output/calls/leaf{ending}").is_file()
    assert 'content="https://board.example/swap/calls/leaf-share.png"' in page
    text = (board / "output/calls/leaf.txt").read_text("utf-8")
    assert "Листья" in text and "https://board.example/swap/calls/leaf.html" in text
    assert "October 20, 2026" in text and "Bring what fell." in text


def test_a_flyer_is_printed_by_command(tmp_path):
    """It is written for the keeper alone, and refused for a call that is not there."""
    board = make(tmp_path / "b", {"calls/leaf.md": CALL})
    for call, code in (("leaf", 0), ("laef", 1)):
        words = ["print", "flyer", call, str(tmp_path / f"{call}.pdf"), str(board)]
        done = CliRunner().invoke(main, words)
        assert done.exit_code == code and "Fix:" in done.output
    assert (tmp_path / "leaf.pdf").is_file() and not (tmp_path / "laef.pdf").exists()


def test_without_an_address_nothing_claims_one(tmp_path):
    """No code, no tags with half an address; the flyer is there all the same."""
    board = make(tmp_path / "b", {"calls/leaf.md": CALL})
    assert build(board).done
    assert "og:" not in (board / "output/calls/leaf.html").read_text("utf-8")
    assert (board / "output/calls/leaf-flyer-a4.pdf").is_file()
