"""An offer from the first card in the hand to both received, with a real browser at each step."""

from datetime import date, datetime, timedelta
from io import BytesIO
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image, ImageDraw

from browser.composing import Keys, download, hand_button, in_hand, look_over
from swapboard.cli import main

pytestmark = pytest.mark.browser

DAY = date(2026, 10, 10)
WIDE = {"viewport": {"width": 1350, "height": 900}}
FILES = {
    "board.toml": 'format = 1\n\n[board]\nname = "Reed Street"\nkeeper = "ines-okafor"\n',
    "makers/ines-okafor.md": "Name: Ines Okafor\nCountry: Portugal\n",
    "makers/tom-varga.md": "Name: Tom Varga\nCountry: Hungary\n",
    "cards/night-heron.md": "Title: Night heron\nThemes: birds\n",
    "cards/river-fox.md": "Title: River fox\nKind: print 2/12\nCopies left: 3\n",
    "cards/moth.md": "Title: Moth\nMaker: tom-varga\nThemes: moths\n",
    "cards/fern.md": "Title: Fern\nMaker: tom-varga\n",
}


class Board:
    """A board on the disk, built anew after each step and looked at in a visitor's page."""

    def __init__(self, folder: Path, page, files=FILES) -> None:
        for path, text in files.items():
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_text(text, "utf-8")
        self.folder, self.page, self.day = folder, page, DAY
        self.build()

    def run(self, *said: str) -> str:
        """A command, as the keeper types it; it has to end well."""
        done = CliRunner().invoke(main, [*said, "--today", str(self.day)])
        assert done.exit_code == 0, done.output
        return done.output

    def build(self) -> None:
        self.run("build", str(self.folder))

    def step(self, name: str, what: str, by: str = "") -> None:
        """A day later something has happened to the offer, and the site is built again."""
        self.day += timedelta(1)
        self.run("offer", name, what, str(self.folder), *(["--by", by] if by else []))
        self.build()

    def card(self, title: str) -> str:
        """What the list of cards says below a card: its edition, its state, its button."""
        self.page.goto(f"{self.address}/cards.html")
        tile = self.page.locator("main .card-tile").filter(
            has=self.page.get_by_text(title, exact=True))  # fmt: skip
        said = tile.locator(".card-tile__edition, .card-tile__state, .hand-button span:first-child")
        return " | ".join(text.strip() for text in said.all_inner_texts())

    def offer(self, name: str) -> tuple[str, list[str]]:
        """The state above an offer's own page, and what its line of dates says has happened."""
        self.page.goto(f"{self.address}/offers/{name}.html")
        told = self.page.locator(".moments__stop").all_inner_texts()
        over = self.page.locator(".heading__over").inner_text()
        return over.partition("·")[2].strip(), [" ".join(text.split()) for text in told]


@pytest.fixture
def board(tmp_path, new_page, served):
    """The board, served as a host would."""
    made = Board(tmp_path / "board", new_page(**WIDE))
    made.address = served(made.folder / "output")
    return made


def to_both_received(board: Board, name: str, giver: str, cards: tuple[str, ...], end: list[str]):
    """Have the offer agreed, mailed and received by each; after each step look at the cards
    and at the offer's page."""
    assert [board.card(title) for title in cards] == ["Put in hand"] * len(cards)
    assert board.offer(name)[0] == "Proposed"
    steps = [
        ("agreed", "", "Agreed"),
        ("mailed", giver, "On their way"),
        ("mailed", "ines-okafor", "On their way"),
        ("received", "ines-okafor", "On their way"),
        ("received", giver, "Complete"),
    ]
    for number, (what, by, state) in enumerate(steps, start=2):
        board.step(name, what, by)
        shown, told = board.offer(name)
        assert shown == state and len(told) == number, (what, by, told)
        assert what in told[-1].casefold(), told
        if state != "Complete":
            assert [board.card(title) for title in cards] == ["Spoken for"] * len(cards)
    assert [board.card(title) for title in cards] == end


def test_by_mouse_a_card_and_a_print_go_from_the_hand_to_their_new_homes(board, new_page, tmp_path):
    """Two for two: picked, offered, downloaded, taken, agreed, mailed and received. In the end
    what was one of a kind is traded, and of the print a copy less is left."""
    page = new_page(**WIDE)
    page.goto(f"{board.address}/cards.html")
    assert board.card("River fox") == "Print 2/12 · Copies left: 3 | Put in hand"
    for number, title in enumerate(("Night heron", "River fox"), 1):
        hand_button(page, title).click()
        in_hand(page, number)
    page.get_by_role("complementary").get_by_role("link", name="Write an offer").click()
    page.locator("#offer").get_by_label("Your name").select_option(label="Tom Varga")
    page.get_by_label("Moth").check()
    page.get_by_label("Fern").check()
    page.get_by_text("You ask for 2 and give 2: even.").wait_for()
    page.get_by_label("A note, if you like").fill("Herons are my weakness.")
    look_over(page)
    file = download(page, page.get_by_role("link", name="Download the file").click, tmp_path)
    said = board.run("take", str(file), "--board", str(board.folder), "--yes")
    assert "tom-varga gives fern, moth and asks ines-okafor for" in said and "2 for 2" in said
    (name,) = (path.stem for path in (board.folder / "offers").iterdir())
    board.build()
    board.page.goto(f"{board.address}/offers/{name}.html")
    assert board.page.get_by_text("Herons are my weakness.").is_visible()
    cards = ("Night heron", "Moth", "Fern")
    to_both_received(board, name, "tom-varga", cards, ["Traded"] * 3)
    assert board.card("River fox") == "Print 2/12 · Copies left: 2 | Put in hand"


def test_a_proposed_swap_is_offered_by_one_of_its_makers_with_all_filled_in(
    new_page, served, tmp_path
):
    """From the list of swaps, and from the maker's own page of them, to the file; written and
    built, the swap is an offer, and agreed it is proposed no more."""
    likes = {
        "makers/ines-okafor.md": "Name: Ines Okafor\nLikes: theme moths\n",
        "makers/tom-varga.md": "Name: Tom Varga\nLikes: theme birds\n",
    }
    page = new_page(**WIDE)
    board = Board(tmp_path / "board", page, FILES | likes)
    address = served(board.folder / "output")
    for start, link in (
        ("swaps/tom-varga", "Write this offer as Tom Varga"),
        ("swaps", "Tom Varga"),
    ):
        page.goto(f"{address}/{start}.html")
        page.locator(".swap-tile__ask").get_by_role("link", name=link, exact=True).click()
        page.get_by_text("You ask for 1 and give 1: even.").wait_for()
        assert page.url.endswith("#cards=night-heron")
    look_over(page)
    file = download(page, page.get_by_role("link", name="Download the file").click, tmp_path)
    board.run("take", str(file), "--board", str(board.folder), "--yes")
    board.run("offer", "moth-for-night-heron", "agreed", str(board.folder))
    board.build()
    page.goto(f"{address}/swaps.html")
    assert page.get_by_text("No two makers have cards for each other just now.").is_visible()
    page.goto(f"{address}/offers/moth-for-night-heron.html")
    assert page.get_by_text("Offer · Agreed").is_visible()


@pytest.mark.parametrize("asked", [
    "from=nobody&gives=moth", "from=<img src=x>&gives=<img src=x>", "from=__proto__&gives=",
    "from=tom-varga&gives=night-heron,river-fox,nobody", "gives=moth&from=tom-varga",
])  # fmt: skip
def test_a_link_fills_in_only_makers_of_the_board_and_their_own_cards(board, asked):
    """What a stranger wrote into an address is ignored, or is what one could choose oneself."""
    page = board.page
    page.goto(f"{board.address}/compose.html#cards=night-heron&{asked}")
    page.locator("#offer-asked li").wait_for()
    chosen = page.locator("#offer-from").input_value()
    assert chosen == ("tom-varga" if asked.startswith("from=tom") else "")
    assert page.locator("#offer-given input:checked").count() == 0
    assert page.locator("img[src=x]").count() == 0 and page.url.endswith("#cards=night-heron")


def photo_of_a_card() -> bytes:
    """A card on a dark table, as a phone would take it."""
    picture = Image.new("RGB", (900, 1200), "#2b2621")
    draw = ImageDraw.Draw(picture)
    draw.rectangle((200, 250, 700, 950), fill="#efe9dc")
    draw.ellipse((320, 400, 580, 660), fill="#b03a2e")
    out = BytesIO()
    picture.save(out, "JPEG", quality=90)
    return out.getvalue()


def compose_by_keyboard(page, folder: Path) -> Path:
    """A newcomer's offer of one card, with its picture, for the heron: not one click."""
    keys = Keys(page)
    sun = {"name": "IMG_1.jpg", "mimeType": "image/jpeg", "buffer": photo_of_a_card()}
    # Said long before the key: the browser hears of it on another line than of keys, and a key
    # that overtakes it opens a chooser that nobody can answer.
    page.on("filechooser", lambda chooser: chooser.set_files(sun))
    keys.to("e.matches('.hand-button') && e.innerText.includes('Night heron')")
    keys.press("Space")
    in_hand(page, 1)
    keys.to("e.innerText === 'Write an offer' && e.closest('aside')")
    keys.press("Enter")
    page.locator("#offer").wait_for()
    keys.to("e.id === 'offer-from'")
    keys.type("I am not")
    keys.to("e.id === 'offer-name'")
    keys.type("Ama Darko")
    keys.to("e.id === 'offer-country'")
    keys.type("Ghana")
    keys.to("e.type === 'file'")
    keys.press("Space")
    page.locator(".form__canvas:visible").wait_for()
    keys.to("e.type === 'text' && e.closest('.form__picture')")
    keys.type("Red sun, gouache")
    keys.to("e.innerText === 'Look it over'")
    keys.press("Enter")
    page.locator("#finished").wait_for()
    keys.to("e.id === 'finished-file'")
    return download(page, lambda: keys.press("Enter"), folder)


def test_by_keyboard_alone_a_newcomer_swaps_a_card_of_which_there_was_only_a_picture(
    board, new_page, tmp_path
):
    """From the list of cards to the download without a mouse; the picture becomes a card of the
    board, and both cards end as traded."""
    page = new_page(**WIDE)
    page.goto(f"{board.address}/cards.html")
    file = compose_by_keyboard(page, tmp_path)
    said = board.run("take", str(file), "--board", str(board.folder), "--yes")
    assert "makers/ama-darko.md: a new maker" in said and "cards/red-sun.md" in said
    board.build()
    board.page.goto(f"{board.address}/cards/red-sun.html")
    face = board.page.locator("main img").first
    assert face.evaluate("image => image.complete && image.naturalWidth > 100")
    cards = ("Night heron", "Red sun")
    to_both_received(board, "red-sun-for-night-heron", "ama-darko", cards, ["Traded"] * 2)


def test_by_keyboard_alone_a_newcomer_signs_up_for_a_call(new_page, served, tmp_path):
    """From the call's page to the file, each step with its focus to be seen; taken, they stand
    on the call's page."""
    call = {"calls/small-lights.md": "Title: Small lights\nDate: 2026-10-01\nSend: 4\n"
            "Receive: 3\nPlaces: 9\nSign up by: 2026-11-01\n"}  # fmt: skip
    page = new_page(**WIDE)
    board = Board(tmp_path / "board", page, FILES | call)
    address = f"{served(board.folder / 'output')}/calls/small-lights.html"
    page.clock.set_fixed_time(datetime.fromisoformat("2026-10-10T12:00:00Z"))
    page.goto(address)
    keys = Keys(page)
    keys.to("e.innerText === 'Sign up for it'")
    keys.press("Enter")
    page.locator("#sign-up").wait_for()
    assert page.locator("#sign-up-cards").input_value() == "4"
    keys.to("e.id === 'sign-up-from'")
    keys.type("I am not")
    keys.to("e.id === 'sign-up-name'")
    keys.type("Ama Darko")
    keys.to("e.innerText === 'Look it over'")
    keys.press("Enter")
    # What is lacking is told, has the focus, and leads to its field.
    keys.to("e.closest('#sign-up-faults') && e.matches('a')")
    keys.press("Enter")
    assert page.evaluate("document.activeElement.id") == "sign-up-country"
    keys.type("Ghana")
    keys.to("e.innerText === 'Look it over'")
    keys.press("Enter")
    page.locator("#finished").wait_for()
    keys.to("e.id === 'finished-file'")
    file = download(page, lambda: keys.press("Enter"), tmp_path)
    said = board.run("take", str(file), "--board", str(board.folder), "--yes")
    assert "calls/small-lights.people.csv: Ama Darko, 4 cards, signed up 2026-10-10" in said
    board.build()
    page.goto(address)
    assert page.locator(".people").get_by_text("Ama Darko").is_visible()
    assert page.get_by_text("8 of 9 places left").is_visible()
