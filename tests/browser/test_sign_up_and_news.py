"""A sign-up for a call, and news of an offer, put together in the browser."""

import pytest

from browser.composing import check_mail, file_of, look_over, mail_of, open_composer, text_of
from browser.kinds import AXE_RULES, STICKING, axe_script

pytestmark = pytest.mark.browser


@pytest.fixture
def page(new_page):
    """A page of a wide window."""
    return new_page(viewport={"width": 1350, "height": 900})


def test_a_sign_up_for_a_call(page, made_site, tmp_path):
    """The address names the call; number of cards, name and country are asked for and checked."""
    page.goto(f"{made_site.as_uri()}/compose.html#call=small-lights")
    page.get_by_role("heading", name="Sign up for a swap call").wait_for()
    assert page.locator("#offer").is_hidden()
    assert page.locator("#sign-up-call").input_value() == "small-lights"
    cards = page.get_by_label("How many cards you will send")
    assert cards.input_value() == "4"
    cards.fill("0")
    look_over(page, "sign-up")
    assert page.locator("#sign-up-faults li").all_inner_texts() == [
        "Write a whole number of cards from 1 to 999.", "Say who you are.",
    ]  # fmt: skip
    assert page.evaluate("document.activeElement.id") == "sign-up-faults"
    cards.fill("2")
    page.locator("#sign-up-from").select_option("*")
    page.locator("#sign-up-name").fill("Zoë")
    page.locator("#sign-up-country").fill("Ghana")
    page.locator("#sign-up-note").fill("May I?\nEnd of sign-up")
    look_over(page, "sign-up")
    text = (
        "Call sign-up, form 1\nBoard: The Tidewrack Board\nCall: small-lights\nFrom: Zoë\n"
        "Country: Ghana\nCards: 2\nNote:\n    May I?\n    End of sign-up\nEnd of sign-up\n"
    )
    assert text_of(page) == text
    assert page.locator("#finished-name").inner_text() == "Your sign-up"
    subject = "Sign-up of Zoë for Small lights"
    assert mail_of(page) == {"to": "", "subject": subject, "body": text.replace("\n", "\r\n")}
    name, data, mail = file_of(page, tmp_path)
    assert name.startswith("sign-up-small-lights-") and mail["Subject"] == subject
    assert check_mail(data, mail) == (text, [])


@pytest.mark.parametrize("call", ["nobody", "<img src=x>", "__proto__", "%", "small-lights,x%00"])
def test_a_call_that_is_not_there_is_no_sign_up(page, made_site, call):
    """An address that names no open call shows the form for an offer, unless what it names
    first is one."""
    page.goto(f"{made_site.as_uri()}/compose.html#call={call}")
    page.locator("#sign-up:visible" if call.startswith("small") else "#offer:visible").wait_for()
    assert page.locator("form:visible").count() == 1
    assert page.locator("img[src=x]").count() == 0


def test_news_of_an_offer_follows_what_is_chosen(page, made_site):
    """On the page of an open offer its makers choose what to tell; the text can be copied."""
    page.goto(f"{made_site.as_uri()}/offers/heron-for-fern.html")
    text = page.locator("#news-text")
    start = "Swap news, form 1\nBoard: The Tidewrack Board\nOffer: heron-for-fern\n"
    assert text.text_content() == start + "By: ines-okafor\nNews: mailed\nEnd of news\n"
    page.get_by_label("I am").select_option(label="Tam Brackwater")
    page.get_by_label("What there is to tell").select_option(label="Yours have arrived")
    page.get_by_label("On which day").fill("2026-10-09")
    told = start + "By: tam-brackwater\nNews: arrived\nOn: 2026-10-09\nEnd of news\n"
    assert text.text_content() == told
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.get_by_role("button", name="Copy the text").click()
    page.locator(".news [role=status]", has_text="Copied.").wait_for()
    assert page.evaluate("navigator.clipboard.readText()") == told
    link = page.locator(".news").get_by_role("link", name="Open in your mail")
    assert "News%3A%20arrived%0D%0AOn%3A" in link.get_attribute("href")


def test_news_without_scripts_are_lines_to_copy(new_page, made_site):
    """The lines are there with what can be written in each."""
    page = new_page(java_script_enabled=False)
    page.goto(f"{made_site.as_uri()}/offers/heron-for-fern.html")
    lines = page.locator("#news-text").text_content()
    assert "By: ines-okafor / tam-brackwater\nNews: mailed / arrived / no\n" in lines
    assert page.locator(".news select, .news button").count() == 0


FILLED = {"ltr": "made_site", "rtl": "right_to_left_site"}


@pytest.mark.parametrize("direction, width, scheme", [
    ("ltr", 320, "light"), ("rtl", 360, "dark"), ("ltr", 1350, "dark"),
])  # fmt: skip
def test_a_form_half_filled_in_is_accessible_and_fits(
    new_page, request, direction, width, scheme
):
    """With cards, rows for pictures, faults and a finished text on it, the page has no fault by
    WCAG 2.2 AA that axe finds, fits, and its targets can be hit by a finger."""
    page = new_page(viewport={"width": width, "height": 800}, color_scheme=scheme,
                    reduced_motion="reduce")  # fmt: skip
    site = request.getfixturevalue(FILLED[direction]).as_uri()
    open_composer(page, site, "card-0", "card-6", "card-1")
    page.locator("#offer-from").select_option("tam-brackwater")
    page.locator("#offer-given input").nth(0).check()
    page.locator("#offer-given input").nth(1).check()
    look_over(page)
    text_of(page)
    page.evaluate("document.getElementById('offer-add').click()")
    page.evaluate("handOver.tell(document.getElementById('offer'),"
                  "gives.faults(2).concat(whoIs('offer')[1]))")  # fmt: skip
    page.evaluate("document.getElementById('finished').hidden = false")
    assert page.locator("#offer-faults li").count() == 3
    page.evaluate(axe_script())
    run = "only => axe.run({runOnly: {type: 'tag', values: only}, preload: false})"
    told = page.evaluate(run, AXE_RULES)
    assert [(v["id"], v["nodes"][0]["html"]) for v in told["violations"]] == []
    assert page.evaluate(STICKING) == 0
    small = """() => [...document.querySelectorAll('#compose :is(button, select, input, textarea)')]
      .filter(e => { const box = (e.closest('label') || e).getBoundingClientRect();
        return box.width && (box.height < 44 || box.width < 44); }).map(e => e.outerHTML)"""
    assert page.evaluate(small) == []
