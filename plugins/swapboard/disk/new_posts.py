"""`add maker` and `add call`: a post written from answers, known to be good first."""

import os
import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

from swapboard.disk.contain import contained, write_whole
from swapboard.disk.load import Loaded, load_board
from swapboard.disk.lock import BoardBusy, board_lock
from swapboard.disk.post_options import flag_of
from swapboard.disk.questions import Ask, Check, Question, answer
from swapboard.disk.trouble import problem_of
from swapboard.problems import ERROR, Problem, errors
from swapboard.records.board import read_board
from swapboard.records.call import CALL_KEYS
from swapboard.records.fields import DATE_FIX, parse_date
from swapboard.records.header import Keys, write_post
from swapboard.records.maker import MAKER_KEYS
from swapboard.records.names import Names
from swapboard.vocabulary.spelling import slug, stem_of, tidy

# Common practice of the trade, no source: 4 to 8 weeks from sign-up to mail-out.
SIGN_UP = timedelta(weeks=3)
MAKE_AND_SEND = timedelta(weeks=4)
DEAL_AND_MAIL = timedelta(weeks=2)

Answered = tuple[str, list[Problem]]


def add_maker(
    board: Path, name: str, said: Mapping[str, str], ask: Ask | None = None
) -> Answered:
    """Write makers/SLUG.md; `said` has values by header key.

    An empty `name` is asked for with `ask`, where there is somebody to ask. Gives the
    path of the post within the board, or "" and what is wrong.
    """
    loaded = load_board(board)
    if not os.path.isfile(board / "board.toml"):
        return "", errors(loaded.problems)
    if not tidy(name):
        who = Question("NAME", "Who is it? (a name to swap under)", "", _some_name)
        name, _ = answer(who, None, ask)
    return _write(loaded, "makers", {"Name": tidy(name), **said}, MAKER_KEYS)


def add_call(
    board: Path,
    title: str,
    said: Mapping[str, str],
    today: date | None = None,
    ask: Ask | None = None,
) -> Answered:
    """Write calls/SLUG.md; `said` has values by header key.

    What is left open is asked with `ask`, or has its default where there is nobody
    to ask; dates are proposed from the day `today` (else the board's). Gives the
    path of the post within the board, or "" and what is wrong.
    """
    loaded = load_board(board, today)
    if not os.path.isfile(board / "board.toml"):
        return "", errors(loaded.problems)
    fields = {"Title": tidy(title), "Date": loaded.today.isoformat(), **said}
    _settle(fields, [_by(), *_call_questions(loaded)], ask)
    if _number_up_to(loaded.settings.swaps.cards_per_call_at_most)(fields["Send"])[0]:
        fields.setdefault("Receive", fields["Send"])
    _settle_days(fields, loaded.today, ask)
    return _write(loaded, "calls", fields, CALL_KEYS)


def proposed_days(today: date, said: Mapping[str, str]) -> dict[str, date]:
    """Days for "Sign up by", "Arrive by" and "Mail out by", with those that `said`
    has kept: each after the one before, and never past a later one that is kept."""
    steps = (("Sign up by", SIGN_UP), ("Arrive by", MAKE_AND_SEND), ("Mail out by", DEAL_AND_MAIL))
    kept = {key: parse_date(said.get(key, "")) for key, _ in steps}
    days: dict[str, date] = {}
    before = today
    for place, (key, step) in enumerate(steps):
        later = [kept[name] for name, _ in steps[place + 1 :] if kept[name]]
        days[key] = kept[key] or min([_later(before, step), *later])
        before = days[key]
    return days


def _later(day: date, step: timedelta) -> date:
    try:
        return day + step
    except OverflowError:
        return day


def _call_questions(loaded: Loaded) -> list[tuple[str, Question]]:
    makers = Names(loaded.board.makers)
    keeper = loaded.settings.board.keeper

    def host(text: str) -> tuple[str | None, str, str]:
        fix = makers.suggest(text) or f"name one of: {', '.join(makers)}"
        return makers.find(text), "must be a maker of this board", fix

    return [
        ("Host", Question("--host", "Who hosts it? (a maker of this board)", keeper, host)),
        ("Theme", Question("--theme", "What is its theme? (Enter for none)", "", _anything)),
        ("Send", Question("--send", "How many cards does each send?", "4",
                          _number_up_to(loaded.settings.swaps.cards_per_call_at_most))),
    ]


def _number_up_to(most: int) -> Check:
    def number(text: str) -> tuple[str | None, str, str]:
        written = text.strip()
        good = re.fullmatch(r"[0-9]{1,9}", written) and 1 <= int(written) <= most
        must = f"must be a whole number from 1 to {most}"
        return (written if good else None), must, "write a number, like 4"

    return number


def _by() -> tuple[str, Question]:
    def way(text: str) -> tuple[str | None, str, str]:
        word = tidy(text).casefold()
        good = word if word in ("post", "in person") else None
        return good, "must be post or in person", "write one of the two"

    return "By", Question("--by", "By post, or in person?", "post", way)


def _anything(text: str) -> tuple[str | None, str, str]:
    return tidy(text), "", ""


def _something(text: str) -> tuple[str | None, str, str]:
    return tidy(text) or None, "must be said", "whoever comes has to know it"


def _some_name(text: str) -> tuple[str | None, str, str]:
    return tidy(text) or None, "must be a name", "write the name that swappers know them by"


def _settle(
    fields: dict[str, str], questions: list[tuple[str, Question]], ask: Ask | None
) -> None:
    """Answer what `fields` lacks. What was said is left to the reader of posts, which
    knows best what is wrong with it."""
    for key, question in questions:
        if key not in fields:
            fields[key], _ = answer(question, None, ask)
    for key, words in (("Place", "Where do you meet?"), ("Hour", "At what hour? (like 14:00)")):
        if _in_person(fields) and key not in fields and ask is not None:
            fields[key], _ = answer(Question(flag_of(key), words, "", _something), None, ask)


def _in_person(fields: Mapping[str, str]) -> bool:
    return tidy(fields["By"]).casefold() == "in person"


def _settle_days(fields: dict[str, str], today: date, ask: Ask | None) -> None:
    """Dates that follow each other; a swap in person ends on the day it is held."""
    words = {
        "Sign up by": "Sign up by which day?",
        "Arrive by": "By which day do the cards have to arrive?",
        "Mail out by": "By which day do they go out again?",
    }
    if _in_person(fields):
        words["Arrive by"] = "On which day do you meet?"
        del words["Mail out by"]
    before = today
    for key, question in words.items():
        if key not in fields:
            day = proposed_days(today, fields)[key]
            # What is proposed can be taken, even before a day that an option has too early.
            check = _day_from(min(before, day))
            asked = Question(flag_of(key), question, day.isoformat(), check)
            fields[key], _ = answer(asked, None, ask)
        before = parse_date(fields[key]) or before


def _day_from(first: date) -> Check:
    def day(text: str) -> tuple[str | None, str, str]:
        found = parse_date(text.strip())
        if found and found < first:
            return None, f"must not be before {first}", "name a later day"
        return (found.isoformat() if found else None), "must be a date like 2026-09-28", DATE_FIX

    return day


def _write(loaded: Loaded, kind: str, fields: Mapping[str, str], keys: Keys) -> Answered:
    """Write a post that the board is good with, under a name made from its first field."""
    first = next(iter(fields.values()))
    stem = stem_of(first)
    path = f"{kind}/{stem}.md"
    ordered = [(key, fields[key]) for key in keys.known if fields.get(key)]
    text = write_post(ordered)
    file = loaded.folder / path
    what = "name" if kind == "makers" else "title"
    if not first:
        return "", [Problem(what.upper(), 0, "", f"must be a {what}", first,
                            'write it after the command, in quotes')]
    try:
        with board_lock(loaded.folder / ".swapboard"):
            if _is_taken(loaded.folder / kind, stem):
                return "", [Problem(path, 0, "", "is there already, and nothing is overwritten",
                                    first, f"change that post, or choose another {what}")]
            if not contained(loaded.folder, file):
                return "", [Problem(kind, 0, "", "must lie inside the board's folder", None,
                                    "put a real folder there in place of the link")]
            wrong = _new_problems(loaded, path, text)
            if errors(wrong):
                return "", [_of_an_option(problem, path, kind, first) for problem in wrong]
            write_whole(file, text.encode("utf-8"))
            return path, wrong
    except BoardBusy as busy:
        return "", [busy.problem]
    except OSError as error:
        return "", [problem_of(error, str(loaded.folder))]


def _is_taken(folder: Path, stem: str) -> bool:
    """Whether a post has this name already, or one with the same web address."""
    return folder.is_dir() and any(slug(post.stem) == slug(stem) for post in folder.glob("*.md"))


def _new_problems(loaded: Loaded, path: str, text: str) -> list[Problem]:
    """What is wrong with the board once it has the new post, and was not before."""
    texts = {**loaded.texts.texts, path: text}
    _, _, after = read_board(texts, loaded.texts.photos, today=loaded.today)
    return [problem for problem in after if problem not in loaded.problems]


def _of_an_option(problem: Problem, path: str, kind: str, first: str) -> Problem:
    """A problem of a post that was not written, told of the option that caused it."""
    if problem.path != path or problem.severity != ERROR:
        return problem
    argument = {"makers": ("Name", "NAME"), "calls": ("Title", "TITLE")}[kind]
    is_argument = not problem.field or problem.field == argument[0]
    place = argument[1] if is_argument else flag_of(problem.field)
    got = first if is_argument and problem.got is None else problem.got
    fix = re.sub(r"add a line like [\w ]+: (.*)\.$", rf'add {place} "\1"', problem.fix)
    return replace(problem, path=place, line=0, field="", got=got, fix=fix)
