"""What mails carry along that no form needs is left out, by name, and the rest is taken."""

import io

import pytest
from click.testing import CliRunner
from letters import OFFER, STRANGER, jpeg, mail
from swap_board import DAY, make

from boards import files_of
from swapboard.cli import main

pytestmark = pytest.mark.usefixtures("looked_at_once")

NEW = "offers/fern-for-night-heron.md"
GIF = b"GIF89a\x01\x00\x01\x00\x80\x00\x00\xff\xff\xff\x00\x00\x00!\xf9\x04"
VCARD = b"BEGIN:VCARD\r\nVERSION:4.0\r\nFN:Tom\r\nEND:VCARD\r\n"


@pytest.fixture
def board(tmp_path):
    return make(tmp_path / "board")


def take(board, letter):
    file = board.parent / "letter.eml"
    file.write_bytes(bytes(letter))
    said = ["take", str(file), "--board", str(board), "--yes", "--today", str(DAY)]
    return CliRunner().invoke(main, said)


def with_part(kind, data, name=None, **more):
    made = mail()
    main_type, sub = kind.split("/")
    made.add_attachment(data, maintype=main_type, subtype=sub, filename=name, **more)
    return made


def png(side=32):
    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (side, side), "#3a6b7e").save(out, "PNG")
    return out.getvalue()


@pytest.mark.parametrize(("kind", "data", "name", "told"), [
    ("image/gif", GIF, "logo.gif", "logo.gif (GIF)"),
    ("image/gif", GIF, "logo.png", "logo.png (GIF)"),
    ("image/bmp", b"BM" + b"x" * 60, "logo.bmp", "logo.bmp (BMP)"),
    ("application/pdf", b"%PDF-1.4", "a.pdf", "a.pdf (PDF)"),
    ("application/octet-stream", b"%PDF-1.4", "a.pdf", "a.pdf (PDF)"),
    ("text/vcard", VCARD, "tom.vcf", "tom.vcf (visiting card)"),
    ("text/x-vcard", VCARD, None, "visiting card"),
    ("text/calendar", b"BEGIN:VCALENDAR\r\n", "invite.ics", "invite.ics (calendar)"),
    ("application/ms-tnef", b"\x78\x9f\x3e\x22\x00", "winmail.dat",
     "winmail.dat (Outlook’s own format)"),
    ("application/octet-stream", b"\x01\x02\x03", "winmail.dat",
     "winmail.dat (application/octet-stream)"),
    ("application/msword", b"\xd0\xcf\x11\xe0", "note.doc", "note.doc (office document)"),
    ("application/octet-stream", b"PK\x03\x04", "note.docx", "note.docx (office document)"),
    ("application/rtf", b"{\\rtf1", "note.rtf", "note.rtf (RTF)"),
    ("video/mp4", b"\x00\x00\x00\x18ftypmp42", "clip.mp4", "clip.mp4 (video/mp4)"),
])  # fmt: skip
def test_what_is_not_needed_is_left_out_by_name(board, kind, data, name, told):
    """The offer is taken as if it had come alone; nothing of the part lands on the board."""
    done = take(board, with_part(kind, data, name))
    assert done.exit_code == 0, done.output
    assert f"letter.eml: left out: {told}." in done.stderr
    assert (board / NEW).is_file()
    made = [path for path in files_of(board) if path.startswith(("photos/", "cards/"))]
    assert not [path for path in made if "logo" in path or "note" in path]


def test_a_mail_of_a_whole_office_is_taken(board):
    """Text and page, a logo in the page, a visiting card and a PDF: one offer, three left out."""
    made = mail(OFFER, html="<p>Please see the text.</p><img src='cid:logo'>")
    page = made.get_payload()[1]
    page.add_related(png(), "image", "png", cid="<logo>", filename="image001.png")
    made.add_attachment(VCARD, maintype="text", subtype="x-vcard", filename="tom.vcf")
    made.add_attachment(b"%PDF-1.4", maintype="application", subtype="pdf", filename="us.pdf")
    done = take(board, made)
    assert done.exit_code == 0, done.output
    assert "left out: image001.png (a small PNG inside the text)" in done.stderr
    assert "left out: tom.vcf (visiting card)" in done.stderr
    assert "left out: us.pdf (PDF)" in done.stderr
    assert (board / NEW).is_file()


def test_a_logo_is_not_taken_for_the_picture_of_a_card(board):
    """A newcomer's one picture has no telling name, and the logo is not counted with it."""
    text = STRANGER.replace("    picture 2: Harbour at six, on wood\n", "").replace(
        "    river-fox\n", "")
    made = mail(text, "Ama <ama@coast.example>", (("IMG_7.jpg", jpeg()),))
    made.add_attachment(png(), "image", "png", filename="logo.png", disposition="inline",
                        cid="<l>")
    done = take(board, made)
    assert done.exit_code == 0, done.output
    photos = [path for path in files_of(board) if path.startswith("photos/")]
    assert photos == ["photos/blue-heron.jpg"]


def test_photos_shown_inside_the_text_are_photos(board):
    """As some phones send them; and so is a small one that the form names."""
    make(board, {"private/mail.csv": "maker,mail\ntom-varga,tom@post.example\n"})
    made = mail("Here is another.")
    made.make_mixed()
    made.add_attachment(jpeg(size=(1200, 1600)) + b"\0" * 20_000, "image", "jpeg",
                        filename="Night bus.jpg", disposition="inline", cid="<1>")
    done = take(board, made)
    assert done.exit_code == 0, done.output
    assert (board / "cards/night-bus.md").is_file()
    text = OFFER.replace("    fern\n", "    picture 1: Tram\n")
    made = mail(text)
    made.add_attachment(jpeg(), "image", "jpeg", filename="picture-1.jpg", disposition="inline")
    assert take(board, made).exit_code == 0
    assert (board / "cards/tram.md").is_file()


def test_what_hangs_behind_a_picture_does_not_come_along(board):
    """A picture that is an archive as well is stored as a picture alone."""
    text = OFFER.replace("    fern\n", "    picture 1: Tram\n")
    both = jpeg() + b"PK\x03\x04<script>alert(1)</script>" * 50
    done = take(board, mail(text, pictures=(("picture-1.jpg", both),)))
    assert done.exit_code == 0, done.output
    stored = (board / "photos/tram.jpg").read_bytes()
    assert b"PK\x03\x04" not in stored and b"script" not in stored


def test_a_mail_with_nothing_but_what_is_left_out_holds_nothing(board):
    """Both are said: what was left out, and that no form was found."""
    made = mail("See the file.")
    made.add_attachment(b"\x78\x9f\x3e\x22\x00", "application", "ms-tnef", filename="winmail.dat")
    before = files_of(board)
    done = take(board, made)
    assert done.exit_code == 1
    assert "left out: winmail.dat" in done.stderr and "holds nothing to take" in done.stderr
    assert files_of(board) == before
