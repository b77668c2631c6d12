"""Mending a deal when a parcel was short, one came late, or cards were lost."""

import json
import secrets as system_secrets
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from hashlib import sha256
from pathlib import Path

from swapboard.dealing.proof import hmac_sha256
from swapboard.dealing.repair import SPARE, Repair, repair
from swapboard.dealing.repair_check import faults_of_repair
from swapboard.dealing.repair_program import Unsolved
from swapboard.disk.call_edit import CallRefused, open_call, people_path
from swapboard.disk.commitments import Committed, changed_since, committed, with_record
from swapboard.disk.deal_secrets import write_secret
from swapboard.disk.deals import Cards, cards_now, envelope_in_words, made_deal
from swapboard.problems import Problem, errors
from swapboard.records.call_cards import piles
from swapboard.records.deal_file import moves_in
from swapboard.records.deal_types import RepairRecord
from swapboard.records.names import Names

Lost = tuple[str, int]


@dataclass(frozen=True, slots=True)
class Repaired:
    """A repair with the deal that it mends; `made` is None where there was nothing to mend."""

    known: Committed
    made: Repair | None
    public: RepairRecord | None
    sealed: tuple[str, ...]
    warnings: tuple[Problem, ...]


def repair_call(
    board: Path, name: str, lost: Iterable[Lost] = (), because: str = "",
    today: date | None = None,
) -> Repaired:
    """Bring a deal in line with what has arrived by now, and without the cards `lost`
    (maker, number). Envelopes marked as sealed or mailed stay as they are; one marked
    as lost on its way is filled anew from what is left. Raises `CallRefused`.
    """
    on_disk = open_call(board, name, today)
    known = committed(on_disk)
    if known is None:
        fix = f"deal it first: swapboard deal {on_disk.call.name}."
        raise CallRefused([Problem(on_disk.call.path, 0, "", "must be dealt", None, fix)])
    if errors(known.problems):
        raise CallRefused(known.problems)
    cards = cards_now(made_deal(known), known.secret)
    named = _named(known, lost)
    task = _task(known, cards, named)
    gone = {(g, n) for g, n, _ in cards if n not in task["hand"].get(g, ())}
    if not gone and not named and changed_since(known) is None:
        return Repaired(known, None, None, task["sealed"], known.problems)
    _must_not_be_sealed(known, cards, gone, task["sealed"])
    made = _mended(known, cards, task)
    record = _record_text(known, made, task, gone | named, because)
    public = _public(known, made, record, task, because)
    secret = replace(
        known.secret,
        repairs=(*known.secret.repairs, record),
        sent=tuple(sorted(known.arrivals.frozen.sent.items())),
    )
    write_secret(board, on_disk.call.name, secret)
    known = with_record(
        replace(known, secret=secret),
        replace(known.record, repairs=(*known.record.repairs, public)),
    )
    return Repaired(known, made, public, task["sealed"], known.problems)


def _mended(known: Committed, cards: Cards, task: dict) -> Repair:
    """The repair, checked by what does not share its code."""
    try:
        made = repair(cards, **task, **_rules(known), seed=_seed(known))
    except Unsolved as unsolved:
        fix = "seal the envelopes that shall stay as they are, and run it again."
        must = "must be a deal that can be mended"
        problem = Problem(known.record.path, 0, "", must, str(unsolved), fix)
        raise CallRefused([problem]) from unsolved
    if faults := faults_of_repair(made, cards, **task):
        raise AssertionError(faults)
    return made


def _public(
    known: Committed, made: Repair, record: str, task: dict, because: str
) -> RepairRecord:
    """What everybody may know of a repair now."""
    return RepairRecord(
        on=known.on_disk.loaded.today,
        reason=because.strip(),
        envelopes=len({side for m in made.moves for side in (m.left, m.to)} - {SPARE}),
        sealed=len(task["sealed"]),
        spares=made.spares,
        relaxed=tuple(one.words for one in made.relaxed),
        digest=sha256(record.encode()).hexdigest(),
        record=record if known.record.opened else "",
        moves=moves_in(record) if known.record.opened else (),
    )


def _task(known: Committed, cards: Cards, lost: set[Lost]) -> dict:
    """What is there, who is to get how many, whose envelope is closed."""
    call, arrivals = known.on_disk.call, known.arrivals
    people = {person.maker: person for person in call.people}
    sealed = tuple(sorted(
        person.maker for person in call.people
        if (person.sealed or person.mailed) and not person.lost
    ))  # fmt: skip
    missing = lost | {(g, n) for text in known.secret.repairs for g, n in _lost_in(text)}
    missing |= {
        (giver, number) for giver, number, taker in cards
        if taker in people and people[taker].lost
    }
    hand = {
        maker: [n for n in range(1, count + 1) if (maker, n) not in missing]
        for maker, count in arrivals.arrived.items()
    }
    for giver, number, taker in cards:
        # Whoever has left takes home what is not yet in a sealed envelope.
        if taker in sealed and giver not in arrivals.arrived:
            hand.setdefault(giver, []).append(number)
    return {"hand": hand, "due": dict(arrivals.frozen.sent), "sealed": sealed}


def _rules(known: Committed) -> dict:
    """The rules that the deal was made by, and those of people who came later."""
    now = known.arrivals.frozen
    return {
        "met": {*known.frozen.met, *now.met},
        "apart": {*known.frozen.apart, *now.apart},
        "relax": known.frozen.relax,
    }


def _named(known: Committed, lost: Iterable[Lost]) -> set[Lost]:
    """The cards that were named as lost, each known to have been there."""
    found, arrived = set(), known.arrivals.arrived
    names = Names(arrived)
    for maker, number in lost:
        who = names.find(maker)
        if who is None or not 1 <= number <= arrived[who]:
            most = f" from 1 to {arrived[who]}" if who else ""
            must = f"must be a maker whose cards arrived, and the number of one{most}"
            fix = names.suggest(maker) or "write it like --lost ada:2."
            raise CallRefused([Problem("--lost", 0, "", must, f"{maker}:{number}", fix)])
        found.add((who, number))
    return found


def _must_not_be_sealed(
    known: Committed, cards: Cards, gone: set[Lost], sealed: tuple[str, ...]
) -> None:
    for giver, number, taker in cards:
        if (giver, number) in gone and taker in sealed:
            path = people_path(known.on_disk.call)
            must = f"must not be sealed: card {number} of {giver} lies in it, and is not there"
            fix = "empty the columns sealed and mailed of this row, if you can still open it."
            raise CallRefused([Problem(path, 0, "sealed", must, taker, fix)])


def _seed(known: Committed) -> bytes:
    """Fixed by the secret and by what is to be mended, so that nobody picks a repair."""
    made = len(known.secret.repairs)
    sent = sorted(known.arrivals.frozen.sent.items())
    return hmac_sha256(known.secret.deal, json.dumps(["repair 1", made, sent]).encode())


def _record_text(
    known: Committed, made: Repair, task: dict, gone: set[Lost], because: str
) -> str:
    """What is published of a repair once the call is open; its SHA-256 is before."""
    data = {
        "format": "swapboard repair",
        "version": 1,
        "call": known.on_disk.call.name,
        "on": known.on_disk.loaded.today.isoformat(),
        "reason": because.strip(),
        # Without it the few ways to mend a small deal could be tried against the digest.
        "salt": system_secrets.token_hex(16),
        "lost": sorted(map(list, gone)),
        "due": sorted(map(list, task["due"].items())),
        "sealed": list(task["sealed"]),
        "moves": [[m.giver, m.number, m.left, m.to] for m in made.moves],
        "short": [list(one) for one in made.short],
    }
    return json.dumps(data, ensure_ascii=False)


def _lost_in(record: str) -> list[Lost]:
    return [(giver, number) for giver, number in json.loads(record).get("lost", [])]


def as_data(name: str, repaired: Repaired) -> dict:
    """The repair for `repair --json`, version 1; for the host alone."""
    made = repaired.made
    return {
        "version": 1,
        "call": name,
        "needed": made is not None,
        "moves": [[m.giver, m.number, m.left, m.to] for m in made.moves] if made else [],
        "sealed": list(repaired.sealed),
        "others": list(made.others) if made else [],
        "short": [list(one) for one in made.short] if made else [],
        "spares": made.spares if made else 0,
        "relaxed": [one.words for one in made.relaxed] if made else [],
        "proven": made.proven if made else True,
        "cards": [list(card) for card in made.cards] if made else [],
    }


def in_words(repaired: Repaired) -> list[str]:
    """The repair as lines for the host: what goes where, and the envelopes that change."""
    made, call = repaired.made, repaired.known.on_disk.call
    if made is None:
        return ["The deal fits what has arrived: there is nothing to mend."]
    lines = [_move_in_words(move) for move in made.moves]
    changed = {side for move in made.moves for side in (move.left, move.to)} - {SPARE}
    names = piles(repaired.known.on_disk.loaded.board, call)
    lines += [
        envelope_in_words(who, made.cards, call.by_maker, names) for who in sorted(changed)
    ]
    lines += [f"Relaxed: {one.words}" for one in made.relaxed]
    lines += [f"{who} still lacks {n}: there is no card left for them." for who, n in made.short]
    if made.others:
        lines.append(f"Opened though nothing happened to them: {', '.join(made.others)}")
    if not made.proven:
        lines.append("Whether fewer changes would do was not proven in time.")
    lines.append(f"Sealed envelopes stay as they are: {', '.join(repaired.sealed) or 'none yet'}")
    return [*lines, f"The call's page says that a repair was made: {repaired.public.digest}"]


def _move_in_words(move) -> str:
    left = "your own pile" if move.left == SPARE else f"the envelope of {move.left}"
    to = "your own pile" if move.to == SPARE else f"the envelope of {move.to}"
    return f"{move.giver} {move.number}: from {left} to {to}"
