"""News of a swap as a step of an offer's story."""

from datetime import date

from swapboard.problems import Problem, did_you_mean
from swapboard.records.fields import DATE_FIX, parse_date
from swapboard.records.names import Names
from swapboard.taking.fit import Checked, find_maker
from swapboard.taking.here import Here
from swapboard.taking.types import Form, Letter

WORDS = {
    "yes": "agreed", "no": "declined", "mailed": "mailed", "arrived": "received", "lost": "lost",
}  # fmt: skip


def read_news(
    form: Form, letter: Letter, here: Here
) -> tuple[tuple[str, str, str, date | None] | None, list[Problem]]:
    """What is said to have happened: the offer, the step, who did it and when; else None.

    "no" from whoever made the offer withdraws it.
    """
    checked = Checked(form)
    checked.is_of_board(here.settings.board.name)
    name = _offer(checked, here)
    by = _by(checked, here, name)
    what = _what(checked)
    on = _on(checked)
    checked.note()
    if form.text("note"):
        fix = "nothing: it is in the mail, for you to read."
        checked.warn("Note", "is not written to the offer", None, fix)
    if by:
        checked.compare_sender(letter, by, here.mails)
    if not checked.is_good:
        return None, checked.problems
    offer = here.board.offers[name]
    if what == "declined" and by == offer.from_maker:
        what = "withdrawn"
    if what == "declined" and any(event.what == "agreed" for event in offer.events):
        what = "withdrawn"
    return (name, what, by, on), checked.problems


def _offer(checked: Checked, here: Here) -> str:
    text = checked.name("Offer").removeprefix("offers/").removesuffix(".md")
    names = Names(here.board.offers)
    if not text or (found := names.find(text)):
        return found if text else ""
    fix = names.suggest(text) or "name an offer of this board by the name in its address."
    checked.bad("Offer", "must be an offer of this board", text, fix)
    return ""


def _by(checked: Checked, here: Here, offer: str) -> str:
    text = checked.name("By")
    if not text or not offer:
        return ""
    makers = (here.board.offers[offer].from_maker, here.board.offers[offer].to_maker)
    found = find_maker(here.board, text)
    if found in makers:
        return found
    fix = f"name {makers[0]} or {makers[1]}."
    checked.bad("By", "must be one of the two makers", text, fix)
    return ""


def _what(checked: Checked) -> str:
    word = checked.one_line("News", 60).strip(" .!").casefold()
    if word in WORDS:
        return WORDS[word]
    words = " · ".join(WORDS)
    said = "if they say it in their own words, write it with: swapboard offer."
    fix = did_you_mean(word, WORDS) or f"fill it in, or {said}"
    checked.bad("News", f"must be one of: {words}", word or None, fix)
    return ""


def _on(checked: Checked) -> date | None:
    text = checked.one_line("On", 60)
    day = parse_date(text) if text else None
    if text and day is None:
        checked.bad("On", "must be a date like 2026-09-28", text, DATE_FIX)
    return day
