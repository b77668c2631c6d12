"""A call's deal on disk: arrivals in, the secret kept in private/deals/, JSON out."""

import json
import os
import secrets
from dataclasses import dataclass
from pathlib import Path

from swapboard.dealing import VERSION, Deal
from swapboard.dealing.arrivals import Arrivals, arrivals_of
from swapboard.dealing.proof import Frozen, commitment, deal_frozen, list_text, proof_of
from swapboard.disk.contain import contained
from swapboard.disk.load import load_board
from swapboard.disk.trouble import problem_of
from swapboard.problems import Problem, did_you_mean, errors

FOLDER = "private/deals"


@dataclass(frozen=True, slots=True)
class Secret:
    """What is kept of a deal: the secret of its seed, the one that hides pairs kept
    apart, and the list as it was frozen."""

    deal: bytes
    apart: bytes
    text: str


@dataclass(frozen=True, slots=True)
class CallDeal:
    """A deal with what it was made from; `deal` is None where an error stood in its way."""

    arrivals: Arrivals | None
    frozen: Frozen | None
    secret: Secret | None
    deal: Deal | None
    problems: list[Problem]


def deal_call(board: Path, name: str, value: str = "") -> CallDeal:
    """Deal the call `name` of the board in `board`, from what has arrived.

    The first time, secrets are drawn from the system and kept with the frozen list in
    private/deals/NAME.json (mode 0600); after that the same arrivals give the same
    deal, and others are an error, so that nobody can deal until they like it.
    """
    loaded = load_board(board)
    problems = list(loaded.problems)
    call = loaded.board.calls.get(name)
    if call is None:
        known = sorted(loaded.board.calls)
        fix = did_you_mean(name, known) or "name a file of calls/ without its ending."
        problems.append(Problem("calls", 0, "", "must be a call of this board", name, fix))
    if errors(problems):
        return CallDeal(None, None, None, None, problems)
    arrivals = arrivals_of(loaded.board, call)
    problems += arrivals.problems
    if errors(problems):
        return CallDeal(arrivals, None, None, None, problems)
    frozen = arrivals.frozen
    try:
        secret = _secret(board, frozen)
    except OSError as error:
        problems.append(problem_of(error, f"{FOLDER}/{name}.json"))
        return CallDeal(arrivals, frozen, None, None, problems)
    if isinstance(secret, Problem):
        return CallDeal(arrivals, frozen, None, None, [*problems, secret])
    made = deal_frozen(frozen, secret.deal, secret.text, value)
    return CallDeal(arrivals, frozen, secret, made, problems)


def _secret(board: Path, frozen: Frozen) -> Secret | Problem:
    path = f"{FOLDER}/{frozen.call}.json"
    file = board / path
    if not contained(board, file):
        must = "must lie inside the board's folder"
        return Problem(path, 0, "", must, "a link", "put the file itself there.")
    if file.exists():
        return _kept(file, path, frozen)
    secret, apart = secrets.token_bytes(32), secrets.token_bytes(32)
    kept = Secret(secret, apart, list_text(frozen, apart))
    _write(file, kept)
    return kept


def _kept(file: Path, path: str, frozen: Frozen) -> Secret | Problem:
    try:
        data = json.loads(file.read_bytes())
        if data["version"] != VERSION:
            raise ValueError("another version")
        kept = Secret(
            bytes.fromhex(data["secret"]), bytes.fromhex(data["apart_secret"]), data["list"]
        )
        now = list_text(frozen, kept.apart)
    except (ValueError, KeyError, TypeError):
        fix = "put a copy of it back; without it this deal cannot be made or shown again."
        return Problem(path, 0, "", "must be a deal's secret as this version writes it", None, fix)
    if now != kept.text:
        changed = sorted(set(now.split("\n")) ^ set(kept.text.split("\n")))
        fix = (
            "put the people, dates and offers back as they were when the list was frozen; "
            "a new deal needs this file moved away, and a new commitment published."
        )
        must = "must fit the list that was frozen for this deal"
        return Problem(path, 0, "", must, ", ".join(changed).replace("\t", " "), fix)
    return kept


def _write(file: Path, kept: Secret) -> None:
    """Written under a name of its own first, so that it is whole or not there."""
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    data = {
        "version": VERSION,
        "secret": kept.deal.hex(),
        "apart_secret": kept.apart.hex(),
        "commitment": commitment(kept.deal),
        "list": kept.text,
    }
    aside = file.with_name(f".{file.name}.{os.getpid()}")
    handle = os.open(aside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as opened:
            json.dump(data, opened, ensure_ascii=False, indent=2)
            opened.flush()
            os.fsync(opened.fileno())
        # A link fails where the name is taken: of two runs at once, one keeps its secret.
        os.link(aside, file)
    finally:
        aside.unlink(missing_ok=True)


def as_data(name: str, made: CallDeal, value: str = "") -> dict:
    """The deal for `deal --json`, version 1. It is for the host: it says who gets what.

    `proof` is what can be published before the call is opened.
    """
    if made.deal is None:
        return {"version": 1, "call": name, "possible": False}
    deal, arrivals = made.deal, made.arrivals
    return {
        "version": 1,
        "call": name,
        "possible": deal.possible,
        "people": [
            {"maker": maker, "arrived": arrivals.arrived[maker], "back": back,
             "for_host": arrivals.arrived[maker] - back}
            for maker, back in sorted(made.frozen.sent.items())
        ],
        "not_arrived": list(arrivals.missing),
        "table": [[giver, taker, count] for (giver, taker), count in deal.table.items()],
        "cards": [[card.giver, card.number, card.taker] for card in deal.cards],
        "method": deal.method,
        "exact": deal.exact,
        "guarantee": deal.guarantee,
        "relaxed": [
            {"rule": one.rule, "cards": one.cards, "words": one.words} for one in deal.relaxed
        ],
        "obstacles": [one.words for one in deal.obstacles],
        "proof": proof_of(deal, made.secret.text, made.secret.deal, value),
    }


def in_words(name: str, made: CallDeal) -> list[str]:
    """The deal as lines for the host: what was relaxed, then each one's envelope."""
    deal = made.deal
    lines = [one.words for one in deal.obstacles]
    if not deal.possible:
        return [*lines, deal.guarantee]
    lines += [f"Relaxed: {one.words}" for one in deal.relaxed]
    for maker in deal.makers:
        own = [card for card in deal.cards if card.taker == maker]
        cards = ", ".join(f"{card.giver} {card.number}" for card in own)
        lines.append(f"{maker} gets {len(own)}: {cards}" if own else f"{maker} gets none")
    if made.arrivals.missing:
        lines.append(f"Nothing has arrived from: {', '.join(made.arrivals.missing)}")
    kept = f"{FOLDER}/{name}.json"
    return [
        *lines,
        f"Drawn by {deal.method}. {deal.guarantee}",
        f"Publish this before you show the deal: {commitment(made.secret.deal)}",
        f"Keep {kept}, and a copy of it: without it the deal cannot be verified.",
    ]
