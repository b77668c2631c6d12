"""The people of a round: signing up, dropping out, parcels that arrive, envelopes that go
back. Each step is one command; what it did is told in words."""

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from swapboard.disk.call_edit import (
    CallRefused,
    OnDisk,
    open_call,
    people_path,
    person_of,
    save,
    save_people,
    with_keys,
    with_person,
)
from swapboard.disk.private_file import read_private, write_private
from swapboard.problems import Problem
from swapboard.records.call_phase import OVER, envelopes, phase_of, places_left, waiting
from swapboard.records.names import Names
from swapboard.records.people import write_people
from swapboard.records.types import Call, Person
from swapboard.vocabulary import tidy
from swapboard.vocabulary.counts import counted

PARCELS = "private/parcels"
_PARCEL_COLUMNS = ("day", "maker", "came", "dealt", "wrong size", "not own work", "cards", "note")
Told = tuple[list[str], list[Problem]]


@dataclass(frozen=True, slots=True)
class Parcel:
    """A parcel as it was opened: how many cards `came` (None: as many as promised), how
    many of them cannot be dealt and why, which they are where they have posts, a note.
    All of it but the count to deal is for the host alone."""

    came: int | None = None
    wrong_size: int = 0
    not_own_work: int = 0
    cards: tuple[str, ...] = ()
    note: str = ""


def join_call(
    board: Path, name: str, who: str, cards: int | None = None, places: int = 1,
    today: date | None = None,
) -> Told:
    """Put somebody on a call's list; on its waiting list where no place is left."""
    on_disk = open_call(board, name, today, whole=False)
    call, day = on_disk.call, on_disk.loaded.today
    _must_run(call, day)
    maker = Names(on_disk.loaded.board.makers).find(who) or tidy(who)
    before = next((person for person in call.people if person.maker == maker), None)
    if before and before.standing == "":
        must = "must not be on the list already"
        raise CallRefused([_problem(call, "maker", must, maker, "nothing: they have a place.")])
    free = places_left(call)
    standing = "waiting" if free is not None and free < places else ""
    asked = cards if cards is not None else call.send * places
    person = Person(maker, asked, day, None, "", 0, places, standing)
    if before:
        person = replace(before, standing=standing, places=places, cards=asked)
    problems = save_people(on_disk, with_person(call, person))
    late = call.sign_up_by and day > call.sign_up_by
    words = [f"{maker} is on the {'waiting ' if standing else ''}list of {call.name}."]
    if late:
        words.append(f"Sign-up was over on {call.sign_up_by}; the list was changed all the same.")
    return words, problems


def leave_call(board: Path, name: str, who: str, today: date | None = None) -> Told:
    """Take somebody out of a call: their row stays, marked as left."""
    on_disk = open_call(board, name, today, whole=False)
    person = person_of(on_disk, who)
    people = with_person(on_disk.call, replace(person, standing="left"))
    problems = save_people(on_disk, people)
    words = [f"{person.maker} has left {on_disk.call.name}."]
    if person.arrived:
        words.append(f"{counted(person.cards, 'card')} of theirs: send back what is here.")
    if next_in_line := waiting(on_disk.call):
        first = next_in_line[0].maker
        words.append(
            f"First on the waiting list is {first}; give them the place with: "
            f"swapboard join {on_disk.call.name} {first!r}"
        )
    return words, problems


def arrive(
    board: Path, name: str, who: str, parcel: Parcel, today: date | None = None
) -> Told:
    """Note a parcel: the day and the cards that can be dealt in the call's list, what was
    wrong with the others in private/parcels/, for the host alone."""
    on_disk = open_call(board, name, today, whole=False)
    call, day = on_disk.call, on_disk.loaded.today
    person = person_of(on_disk, who)
    came = parcel.came
    if came is None:
        came = len(parcel.cards) or person.cards
    good = came - parcel.wrong_size - parcel.not_own_work
    if good < 0:
        must = f"must be at most the {counted(came, 'card')} that came"
        got = str(parcel.wrong_size + parcel.not_own_work)
        raise CallRefused([_problem(call, "cards", must, got, "count the parcel again.")])
    posts = _cards_for(on_disk, person.maker, parcel.cards)
    note = _Noted(str(day), person.maker, came, good, parcel)
    people = with_person(call, replace(person, cards=good, arrived=day))
    problems = save(on_disk, {people_path(call): write_people(people), **posts})
    if parcel != Parcel(parcel.came):
        _note_parcel(on_disk, note)
    return _about_parcel(call, person, good, came, parcel, day), problems


def _about_parcel(
    call: Call, person: Person, good: int, came: int, parcel: Parcel, day: date
) -> list[str]:
    asked = call.send * person.places
    words = [f"{person.maker}: {good} card{'s' if good != 1 else ''} to deal, of {came} that came."]
    if good < asked:
        words.append(f"The call asks for {asked}: they get back by what can be dealt.")
    if good > asked:
        words.append(f"{good - asked} more than the call asks for are dealt as well.")
    if parcel.wrong_size or parcel.not_own_work:
        words.append(f"What cannot be dealt is noted in {PARCELS}/{call.name}.csv, not in public.")
    if call.arrive_by and day > call.arrive_by:
        late = (day - call.arrive_by).days
        words.append(f"It is {late} day{'s' if late > 1 else ''} late.")
    if person.standing:
        words.append(f"They are marked as {person.standing}, so nothing of it is dealt.")
    if call.deal:
        words.append(
            f"The list was frozen on {call.deal.frozen}: "
            + (f"bring them in with: swapboard repair {call.name}" if call.deal.dealt else
               f"freeze it anew with: swapboard commit {call.name} --anew")
        )  # fmt: skip
    return words


def mark_envelopes(
    board: Path, name: str, makers: Iterable[str], what: str, everybody: bool = False,
    today: date | None = None,
) -> Told:
    """Mark envelopes as sealed, mailed, received or lost, on the day `today`.

    An envelope that is mailed again after it was lost is on its way anew.
    """
    on_disk = open_call(board, name, today, whole=False)
    call, day = on_disk.call, on_disk.loaded.today
    if not (call.deal and call.deal.dealt) and phase_of(call, day) not in ("dealt", "mailed back"):
        must = f"must be dealt before an envelope is {what}"
        fix = f"deal it first: swapboard deal {call.name}."
        raise CallRefused([Problem(call.path, 0, "", must, None, fix)])
    due = {person.maker: person for person in envelopes(call)}
    if call.host_takes_part and what == "sealed":
        due |= {p.maker: p for p in call.people if p.maker == call.host and not p.standing}
    named = [person_of(on_disk, who).maker for who in makers]
    if everybody:
        named = [maker for maker, person in due.items() if not getattr(person, what)]
    people, told = list(call.people), []
    for maker in dict.fromkeys(named):
        if maker not in due:
            must = "must be somebody to whom an envelope goes back"
            fix = "name those whose cards arrived, the host aside."
            raise CallRefused([_problem(call, "maker", must, maker, fix)])
        place = next(at for at, person in enumerate(people) if person.maker == maker)
        changes = {what: day}
        if what == "mailed" and people[place].lost:
            changes |= {"lost": None}
        people[place] = replace(people[place], **changes)
        told.append(f"{maker}: {what} on {day}.")
    problems = save_people(on_disk, people)
    return told or [f"No envelope is left to be {what}."], problems


@dataclass(frozen=True, slots=True)
class _Noted:
    """One line of private/parcels/NAME.csv."""

    day: str
    maker: str
    came: int
    dealt: int
    parcel: Parcel


def _note_parcel(on_disk: OnDisk, noted: _Noted) -> None:
    path = f"{PARCELS}/{on_disk.call.name}.csv"
    kept = read_private(on_disk.loaded.folder, path)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    if not kept:
        writer.writerow(_PARCEL_COLUMNS)
    parcel = noted.parcel
    writer.writerow([
        noted.day, noted.maker, noted.came, noted.dealt, parcel.wrong_size, parcel.not_own_work,
        " ".join(parcel.cards), tidy(parcel.note),
    ])  # fmt: skip
    write_private(on_disk.loaded.folder, path, kept + out.getvalue())


def _cards_for(on_disk: OnDisk, maker: str, names: tuple[str, ...]) -> dict[str, str]:
    """The posts of cards that came for a call, with the line that says so."""
    board, texts, posts = on_disk.loaded.board, on_disk.loaded.texts.texts, {}
    for name in names:
        card = board.cards.get(name)
        if card is None or card.maker != maker or card.call not in ("", on_disk.call.name):
            fix = f"it is {card.maker}'s." if card and card.maker != maker else ""
            fix = fix or (f"it is in {card.call}." if card else Names(board.cards).suggest(name))
            must = "must be a card on this board, by whoever sent it, for this call"
            fix = fix or "name files of cards/ without their ending."
            raise CallRefused([Problem("--cards", 0, "", must, name, fix)])
        text = texts[card.path].replace("\r\n", "\n").replace("\r", "\n")
        posts[card.path] = with_keys(text, {"Call": on_disk.call.name})
    return posts


def _must_run(call: Call, day: date) -> None:
    if (phase := phase_of(call, day)) in OVER:
        must = f"must still run, and it is {phase}"
        raise CallRefused([Problem(call.path, 0, "", must, None, "mend its dates if it is not.")])


def _problem(call: Call, field: str, must: str, got: str, fix: str) -> Problem:
    return Problem(people_path(call), 0, field, must, got, fix)
