"""Every kind of page of the hand-made site and of the demo, in a real browser."""

from pathlib import Path
from urllib.parse import urlsplit

import pytest

from browser import made_site as making
from swapboard.site.theme_files import NOT_PUBLIC, SHEET
from theme.rendering import THEME

pytestmark = pytest.mark.browser

AXE_RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]


def kinds_of_page(site: Path) -> list[str]:
    """One page of each kind, and the 404 page: the first by name in each folder."""
    found = sorted(file.relative_to(site).as_posix() for file in site.glob("*.html"))
    for folder in sorted(each for each in site.iterdir() if each.is_dir()):
        pages = sorted(file.relative_to(site).as_posix() for file in folder.glob("*.html"))
        found += pages[:1]
    assert len(found) >= 8
    return found


def test_a_site_has_every_kind_of_page(any_site):
    """What the tests below go through holds the lists and a page of each folder."""
    kinds = {path.partition("/")[0] for path in kinds_of_page(any_site)}
    assert kinds >= {"index.html", "404.html", "cards.html", "calls.html", "offers.html",
                     "makers.html", "cards", "calls", "offers", "makers", "themes", "media",
                     "pages"}  # fmt: skip


STICKING = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
# What is smaller than 24 CSS pixels (WCAG 2.2, 2.5.8), or than 44 where it belongs to the filter.
SMALL = """() => [...document.querySelectorAll('a, button, summary, label, select, input')]
  .filter(e => {
    const box = e.getBoundingClientRect(), high = e.closest('.filters') ? 44 : 24;
    return box.width && !e.closest('.writing, .skip, .steps, p') && !e.matches('label input')
      && !e.matches('label:has(select, input:not([type=checkbox]))')
      && (box.height < high - .5 || box.width < 23.5);
  }).map(e => e.outerHTML.slice(0, 90) + e.getBoundingClientRect().height)"""
# Every rule looks at the light scheme; of the others only those that colours decide.
BY_COLOUR = {"type": "rule", "values": ["color-contrast", "link-in-text-block"]}
LOOKS = (
    ({"color_scheme": "light", "forced_colors": "none"}, {"type": "tag", "values": AXE_RULES}),
    ({"color_scheme": "dark", "forced_colors": "none"}, BY_COLOUR),
    ({"color_scheme": "light", "forced_colors": "active"}, BY_COLOUR),
)


def axe_script() -> str:
    """axe-core as a script to run in a page."""
    import axe_playwright_python

    return (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text("utf-8")


def test_pages_are_accessible_at_every_width_and_look(new_page, any_site):
    """At 320, 360 and 1350 px, in light, dark and forced colours, no page has a fault by WCAG
    2.2 AA that axe finds, none scrolls sideways, and every target can be hit."""
    axe, faults = axe_script(), {}
    # Without motion, or colours would be looked at on their way from one scheme to the other.
    page = new_page(viewport={"width": 320, "height": 800}, reduced_motion="reduce")
    # axe would otherwise fetch the style sheets itself, which the pages' policy forbids.
    run = "only => axe.run({runOnly: only, preload: false})"
    for path in kinds_of_page(any_site):
        if path == "404.html":
            continue  # its links start at the host's root, so from a file it has no styles
        page.goto(f"{any_site.as_uri()}/{path}")
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        if path == "cards.html":
            page.locator("#filters form").wait_for()
        page.evaluate(axe)
        # The demo has no kind of page that the hand-made site lacks: one width will do.
        for width in (320, 360, 1350) if any_site.name.startswith("made") else (360,):
            page.set_viewport_size({"width": width, "height": 800})
            assert page.evaluate(STICKING) == 0, (path, width)
            assert page.evaluate(SMALL) == [], (path, width)
            for look, only in LOOKS:
                page.emulate_media(**look)
                told = page.evaluate(run, only)
                assert told["passes"] or look["forced_colors"] == "active"
                found = [(v["id"], v["nodes"][0]["html"]) for v in told["violations"]]
                if found:
                    faults[path, width, *look.values()] = found
    assert faults == {}


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


def test_a_card_prints_at_its_own_size(new_page, made_site):
    """On paper a card's page shows it 2.5 inches wide, and leaves the controls out."""
    page = new_page()
    page.goto(f"{made_site.as_uri()}/cards/card-1.html")
    page.emulate_media(media="print")
    assert page.locator(".card-page__mat img").bounding_box()["width"] == pytest.approx(240, abs=1)
    assert not page.locator(".site-nav").first.is_visible()
