"""Errands around swap calls: who has not sent, who is late, what the host has to do next."""

from collections.abc import Iterator
from datetime import date, timedelta

from swapboard.records.call_phase import (
    OVER,
    RECEIVED,
    SIGNING_UP,
    envelopes,
    is_dealt,
    opened_on,
    phase_of,
    places_left,
    taking_part,
    waiting,
)
from swapboard.records.types import Board, Call, Person
from swapboard.today.call_words import CallWriter
from swapboard.today.types import Draft, Errand, by_urgency
from swapboard.vocabulary.counts import counted

# Common practice of the trade, no source: a reminder two weeks before the day; three
# weeks on the road are no reason yet to worry.
REMIND = timedelta(weeks=2)
ON_THE_ROAD = timedelta(weeks=3)


def call_errands(board: Board, today: date) -> tuple[Errand, ...]:
    """What is to be done about each call on a day, the most urgent first.

    A late parcel is waited for as long as the call's days of grace; then the place is
    given up and the cards are dealt without it. Nobody writes to themselves.
    """
    found = [errand for call in board.calls.values() for errand in _of(board, call, today)]
    return tuple(sorted(found, key=by_urgency))


def _of(board: Board, call: Call, today: date) -> Iterator[Errand]:
    phase = phase_of(call, today)
    if phase in OVER:
        return
    round_ = _Round(board, call, today)
    yield from round_.places()
    if is_dealt(call, today):
        yield from round_.way_back(phase)
    elif phase != SIGNING_UP or not call.sign_up_by:
        yield from round_.parcels()
    if call.deal:
        yield from round_.changes()


class _Round:
    """The errands of one call."""

    def __init__(self, board: Board, call: Call, today: date) -> None:
        self._call, self._today = call, today
        self._words = CallWriter(board, call)

    def places(self) -> Iterator[Errand]:
        """A place that is free while somebody waits; too few people for a deal."""
        call, line = self._call, waiting(self._call)
        free = places_left(call)
        if line and (free is None or free >= line[0].places) and not call.deal:
            who = line[0].maker
            what = f"a place is free, and {who} waits for one: swapboard join {call.name} {who!r}"
            yield self._host(what, self._today, line[0].signed_up, self._words.a_place(line[0]))
        # With equal numbers a deal from different makers needs one more than cards.
        least = call.receive + 1
        here = len(taking_part(call))
        is_over = call.sign_up_by and self._today > call.sign_up_by
        if is_over and not call.deal and here < least and not self._says("run short"):
            what = (
                f"{_people(here)} in it, and {least} are needed for "
                f"{counted(call.receive, 'card')} each from different makers: extend "
                f"it, or say swapboard close {call.name} --run-short"
            )
            yield self._host(what, call.arrive_by, call.sign_up_by)

    def parcels(self) -> Iterator[Errand]:
        """Who has not sent; and, once all is here or the grace is over, the deal."""
        call, due = self._call, self._call.arrive_by
        missing = [
            person for person in taking_part(call)
            if person.arrived is None and person.maker != call.host
        ]  # fmt: skip
        if due and call.by == "post":
            for person in missing:
                yield from self._missing(person, due)
        if call.by == "in person" or call.chosen_by == "maker" or not envelopes(call):
            return
        last = self._last_day()
        if not missing or (last and self._today > last):
            since = last if missing else max(p.arrived for p in envelopes(call))
            if call.deal is None:
                what = f"freeze the list: swapboard commit {call.name}"
            else:
                since = call.deal.frozen
                what = f"deal the cards: swapboard deal {call.name}"
                if call.public_value:
                    what += f" --value …, once this is out: {call.public_value}"
            yield self._host(what, call.mail_out_by, since)

    def _missing(self, person: Person, due: date) -> Iterator[Errand]:
        call, last, who = self._call, self._last_day(), (person.maker,)
        asked = counted(person.cards or call.send, "card")
        if self._today <= due:
            if self._today >= due - REMIND:
                draft = self._words.reminder(person, due)
                what = f"{person.maker} has not sent {asked} yet"
                yield Errand(due, call.path, who, what, person.signed_up, draft)
        elif self._today <= last:
            late = (self._today - due).days
            draft = self._words.late(person, due, last)
            days = counted(late, "day")
            what = f"{person.maker} is {days} late with {asked}; the grace ends on {last}"
            yield Errand(last, call.path, who, what, due, draft)
        else:
            what = (
                f"{person.maker} sent nothing and the grace is over: deal without them, after "
                f"swapboard leave {call.name} {person.maker!r}"
            )
            yield self._host(what, last, due, self._words.without(person))

    def changes(self) -> Iterator[Errand]:
        """Parcels that came after the list was frozen, and are in no repair yet."""
        call, deal = self._call, self._call.deal
        frozen = {line.split("\t")[2] for line in deal.list_text.split("\n")
                  if line.startswith("maker\t")}  # fmt: skip
        mended = max((repair.on for repair in deal.repairs), default=deal.frozen)
        late = [
            person for person in envelopes(call)
            if person.maker not in frozen and person.arrived >= mended
            and not (deal.repairs and person.arrived == mended)
        ]  # fmt: skip
        for person in late:
            what = (
                f"{person.maker}'s parcel came after the list was frozen: "
                + (f"swapboard repair {call.name}" if deal.dealt
                   else f"swapboard commit {call.name} --anew")
            )  # fmt: skip
            yield self._host(what, call.mail_out_by, person.arrived)

    def way_back(self, phase: str) -> Iterator[Errand]:
        """Envelopes to mail, those on their way, and the end of the round."""
        call, due = self._call, envelopes(self._call)
        unmailed = [person.maker for person in due if not person.mailed]
        dealt = call.deal.dealt if call.deal else None
        if unmailed and call.by == "post":
            many = counted(len(unmailed), "envelope")
            what = f"mail {many}: {'; '.join(unmailed)}"
            yield self._host(what, call.mail_out_by, dealt, at_board=False)
        for person in due:
            yield from self._on_the_road(person)
        if due and not unmailed and opened_on(call) is None:
            mailed = max(person.mailed for person in due)
            what = f"all is mailed, so show who got what: swapboard open {call.name}"
            yield self._host(what, mailed, mailed, self._words.on_its_way(due))
        if phase == RECEIVED:
            since = max(person.received or person.lost for person in due)
            yield self._host(f"all is there: swapboard close {call.name}", since, since)

    def _on_the_road(self, person: Person) -> Iterator[Errand]:
        call = self._call
        if person.lost:
            what = (
                f"the envelope to {person.maker} is lost: fill it anew with swapboard repair "
                f"{call.name}, then mail it again"
            )
            yield self._host(what, person.lost, person.lost, self._words.lost(person))
        elif person.mailed and not person.received:
            day = person.mailed + ON_THE_ROAD
            if self._today >= day:
                what = f"{person.maker} has not said that the envelope is there"
                draft = self._words.is_it_there(person)
                yield Errand(day, call.path, (person.maker,), what, person.mailed, draft)

    def _last_day(self) -> date | None:
        due = self._call.arrive_by
        return due + timedelta(days=self._call.grace_days) if due else None

    def _says(self, what: str) -> bool:
        return any(event.what == what for event in self._call.events)

    def _host(
        self, what: str, due: date | None, since: date | None, draft: Draft | None = None,
        at_board: bool = True,
    ) -> Errand:  # fmt: skip
        return Errand(due, self._call.path, (self._call.host,), what, since, draft, at_board)


def _people(count: int) -> str:
    return {0: "nobody is", 1: "one is"}.get(count, f"{count} are")
