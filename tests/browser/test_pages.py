"""Every kind of page of the hand-made site and of the demo, in a real browser."""

from pathlib import Path
from urllib.parse import urlsplit

import pytest

from browser import made_site as making
from browser.kinds import STICKING, kinds_of_page
from swapboard.site.theme_files import NOT_PUBLIC, SHEET
from theme.rendering import THEME

pytestmark = pytest.mark.browser


def test_a_site_has_every_kind_of_page(any_site):
    """What the tests below go through holds the lists and a page of each folder."""
    kinds = {path.partition("/")[0] for path in kinds_of_page(any_site)}
    assert kinds >= {"index.html", "404.html", "cards.html", "calls.html", "offers.html",
                     "makers.html", "cards", "calls", "offers", "makers", "themes", "media",
                     "pages"}  # fmt: skip


def test_nothing_sticks_out_of_a_wide_window(new_page, any_site):
    """No page scrolls sideways at 1920 px either."""
    page = new_page(viewport={"width": 1920, "height": 800})
    for path in kinds_of_page(any_site):
        if path != "404.html":
            page.goto(f"{any_site.as_uri()}/{path}")
            assert page.evaluate(STICKING) == 0, path


def test_the_one_style_sheet_means_what_its_parts_mean(new_page, made_site):
    """A browser reads the same rules from the packed sheet as from its parts in order."""
    css = THEME / "static" / "css"
    parts = sorted(f.stem for f in css.glob("*.css") if not f.name.startswith(NOT_PUBLIC))
    first, last = ["tokens", "reset", "base"], ["pages", "print"]
    order = first + [name for name in parts if name not in first + last] + last
    source = "\n".join((css / f"{name}.css").read_text("utf-8") for name in order)
    read = """text => { const sheet = new CSSStyleSheet(); sheet.replaceSync(text);
      const rules = [...sheet.cssRules].map(rule => rule.cssText).join(" ");
      return rules.replace(/\\s+/g, " ").replace(/, /g, ","); }"""
    page = new_page()
    page.goto(f"{made_site.as_uri()}/index.html")
    packed = (made_site / SHEET).read_text("utf-8")
    assert page.evaluate(read, packed) == page.evaluate(read, source)


def test_long_words_break(new_page, tmp_path):
    """A word longer than the window breaks, in every place that people write in."""
    site = making.write_with_long_words(tmp_path / "site")
    # Its pictures do not exist, which is no matter here: the browser says so in its console.
    page = new_page(viewport={"width": 320, "height": 800}, hears=False)
    for path in kinds_of_page(site):
        if path != "404.html":
            page.goto(f"{site.as_uri()}/{path}")
            page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
            assert page.evaluate(STICKING) == 0, path


def test_from_right_to_left_nothing_sticks_out(new_page, right_to_left_site):
    """In a language written from right to left pages start at the right and fit."""
    page = new_page(viewport={"width": 360, "height": 800})
    for path in kinds_of_page(right_to_left_site):
        if path != "404.html":
            page.goto(f"{right_to_left_site.as_uri()}/{path}")
            assert page.evaluate(STICKING) == 0, path
    edge = page.goto(f"{right_to_left_site.as_uri()}/cards.html") and page.evaluate(
        "document.querySelector('h1').getBoundingClientRect().right"
    )
    assert edge > 300


def test_cards_keep_their_shape(new_page, any_site):
    """Every card is shown at 5:7 or 7:5 within half a per cent, whatever the window."""
    page = new_page(viewport={"width": 360, "height": 800})
    page.goto(f"{any_site.as_uri()}/cards.html")
    shapes = page.evaluate(
        "[...document.querySelectorAll('#cards-listed img')].map(i => {"
        "const b = i.getBoundingClientRect(); return b.width / b.height; })"
    )
    assert shapes
    assert all(min(abs(s * 7 / 5 - 1), abs(s * 5 / 7 - 1)) < 0.005 for s in shapes), shapes


def test_no_request_leaves_the_host(new_page, served_site, any_site):
    """From a sub-path of a server, each page loads all it needs, and only from there."""
    page, elsewhere, failed = new_page(), [], []
    page.on("request", lambda r: elsewhere.append(r.url) if not r.url.startswith(served_site)
            else None)  # fmt: skip
    page.on("response", lambda r: failed.append(r.url) if r.status >= 400 else None)
    for path in kinds_of_page(any_site):
        if path != "404.html":
            page.goto(f"{served_site}/{path}", wait_until="networkidle")
            page.evaluate("document.querySelectorAll('img').forEach(i => i.loading = 'eager')")
            page.evaluate(
                "Promise.all([...document.images].map(i => i.decode().catch(() => i.src)))"
            )
            broken = "[...document.images].filter(i => !i.naturalWidth).map(i => i.src)"
            assert page.evaluate(broken) == [], path
    assert (elsewhere, failed) == ([], [])


def test_pages_work_from_files_without_scripts(new_page, any_site):
    """From files and with scripts off, a visitor gets from the front page to a card and back."""
    page = new_page(java_script_enabled=False)
    page.goto(f"{any_site.as_uri()}/index.html")
    page.get_by_role("navigation", name="Main").get_by_role("link", name="Cards").click()
    page.locator("#cards-listed .card-tile__link").first.click()
    folder = Path(urlsplit(page.url).path).parent
    assert folder.name == "cards"
    assert page.locator("h1").count() == 1
    page.locator(".site-header__name").click()
    assert page.url.endswith("/index.html")


def test_focus_can_be_seen(new_page, made_site):
    """Whatever the keyboard reaches is outlined, the skip link first of all."""
    page = new_page()
    page.goto(f"{made_site.as_uri()}/index.html")
    page.keyboard.press("Tab")
    assert page.locator(".skip").bounding_box()["width"] > 100
    for _ in range(8):
        style = page.evaluate(
            "(s => [s.outlineStyle, s.outlineWidth])(getComputedStyle(document.activeElement))"
        )
        assert style == ["solid", "3px"]
        page.keyboard.press("Tab")


def test_dates_of_a_call_keep_their_lines_on_paper(new_page, made_site):
    """On A4 and on Letter, half an inch of margin off, no date of a call's line is broken."""
    page = new_page()
    page.goto(f"{made_site.as_uri()}/calls/small-lights.html")
    page.emulate_media(media="print")
    dates = page.locator(".moments__on")
    assert dates.count() >= 4
    for width in (698, 720):  # 210 mm and 8.5 in at 96 px an inch, less 1 in
        page.set_viewport_size({"width": width, "height": 900})
        high = dates.evaluate_all("all => all.map(date => date.getBoundingClientRect().height)")
        assert max(high) < 1.5 * min(high) < 40, (width, high)


def test_a_card_prints_at_its_own_size(new_page, made_site):
    """On paper a card's page shows it 2.5 inches wide, and leaves the controls out."""
    page = new_page()
    page.goto(f"{made_site.as_uri()}/cards/card-1.html")
    page.emulate_media(media="print")
    assert page.locator(".card-page__mat img").bounding_box()["width"] == pytest.approx(240, abs=1)
    assert not page.locator(".site-nav").first.is_visible()
