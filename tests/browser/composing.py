"""What the tests of the hand and of the composer share."""

import email
import email.policy
from pathlib import Path
from urllib.parse import unquote

from browser.made_site import CARDS, state_of

INES = [f"card-{n}" for n in range(CARDS) if n % 3 == 0 and state_of(n) == "available"]
TAM = [f"card-{n}" for n in range(CARDS) if n % 3 == 1 and state_of(n) == "available"]
REFUSED = """Object.defineProperty(window, 'localStorage',
  { get() { throw new DOMException('refused', 'SecurityError'); } });"""

SEEN = """() => { const e = document.activeElement, style = getComputedStyle(e);
  return e.matches(':focus-visible') && style.outlineStyle !== 'none'
    && parseFloat(style.outlineWidth) >= 2 && e.checkVisibility(); }"""


def hand_button(page, title: str):
    """The button by which a card of a list goes into the hand."""
    tile = page.locator(".card-tile").filter(has=page.get_by_text(title, exact=True))
    return tile.locator("visible=true").locator(".hand-button")


def in_hand(page, number: int) -> None:
    """Wait until the strip says how many cards are in the hand."""
    page.locator(".hand__count").get_by_text(f"In your hand: {number}", exact=True).wait_for()


def open_composer(page, site: str, *cards: str, extra: str = ""):
    """The composer, with cards in the hand, once its data has come."""
    page.goto(f"{site}/compose.html#cards={','.join(cards)}{extra}")
    page.locator("#offer").wait_for()
    return page


def look_over(page, form: str = "offer") -> None:
    """Press the form's last button."""
    page.locator(f"#{form}").get_by_role("button", name="Look it over").click()


def text_of(page) -> str:
    """The finished text, as it is shown."""
    page.locator("#finished").wait_for()
    return page.locator("#finished-text").text_content()


def mail_of(page) -> dict[str, str]:
    """The fields of the mail link (RFC 6068), decoded."""
    link = page.locator("#finished-mail").get_attribute("href")
    address, _, fields = link.partition("?")
    pairs = (field.split("=", 1) for field in fields.split("&"))
    return {"to": unquote(address.removeprefix("mailto:"))} | {k: unquote(v) for k, v in pairs}


def file_of(page, folder):
    """The downloaded file: its name, its bytes, and the mail that Python reads from it."""
    with page.expect_download() as waiting:
        page.locator("#finished-file").click()
    path = folder / "downloaded.eml"
    waiting.value.save_as(path)
    data = path.read_bytes()
    mail = email.message_from_bytes(data, policy=email.policy.default)
    return waiting.value.suggested_filename, data, mail


def check_mail(data: bytes, mail) -> tuple[str, list]:
    """The text and the pictures of a mail that keeps to the rules: no defect, no address,
    lines that end in CR LF and are no longer than 78 characters (RFC 5322, 2.1.1)."""
    assert not mail.defects and not [part for part in mail.walk() if part.defects]
    assert sorted(mail.keys()) == ["Content-Type", "Date", "MIME-Version", "Subject"]
    assert b"\r" not in data.replace(b"\r\n", b"") and b"\n" not in data.replace(b"\r\n", b"")
    assert max(map(len, data.split(b"\r\n"))) <= 78
    text, *pictures = mail.iter_parts()
    assert (text.get_content_type(), text.get_content_charset()) == ("text/plain", "utf-8")
    assert text["Content-Transfer-Encoding"] == "base64"
    for number, picture in enumerate(pictures, 1):
        assert picture.get_content_type() == "image/jpeg"
        assert picture.get_content_disposition() == "attachment"
        assert picture.get_filename() == f"picture-{number}.jpg"
    body = text.get_payload(decode=True).decode("utf-8")
    assert "\r" not in body.replace("\r\n", "")
    return body.replace("\r\n", "\n"), [part.get_payload(decode=True) for part in pictures]


def download(page, press, folder: Path) -> Path:
    """What the browser saves when the link is pressed."""
    with page.expect_download() as waiting:
        press()
    file = folder / waiting.value.suggested_filename
    waiting.value.save_as(file)
    return file


class Keys:
    """A page used by keyboard alone: what is pressed is what has the focus."""

    def __init__(self, page) -> None:
        self.page = page

    def to(self, test: str, back: bool = False) -> None:
        """Tab on until the focused element, `e`, passes; that it has the focus is to be seen."""
        for _ in range(80):
            self.page.keyboard.press("Shift+Tab" if back else "Tab")
            if self.page.evaluate(f"(e => {test})(document.activeElement)"):
                assert self.page.evaluate(SEEN)
                return
        raise AssertionError(test)

    def press(self, key: str) -> None:
        self.page.keyboard.press(key)

    def type(self, text: str) -> None:
        self.page.keyboard.type(text)
