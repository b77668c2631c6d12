"""A sign-up's form against its call: a row of its people, waiting where no place is left."""

import csv
import io
import re
from collections.abc import Mapping
from dataclasses import replace

from swapboard.problems import Problem
from swapboard.records.call_phase import ANNOUNCED, phase_of, places_left
from swapboard.records.names import Names
from swapboard.records.people import COLUMNS, ENDING, write_people
from swapboard.records.private_words import private_in
from swapboard.records.types import Board, Call, Person
from swapboard.taking.fit import Checked, find_maker
from swapboard.taking.here import Here, mail_row
from swapboard.taking.types import Change, Form, Letter
from swapboard.vocabulary import slug, tidy
from swapboard.vocabulary.countries import countries_in
from swapboard.vocabulary.counts import counted


def plan_sign_up(
    form: Form, letter: Letter, here: Here, texts: Mapping[str, str]
) -> tuple[Change | None, list[Problem]]:
    """A row in calls/NAME.people.csv, on its waiting list where no place is left; or None
    and everything against it."""
    checked = Checked(form)
    checked.is_of_board(here.settings.board.name)
    call = _call(checked, here.board)
    maker, country = _person(checked, here, call)
    cards = _cards(checked, here, call)
    note = _note(checked)
    if call and maker:
        _check_open(checked, here, call, maker)
    if maker in here.board.makers:
        checked.compare_sender(letter, maker, here.mails)
    if not checked.is_good:
        return None, checked.problems
    known = maker in here.board.makers
    shown = note if known or not country else "; ".join(filter(None, (country, note)))
    free = places_left(call)
    standing = "waiting" if free is not None and free < 1 else ""
    person = Person(maker, cards, here.today, None, shown, 0, standing=standing)
    path = call.path.removesuffix(".md") + ENDING
    words = f"{path}: {maker}, {counted(cards, 'card')}, signed up {here.today}"
    if standing:
        words = f"{path}: {maker} waits for a place; none is left"
    changed = {path: _with_person(texts.get(path, ""), call, person)}
    rows = mail_row(letter, maker, here.mails)
    return Change(changed, rows=rows, words=(words,)), checked.problems


def _with_person(text: str, call: Call, person: Person) -> str:
    """The list with somebody at its end, or back in their row who had left."""
    before = next((p for p in call.people if slug(p.maker) == slug(person.maker)), None)
    if before:
        back = replace(person, places=before.places, line=before.line)
        return write_people(back if p is before else p for p in call.people)
    if person.standing:
        return write_people((*call.people, person))
    cells = {"maker": person.maker, "cards": str(person.cards), "note": person.note}
    return with_row(text, {**cells, "signed up": person.signed_up.isoformat()})


def with_row(text: str, cells: Mapping[str, str]) -> str:
    """A list of people with one more row, in the order of its own columns; what is there
    stays as it is."""
    found = re.search(r"\r\n|\n|\r", text)
    ending = found[0] if found else "\n"
    if not text.strip():
        text = ",".join(COLUMNS) + ending
    heading = next(csv.reader([re.split(r"\r\n|\n|\r", text.removeprefix("\ufeff"))[0]]))
    columns = [tidy(cell).casefold().replace("_", " ") for cell in heading]
    out = io.StringIO()
    csv.writer(out, lineterminator=ending).writerow([cells.get(column, "") for column in columns])
    return text + ("" if text.endswith(("\n", "\r")) else ending) + out.getvalue()


def _call(checked: Checked, board: Board) -> Call | None:
    text = checked.name("Call")
    if not text:
        return None
    names = Names(board.calls)
    found = names.find(text.removeprefix("calls/").removesuffix(".md"))
    titles = {call.title: call for call in board.calls.values()}
    call = board.calls.get(found or "") or titles.get(Names(titles).find(text) or "")
    if call is None:
        fix = names.suggest(text) or "name a call of this board by the name in its address."
        checked.bad("Call", "must be a call of this board", text, fix)
    return call


def _person(checked: Checked, here: Here, call: Call | None) -> tuple[str, str]:
    """Who signs up, by the name of their file or their public name, and their country."""
    text = checked.name("From")
    written = checked.one_line("Country", 60)
    countries = countries_in(here.settings.board.language)
    country = countries.find(written) if written else ""
    if country is None:
        fix = countries.suggest(written) or "write its English name or its two-letter code."
        checked.bad("Country", "must be a country", written, fix)
    maker = find_maker(here.board, text) if text else None
    if maker:
        country = here.board.makers[maker].country or country
    elif text and not written:
        fix = "add a line Country:, so that the host knows about the post."
        checked.bad("Country", "must be there for somebody who is not on the board", None, fix)
    if call and country and call.countries and country not in call.countries:
        fix = f"{call.path} is open to {', '.join(call.countries)}."
        checked.bad("Country", "must be one that the call is open to", country, fix)
    if text and not maker and private_in(text):
        checked.bad("From", f"must not hold {private_in(text)}", None, "write the name alone.")
    return maker or text, country or ""


def _cards(checked: Checked, here: Here, call: Call | None) -> int:
    written = checked.one_line("Cards", 60)
    asked = call.send if call else 0
    if not written:
        return asked
    most = here.settings.swaps.cards_per_call_at_most
    if re.fullmatch(r"[0-9]{1,4}", written) and 1 <= int(written) <= most:
        if call and int(written) != asked:
            fix = "nothing, if the host is fine with it."
            checked.warn("Cards", f"is not the {asked} that the call asks for", written, fix)
        return int(written)
    checked.bad("Cards", f"must be a whole number from 1 to {most}", written, "write it like 4.")
    return 0


def _note(checked: Checked) -> str:
    note = tidy(checked.note())
    if len(note) > 200:
        checked.bad("Note", "must be at most 200 characters", note, "shorten it.")
    # A sign in front makes a formula of it where a table is opened.
    return f" {note}" if note[:1] in ("=", "+", "-", "@") else note


def _check_open(checked: Checked, here: Here, call: Call, maker: str) -> None:
    if call.sign_up_by and here.today > call.sign_up_by:
        fix = "if the host still takes them, move Sign up by in the call."
        must = f"must be signed up for by {call.sign_up_by}"
        checked.bad("Call", must, str(here.today), fix)
    if phase_of(call, here.today) == ANNOUNCED:
        fix = f"take it again from {call.date}; nothing was changed."
        must = f"must be open for sign-up, which {call.name} is from {call.date}"
        checked.bad("Call", must, f"{maker}, on {here.today}", fix)
    listed = {slug(person.maker) for person in call.people if person.standing != "left"}
    if slug(maker) in listed:
        fix = "nothing: they are in the list already."
        checked.bad("From", "must not be signed up yet", maker, fix)
