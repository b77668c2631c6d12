"""An offer is composed, by mouse and by keyboard alone, and handed over in four ways."""

import pytest

from browser.composing import (
    INES,
    TAM,
    check_mail,
    file_of,
    hand_button,
    in_hand,
    look_over,
    mail_of,
    open_composer,
    text_of,
)

pytestmark = pytest.mark.browser

OFFER = f"""Swap offer, form 1
Board: The Tidewrack Board
From: tam-brackwater
To: ines-okafor
Asks:
    {INES[0]}
    {INES[1]}
Gives:
    {TAM[0]}
    {TAM[2]}
Note:
    Gladly.

    Yours is the better one.
End of offer
"""


@pytest.fixture
def composer(new_page, made_site):
    """Opens the composer with cards in the hand."""

    def open_with(*cards, extra="", **options):
        page = new_page(**({"viewport": {"width": 1350, "height": 900}} | options))
        return open_composer(page, made_site.as_uri(), *cards, extra=extra)

    return open_with


def fill_in(page) -> None:
    """Fill in the offer above, with the mouse."""
    page.locator("#offer-from").select_option("tam-brackwater")
    for name in (TAM[0], TAM[2]):
        page.locator(f"#offer-given input[value={name}]").check()
    page.locator("#offer-note").fill("Gladly.\n\nYours is the better one.")


def test_an_offer_by_mouse_is_one_text_in_all_ways(new_page, served_made_site, tmp_path):
    """From the cards page to a text that is the same looked at, copied, mailed and downloaded."""
    page = new_page(viewport={"width": 1350, "height": 900})
    page.goto(f"{served_made_site}/cards.html")
    for number, name in enumerate(INES[:2], 1):
        hand_button(page, name.capitalize().replace("-", " ")).click()
        in_hand(page, number)
    page.get_by_role("complementary").get_by_role("link", name="Write an offer").click()
    fill_in(page)
    look_over(page)
    assert text_of(page) == OFFER
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.get_by_role("button", name="Copy the text").click()
    page.locator("#finished-status", has_text="Copied.").wait_for()
    assert page.evaluate("navigator.clipboard.readText()") == OFFER
    subject = "Swap offer from Tam Brackwater to Ines Okafor"
    assert mail_of(page) == {"to": "", "subject": subject, "body": OFFER.replace("\n", "\r\n")}
    name, data, mail = file_of(page, tmp_path)
    assert name.startswith("offer-ines-okafor-") and name.endswith(".eml")
    assert mail["Subject"] == subject
    assert check_mail(data, mail) == (OFFER, [])


def test_an_offer_by_keyboard_alone(new_page, made_site):
    """Cards are picked, the form filled in, looked over and downloaded without a mouse."""
    page = new_page(viewport={"width": 1350, "height": 900})
    page.goto(f"{made_site.as_uri()}/cards.html")
    focused = "document.activeElement.closest('li, form, main, aside, body')?.innerText || ''"

    def tab_to(test: str, back: bool = False) -> None:
        for _ in range(60):
            page.keyboard.press("Shift+Tab" if back else "Tab")
            if page.evaluate(f"(e => {test})(document.activeElement)"):
                return
        raise AssertionError((test, page.evaluate(focused)))

    tab_to("e.matches('.hand-button') && e.innerText.includes('Card 0')")
    page.keyboard.press("Space")
    in_hand(page, 1)
    tab_to("e.innerText === 'Write an offer'", back=True)
    page.keyboard.press("Enter")
    page.locator("#offer").wait_for()
    tab_to("e.id === 'offer-from'")
    page.keyboard.type("Tam")
    tab_to(f"e.value === '{TAM[1]}'")
    page.keyboard.press("Space")
    page.locator("#offer-count", has_text="You ask for 1 and give 1: even.").wait_for()
    tab_to("e.id === 'offer-note'")
    page.keyboard.type("By hand")
    tab_to("e.innerText === 'Look it over'")
    page.keyboard.press("Enter")
    assert f"Gives:\n    {TAM[1]}\nNote:\n    By hand\nEnd" in text_of(page)
    assert page.evaluate("document.activeElement.id") == "finished-name"
    tab_to("e.id === 'finished-file'")
    with page.expect_download() as waiting:
        page.keyboard.press("Enter")
    assert waiting.value.suggested_filename.startswith("offer-ines-okafor-")


def test_faults_are_told_together_and_beside_their_fields(composer):
    """The list of faults gets the focus, each leads to its field, and is gone once mended."""
    page = composer()
    look_over(page)
    assert page.evaluate("document.activeElement.id") == "offer-faults"
    told = ["Say who you are.", "Put at least one card in your hand first."]
    assert page.locator("#offer-faults li").all_inner_texts() == told
    assert page.locator("#offer-from-fault").inner_text() == told[0]
    assert page.locator("#offer-from").get_attribute("aria-invalid") == "true"
    page.locator("#offer-faults a").first.press("Enter")
    assert page.evaluate("document.activeElement.id") == "offer-from"
    page.locator("#offer-from").select_option("*")
    page.locator("#offer-name").fill("ines okafor")
    page.locator("#offer-country").fill("x")
    page.locator("#offer-note").fill("Write to me at <b>ada@board.example</b>")
    look_over(page)
    assert page.locator("#offer-faults li").all_inner_texts() == [
        "Somebody of that name is on the board. Choose it above, or add a word to yours.",
        "Write the country that you post from.",
        "Put at least one card in your hand first.",
        "Choose a picture: nobody swaps unseen.",
        "Say in a line what it is: a title, a medium.",
        "Leave out mail addresses and markup: this may stand on a public page.",
    ]
    assert page.locator("#finished").is_hidden()


def test_counts_are_told_as_one_goes(composer):
    """As many are given as asked for: too few and too many are said, and nothing is finished."""
    page = composer(*INES[:2])
    page.locator("#offer-from").select_option("tam-brackwater")
    count = page.locator("#offer-count")
    given = page.locator("#offer-given input")
    assert count.inner_text().startswith("You ask for 2 and give 0: choose 2 more")
    for index in range(3):
        given.nth(index).check()
    assert count.inner_text().startswith("You ask for 2 and give 3: take 1 back")
    look_over(page)
    assert page.locator("#offer-faults li").all_inner_texts() == [count.inner_text()]
    assert page.locator("#finished").is_hidden()
    page.locator("#offer-asked button").first.click()
    assert count.inner_text().startswith("You ask for 1 and give 3")
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == (
        "Take out: " + INES[1].capitalize().replace("-", " ")
    )
    for index in range(2):
        given.nth(index).uncheck()
    look_over(page)
    assert f"Asks:\n    {INES[1]}\nGives:\n    {TAM[2]}\nNote:" in text_of(page)
    given.nth(0).check()
    assert page.locator("#finished").is_hidden()  # it would no longer be what the form says


def test_cards_of_several_makers_are_several_offers(composer):
    """One maker at a time is asked, chosen by which; the others stay in the hand."""
    page = composer(INES[0], TAM[0], INES[1])
    assert page.locator("#offer-whose label").all_inner_texts() == [
        "Ines Okafor: 2", "Tam Brackwater: 1",
    ]  # fmt: skip
    assert page.locator("#offer-asked li").count() == 2
    page.get_by_label("Tam Brackwater: 1").check()
    page.locator("#offer-from").select_option("tam-brackwater")
    page.locator("#offer-given input").first.check()
    look_over(page)
    told = page.locator("#offer-faults li").all_inner_texts()
    assert told == ["These are your own cards. Ask somebody else for theirs."]
    page.locator("#offer-from").select_option("ines-okafor")
    page.locator("#offer-given input").first.check()
    look_over(page)
    assert f"From: ines-okafor\nTo: tam-brackwater\nAsks:\n    {TAM[0]}\n" in text_of(page)


@pytest.mark.parametrize(
    "hostile",
    [
        "<img%20src=x%20onerror=alert(1)>,../../etc/passwd,%00,%",
        "__proto__,constructor,toString,card-3,nobody",  # card 3 is spoken for
        "javascript:alert(1)",
        ",".join(["card-0"] * 5000),
        "%E0%A4%A," + "a" * 60_000,
    ],
)
def test_a_hostile_address_puts_nothing_unknown_in_the_hand(composer, hostile):
    """Only names of cards that may be had count, each once; the rest is said to be gone."""
    page = composer(extra=hostile)
    asked = page.locator("#offer-asked li span:last-of-type").all_inner_texts()
    assert asked == (["Card 0 · Ines Okafor"] if "card-0" in hostile else [])
    assert page.locator("img[src=x]").count() == 0
    page.reload()
    page.locator("#offer").wait_for()
    assert page.locator("#offer-asked li").count() == len(asked)
    assert "nobody" not in page.url and "proto" not in page.url


def test_cards_gone_meanwhile_leave_the_hand(composer):
    """A card that was traded since it was picked is taken out, and that is said."""
    page = composer("card-4", INES[0])
    assert page.locator("#offer-gone").inner_text() == (
        "Not to be had any more, and out of your hand: 1"
    )
    assert page.url.endswith(f"#cards={INES[0]}")


def test_an_offer_too_long_for_a_mail_link_goes_as_a_file(composer):
    """Past 1,900 encoded characters the mail says that all is in the file, and the page too."""
    page = composer(*INES[:2])
    fill_in(page)
    page.locator("#offer-note").fill("ö" * 400)
    look_over(page)
    assert "ö" * 400 in text_of(page)
    assert page.get_by_text("This is too long for a mail link").is_visible()
    assert len(page.locator("#finished-mail").get_attribute("href")) <= 1900
    assert mail_of(page)["body"].startswith("It is all in the attached file: offer-ines-okafor-")
    page.locator("#offer-note").fill("short")
    look_over(page)
    assert page.get_by_text("This is too long for a mail link").is_hidden()
    assert len(page.locator("#finished-mail").get_attribute("href")) <= 1900


def test_without_scripts_the_same_questions_can_be_printed(new_page, made_site):
    """Every question of the form is there, the lines to copy, and no dead control."""
    page = new_page(java_script_enabled=False)
    page.goto(f"{made_site.as_uri()}/compose.html")
    for words in ("Whose cards you would like: one maker", "Which cards, one on a line",
                  "Which swap call", "How many cards"):  # fmt: skip
        assert page.get_by_label(words, exact=True).is_visible()
    assert page.get_by_label("Your name").first.is_visible()
    lines = page.get_by_label("An offer, as lines to copy").inner_text()
    assert lines.startswith("Swap offer, form 1\nBoard: The Tidewrack Board\nFrom:")
    assert page.locator("button:visible, select:visible").count() == 0
    assert page.locator("#compose").is_hidden()
