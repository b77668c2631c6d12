"""Cards are put into the hand on any page, and stay there from page to page."""

import pytest

from browser.composing import REFUSED, hand_button, in_hand

pytestmark = pytest.mark.browser


@pytest.fixture
def cards_page(new_page, made_site):
    """The cards page, just opened, from a file."""
    page = new_page(viewport={"width": 1350, "height": 900})
    page.goto(f"{made_site.as_uri()}/cards.html")
    return page


def test_a_card_goes_into_the_hand_and_out_again(cards_page):
    """One button does both; the strip counts, and is gone with the last card."""
    hand_button(cards_page, "Card 0").click()
    in_hand(cards_page, 1)
    hand_button(cards_page, "Card 1").click()
    in_hand(cards_page, 2)
    hand_button(cards_page, "Card 0").click()
    in_hand(cards_page, 1)
    assert hand_button(cards_page, "Card 1").inner_text().startswith("Take out of hand")
    hand_button(cards_page, "Card 1").click()
    assert hand_button(cards_page, "Card 1").inner_text().startswith("Put in hand")
    assert not cards_page.locator(".hand__link").is_visible()


def test_the_hand_goes_along_to_other_pages_and_windows(cards_page, made_site):
    """The next page, a card's own page and a second window know it; the link carries it."""
    hand_button(cards_page, "Card 0").click()
    other = cards_page.context.new_page()
    other.goto(f"{made_site.as_uri()}/cards/card-1.html")
    in_hand(other, 1)
    other.locator(".card-page__compose .hand-button").click()
    in_hand(other, 2)
    in_hand(cards_page, 2)
    cards_page.reload()
    in_hand(cards_page, 2)
    assert cards_page.locator(".hand__link").get_attribute("href").endswith(
        "compose.html#cards=card-0,card-1"
    )


def test_where_nothing_may_be_kept_links_carry_the_hand(cards_page, made_site):
    """With storage refused nothing fails, and the hand is still there three links on and back."""
    cards_page.context.add_init_script(REFUSED)
    cards_page.reload()
    hand_button(cards_page, "Card 0").click()
    in_hand(cards_page, 1)
    cards_page.locator("#cards-listed .card-tile__link").nth(1).click()
    cards_page.locator(".card-page__compose .hand-button").click()
    in_hand(cards_page, 2)
    cards_page.get_by_role("navigation", name="Main").get_by_role("link", name="Makers").click()
    in_hand(cards_page, 2)
    cards_page.go_back()
    in_hand(cards_page, 2)
    cards_page.locator(".hand__link").click()
    cards_page.locator("#offer-asked li").first.wait_for()
    assert cards_page.url.endswith("#cards=card-0,card-1")


def test_only_what_may_be_had_has_a_button(cards_page):
    """Available cards have one, of the list and of those that the filter lays; others none."""
    tiles = "[...document.querySelectorAll('{} .card-tile')].map(tile => ["
    tiles += "!tile.querySelector('.card-tile__state')?.textContent.trim(),"
    tiles += "!!tile.querySelector('.hand-button')])"
    listed = cards_page.evaluate(tiles.format("#cards-listed"))
    assert {tuple(each) for each in listed} == {(True, True), (False, False)}
    cards_page.locator("#filters > summary").click()
    cards_page.locator("#filters form input[value=night]").check()
    cards_page.locator("#filter-laid .card-tile").first.wait_for()
    laid = cards_page.evaluate(tiles.format("#filter-laid"))
    assert {tuple(each) for each in laid} == {(True, True), (False, False)}
    hand_button(cards_page, "Card 6").click()
    in_hand(cards_page, 1)


def test_nothing_moves_when_the_buttons_come(cards_page):
    """Room is kept for them before the script has run: without them all stands where it stood."""
    tops = """() => [...document.querySelectorAll('.card-tile')]
      .map(tile => tile.getBoundingClientRect().top)"""
    before = cards_page.evaluate(tops)
    assert cards_page.locator(".hand-button").count() > 10
    cards_page.evaluate("document.querySelectorAll('.hand-button').forEach(b => b.remove())")
    assert cards_page.evaluate(tops) == before


@pytest.mark.parametrize("kept", ['{"a": 1}', "[1, null, {}]", "[", '["../../x", "a b", "<b>"]'])
def test_what_is_kept_is_not_trusted(cards_page, kept):
    """Anything kept that is no list of names is an empty hand, and can be filled anew."""
    place = "'swapboard hand ' + new URL('.', location.href).pathname"
    cards_page.evaluate(f"text => localStorage.setItem({place}, text)", kept)
    cards_page.reload()
    assert not cards_page.locator(".hand__link").is_visible()
    hand_button(cards_page, "Card 0").click()
    in_hand(cards_page, 1)


def test_a_hand_is_of_one_board(new_page, made_site, right_to_left_site):
    """Two boards of one host keep their hands apart."""
    page = new_page()
    page.goto(f"{made_site.as_uri()}/cards.html")
    hand_button(page, "Card 0").click()
    in_hand(page, 1)
    page.goto(f"{right_to_left_site.as_uri()}/cards.html")
    assert not page.locator(".hand__link").is_visible()


def test_without_scripts_there_is_no_button(new_page, made_site):
    """Nothing dead is shown; the link to the composer is there all the same."""
    page = new_page(java_script_enabled=False)
    page.goto(f"{made_site.as_uri()}/cards/card-1.html")
    assert page.locator(".hand-button, .hand").count() == 0
    page.get_by_role("link", name="Write an offer for it").click()
    assert page.get_by_label("Which cards, one on a line").is_visible()
