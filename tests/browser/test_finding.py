"""Searching, sorting, filtering from a theme's own page, and filtering offers."""

import pytest

from browser import made_site as making
from browser.made_site import CARDS, MAKERS, SHEET, state_of, tile
from browser.test_filter import choose, fitting, found, open_filter, titles

pytestmark = pytest.mark.browser


@pytest.fixture
def opened(new_page, served_made_site):
    """Opens a page of the hand-made site from a sub-path of a server."""

    def open_one(path: str, **options):
        page = new_page(viewport={"width": 1350, "height": 900}, **options)
        page.goto(f"{served_made_site}/{path}")
        return page

    return open_one


def shape_of(number: int) -> str:
    """Which way card `number` lies; "" without a picture."""
    if number % 11 == 0:
        return ""
    return "wide" if number % 9 == 0 else "upright"


def test_searching_and_sorting(opened):
    """Words of a title or a maker's name are found whatever their case and accents, as typed;
    Back leaves the whole search at once."""
    page = opened("cards.html")
    open_filter(page)
    search = page.get_by_role("searchbox")
    search.press_sequentially("brackWÄTER 7")
    tams = fitting(lambda n: n % 3 == 1 and "7" in tile(n).title)
    found(page, len(tams))
    assert titles(page) == tams
    assert search.input_value() == "brackWÄTER 7"
    page.get_by_label("Sort by").select_option("oldest")
    found(page, len(tams))
    assert titles(page) == tams[::-1]
    page.go_back()
    page.go_back()
    page.locator("#cards-listed").wait_for()
    assert search.input_value() == "" and "#" not in page.url.removesuffix("#")


def test_every_order_lays_all_cards(opened):
    """An order alone shows every card: oldest first, by title, or by maker and then newest."""
    page = opened("cards.html#sort=oldest")
    everything = fitting(lambda n: True)
    found(page, CARDS)
    assert titles(page) == everything[::-1][:48]
    page.goto(page.url.replace("oldest", "maker"))
    page.reload()
    found(page, CARDS)
    by_maker = sorted(range(CARDS), key=lambda n: MAKERS[n % 3].text.casefold())
    assert titles(page) == [tile(n).title for n in by_maker][:48]
    page.goto(page.url.replace("maker", "title"))
    page.reload()
    found(page, CARDS)
    assert titles(page)[1:4] == ["Card 0", "Card 1", "Card 10"]


def test_which_way_a_card_lies(opened):
    """Upright and wide follow the picture's own shape; a card without one is neither."""
    page = opened("cards.html")
    open_filter(page)
    choose(page, "Wide")
    wide = fitting(lambda n: shape_of(n) == "wide")
    found(page, len(wide))
    assert titles(page) == wide
    choose(page, "Upright")
    found(page, len(fitting(lambda n: shape_of(n))))


def test_a_themes_page_filters_from_its_own_theme(opened):
    """On a theme's page its own theme is chosen from the start, can be added to or left, and
    clearing leads back to the page as it came."""
    page = opened("themes/small-rooms.html")
    listed = fitting(lambda n: n % 5 == 0)
    assert titles(page) == listed
    open_filter(page)
    assert page.locator("input[value=small-rooms]").is_checked()
    assert titles(page) == listed
    choose(page, "Keeping")
    keeping = fitting(lambda n: n % 5 == 0 and state_of(n) == "keeping")
    found(page, len(keeping))
    assert page.url.endswith("#theme=small-rooms&state=keeping")
    assert page.locator("#filter-chosen").inner_text() == "small rooms · Keeping"
    link = page.locator("#filter-laid a").first.get_attribute("href")
    assert link.startswith("../cards/")
    choose(page, "small rooms")
    found(page, 20)
    choose(page, "Keeping")
    found(page, CARDS)
    assert page.url.endswith("#theme=")
    page.get_by_role("button", name="Clear the filters").click()
    page.locator("#cards-listed").wait_for()
    assert titles(page) == listed


def test_nothing_found_says_what_to_leave_out(opened):
    """Each choice whose absence would find something is offered, with how much it finds."""
    page = opened("cards.html#theme=night&maker=tam-brackwater&state=keeping&q=card")
    found(page, 0)
    ways = page.locator("#filter-ways button").all_inner_texts()
    without_theme = fitting(lambda n: n % 3 == 1 and state_of(n) == "keeping")
    without_maker = fitting(
        lambda n: n % 3 == 0 and state_of(n) == "keeping" and "Card" in tile(n).title
    )
    wanted = [("night", without_theme), ("Tam Brackwater", without_maker)]
    assert ways == [f"Without {name}: {len(cards)}" for name, cards in wanted if cards]
    if ways:
        page.locator("#filter-ways button").first.click()
        page.locator("#filter-laid a").first.wait_for()
        assert page.evaluate("document.activeElement.tagName") == "SUMMARY"


@pytest.mark.parametrize("hostile", ["q=<img src=x>", "sort=__proto__", "shape=constructor&q="])
def test_a_hostile_search_stays_text(opened, hostile):
    """What a search or an order asks for is words, or nothing."""
    page = opened("cards.html#" + hostile)
    page.locator("#filters form").wait_for(state="attached")
    if hostile.startswith("q=<"):
        found(page, len(fitting(lambda n: "<img src=x>" in tile(n).title)))
        assert "“<img src=x>”" in page.locator("#filter-chosen").inner_text()
    else:
        assert len(titles(page)) == SHEET
    assert page.locator("img[src=x]").count() == 0


@pytest.mark.parametrize("count", [1, 500])
def test_boards_of_any_size_can_be_searched(new_page, tmp_path, count):
    """One card or five hundred: all are counted, and laid a step at a time."""
    site = making.write_of_size(tmp_path / "site", count)
    # Only the one page is there, and none of its pictures: the console says so.
    page = new_page(viewport={"width": 360, "height": 800}, hears=False)
    page.goto(f"{site.as_uri()}/cards.html#sort=oldest")
    found(page, count)
    assert len(titles(page)) == min(count, 48)
    assert page.get_by_role("button", name="Show more cards").is_visible() == (count > 48)
    sticking = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert page.evaluate(sticking) == 0


def shown_offers(page) -> list[int]:
    """Numbers of the offers that can be seen."""
    paths = [link.get_attribute("href") for link in
             page.locator(".offer-tile h3 a:visible").all()]  # fmt: skip
    return [int(path.removesuffix(".html").rpartition("-")[2]) for path in paths]


def test_offers_by_theme_and_medium(opened):
    """Offers are filtered in place, the address holds the choice, and Back undoes it."""
    page = opened("offers.html")
    assert shown_offers(page) == [0, 1, 2, 3, 4, 5]
    page.locator("#filters > summary").click()
    page.get_by_label("Theme").select_option("night")
    page.get_by_role("status").get_by_text("Offers found: 4", exact=True).wait_for()
    assert shown_offers(page) == [1, 2, 4, 5]
    assert not page.get_by_role("heading", name="Open", exact=True).is_visible()
    page.get_by_label("Medium").select_option("linocut")
    page.get_by_role("status").get_by_text("Offers found: 2", exact=True).wait_for()
    assert page.url.endswith("#theme=night&medium=linocut")
    page.reload()
    page.get_by_role("status").get_by_text("Offers found: 2", exact=True).wait_for()
    assert shown_offers(page) == [1, 2]
    page.go_back()
    page.get_by_role("status").get_by_text("Offers found: 4", exact=True).wait_for()
    page.locator(".jump a").first.click()
    assert shown_offers(page) == [1, 2, 4, 5]
    page.goto(page.url.partition("#")[0] + "#theme=%3Cb%3E&medium=toString")
    page.locator("#filter-found:empty").wait_for(state="attached")
    assert shown_offers(page) == [0, 1, 2, 3, 4, 5]


def test_offers_without_javascript_are_found_by_links(new_page, served_made_site):
    """With scripts off a theme leads to the offers on its own page; sections have jump links."""
    page = new_page(java_script_enabled=False)
    page.goto(f"{served_made_site}/offers.html")
    page.locator("#filters > summary").click()
    assert page.locator("select:visible, button:visible").count() == 0
    link = page.get_by_role("navigation", name="Theme").get_by_role("link", name="birds")
    assert link.get_attribute("href") == "themes/birds.html#offers"
    page.locator(".jump a").last.click()
    assert page.url.endswith("#ended")


def test_swaps_are_filtered_by_keyboard_alone(opened):
    """The panel opens, a theme is chosen, and only swaps that hold it are left."""
    page = opened("swaps.html")
    assert page.locator(".swap-tile:visible").count() == 2
    for _ in range(30):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.matches('#filters summary')"):
            break
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    for keys, theme, number in (("ArrowDown ArrowDown", "night", 1), ("ArrowUp", "birds", 2)):
        for key in keys.split():
            page.keyboard.press(key)
        page.wait_for_url(f"**#theme={theme}")
        page.get_by_role("status").get_by_text(f"Swaps found: {number}", exact=True).wait_for()
        assert page.locator(".swap-tile:visible").count() == number


def test_a_list_of_several_sheets_of_swaps_has_links_and_no_form(opened):
    """A form that sees one sheet would lie: themes lead to lists of their own."""
    page = opened("themes/birds.swaps.html")
    page.locator("#filters > summary").click()
    assert page.locator("select:visible").count() == 0
    link = page.get_by_role("navigation", name="Theme").get_by_role("link", name="birds")
    assert link.get_attribute("aria-current") == "page"
    page.wait_for_load_state("networkidle")  # a picture cut off by leaving would be a complaint
    page.get_by_role("link", name="Further swaps").click()
    assert page.url.endswith("themes/birds.swaps.page-2.html")
    assert page.get_by_text("Sheet 2").first.is_visible()
    page.wait_for_load_state("networkidle")
    page.get_by_role("link", name="Swaps before these").click()
    assert page.url.endswith("themes/birds.swaps.html")
