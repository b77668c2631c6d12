"""A call's own marks: its dates moved, its deal opened, its end."""

import json
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from pathlib import Path

from swapboard.dealing.proof import pair_key, proof_of
from swapboard.disk.call_edit import CallRefused, open_call, save, text_of, with_keys, with_line
from swapboard.disk.commitments import Committed, committed, with_record
from swapboard.disk.deals import made_deal
from swapboard.problems import Problem
from swapboard.records.call_phase import OVER, envelopes, opened_on, phase_of
from swapboard.records.deal_file import moves_in
from swapboard.records.names import Names
from swapboard.vocabulary.counts import counted

Told = tuple[list[str], list[Problem]]
Pair = tuple[str, str]


def show_deal(
    board: Path, name: str, early: bool = False, agreed: Iterable[Pair] = (),
    today: date | None = None,
) -> Told:
    """Publish a deal with its secret: who got what, for everybody to see and to verify.

    Refused while an envelope is not mailed, unless `early`. Of the pairs kept apart only
    those in `agreed` are told, in which both makers said that they may be.
    """
    on_disk = open_call(board, name, today)
    call, day = on_disk.call, on_disk.loaded.today
    known = committed(on_disk)
    if known is None:
        fix = f"deal it first: swapboard deal {call.name}."
        raise CallRefused([Problem(call.path, 0, "", "must be dealt", None, fix)])
    made = made_deal(known)
    if known.record.opened:
        return [f"{call.name} was opened on {known.record.opened}."], []
    unmailed = [person.maker for person in envelopes(call) if not person.mailed]
    if unmailed and not early:
        must = "must have all envelopes mailed before it is opened"
        fix = f"mark them with: swapboard mailed {call.name}; or open it all the same with --early."
        raise CallRefused([Problem(call.path, 0, "", must, ", ".join(unmailed), fix)])
    secret = known.secret
    shown = [(pair, pair_key(secret.apart, pair)) for pair in _told_pairs(known, agreed)]
    value = known.record.public_value
    proof = proof_of(made, secret.text, secret.deal, value, True, shown)
    repairs = tuple(
        replace(public, record=text, moves=moves_in(text))
        for public, text in zip(known.record.repairs, secret.repairs, strict=True)
    )
    text = json.dumps(proof, ensure_ascii=False)
    with_record(known, replace(known.record, opened=day, proof=text, repairs=repairs))
    kept = len(secret.pairs) - len(shown)
    words = [f"{call.name} is open: build the board, and everybody sees who got what."]
    if kept:
        pairs = counted(kept, "pair kept apart is", "pairs kept apart are")
        words.append(f"{pairs} not told, so the deal itself cannot be redone.")
    return words, []


def _told_pairs(known: Committed, agreed: Iterable[Pair]) -> list[Pair]:
    names, found = Names(known.frozen.sent), []
    for one, other in agreed:
        pair = tuple(sorted((names.find(one) or one, names.find(other) or other)))
        if pair not in known.secret.pairs:
            must = "must be two makers whom the deal kept apart"
            fix = "name two of one household who took part."
            raise CallRefused([Problem("--tell", 0, "", must, f"{one},{other}", fix)])
        found.append(pair)
    return found


def end_call(board: Path, name: str, what: str, today: date | None = None) -> Told:
    """Write a dated line: `what` is "closed", "cancelled" or "run short"."""
    on_disk = open_call(board, name, today, whole=False)
    call, day = on_disk.call, on_disk.loaded.today
    if what in {event.what for event in call.events}:
        return [f"{call.name}: {what} already."], []
    _must_run(on_disk.call, day)
    text = with_line(text_of(on_disk), day, what)
    problems = save(on_disk, {call.path: text})
    words = [f"{call.name}: {what} on {day}."]
    if what == "closed":
        due = [p.maker for p in envelopes(call) if not (p.received or p.lost)]
        if due and call.deal:
            words.append(f"Nobody said that these were received: {', '.join(due)}")
        if call.deal and call.deal.dealt and not opened_on(call):
            words.append(f"Who got what is still a secret; tell it with: swapboard open {name}")
    if what == "cancelled":
        here = [person.maker for person in call.people if person.arrived]
        words += [f"Send the cards back to: {', '.join(here)}"] if here else []
    return words, problems


def extend_call(
    board: Path, name: str, days: dict[str, date], today: date | None = None
) -> Told:
    """Move dates of a call: `days` by key, like "Arrive by". Its `Revision` rises, so
    that calendars take the new dates, and a line says that it was extended."""
    on_disk = open_call(board, name, today, whole=False)
    call, day = on_disk.call, on_disk.loaded.today
    _must_run(call, day)
    if not days:
        fix = "say it like --arrive-by 2026-11-20."
        raise CallRefused([Problem("--arrive-by", 0, "", "must name a date to move", None, fix)])
    values = {key: value.isoformat() for key, value in days.items()}
    values["Revision"] = str(call.revision + 1)
    text = with_keys(text_of(on_disk), values)
    if not any(event.what == "extended" and event.on == day for event in call.events):
        text = with_line(text, day, "extended")
    problems = save(on_disk, {call.path: text})
    moved = ", ".join(f"{key} {value}" for key, value in values.items())
    return [f"{call.name}: {moved}."], problems


def _must_run(call, day: date) -> None:
    if (phase := phase_of(call, day)) in OVER and any(e.what in OVER for e in call.events):
        must = f"must still run, and it is {phase}"
        fix = "take that line out of the post if it is not."
        raise CallRefused([Problem(call.path, 0, "", must, None, fix)])
