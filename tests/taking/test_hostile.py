"""Letters meant to do harm: each is refused in plain words, and nothing changes."""

from email.message import EmailMessage

import pytest
from click.testing import CliRunner
from letters import OFFER, STRANGER, jpeg, mail
from swap_board import DAY, make

from boards import files_of
from swapboard.cli import main

PICTURES = (("picture-1.jpg", jpeg()), ("picture-2.jpg", jpeg(200)))


def changed(old, new, text=OFFER):
    assert old in text
    return text.replace(old, new)


def with_part(kind, data, name=None, **more):
    made = mail()
    main_type, sub = kind.split("/")
    made.add_attachment(data, maintype=main_type, subtype=sub, filename=name, **more)
    return made


def nested(levels):
    head = b"From: a@b.example\nMIME-Version: 1.0\n"
    for level in range(levels):
        head += b"Content-Type: multipart/mixed; boundary=b%d\n\n--b%d\n" % (level, level)
    return head + b"Content-Type: text/plain\n\n" + OFFER.encode()


def mails_in_mails(levels):
    head = b"From: a@b.example\nMIME-Version: 1.0\n"
    return head + b"Content-Type: message/rfc822\n\n" * levels + b"\n" + OFFER.encode()


def mails_as_files(levels):
    letter = mail(sender="")
    for _ in range(levels):
        outer = mail("See below.")
        outer.add_attachment(bytes(letter), maintype="application", subtype="octet-stream",
                             filename="offer.eml")
        letter = outer
    return letter


def many_parts(count):
    part = b"--x\nContent-Type: text/plain\n\nhi\n"
    head = b"From: a@b.example\nMIME-Version: 1.0\nContent-Type: multipart/mixed; boundary=x\n\n"
    return head + part * count + b"--x--\n"


def raw(kind, body, coding="8bit"):
    return (f"From: a@b.example\nMIME-Version: 1.0\nContent-Type: {kind}\n"
            f"Content-Transfer-Encoding: {coding}\n\n").encode() + body  # fmt: skip


LETTERS = {
    "script in the note": (changed("I like herons.", "<script>alert(1)</script>"),
                           "without HTML or script"),
    "a tag in the note": (changed("I like herons.", '<img src=x onerror="x()">'),
                          "without HTML or script"),
    "a link that runs": (changed("herons.", "[x](javascript:alert(1))"), "without HTML or script"),
    "script in a name": (changed("Ama Darko", "<b>Ama", STRANGER), "without HTML or script"),
    "script in a title": (mail(changed("Blue heron", "<svg/onload=x>", STRANGER),
                               pictures=PICTURES), "without HTML or script"),
    "script in a page": (mail("", html=f"<pre>{OFFER}</pre><script>1</script>"),
                         "must hold no script"),
    "script beside the text": (mail(OFFER, html="<p>hi</p><script>1</script>"),
                               "must hold no script"),
    "a path for a name": (changed("tom-varga", "../../etc/passwd"), "a name, not a path"),
    "a path for a new name": (changed("Ama Darko", "..\\..\\boot", STRANGER),
                              "a name, not a path"),
    "a path for a card": (changed("night-heron", "../makers/ines-okafor"), "a name, not a path"),
    "a drive for a card": (changed("    fern", "    C:fern"), "a name, not a path"),
    "a path for a file": (mail(STRANGER, pictures=(("../../picture-1.jpg", jpeg()),
                                                   PICTURES[1])), "files with plain names"),
    "a body of 10 MB": (mail(OFFER + "x" * 10_000_000), "at most 256 kB of text"),
    "a paste of 10 MB": ((OFFER + "x" * 10_000_000), "at most 256 kB of text"),
    "a page of 10 MB": (mail("", html="<p>" * 3_400_000), "at most 256 kB of text"),
    "a mail of 50 MB": (raw("application/octet-stream", b"x" * 50_000_000), "at most 40 MB"),
    "millions of lines": (raw("text/plain", b"\n" * 9_000_000), "lines"),
    "bytes that are no UTF-8": (OFFER.encode().replace(b"herons", b"h\xe9rons"),
                                "must be text in UTF-8"),
    "a mail in another encoding than it says": (raw("text/plain; charset=utf-8",
                                                    OFFER.encode() + b"\xe9\xff"),
                                                "in the encoding that it names"),
    "an encoding nobody has": (raw("text/plain; charset=klingon", OFFER.encode()),
                               "in the encoding that it names"),
    "an encoding that unpacks": (raw("text/plain; charset=zlib", OFFER.encode()),
                                 "in the encoding that it names"),
    "an encoding that computes": (raw("text/plain; charset=punycode", OFFER.encode()),
                                  "in the encoding that it names"),
    "broken base64": (raw("text/plain", b"U3dhcCB$$$$=vZmZlcg", "base64"), "coded as it says"),
    "a coding nobody has": (raw("text/plain", OFFER.encode(), "x-uuencode"), "coded as base64"),
    "zero bytes": (OFFER.replace("herons", "her\x00ns"), "must be a mail or a text"),
    "text turned round": (changed("herons", "\u202esnoreh"), "hidden control characters"),
    "one card too few": (changed("    fern\n", ""), "must name a card"),
    "a wrong count": (changed("    night-heron\n", "    night-heron\n    river-fox\n"),
                      "as many cards as Asks (2, not 1)"),
    "one card twice": (changed("    fern\n", "    fern\n    Fern\n"), "each card once"),
    "a card nobody has": (changed("night-heron", "night-herron"), 'did you mean "night-heron"'),
    "a card of somebody else": (changed("    fern", "    river-fox"),
                                "a card that tom-varga made"),
    "a card not theirs to give away": (changed("    night-heron", "    moth"),
                                       "a card that ines-okafor made"),
    "a stranger with a card of the board": (changed("picture 1: Blue heron, gouache", "river-fox",
                                                    STRANGER), "since whoever is new"),
    "an unknown maker": (changed("tom-varga", "tom-vargo"), 'did you mean "tom-varga"'),
    "nobody to ask": (changed("To: ines-okafor\n", ""), "must be filled in"),
    "themselves": (changed("To: ines-okafor", "To: tom-varga"), "must not be the maker in From"),
    "another board": (changed("Reed Street", "Elm Street"), "must be Reed Street"),
    "another form": (changed("form 1", "form 2"), "must be form 1"),
    "a form cut short": (changed("End of offer\n", ""), "must go on to a line"),
    "a key of its own": (changed("Board:", "Save as: x\nBoard:"), "a key that this form has"),
    "a key twice": (changed("To:", "Board: x\nTo:"), "must stand only once"),
    "a mail address in the note": (changed("herons.", "to be written to: a@b.example"),
                                   "no e-mail address"),
    "a street in the note": (changed("herons.", "it at 12 Mill Lane"), "a street address"),
    "a country nobody has": (changed("Ghana", "Atlantis", STRANGER), "must be a country"),
    "a namesake from elsewhere": (changed("From: tom-varga", "From: Tom Varga\nCountry: Ghana"),
                                  "must be Hungary"),
    "pictures that are not there": (mail(STRANGER, pictures=PICTURES[:1]),
                                    "must come with its picture"),
    "a picture that is none": (mail(STRANGER, pictures=(("picture-1.jpg", b"MZ" * 99),
                                                        PICTURES[1])), "only text, pictures"),
    "a picture cut short": (mail(STRANGER, pictures=(("picture-1.jpg", jpeg()[:700]),
                                                     PICTURES[1])), "undamaged picture"),
    "a drawing that runs": (with_part("image/svg+xml", b"<svg onload='x()'/>", "a.svg"),
                            "only text, pictures"),
    "a program": (with_part("application/octet-stream", b"MZ\x90", "a.exe"),
                  "only text, pictures"),
    "an archive": (with_part("application/zip", b"PK\x03\x04", "a.zip"), "only text, pictures"),
    "an archive by another name": (with_part("application/octet-stream", b"Rar!\x1a\x07", "x.dat"),
                                   "an archive: x.dat"),
    "an archive that says it is a picture": (
        mail(STRANGER, pictures=(("picture-1.jpg", b"PK\x03\x04" + b"x" * 99), PICTURES[1])),
        "something else under a picture’s name: picture-1.jpg"),
    "a page that says it is a picture": (
        mail(STRANGER, pictures=(("picture-1.jpg", b"<html><script>1</script>"), PICTURES[1])),
        "a program or a script: picture-1.jpg"),
    "a picture that is a page behind its first bytes": (
        mail(STRANGER, pictures=(("picture-1.jpg", b"\xff\xd8\xff\xe0<script>1</script>" * 9),
                                 PICTURES[1])), "undamaged picture"),
    "a moving picture for a card": (
        mail(STRANGER, pictures=(("picture-1.jpg", b"GIF89a" + b"x" * 99), PICTURES[1])),
        "must come with its picture"),
    "a page as a file": (with_part("text/html", b"<p>hi</p>", "a.html"), "only text, pictures"),
    "a script as a file": (with_part("application/octet-stream", b"alert(1)", "a.js"),
                           "a program or a script: a.js"),
    "a drawing by another type": (with_part("application/octet-stream", b" <svg/>", "logo"),
                                  "a program or a script"),
    "a name written backwards": (with_part("image/jpeg", jpeg(), "picture-1\u202egpj.exe"),
                                 "files with plain names"),
    "a name with a zero byte": (
        raw("application/pdf; name*=utf-8''a%00.pdf", b"%PDF-1.4"), "files with plain names"),
    "a name with a path, of what is left out": (
        with_part("application/pdf", b"%PDF-1.4", "../../a.pdf"), "files with plain names"),
    "a name without end": (with_part("application/pdf", b"%PDF-1.4", "a" * 900 + ".pdf"),
                           "files with plain names"),
    "parts without a boundary": (
        b"From: a@b.example\nMIME-Version: 1.0\nContent-Type: multipart/mixed\n\n--x\n\n"
        + OFFER.encode() + b"\n--x--\n", "must have the parts that it says"),
    "a boundary that never comes": (
        b"From: a@b.example\nMIME-Version: 1.0\nContent-Type: multipart/mixed; boundary=z\n\n"
        + OFFER.encode(), "must have the parts that it says"),
    "wide letters that are narrow": (raw("text/plain; charset=utf-16-le", OFFER.encode()),
                                     "holds nothing to take"),
    "narrow letters in seven bits": (raw("text/plain; charset=utf-7", OFFER.encode()),
                                     "in the encoding that it names"),
    "a mail as a file, in itself, and so on": (mails_as_files(12), "must be a plain mail"),
    "a thousand small parts": (many_parts(1000), "must be a plain mail"),
    "broken base64 in what is left out": (
        raw("application/pdf; name=a.pdf", b"JVBE$$$=Rg", "base64"), "coded as it says"),
    "parts within parts": (nested(60), "must be a plain mail"),
    "parts within parts, deep": (nested(5000), "must be a plain mail"),
    "mails within mails": (mails_in_mails(15), "must be a plain mail"),
    "mails within mails, deep": (mails_in_mails(20_000), "must be a plain mail"),
    "thousands of parts": (many_parts(20_000), "must be a plain mail"),
    "hundreds of parts": (many_parts(150), "must be a plain mail"),
    "a boundary in pieces": (b"From: a@b.example\nMIME-Version: 1.0\nContent-Type: "
                             b'multipart/mixed; boundary*0="x"\n\n--x\n\nhi\n', "a plain mail"),
    "a type in code": (b"From: a@b.example\nMIME-Version: 1.0\nContent-Type: "
                       b"=?utf-8?q?message/rfc822?=\n\nhi\n", "name its types plainly"),
    "a header without end": (b"MIME-Version: 1.0\nContent-Type: text/plain; x=" + b"(" * 90_000
                             + b"\n\nhi\n", "must have short headers"),
    "hundreds of thousands of headers": (b"MIME-Version: 1.0\n" + b"X: y\n" * 500_000 + b"\nhi\n",
                                         "must have short headers"),
    "marks upon marks": (changed("herons", "her\u0301\u0323" + "\u0301\u0323" * 50_000 + "ons"),
                         "must be a mail or a text"),
    "marks upon marks in a mail": (mail(changed("herons", "her" + "\u0301\u0323" * 500)),
                                   "marks upon marks"),
    "marks upon marks in a page": (mail("", html="<p>a" + "&#769;&#803;" * 20_000),
                                   "marks upon marks"),
    "a picture alone": (jpeg(), "swapboard add card"),
    "nothing": (b"  \n", "must hold a mail or a text"),
    "no form": ("Dear keeper, hello!", "holds nothing to take"),
    "fifty forms and one": ("".join(OFFER.replace("herons", f"{n} herons") for n in range(51)),
                            "at most 50 forms"),
}  # fmt: skip


@pytest.fixture(scope="module")
def board(tmp_path_factory):
    """One board for all: nothing may change it."""
    return make(tmp_path_factory.mktemp("hostile") / "board")


@pytest.mark.parametrize("what", LETTERS)
def test_a_harmful_letter_is_refused_and_changes_nothing(board, tmp_path, what):
    """Exit code 1, one plain reason, no traceback, and every file as it was."""
    letter, reason = LETTERS[what]
    data = bytes(letter) if isinstance(letter, EmailMessage) else letter
    file = tmp_path / "letter"
    file.write_bytes(data.encode() if isinstance(data, str) else data)
    before = files_of(board)
    said = ["take", str(file), "--board", str(board), "--yes", "--today", str(DAY)]
    done = CliRunner().invoke(main, said)
    assert done.exit_code == 1 and isinstance(done.exception, SystemExit), done.output
    assert reason in done.stderr, done.stderr
    assert "Fix:" in done.stderr and not done.stdout
    assert files_of(board) == before
    assert sorted(p.name for p in board.parent.iterdir()) == ["board"]


@pytest.mark.parametrize("where", ["missing.eml", "."])
def test_what_is_no_file_is_named(board, where):
    """A folder, and a file that is not there."""
    done = CliRunner().invoke(main, ["take", where, "--board", str(board)])
    assert done.exit_code == 1 and "must be a file that is there" in done.stderr


def test_a_link_in_a_folders_place_is_not_written_through(tmp_path):
    """Neither posts nor private rows leave the board."""
    board = make(tmp_path / "board")
    (tmp_path / "outside").mkdir()
    (board / "private").symlink_to(tmp_path / "outside")
    file = tmp_path / "letter"
    file.write_bytes(bytes(mail()))
    said = ["take", str(file), "--board", str(board), "--yes", "--today", str(DAY)]
    done = CliRunner().invoke(main, said)
    assert done.exit_code == 1 and "must lie inside the board's folder" in done.stderr
    assert not list((tmp_path / "outside").iterdir())
    assert not (board / "offers/fern-for-night-heron.md").exists()


def test_markdown_in_a_note_reaches_the_page_only_as_words(tmp_path):
    """A picture from elsewhere in a note asks no other host for anything."""
    from swapboard.site.build import build_board

    board = make(tmp_path / "board")
    file = tmp_path / "letter"
    file.write_text(changed("I like herons.", "![x](https://elsewhere.example/x.png) {{ 7*7 }}"))
    said = ["take", str(file), "--board", str(board), "--yes", "--today", str(DAY)]
    assert CliRunner().invoke(main, said).exit_code == 0
    built = build_board(board, today=DAY, workers=1)
    assert built.done, built.problems
    page = (board / "output/offers/fern-for-night-heron.html").read_text()
    assert "elsewhere.example" not in page and "{{ 7*7 }}" in page
