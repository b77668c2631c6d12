"""An offer from a mail to complete, the site rebuilt at each step."""

from click.testing import CliRunner
from swap_board import DAY, OFFER, make

from swapboard.cli import main
from swapboard.site.build import build_board

MAIL = (
    b"From: Tom <tom@post.example>\nSubject: A swap?\nContent-Type: text/plain; charset=utf-8\n\n"
    b"Swap offer, form 1\nBoard: Reed Street\nFrom: tom-varga\nTo: ines-okafor\n"
    b"Asks:\n    night-heron\nGives:\n    fern\nNote:\nEnd of offer\n"
)
NAME = "fern-for-night-heron"
NEWS = (
    "Swap news, form 1\nBoard: Reed Street\nOffer: {}\nBy: {}\nNews: {}\nOn: {}\nEnd of news\n"
)


def test_the_site_follows_an_offer_from_a_mail_to_complete(tmp_path):
    """Each step changes where the offer and its cards stand; at the end both are traded."""
    board = make(tmp_path / "board", {OFFER: None})

    def run(*words, typed=None):
        said = CliRunner().invoke(main, [*words, "--today", str(DAY)], input=typed)
        assert said.exit_code == 0, said.output
        return said.stdout

    def news(by, what, on):
        run("take", "-", "--yes", "--board", str(board), typed=NEWS.format(NAME, by, what, on))

    def stands():
        assert build_board(board, today=DAY, workers=1).done
        pages = [board / "output" / f"{page}.html" for page in
                 (f"offers/{NAME}", "cards/night-heron", "cards/fern")]  # fmt: skip
        offer, heron, fern = (page.read_text("utf-8") for page in pages)
        states = {"Available to swap", "Spoken for in a swap", "Traded: it has a new home"}
        over = offer.split("heading__over")[1].split("</p>")[0].partition("·")[2].strip()
        return over, [next(s for s in states if s in page) for page in (heron, fern)]

    (tmp_path / "mail.eml").write_bytes(MAIL)
    run("take", str(tmp_path / "mail.eml"), "--board", str(board), typed="y\n")
    free, spoken = "Available to swap", "Spoken for in a swap"
    assert stands() == ("Proposed", [free, free])
    assert "ines-okafor owes tom-varga an answer" in run("today", str(board))
    news("ines-okafor", "yes", "2026-10-10")
    assert stands() == ("Agreed", [spoken, spoken])
    assert "introduce tom-varga and ines-okafor" in run("today", str(board))
    run("offer", NAME, "mailed", "--by", "tom-varga", str(board))
    news("ines-okafor", "mailed", "2026-10-10")
    assert stands() == ("On their way", [spoken, spoken])
    news("tom-varga", "arrived", "2026-10-10")
    assert stands() == ("On their way", [spoken, spoken])
    run("offer", NAME, "received", "--by", "ines-okafor", str(board))
    assert stands() == ("Complete", ["Traded: it has a new home"] * 2)
    assert run("today", "--no-proposals", str(board)) == "Nothing is to be done today.\n"
