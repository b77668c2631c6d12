"""The filter on the cards page, used by mouse and keyboard in a real browser."""

import pytest

from browser.made_site import CARDS, SHARP, SHEET, medium_of, state_of, themes_of, tile

pytestmark = pytest.mark.browser


@pytest.fixture
def cards_page(new_page, served_made_site):
    """The cards page, just opened, from a sub-path of a server."""
    page = new_page(viewport={"width": 1350, "height": 900})
    page.goto(f"{served_made_site}/cards.html")
    return page


def titles(page) -> list[str]:
    """Titles of the cards that can be seen."""
    return [t for t in page.locator(".card-tile__title:visible").all_inner_texts() if t]


def fitting(test) -> list[str]:
    """Titles of the cards that fit, as worked out without the filter, newest first."""
    return [tile(n).title for n in range(CARDS) if test(n)]


def open_filter(page) -> None:
    """Open the panel by mouse and wait for its form."""
    page.locator("#filters > summary").click()
    page.locator("#filters form").wait_for()


def choose(page, words: str) -> None:
    """Tick or untick the choice with these words."""
    page.locator(".filters__choice").filter(has=page.get_by_text(words, exact=True)).click()


def found(page, number: int) -> None:
    """Wait until the page says how many cards were found."""
    page.get_by_role("status").get_by_text(f"Cards found: {number}", exact=True).wait_for()


def test_filtering_by_mouse(cards_page):
    """Within themes any choice will do; theme, medium, maker and state must all hold."""
    open_filter(cards_page)
    choose(cards_page, "night")
    night = fitting(lambda n: n % 3 == 0)
    found(cards_page, len(night))
    assert titles(cards_page) == night
    choose(cards_page, "small rooms")
    either = fitting(lambda n: n % 3 == 0 or n % 5 == 0)
    found(cards_page, len(either))
    choose(cards_page, "linocut")
    choose(cards_page, "Spoken for")
    all_of = fitting(
        lambda n: (n % 3 == 0 or n % 5 == 0) and medium_of(n) == "linocut"
        and state_of(n) == "spoken for"
    )  # fmt: skip
    found(cards_page, len(all_of))
    assert titles(cards_page) == all_of
    choose(cards_page, "Tam Brackwater")
    found(cards_page, 0)


def test_filtering_by_keyboard_alone(cards_page):
    """The panel opens, choices are ticked and the filter is cleared without a mouse."""
    keyboard = cards_page.keyboard
    for _ in range(20):
        keyboard.press("Tab")
        if cards_page.evaluate("document.activeElement.tagName") == "SUMMARY":
            break
    keyboard.press("Enter")
    cards_page.locator("#filters form").wait_for()
    for _ in range(3):  # past the search and the order
        keyboard.press("Tab")
    focused = "document.activeElement.value"
    assert cards_page.evaluate(focused) == "birds"
    keyboard.press("Space")
    birds = fitting(lambda n: n % 2 == 0)
    found(cards_page, len(birds))
    assert cards_page.evaluate(focused) == "birds"
    for _ in range(40):
        keyboard.press("Tab")
        if cards_page.evaluate("document.activeElement.dataset.does") == "clear":
            break
    keyboard.press("Enter")
    cards_page.locator("#cards-listed").wait_for()
    assert len(titles(cards_page)) == SHEET
    assert cards_page.evaluate("document.activeElement.tagName") == "SUMMARY"


def test_tiles_made_by_the_filter_are_those_of_the_list(cards_page):
    """A card looks the same, and leads to the same pages, in the list and when found."""
    shown = "[...document.querySelectorAll('{} > li')].map(li => {{ const c = li.cloneNode(true);"
    shown += "for (const e of c.querySelectorAll('p')) if (!e.textContent) e.remove();"
    shown += "for (const e of c.querySelectorAll('img')) for (const a of ['loading', "
    shown += "'fetchpriority']) e.removeAttribute(a);"
    shown += "return c.innerHTML.replace(/\\s+/g, ' ').replace(/> | </g, m => m.trim()); }})"
    listed = cards_page.evaluate(shown.format("#cards-listed .ledge"))
    open_filter(cards_page)
    for state in ("Available", "Spoken for", "Traded", "Keeping"):
        choose(cards_page, state)
    found(cards_page, CARDS)
    assert cards_page.evaluate(shown.format("#filter-laid"))[:SHEET] == listed


def test_more_cards_come_in_steps(cards_page):
    """Cards found are laid 48 at a time; the rest wait for a button that leads to the new ones."""
    open_filter(cards_page)
    choose(cards_page, "birds")
    birds = fitting(lambda n: n % 2 == 0)
    found(cards_page, len(birds))
    assert titles(cards_page) == birds[:48]
    cards_page.get_by_role("button", name="Show more cards").click()
    assert titles(cards_page) == birds
    assert cards_page.evaluate("document.activeElement.innerText").strip().endswith(birds[48])
    assert not cards_page.get_by_role("button", name="Show more cards").is_visible()


def test_counts_follow_the_other_choices(cards_page):
    """Beside each choice stands how many cards it would find, given the other kinds of choice."""
    open_filter(cards_page)
    choose(cards_page, "linocut")
    found(cards_page, len(fitting(lambda n: medium_of(n) == "linocut")))
    count = cards_page.locator("input[value=night] ~ .filters__count").inner_text()
    both = [n for n in range(CARDS) if medium_of(n) == "linocut" and "night" in themes_of(n)]
    assert int(count) == len(both)
    other = cards_page.locator("input[value=collage] ~ .filters__count").inner_text()
    assert int(other) == len(fitting(lambda n: medium_of(n) == "collage"))


def test_the_address_holds_the_filter(cards_page):
    """Back undoes a choice, an address with a filter opens filtered, and both can be shared."""
    open_filter(cards_page)
    choose(cards_page, "birds")
    found(cards_page, 60)
    choose(cards_page, "linocut")
    found(cards_page, 20)
    assert cards_page.url.endswith("#theme=birds&medium=linocut")
    cards_page.go_back()
    found(cards_page, 60)
    assert not cards_page.locator("input[value=linocut]").is_checked()
    cards_page.go_back()
    cards_page.locator("#cards-listed").wait_for()
    cards_page.goto(cards_page.url.partition("#")[0] + "#theme=vogel-meer&state=available")
    cards_page.reload()
    found(cards_page, len(fitting(lambda n: n % 7 == 0 and state_of(n) == "available")))


@pytest.mark.parametrize(
    "hostile",
    [
        "theme=<img src=x onerror=alert(1)>",
        "theme=__proto__&maker=constructor&medium=toString",
        "javascript:alert(1)=1",
        "theme=%E0%A4%A&%=%&&==",
        "theme=" + "a" * 50_000,
    ],
)
def test_a_hostile_address_changes_nothing(cards_page, hostile):
    """What the address asks for that is no choice on the page is ignored."""
    cards_page.goto(cards_page.url + "#" + hostile)
    cards_page.reload()
    cards_page.locator("#filters form").wait_for(state="attached")
    assert len(titles(cards_page)) == SHEET
    assert cards_page.locator("#filter-found").inner_text() == ""
    assert cards_page.locator("img[src=x]").count() == 0


def test_the_skip_link_leaves_the_filter_as_it_is(cards_page):
    """Another fragment in the address does not clear what was chosen."""
    open_filter(cards_page)
    choose(cards_page, "birds")
    found(cards_page, 60)
    cards_page.locator(".skip").press("Enter")
    assert cards_page.url.endswith("#main")
    found(cards_page, 60)
    assert titles(cards_page)[0] == "Card 0"


def test_markup_in_a_title_stays_text(cards_page):
    """A title full of markup is shown as it was written."""
    open_filter(cards_page)
    choose(cards_page, "Keeping")
    found(cards_page, 20)
    assert titles(cards_page)[-1] == SHARP
    assert cards_page.title() != "run"


def test_nothing_found_says_so_and_helps(cards_page):
    """Where no card fits, the page says so and offers to clear the filters."""
    cards_page.goto(cards_page.url + "#theme=night&maker=tam-brackwater&state=spoken-for")
    cards_page.reload()
    found(cards_page, 0)
    assert cards_page.get_by_text("No card on this board answers").is_visible()
    cards_page.get_by_role("button", name="Clear the filters").click()
    cards_page.locator("#cards-listed").wait_for()
    assert len(titles(cards_page)) == SHEET


def test_the_data_is_loaded_on_first_use(new_page, served_made_site):
    """A visitor who never filters never loads the filter's data."""
    page, asked = new_page(), []
    page.on("request", lambda request: asked.append(request.url.rpartition("/")[2]))
    page.goto(f"{served_made_site}/cards.html", wait_until="networkidle")
    assert "filter.js" in asked and "cards.js" not in asked
    open_filter(page)
    assert asked.count("cards.js") == 1


def test_the_filter_works_from_files(new_page, made_site):
    """Opened as a file, without any server, the page filters just the same."""
    page = new_page()
    page.goto(f"{made_site.as_uri()}/cards.html")
    open_filter(page)
    choose(page, "night")
    found(page, 40)
    loaded = page.locator("#filter-laid img").first
    loaded.scroll_into_view_if_needed()
    page.wait_for_function("document.querySelector('#filter-laid img').naturalWidth > 0")
    assert page.url.startswith("file:")


def test_without_javascript_links_do_the_filtering(new_page, served_made_site):
    """With scripts off, themes are links to pages of their own, and nothing is dead."""
    page = new_page(java_script_enabled=False)
    page.goto(f"{served_made_site}/cards.html")
    page.locator("#filters > summary").click()
    page.get_by_role("navigation", name="Theme").get_by_role("link", name="night").click()
    assert page.locator("h1").inner_text() == "night"
    assert titles(page) == fitting(lambda n: n % 3 == 0)
    assert page.locator("button:visible").count() == 0
