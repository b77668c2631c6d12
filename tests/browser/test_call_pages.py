"""The pages of a call in a real Chromium, from files: the deal is checked where it is read,
and days are counted on the day on which they are read."""

from datetime import datetime
from pathlib import Path

import axe_playwright_python
import pytest

from browser.markup_checker import errors_in
from calls.round import Host, new_board

pytestmark = pytest.mark.browser
CALL = (
    "Title: Lights\nDate: 2026-09-01\nHost: hana\nSend: 2\nReceive: 2\nSign up by: 2026-09-20\n"
    "Arrive by: 2026-10-20\nMail out by: 2026-11-05\n\nAnything lit.\n"
)
PEOPLE = (
    "maker,cards,signed up,arrived,note\ncyd,2,2026-09-05,2026-10-10,one day to spare\n"
    "dot,2,2026-09-05,2026-10-11,\neli,2,2026-09-05,2026-10-12,\nfay,2,2026-09-05,2026-10-13,\n"
)


@pytest.fixture(scope="module")
def host(tmp_path_factory):
    """A board with a call that is signing up, and one whose deal is opened."""
    host = Host(new_board(tmp_path_factory.mktemp("calls") / "board"))
    (host.board / "calls/later.md").write_text(CALL)
    (host.board / "calls/lights.md").write_text(CALL)
    (host.board / "calls/soon.md").write_text(CALL.replace("2026-09-01", "2026-09-12"))
    (host.board / "calls/lights.people.csv").write_text(PEOPLE)
    (host.board / "cards/lantern.md").write_text(
        "Title: Lantern\nMaker: cyd\nPhoto: first-card.jpg\nAlt: A lantern.\nCall: lights\n"
    )
    host.deals("lights", "--today", "2026-09-02")
    host.says("arrive", "lights", "gus", "2", "--today", "2026-09-02", fails=True)
    host.says("join", "lights", "gus", "--today", "2026-09-02")
    host.says("arrive", "lights", "gus", "2", "--today", "2026-09-05")
    host.says("repair", "lights", "--because", "A parcel came late", "--today", "2026-09-05")
    host.says("join", "lights", "Aunt Pim", "--today", "2026-09-06")
    host.says("open", "lights", "--early", "--today", "2026-09-06")
    host.builds("2026-09-10")
    return host


def test_a_deal_is_dealt_again_by_keyboard(host, new_page):
    """One button; every step of the check holds, and the list of them has the focus."""
    page = new_page()
    page.goto((host.board / "output/verify/lights.html").as_uri())
    page.get_by_role("button", name="Check the deal on this computer").focus()
    page.keyboard.press("Enter")
    page.wait_for_selector(".checks")
    steps = page.locator(".checks li")
    assert steps.count() == 6
    assert {text.split("\n")[-1] for text in steps.all_inner_texts()} == {"holds"}
    assert page.evaluate("document.activeElement.className") == "checks"


def test_a_proof_that_is_not_there_is_told(host, new_page):
    """Where its file was not uploaded the check ends, and says so."""
    page = new_page(hears=False)
    page.route("**/verify/lights.js", lambda route: route.abort())
    page.goto((host.board / "output/verify/lights.html").as_uri())
    page.get_by_role("button", name="Check the deal on this computer").click()
    page.wait_for_selector(".checks")
    assert page.locator(".checks li").all_inner_texts() == ["The proof can be read\nfails"]


def test_without_javascript_the_page_says_how_to_verify(host, new_page):
    """The list, the hashes and the secret are text; the proof can be downloaded."""
    text = host.page("verify/lights.html")
    assert "swapboard verify" in text and "maker\t2\tcyd" in text and "Download the proof" in text


def test_days_left_are_counted_on_the_readers_day(host, new_page):
    """In the board's zone; on a later day than the build's, fewer, and none once it is past."""
    for day, words in (
        ("2026-09-15T12:00:00Z", "Sign up by: 5 days left"), ("2026-09-21", ""),
        ("2026-09-19T12:00:00Z", "Sign up by: 1 day left"),
        ("2026-09-20T12:00:00Z", "Sign up by: today"),
    ):  # fmt: skip
        page = new_page()
        page.clock.set_fixed_time(datetime.fromisoformat(day))
        page.goto((host.board / "output/calls/later.html").as_uri())
        line = page.locator(".call-page__next")
        assert line.is_visible() == bool(words)
        assert not words or line.inner_text().strip() == words


def test_one_signs_up_from_the_day_that_it_opens_to_the_last(host, new_page):
    """Not while the page says that it opens in some days, nor after; though nobody built anew."""
    for day, words, is_open in (
        ("2026-09-10", "Opens in 2 days", False), ("2026-09-11", "Opens in 1 day", False),
        ("2026-09-12", "Opens today", True), ("2026-09-13", "", True),
        ("2026-09-20", "", True), ("2026-09-21", "", False),
    ):  # fmt: skip
        page = new_page()
        page.clock.set_fixed_time(datetime.fromisoformat(f"{day}T12:00:00Z"))
        page.goto((host.board / "output/calls/soon.html").as_uri())
        assert page.get_by_role("link", name="Sign up for it").is_visible() == is_open
        line = page.locator(".call-page__next")
        assert (line.inner_text().strip() if line.is_visible() else "") == words


def test_the_composer_offers_a_call_from_the_day_that_it_opens_to_the_last(host, new_page):
    """Before, it says from when, and the call cannot be chosen; then it can, though nobody
    built anew; after the last day it says that sign-up has ended."""
    for day, told in (
        ("2026-09-11", "Lights (sign-up opens on September 12, 2026)"), ("2026-09-12", "Lights"),
        ("2026-09-20", "Lights"), ("2026-09-21", "Lights (sign-up has ended)"),
    ):  # fmt: skip
        is_open = told == "Lights"
        page = new_page()
        page.clock.set_fixed_time(datetime.fromisoformat(f"{day}T12:00:00Z"))
        page.goto((host.board / "output/compose.html").as_uri() + "#call=soon")
        page.locator("#sign-up:visible").wait_for()
        option = page.locator("#sign-up-call option[value=soon]")
        assert option.inner_text() == told and option.is_enabled() == is_open
        page.get_by_role("button", name="Look it over").click()
        faults = page.locator("#sign-up-faults li").all_inner_texts()
        assert faults == [*([] if is_open else [told]), "Say who you are."]


def test_without_a_script_the_composer_says_when_a_call_opens(host, new_page):
    """Beside the name to write for it; an open call has its name alone."""
    page = new_page(java_script_enabled=False)
    page.goto((host.board / "output/compose.html").as_uri())
    told = page.locator("#by-hand .lines li").all_inner_texts()
    assert "Lights: soon (sign-up opens on September 12, 2026)" in told
    assert "Lights: later" in told


PAGES = ("calls.html", "calls/later.html", "calls/lights.html", "verify/lights.html")


@pytest.mark.parametrize("path", PAGES)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_pages_of_calls_can_be_used_by_everybody(host, new_page, path, scheme):
    """axe finds no fault by WCAG 2.2 level AA, and nothing sticks out at 360 pixels."""
    axe = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text("utf-8")
    page = new_page(viewport={"width": 360, "height": 800}, color_scheme=scheme)
    page.goto((host.board / "output" / path).as_uri())
    page.evaluate(axe)
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
    how = "tags => axe.run({runOnly: {type: 'tag', values: tags}, preload: false})"
    found = page.evaluate(how, tags)["violations"]
    assert [(one["id"], [node["html"] for node in one["nodes"]]) for one in found] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_pages_of_calls_are_valid(host):
    """Free of errors by the HTML Living Standard."""
    assert errors_in([host.board / "output" / path for path in PAGES]) == []


def test_all_columns_of_a_calls_people_are_seen_on_a_phone(host, new_page):
    """Nobody has to find out that the way back stands beyond the edge."""
    page = new_page(viewport={"width": 360, "height": 740})
    page.goto((host.board / "output/calls/lights.html").as_uri())
    table = page.locator(".people").first
    assert table.evaluate("it => it.scrollWidth <= it.clientWidth")
    assert table.locator("thead th").count() == 4
