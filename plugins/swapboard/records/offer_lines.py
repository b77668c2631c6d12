"""Dated lines put into an offer's post, everything else in it left to the byte."""

import re
from dataclasses import replace
from datetime import date

from swapboard.problems import Problem
from swapboard.records.fields import parse_date
from swapboard.records.offer_story import story_problems
from swapboard.records.types import Event, Offer

ONE_SIDED = ("mailed", "received")
STEPS = ("agreed", "declined", "withdrawn", *ONE_SIDED, "lost")
_LINE = re.compile(r"[^\r\n]*(?:\r\n|\n|\r|\Z)")
_END = re.compile(r"\r\n|\n|\r")
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}(?![^\s:])")


def with_line(text: str, on: date, told: str) -> str:
    """The post's text with a line `ON: TOLD` in its header.

    It stands behind the last dated line that is not later, and so at the end of a
    header that is in order; without such a line at the header's end. It ends as the
    lines around it do (CR LF, LF or CR).
    """
    lines = [line for line in _LINE.findall(text) if line]
    end = next((at for at, line in enumerate(lines) if not line.strip()), len(lines))
    place, inside = end, False
    for at, line in enumerate(lines[:end]):
        day = parse_date(line[:10]) if _DAY.match(line) else None
        if day is not None and day <= on:
            place, inside = at + 1, True
        elif inside and line.startswith(("    ", "\t")):
            place = at + 1  # a dated line that goes on
        else:
            inside = False
    endings = _END.findall("".join(lines[:end])) or _END.findall(text)
    ending = endings[0] if endings else "\n"
    new = f"{on.isoformat()}: {told}{ending}"
    if place and not _END.search(lines[place - 1]):
        new = ending + new.removesuffix(ending)
    return "".join([*lines[:place], new, *lines[place:]])


def told_of(what: str, by: str) -> str:
    """A step as its dated line tells it; only mailed and received say by whom."""
    return f"{what} by {by}" if what in ONE_SIDED else what


def step_problem(offer: Offer, what: str, by: str, on: date, today: date) -> Problem | None:
    """Why a step cannot have happened to an offer on a day, and what to do; else None.

    `by` is one of the two makers, "" where nobody was named.
    """
    command = f"swapboard offer {offer.name}"

    def refuse(must: str, got: str, fix: str) -> Problem:
        return Problem(offer.path, 0, what, must, got, fix)

    if what in ONE_SIDED and not by:
        fix = f"add --by {offer.from_maker} or --by {offer.to_maker}."
        return refuse(f"must say who has {what} the cards", None, fix)
    if what == "agreed" and by == offer.from_maker:
        fix = f"{offer.to_maker} is asked, so the yes has to be theirs."
        return refuse("must be agreed by the maker who was asked", by, fix)
    if instead := _other_word(offer, what, by):
        fix = f"run: {command} {instead} --by {by}"
        return refuse(f"must be called {instead}, when it is {by} who says so", what, fix)
    if on > today:
        return refuse(f"must not be later than today ({today})", str(on), "give the day it was.")
    if offer.events and on < offer.events[0].on:
        fix = "give the day it happened with --on."
        must = f"must not be before it was proposed ({offer.events[0].on})"
        return refuse(must, str(on), fix)
    before = [event for event in offer.events if event.on <= on]
    after = [event for event in offer.events if event.on > on]
    event = Event(on, what, by if what in ONE_SIDED else "", 0)
    told = replace(offer, events=(*before, event, *after))
    wrong = next(iter(story_problems(told)), None)
    if wrong is None:
        return None
    return refuse(wrong.must, f"{on}: {told_of(what, by)}", _way_out(offer, what, by, command))


def _other_word(offer: Offer, what: str, by: str) -> str:
    """What a step is called when it comes from the other of the two, or ""."""
    if what == "declined" and by == offer.from_maker:
        return "withdrawn"
    is_open = not any(event.what == "agreed" for event in offer.events)
    return "declined" if what == "withdrawn" and by == offer.to_maker and is_open else ""


def _way_out(offer: Offer, what: str, by: str, command: str) -> str:
    """What to do instead of an impossible step."""
    happened = {event.what for event in offer.events}
    ended = next((word for word in ("declined", "withdrawn") if word in happened), "")
    other = offer.to_maker if by == offer.from_maker else offer.from_maker
    if ended:
        return f"it is over: write a new offer, or take the line {ended} out of {offer.path}."
    if what == "agreed" or (what in ONE_SIDED and (what, by) in _done(offer)):
        return f"nothing: {offer.path} says so already."
    if what == "mailed" and "agreed" not in happened:
        return f"if both have said yes, first run: {command} agreed"
    if what == "received" and ("mailed", other) not in _done(offer):
        return f"if they have, first run: {command} mailed --by {other}"
    if what == "declined":
        return f"it was agreed: if it is called off, run: {command} withdrawn"
    if what == "withdrawn":
        return f"cards are on their way: if they do not come, run: {command} lost"
    return f"look at the dated lines of {offer.path}; give the day with --on."


def _done(offer: Offer) -> set[tuple[str, str]]:
    return {(event.what, event.by) for event in offer.events}
