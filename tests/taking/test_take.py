"""`swapboard take`: what came by mail lands on the board, all of it or nothing."""

import stat

import pytest
from click.testing import CliRunner
from letters import NEWS, OFFER, SIGN_UP, STRANGER, jpeg, mail
from swap_board import DAY, HEAD, make
from swap_board import OFFER as STANDING

from boards import files_of
from swapboard.cli import main
from swapboard.disk.check import check_board
from swapboard.disk.load import load_board
from swapboard.disk.round_people import leave_call
from swapboard.problems import errors
from swapboard.site.build import build_board

pytestmark = pytest.mark.usefixtures("looked_at_once")

CALL = {
    "calls/small-lights.md": "Title: Small lights\nHost: ines-okafor\nSend: 4\nPlaces: 2\n"
    "Sign up by: 2026-10-20\n",
    "calls/small-lights.people.csv": "maker,cards,signed up,arrived,note\r\ntom-varga,4,,,\r\n",
}
NEW = "offers/fern-for-night-heron.md"


@pytest.fixture
def board(tmp_path):
    return make(tmp_path / "board")


def seen(board):
    return {p: d for p, d in files_of(board).items() if not p.startswith(".swapboard/")}


def take(board, *letters, yes=True, typed="", today=DAY):
    """Each letter is put into a file beside the board, and all are taken at once."""
    names = []
    for number, letter in enumerate(letters):
        file = board.parent / f"letter-{number}"
        file.write_bytes(letter.encode() if isinstance(letter, str) else bytes(letter))
        names.append(str(file))
    said = ["take", *names, "--board", str(board), "--today", str(today)]
    return CliRunner().invoke(main, [*said, *(["--yes"] if yes else [])], input=typed)


def test_a_pasted_offer_becomes_a_post(board):
    """The post names both, the cards and the day, and the note is its text."""
    done = take(board, OFFER)
    assert done.exit_code == 0, done.output
    assert (board / NEW).read_text() == (
        "Title: Fern for Night heron\nFrom: tom-varga\nTo: ines-okafor\nGives: fern\n"
        "Asks: night-heron\n2026-10-10: proposed\n\nI like herons.\n"
    )
    assert NEW in done.stdout and "1 for 1" in done.stdout
    assert not (board / "private").exists()
    assert check_board(board, workers=1) == []


@pytest.mark.parametrize(
    "dress",
    [
        lambda text: "From the coast, with love:\n\n" + text + "\n\nFrom me\n",
        lambda text: text.replace("\n", "\r\n"),
        lambda text: "".join(f"> {line}\n" for line in text.splitlines()),
        lambda text: "".join(f">> {line}\n" for line in text.splitlines()),
        lambda text: text.replace(" ", "\u00a0"),
        lambda text: "\n".join("    " + line for line in text.splitlines()),
        lambda text: "\n".join(line.strip() for line in text.splitlines()),
        lambda text: "\ufeff" + text.replace("\n    ", "\n\t"),
        lambda text: text.replace("\n", "\n\n"),
        lambda text: text.replace("    fern", "    - Fern"),
        lambda text: text.replace("tom-varga", "Tom  VARGA").replace("ines-okafor", "Inés Okafor"),
        lambda text: text.replace("Swap offer, form 1", "*Swap offer, form 1*"),
        lambda text: text.lower().replace("-", "\u2011").replace("i like", "I like"),
    ],
    ids=["around", "CRLF", "quoted", "twice quoted", "hard spaces", "moved in", "flush left",
         "mark, tabs", "airy", "bullets", "names as spoken", "bold", "by hand"],
)  # fmt: skip
def test_an_offer_is_read_through_what_mail_programs_do(board, dress):
    """Quoting, spaces, line ends and indents make no difference to what was meant."""
    done = take(board, dress(OFFER))
    assert done.exit_code == 0, done.output
    text = (board / NEW).read_text()
    assert "Gives: fern\nAsks: night-heron\n" in text and text.strip().endswith("I like herons.")
    assert not done.stderr


@pytest.mark.parametrize(
    "letter",
    [
        mail(),
        mail(charset="iso-8859-1"),
        mail("", html=OFFER.replace("\n", "<br>\n").replace("    ", "&nbsp;&nbsp; ")),
        mail("", html="<html><body>" + "".join(f"<div>{line}</div>" for line in
                                                OFFER.splitlines()) + "</body></html>"),
        mail("", html=f"<pre>{OFFER}</pre>"),
        mail("See the file.", html="<p>See the <b>file</b>.</p>"),
        mail(OFFER, html=f"<pre>{OFFER.replace('I like', 'I  like')}</pre>"),
    ],
    ids=["plain", "latin", "breaks", "blocks", "as it is", "attached", "both"],
)  # fmt: skip
def test_a_mail_is_read_in_its_usual_forms(board, letter):
    """Plain, HTML alone, both, or with the form as a file: it is one offer."""
    if "See the file" in letter.as_string():
        letter.add_attachment(mail(sender="").as_bytes(), maintype="application",
                              subtype="octet-stream", filename="offer-ines-okafor.eml")
    done = take(board, letter)
    assert done.exit_code == 0, done.output
    assert "I" in (board / NEW).read_text().split("\n\n")[1]
    assert sorted(p for p in seen(board) if p.startswith("offers/")) == [NEW, STANDING]


def test_a_form_sent_on_as_a_mail_in_a_mail_is_found(board):
    """As a part of its own, and where a program coded that part as a file."""
    inner = mail(sender="")
    outer = mail("Please see below.")
    outer.add_attachment(inner)
    assert take(board, outer).exit_code == 0
    (board / NEW).unlink()
    import base64

    coded = base64.encodebytes(bytes(mail(sender=""))).decode()
    raw = (
        "From: tom@post.example\nMIME-Version: 1.0\nContent-Type: multipart/mixed; boundary=xx\n\n"
        "--xx\nContent-Type: text/plain\n\nhello\n--xx\nContent-Type: message/rfc822\n"
        f"Content-Transfer-Encoding: base64\n\n{coded}\n--xx--\n"
    )
    done = take(board, raw)
    assert done.exit_code == 0, done.output
    assert (board / NEW).is_file()


def test_flowed_lines_are_put_together(board):
    """Lines that a mail program broke, by its own account, are whole again."""
    text = OFFER.replace("I like herons.", "I like herons very \n    much indeed.")
    raw = b"MIME-Version: 1.0\nContent-Type: text/plain; charset=utf-8; format=flowed\n\n"
    assert take(board, raw + text.encode()).exit_code == 0
    assert "herons very" in (board / NEW).read_text()


def test_the_senders_address_is_kept_in_private_alone(board):
    """It is in private/mail.csv for its owner's eyes, in no post and on no page."""
    done = take(board, mail())
    assert done.exit_code == 0
    table = board / "private/mail.csv"
    assert table.read_text() == "maker,mail\ntom-varga,tom@post.example\n"
    assert stat.S_IMODE(table.stat().st_mode) == 0o600
    assert stat.S_IMODE(table.parent.stat().st_mode) == 0o700
    assert build_board(board, today=DAY, workers=1).done
    public = {p: d for p, d in seen(board).items() if p != "private/mail.csv"}
    assert not [p for p, d in public.items() if b"tom@post" in d]


def test_another_address_is_pointed_out_and_not_kept(board):
    """An address that is not the one known is a warning, and does not replace it."""
    make(board, {"private/mail.csv": "maker,mail\ntom-varga,tom@old.example\n"})
    done = take(board, mail())
    assert done.exit_code == 0 and "another address than is known" in done.stderr
    assert (board / "private/mail.csv").read_text().count("\n") == 2


def test_a_warning_does_not_hide_what_is_wrong(board):
    """A wrong count is told beside a doubt about the sender."""
    make(board, {"private/mail.csv": "maker,mail\ntom-varga,tom@old.example\n"})
    done = take(board, mail(OFFER.replace("    night-heron", "    night-heron\n    river-fox")))
    assert done.exit_code == 1
    assert "another address" in done.stderr and "as many cards as Asks" in done.stderr


def test_an_address_that_stands_in_a_post_is_not_kept(board):
    """Kept, it would stop every build; the keeper is told."""
    make(board, {"makers/tom-varga.md": "Name: Tom Varga\n\nWrite to tom@post.example\n"})
    done = take(board, mail())
    assert done.exit_code == 0 and "stands in a post" in done.stderr
    assert not (board / "private").exists()
    assert build_board(board, today=DAY, workers=1).done


def test_a_strangers_offer_brings_a_maker_and_their_cards(board):
    """A maker, a card and a photo for each picture, and the offer between them."""
    pictures = (("picture-1.jpg", jpeg()), ("picture-2.jpg", jpeg(200)))
    done = take(board, mail(STRANGER, "Ama <ama@coast.example>", pictures))
    assert done.exit_code == 0, done.output
    assert (board / "makers/ama-darko.md").read_text() == "Name: Ama Darko\nCountry: Ghana\n"
    assert (board / "cards/blue-heron.md").read_text() == (
        "Title: Blue heron\nDate: 2026-10-10\nMaker: ama-darko\nMedia: gouache\n"
        "Photo: blue-heron.jpg\n"
    )
    assert "Title: Harbour at six, on wood\n" in (
        board / "cards/harbour-at-six-on-wood.md").read_text()
    offer = (board / "offers/blue-heron-for-night-heron.md").read_text()
    assert "Gives: blue-heron, harbour-at-six-on-wood\nAsks: night-heron, river-fox\n" in offer
    assert (board / "private/mail.csv").read_text().endswith("ama-darko,ama@coast.example\n")
    assert errors(check_board(board, workers=1)) == []
    assert build_board(board, today=DAY, workers=1).done


def test_a_maker_of_the_board_gives_a_card_that_is_new_there(board):
    """One card by its name, one as a picture of any name: it becomes a card of theirs."""
    text = OFFER.replace("    night-heron\n", "    night-heron\n    river-fox\n").replace(
        "    fern\n", "    fern\n    picture 1: Tram at dusk\n")
    done = take(board, mail(text, pictures=(("IMG_0001.jpeg", jpeg()),)))
    assert done.exit_code == 0, done.output
    assert "Maker: tom-varga\n" in (board / "cards/tram-at-dusk.md").read_text()
    assert "Gives: fern, tram-at-dusk\n" in (board / NEW).read_text()
    assert not (board / "makers/tom-varga-2.md").exists()


def test_a_namesake_is_pointed_out(board):
    """Somebody who calls themselves new and has a maker's name and country may be that
    maker, or not: the keeper is told before the yes."""
    done = take(board, OFFER.replace("From: tom-varga", "From: Tom Varga\nCountry: Hungary"))
    assert done.exit_code == 0 and "is taken to be tom-varga" in done.stderr


def test_a_row_fits_the_keepers_own_table(board):
    """Columns in another order, columns of the keeper's, and line ends stay as they are."""
    kept = b"mail,since,maker\r\nines@reeds.example,2025,ines-okafor\r\n"
    make(board, {"private/mail.csv": kept})
    assert take(board, mail()).exit_code == 0
    assert (board / "private/mail.csv").read_bytes() == kept + b"tom@post.example,,tom-varga\r\n"
    make(board, {"private/mail.csv": "who,where\n"})
    (board / NEW).unlink()
    done = take(board, mail())
    assert done.exit_code == 1 and "must have the columns maker and mail" in done.stderr


def test_names_that_are_taken_are_numbered(board):
    """Two strangers' cards of one title, and a second offer for the same cards."""
    one = STRANGER.replace("    picture 2: Harbour at six, on wood\n", "").replace(
        "    river-fox\n", "").replace("Blue heron, gouache", "Night heron")
    other = one.replace("Ama Darko", "Bo Tamm")
    picture = (("picture-1.jpg", jpeg()),)
    assert take(board, mail(one, "a@b.example", picture),
                mail(other, "c@d.example", picture)).exit_code == 0
    made = [p for p in seen(board) if "night-heron" in p]
    assert sorted(made) == [
        "cards/night-heron-2.md", "cards/night-heron-3.md", "cards/night-heron.md",
        "offers/night-heron-2-for-night-heron.md", "offers/night-heron-3-for-night-heron.md",
        "photos/night-heron-2.jpg", "photos/night-heron-3.jpg",
    ]  # fmt: skip


def test_a_known_makers_photos_become_their_cards(board):
    """Without a form, from an address that is known, each card in the pictures is a post."""
    make(board, {"private/mail.csv": "maker,mail\ntom-varga,tom@post.example\n"})
    letter = mail("Here are two more.", pictures=(("Night bus.JPG", jpeg()), ("x.jpg", jpeg(220))))
    assert take(board, letter, yes=False, typed="n\n").exit_code == 1
    assert not (board / "photos").exists()
    done = take(board, letter, yes=False, typed="y\n")
    assert done.exit_code == 0, done.output
    assert "Maker: tom-varga\n" in (board / "cards/night-bus.md").read_text()
    assert (board / "photos/night-bus.jpg").is_file() and (board / "cards/x.md").is_file()
    assert errors(check_board(board, workers=1)) == []


def test_photos_from_an_unknown_address_are_refused(board):
    """Who it is has to be known first."""
    before = seen(board)
    done = take(board, mail("Hello", pictures=(("x.jpg", jpeg()),)))
    assert done.exit_code == 1 and "private/mail.csv" in done.stderr
    assert seen(board) == before


@pytest.mark.parametrize(
    ("news", "by", "before", "line"),
    [
        ("yes", "tom-varga", [], "2026-10-10: agreed"),
        ("No.", "tom-varga", [], "2026-10-10: declined"),
        ("no", "ines-okafor", [], "2026-10-10: withdrawn"),
        ("mailed\nOn: 2026-10-08", "Inés Okafor", ["2026-10-05: agreed"],
         "2026-10-08: mailed by ines-okafor"),
        ("arrived", "tom-varga", ["2026-10-05: agreed", "2026-10-06: mailed by ines-okafor"],
         "2026-10-10: received by tom-varga"),
        ("lost", "tom-varga", ["2026-10-05: agreed", "2026-10-06: mailed by ines-okafor"],
         "2026-10-10: lost"),
    ],
)  # fmt: skip
def test_news_of_an_offer_becomes_a_dated_line(board, news, by, before, line):
    """Yes, no, mailed, arrived and lost are written into the offer they name."""
    told = HEAD + "\n".join(["2026-10-01: proposed", *before]) + "\n"
    make(board, {STANDING: told + "\nWould you?\n"})
    done = take(board, NEWS.replace("yes", news).replace("tom-varga", by))
    assert done.exit_code == 0, done.output
    assert (board / STANDING).read_text() == told + line + "\n\nWould you?\n"


def test_a_yes_from_whoever_proposed_is_refused(board):
    """Nobody agrees to their own proposal."""
    before = seen(board)
    done = take(board, NEWS.replace("tom-varga", "ines-okafor"))
    assert done.exit_code == 1 and "by the maker who was asked" in done.stderr
    assert seen(board) == before


def test_a_sign_up_becomes_a_row_while_a_place_is_left(board):
    """The next one is put on the waiting list; whoever had left comes back to their row."""
    make(board, CALL)
    people = board / "calls/small-lights.people.csv"
    done = take(board, mail(SIGN_UP, "ama@coast.example"))
    assert done.exit_code == 0, done.output
    assert people.read_bytes() == CALL["calls/small-lights.people.csv"].encode() + (
        b"Ama Darko,4,2026-10-10,,Ghana; First time.\r\n"
    )
    assert check_board(board, workers=1) == []
    done = take(board, SIGN_UP.replace("Ama Darko", "Bo Tamm"))
    assert done.exit_code == 0 and "none is left" in done.stdout
    listed = load_board(board).board.calls["small-lights"].people
    (bo,) = [person for person in listed if person.maker == "Bo Tamm"]
    assert (bo.standing, bo.cards, bo.note) == ("waiting", 4, "Ghana; First time.")
    assert leave_call(board, "small-lights", "Ama Darko", DAY)
    done = take(board, SIGN_UP)
    assert done.exit_code == 0, done.output
    assert people.read_text().count("Ama Darko") == 1
    assert check_board(board, workers=1) == []


@pytest.mark.parametrize(
    ("old", "new", "must"),
    [
        ("small-lights", "big-lights", "must be a call of this board"),
        ("Ama Darko", "Tom Varga", "must not be signed up yet"),
        ("Cards: 4", "Cards: many", "must be a whole number from 1 to"),
        ("Ghana", "Atlantis", "must be a country"),
        ("Country: Ghana\n", "", "must be there for somebody who is not on the board"),
        ("First time.", "Ring me: +49 170 1234567", "must not hold a telephone number"),
        ("Ama Darko", "=HYPERLINK(1)", "must begin with a letter or a digit"),
    ],
)
def test_a_sign_up_that_does_not_fit_is_refused(board, old, new, must):
    """It says what is wrong, and no row is written."""
    make(board, CALL)
    before = seen(board)
    done = take(board, SIGN_UP.replace(old, new))
    assert done.exit_code == 1 and must in done.stderr, done.output
    assert seen(board) == before


def test_a_sign_up_after_its_last_day_is_refused(board):
    """The host can still move the day."""
    make(board, CALL)
    done = take(board, SIGN_UP, today="2026-10-21")
    assert done.exit_code == 1 and "must be signed up for by 2026-10-20" in done.stderr


def test_a_sign_up_before_its_first_day_waits_for_it(board):
    """It says who, for which call and from when; nothing is written until that day."""
    post = "calls/small-lights.md"
    make(board, {**CALL, post: "Date: 2026-10-11\n" + CALL[post]})
    before = seen(board)
    early = take(board, SIGN_UP, today="2026-10-10")
    assert early.exit_code == 1 and seen(board) == before
    assert (
        "Call: must be open for sign-up, which small-lights is from 2026-10-11 "
        '(got "Ama Darko, on 2026-10-10"). Fix: take it again from 2026-10-11; nothing was changed.'
    ) in early.stderr
    assert take(board, SIGN_UP, today="2026-10-11").exit_code == 0


def test_a_mailbox_is_taken_in_order(board):
    """Each mail meets the board as the one before leaves it; one without a form is named."""
    box = b""
    for letter in (mail(OFFER), mail("Thanks!"), mail(
            NEWS.replace("heron-for-moth", "fern-for-night-heron").replace(
                "tom-varga", "ines-okafor"), "ines@reeds.example")):
        box += b"From someone Sat Oct 10 10:00:00 2026\n" + bytes(letter) + b"\n"
    done = take(board, box)
    assert done.exit_code == 0, done.output
    assert "letter-0, mail 2: holds nothing to take" in done.stderr
    assert "2026-10-10: proposed\n2026-10-10: agreed\n" in (board / NEW).read_text()
    assert len((board / "private/mail.csv").read_text().splitlines()) == 3


def test_of_several_letters_all_are_taken_or_none(board):
    """One that is wrong keeps the good one from being written."""
    before = seen(board)
    done = take(board, OFFER, NEWS.replace("heron-for-moth", "nothing"))
    assert done.exit_code == 1
    assert seen(board) == before


def test_nothing_is_written_without_a_yes(board):
    """No, and no answer at all, leave the board as it is."""
    before = seen(board)
    for typed in ("n\n", "", "perhaps\n"):
        done = take(board, OFFER, yes=False, typed=typed)
        assert done.exit_code == 1 and "Nothing was written." in done.stdout
        assert seen(board) == before


def test_text_can_be_pasted(board):
    """A dash reads what is typed, and then --yes has to be said."""
    said = ["take", "-", "--board", str(board), "--today", str(DAY)]
    assert CliRunner().invoke(main, said, input=OFFER).exit_code == 1
    assert not (board / NEW).exists()
    done = CliRunner().invoke(main, [*said, "--yes"], input=OFFER)
    assert done.exit_code == 0, done.output
    assert (board / NEW).is_file()


def test_the_same_offer_is_not_taken_twice(board):
    """A second copy of a mail says where the first went."""
    assert take(board, OFFER).exit_code == 0
    done = take(board, OFFER)
    assert done.exit_code == 1 and NEW in done.stderr


def test_a_board_that_changes_while_the_keeper_thinks_is_left_alone(board):
    """What was agreed to is what is written, or nothing."""
    from swapboard.disk.taking import plan_taking, write_taken

    taken = plan_taking(board, [("x", OFFER.encode())], DAY)
    (board / "cards/late.md").write_text("Title: Late\n")
    assert "run this again" in str(write_taken(taken)[0])
    assert not (board / NEW).exists()


def test_a_write_that_fails_halfway_is_undone(board, monkeypatch):
    """After an error of the disk everything stands as before."""
    import os

    from swapboard.disk import together

    before = seen(board)
    real, count = os.replace, []

    def full(source, target):
        count.append(target)
        if len(count) == 3:
            raise OSError(28, "No space left on device")
        return real(source, target)

    monkeypatch.setattr(together.os, "replace", full)
    pictures = (("picture-1.jpg", jpeg()), ("picture-2.jpg", jpeg(200)))
    done = take(board, mail(STRANGER, "Ama <ama@coast.example>", pictures))
    monkeypatch.undo()
    assert done.exit_code == 1 and "No space left" in done.stderr
    assert seen(board) == before
