"""Checking a published proof: each thing that can be checked, and what cannot."""

import re
from collections import Counter
from dataclasses import dataclass
from hashlib import sha256

from swapboard.dealing.plan import deal
from swapboard.dealing.proof import FORMAT, VERSION, pair_hash, seed_of
from swapboard.dealing.rules import DOUBLE, is_too_large

HOLDS, FAILS, UNKNOWN = "holds", "fails", "cannot be checked"
_HEAD = "swapboard list 1"
# How many cells each kind of line has, its word not counted.
_CELLS = {"call": 1, "public": 1, "relax": 1, "maker": 2, "met": 2, "apart": 1}
_COUNT = re.compile("[0-9]{1,9}")


@dataclass(frozen=True, slots=True)
class Step:
    """One thing checked: `result` is HOLDS, FAILS or UNKNOWN."""

    what: str
    result: str


@dataclass(frozen=True, slots=True)
class ReadList:
    """A frozen list as read back from its text."""

    sent: dict[str, int]
    met: tuple[tuple[str, str], ...]
    apart: tuple[str, ...]
    relax: tuple[str, ...]


def check_proof(proof: dict) -> list[Step]:
    """Every step of the check, in order; a proof that cannot be read is one failed step."""
    try:
        return _steps(proof)
    except (KeyError, TypeError, ValueError, AttributeError):
        return [Step("The proof can be read", FAILS)]


def read_list(text: str) -> ReadList:
    """The list in a text; raises ValueError where it is none."""
    lines = text.split("\n")
    if lines[0] != _HEAD or lines[-1]:
        raise ValueError("no frozen list")
    sent, met, apart, relax = {}, [], [], ()
    for line in lines[1:-1]:
        word, *cells = line.split("\t")
        if len(cells) != _CELLS.get(word):
            raise ValueError(f"no such line: {line}")
        if word == "maker":
            maker = _unquoted(cells[1])
            if maker in sent or not _COUNT.fullmatch(cells[0]):
                raise ValueError(f"no maker's line: {line}")
            sent[maker] = int(cells[0])
        elif word == "met":
            met.append((_unquoted(cells[0]), _unquoted(cells[1])))
        elif word == "apart":
            apart.append(cells[0])
        elif word == "relax":
            relax = tuple(cells[0].split())
    return ReadList(sent, tuple(met), tuple(apart), relax)


def _unquoted(name: str) -> str:
    parts = name.encode().split(b"%")
    return (parts[0] + b"".join(bytes.fromhex(p[:2].decode()) + p[2:] for p in parts[1:])).decode()


def _steps(proof: dict) -> list[Step]:
    if (proof["format"], proof["version"]) != (FORMAT, VERSION):
        return [Step("The proof is of a version known here", FAILS)]
    text = proof["list"]
    steps = [_step("The list is the one announced by its SHA-256",
                   sha256(text.encode()).hexdigest() == proof["list_sha256"])]  # fmt: skip
    if not proof["opened"]:
        return [*steps, Step("The secret fits what was announced", UNKNOWN)]
    secret = bytes.fromhex(proof["secret"])
    frozen = read_list(text)
    if is_too_large(frozen.sent):
        return [*steps, Step("The list is of a size that can be dealt", FAILS)]
    table = {(giver, taker): count for giver, taker, count in proof["table"]}
    cards = [tuple(card) for card in proof["cards"]]
    shown = {
        pair_hash(bytes.fromhex(key), (one, other)): (one, other)
        for one, other, key in proof["apart"]
    }
    steps += [
        _step("The secret fits what was announced",
              sha256(secret).hexdigest() == proof["commitment"]),
        _step("Each gets as many as they sent, and nobody their own",
              _sums_hold(frozen.sent, table, cards)),
        _step("Every pair shown as kept apart is on the list", set(shown) <= set(frozen.apart)),
    ]  # fmt: skip
    if set(frozen.apart) - set(shown):
        return [*steps, *_told(frozen, table),
                Step("The deal is the one that the seed gives (pairs kept apart are not all shown)",
                     UNKNOWN)]  # fmt: skip
    made = deal(frozen.sent, apart=shown.values(), met=frozen.met, relax=frozen.relax,
                seed=seed_of(secret, text, proof["public_value"]))  # fmt: skip
    same = made.table == table and [(c.giver, c.number, c.taker) for c in made.cards] == cards
    return [*steps, _step("The deal is the one that the seed gives", same)]


def _told(frozen: ReadList, table: dict) -> list[Step]:
    """What can be said of the rules without the pairs kept apart."""
    repeats = sum(count for pair, count in table.items() if pair in set(frozen.met))
    doubles = sum(count - 1 for count in table.values())
    return [
        Step(f"Cards from makers met before: {repeats}", HOLDS if not repeats else UNKNOWN),
        Step(f"Cards more than one from one maker: {doubles}",
             HOLDS if not doubles else UNKNOWN if DOUBLE in frozen.relax else FAILS),
    ]  # fmt: skip


def _sums_hold(sent: dict[str, int], table: dict, cards: list) -> bool:
    gives, gets = Counter(), Counter()
    for (giver, taker), count in table.items():
        gives[giver] += count
        gets[taker] += count
    every = sorted((maker, k) for maker, count in sent.items() for k in range(1, count + 1))
    return (
        all(giver != taker and count > 0 for (giver, taker), count in table.items())
        and {maker: count for maker, count in sent.items() if count} == dict(gives) == dict(gets)
        and sorted((giver, number) for giver, number, _ in cards) == every
        and Counter((giver, taker) for giver, _, taker in cards) == Counter(table)
    )


def _step(what: str, holds: bool) -> Step:
    return Step(what, HOLDS if holds else FAILS)
