"""A call's deal on disk: arrivals in, the secret kept in private/deals/, JSON out."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from swapboard.dealing import Deal, prepare
from swapboard.dealing.arrivals import Arrivals
from swapboard.dealing.proof import Frozen, commitment, deal_frozen, proof_of
from swapboard.disk.call_edit import CallRefused, open_call
from swapboard.disk.commitments import (
    Committed,
    arrivals_now,
    changed_since,
    committed,
    freeze,
    with_record,
)
from swapboard.disk.deal_secrets import FOLDER, Secret
from swapboard.disk.lock import BoardBusy, board_lock
from swapboard.disk.trouble import problem_of
from swapboard.problems import Problem
from swapboard.records.call_cards import piles
from swapboard.records.deal_file import moves_in

Cards = tuple[tuple[str, int, str], ...]


@dataclass(frozen=True, slots=True)
class CallDeal:
    """A deal with what it was made from; `deal` is None where an error stood in its way.

    `cards` (giver, number, taker) are as they lie now, with every repair made."""

    arrivals: Arrivals | None
    frozen: Frozen | None
    secret: Secret | None
    deal: Deal | None
    problems: list[Problem]
    by_maker: bool = False
    cards: Cards = ()
    value: str = ""
    names: dict[tuple[str, int], str] = field(default_factory=dict)
    opened: date | None = None


def deal_call(board: Path, name: str, value: str = "", today: date | None = None) -> CallDeal:
    """Deal the call `name` of the board in `board`, from what has arrived.

    Where the list is not frozen yet it is frozen first: secrets are drawn from the
    system and kept with it in private/deals/NAME.json (mode 0600), and calls/NAME.deal.json
    commits to them in public. After that the same list gives the same deal, and others
    are an error, so that nobody can deal until they like it. Where no deal is possible
    nothing is frozen.
    """
    if not (board / "board.toml").is_file():
        return _deal(board, name, value, today)
    try:
        with board_lock(board / ".swapboard"):
            return _deal(board, name, value, today)
    except BoardBusy as busy:
        return CallDeal(None, None, None, None, [busy.problem])


def _deal(board: Path, name: str, value: str, today: date | None) -> CallDeal:
    try:
        on_disk = open_call(board, name, today)
        known = committed(on_disk)
        if known is None:
            arrivals = arrivals_now(on_disk)
            found = [*on_disk.problems, *arrivals.problems]
            frozen = arrivals.frozen
            plan = prepare(frozen.sent, apart=frozen.apart, met=frozen.met, relax=frozen.relax)
            if plan.face is None:
                return CallDeal(arrivals, frozen, None, plan.deal(b""), found)
            _must_be_committed(frozen, on_disk.call.name)
            _value_for(frozen, value, on_disk.call.path)
            known = freeze(on_disk)
        return _deal_again(known, value)
    except CallRefused as refused:
        return CallDeal(None, None, None, None, refused.problems)
    except OSError as error:
        return CallDeal(None, None, None, None, [problem_of(error, f"{FOLDER}/{name}.json")])


def _deal_again(known: Committed, value: str) -> CallDeal:
    """The deal of a frozen list; the first time it is noted in the deal file."""
    record, on_disk = known.record, known.on_disk
    found = [*on_disk.problems, *known.problems]
    if problem := changed_since(known):
        raise CallRefused([*found, problem])
    value = _value_of(known, value)
    made = deal_frozen(known.frozen, known.secret.deal, known.secret.text, value)
    if record.dealt is None and made.possible:
        known = with_record(known, replace(
            record,
            dealt=on_disk.loaded.today,
            proof=json.dumps({**json.loads(record.proof), "public_value": value},
                             ensure_ascii=False),
            public_value=value,
            method=made.method,
            guarantee=made.guarantee,
            relaxed=tuple(one.words for one in made.relaxed),
        ))  # fmt: skip
    return CallDeal(
        known.arrivals, known.frozen, known.secret, made, found, on_disk.call.by_maker,
        cards_now(made, known.secret), value, piles(on_disk.loaded.board, on_disk.call),
        known.record.opened,
    )  # fmt: skip


def cards_now(made: Deal, secret: Secret) -> Cards:
    """Where every card lies: as dealt, then as each repair moved it."""
    where = {(card.giver, card.number): card.taker for card in made.cards}
    for record in secret.repairs:
        for move in moves_in(record):
            where[move.giver, move.number] = move.to
    return tuple(sorted((giver, number, to) for (giver, number), to in where.items() if to))


def made_deal(known: Committed) -> Deal:
    """The deal as it was dealt; raises `CallRefused` where it is not dealt yet."""
    if known.record.dealt is None:
        name = known.on_disk.call.name
        fix = f"deal it first: swapboard deal {name}."
        raise CallRefused([Problem(known.record.path, 0, "dealt", "must be dealt", None, fix)])
    return deal_frozen(
        known.frozen, known.secret.deal, known.secret.text, known.record.public_value
    )


def _value_of(known: Committed, value: str) -> str:
    """The public value that the deal is made with; once it is noted there is no other."""
    record = known.record
    if record.dealt is None:
        return _value_for(known.frozen, value, known.on_disk.call.path)
    if value and value != record.public_value:
        said = f'"{record.public_value}"' if record.public_value else "left out"
        must = f"must be {said}, as when it was dealt on {record.dealt}"
        fix = "leave the option out; a second value would be a second try."
        raise CallRefused([Problem("--value", 0, "", must, value, fix)])
    return record.public_value


def _must_be_committed(frozen: Frozen, name: str) -> None:
    """A public value binds only a host who was bound before it was known."""
    if frozen.public:
        must = f"must be frozen before this is known: {frozen.public}"
        fix = f"run swapboard commit {name}, build the board, and deal when the value is out."
        raise CallRefused([Problem(f"calls/{name}.md", 0, "Public value", must, None, fix)])


def _value_for(frozen: Frozen, value: str, path: str) -> str:
    if frozen.public and not value:
        must = f"must be given: {frozen.public}, as the call has promised"
        fix = 'wait until it is out, then write it after the option, like --value "2.5.8./".'
        raise CallRefused([Problem("--value", 0, "", must, None, fix)])
    if value and not frozen.public:
        must = "must not be given, since no value was named before the list was frozen"
        fix = f"leave it out; the next time, write a line Public value: … in {path} before."
        raise CallRefused([Problem("--value", 0, "", must, value, fix)])
    return value


def as_data(name: str, made: CallDeal) -> dict:
    """The deal for `deal --json`, version 1. It is for the host: it says who gets what.

    `table` and `cards` are the deal as it was dealt, `envelopes` as they are now, with
    every repair; `proof` is what can be published before the call is opened.
    """
    if made.deal is None:
        return {"version": 1, "call": name, "possible": False}
    deal, arrivals = made.deal, made.arrivals
    back = arrivals.frozen.sent
    return {
        "version": 1,
        "call": name,
        "possible": deal.possible,
        "people": [
            {"maker": maker, "arrived": arrivals.arrived[maker], "back": back[maker],
             "for_host": arrivals.arrived[maker] - back[maker]}
            for maker in sorted(back)
        ],
        "not_arrived": list(arrivals.missing),
        "table": [[giver, taker, count] for (giver, taker), count in deal.table.items()],
        "cards": [[card.giver, card.number, card.taker] for card in deal.cards],
        "envelopes": [
            {"maker": taker, "cards": [[g, n] for g, n, to in made.cards if to == taker]}
            for taker in sorted({*back, *(to for _, _, to in made.cards)})
        ],
        "repairs": len(made.secret.repairs) if made.secret else 0,
        "method": deal.method,
        "exact": deal.exact,
        "guarantee": deal.guarantee,
        "relaxed": [
            {"rule": one.rule, "cards": one.cards, "words": one.words} for one in deal.relaxed
        ],
        "obstacles": [one.words for one in deal.obstacles],
        "proof": proof_of(deal, made.secret.text, made.secret.deal, made.value)
        if made.secret else None,
    }  # fmt: skip


def in_words(name: str, made: CallDeal) -> list[str]:
    """The deal as lines for the host: what was relaxed, then each one's envelope."""
    deal = made.deal
    lines = [one.words for one in deal.obstacles]
    if not deal.possible:
        return [*lines, deal.guarantee]
    lines += [f"Relaxed: {one.words}" for one in deal.relaxed]
    for maker in sorted({*deal.makers, *(to for _, _, to in made.cards)}):
        lines.append(envelope_in_words(maker, made.cards, made.by_maker, made.names))
    if made.arrivals.missing:
        lines.append(f"Nothing has arrived from: {', '.join(made.arrivals.missing)}")
    if repairs := len(made.secret.repairs):
        lines.append(f"Repaired {repairs} time{'s' if repairs > 1 else ''} since it was dealt.")
    kept = f"{FOLDER}/{name}.json"
    lines.append(f"Method: {deal.method}. {deal.guarantee}")
    if made.opened:
        return [*lines, f"Opened on {made.opened}; anybody can verify it."]
    return [
        *lines,
        f"Publish this before you show the deal: {commitment(made.secret.deal)}",
        "It stands on the call's page as soon as the board is built.",
        f"Keep {kept}, and a copy of it: without it the deal cannot be verified.",
    ]


def envelope_in_words(
    maker: str, cards: Cards, by_maker: bool, names: Mapping[tuple[str, int], str]
) -> str:
    """What goes into one envelope: card by card, with the name of its post where it has
    one, or how many of each maker's pile."""
    own = [(giver, number) for giver, number, taker in cards if taker == maker]
    if not own:
        return f"{maker} gets none"
    if by_maker:
        givers = sorted({giver for giver, _ in own})
        parts = [f"{sum(g == giver for g, _ in own)} of {giver}'s" for giver in givers]
    else:
        parts = [
            f"{giver} {number}" + (f" ({names[giver, number]})" if (giver, number) in names else "")
            for giver, number in own
        ]
    return f"{maker} gets {len(own)}: {', '.join(parts)}"
