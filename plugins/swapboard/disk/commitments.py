"""Freezing a call's list: the secret is drawn, and what binds the host is made public."""

import json
import secrets
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from swapboard.dealing import prepare
from swapboard.dealing.arrivals import Arrivals, arrivals_of
from swapboard.dealing.proof import Frozen, commitment, list_text, proof_before
from swapboard.dealing.proof_check import read_list
from swapboard.disk.call_edit import CallRefused, OnDisk, open_call, people_path, save
from swapboard.disk.deal_secrets import (
    Secret,
    as_kept,
    read_secret,
    secret_path,
    write_secret,
)
from swapboard.problems import Problem, errors
from swapboard.records.call_phase import taking_part
from swapboard.records.deal_file import ENDING, write_deal
from swapboard.records.deal_types import DealRecord, EarlierDeal


@dataclass(frozen=True, slots=True)
class Committed:
    """A call whose list is frozen: its public record, its secret, and the list as the
    deal is made of it. `arrivals` are those of now."""

    on_disk: OnDisk
    record: DealRecord
    secret: Secret
    frozen: Frozen
    arrivals: Arrivals
    problems: tuple[Problem, ...] = ()


def deal_path(call_path: str) -> str:
    """A call's deal file, by its path in the board."""
    return call_path.removesuffix(".md") + ENDING


def commit_call(
    board: Path, name: str, today: date | None = None, anew: bool = False, because: str = ""
) -> Committed:
    """Freeze the list of a call, or find it frozen; `anew` gives up an earlier one.

    Raises `CallRefused`. A list once frozen stays, whatever arrives later; what was
    committed before is published beside the new commitment, with the reason.
    """
    on_disk = open_call(board, name, today)
    known = committed(on_disk)
    if known is None:
        return freeze(on_disk)
    if not anew:
        return known
    record = known.record
    if record.opened or any(p.sealed or p.mailed for p in taking_part(on_disk.call)):
        must = "must not be dealt anew: envelopes are sealed, or everybody knows the deal"
        fix = f"bring in what changed with: swapboard repair {on_disk.call.name}"
        raise CallRefused([Problem(record.path, 0, "", must, None, fix)])
    if not because.strip():
        fix = 'say it in a few words: --because "two parcels came late".'
        raise CallRefused([Problem("--because", 0, "", "must say why", None, fix)])
    given_up = EarlierDeal(record.frozen, record.commitment, record.list_sha256, because.strip())
    return freeze(on_disk, (*record.earlier, given_up), known.secret)


def arrivals_now(on_disk: OnDisk) -> Arrivals:
    """What a call's deal would be made of now; raises `CallRefused` for errors."""
    arrivals = arrivals_of(on_disk.loaded.board, on_disk.call)
    if errors(arrivals.problems):
        raise CallRefused([*on_disk.problems, *arrivals.problems])
    return arrivals


def freeze(
    on_disk: OnDisk, earlier: tuple[EarlierDeal, ...] = (), before: Secret | None = None
) -> Committed:
    """Draw a secret, keep it, and write the deal file that commits to it."""
    arrivals = arrivals_now(on_disk)
    frozen = arrivals.frozen
    _must_be_possible(on_disk, frozen)
    secret, apart = secrets.token_bytes(32), secrets.token_bytes(32)
    kept_before = (*before.earlier, {**as_kept(before), "earlier": []}) if before else ()
    kept = Secret(
        secret, apart, list_text(frozen, apart), _pairs(frozen), earlier=kept_before
    )
    record = _record(on_disk, kept, on_disk.loaded.today, earlier)
    # The secret first: a commitment without one would be a deal that is dead.
    write_secret(on_disk.loaded.folder, on_disk.call.name, kept, new=before is None)
    save(on_disk, {record.path: write_deal(record)})
    return Committed(on_disk, record, kept, frozen, arrivals, arrivals.problems)


def _must_be_possible(on_disk: OnDisk, frozen: Frozen) -> None:
    """A list that nobody could deal is not frozen."""
    plan = prepare(frozen.sent, apart=frozen.apart, met=frozen.met, relax=frozen.relax)
    if plan.face is None:
        must = "must be a list that can be dealt: " + " ".join(o.words for o in plan.obstacles)
        fix = "change the numbers, or let more rules give way with a line Relax: … in the call."
        raise CallRefused([Problem(people_path(on_disk.call), 0, "", must, None, fix)])


def committed(on_disk: OnDisk) -> Committed | None:
    """The frozen list of a call; None where neither secret nor deal file is there.

    Raises `CallRefused` where one of the two is missing or they do not belong together.
    """
    call, folder = on_disk.call, on_disk.loaded.folder
    secret, record = read_secret(folder, call.name), call.deal
    if isinstance(secret, Problem):
        raise CallRefused([secret])
    path = secret_path(call.name)
    if secret is None and record is None:
        return None
    if secret is None and record.opened:
        secret = _told(record)
    if secret is None:
        must = f"must be there: {record.path} is bound to it"
        fix = (
            "put a copy of it back; if there is none this deal is lost: move the deal file "
            "away, say so to everybody, and commit again."
        )
        raise CallRefused([Problem(path, 0, "", must, None, fix)])
    if record is None:
        record = _record(on_disk, secret, on_disk.loaded.today, ())
        save(on_disk, {record.path: write_deal(record)})
    elif (record.commitment, record.list_text) != (commitment(secret.deal), secret.text):
        must = f"must be the secret that {record.path} is bound to"
        fix = "put back the one of the two that belongs to the other."
        raise CallRefused([Problem(path, 0, "", must, None, fix)])
    arrivals = arrivals_of(on_disk.loaded.board, call)
    read = read_list(secret.text)
    pairs = secret.pairs or _pairs(arrivals.frozen)
    public = next((line for line in secret.text.split("\n") if line.startswith("public\t")), "")
    frozen = Frozen(
        call=call.name, public=public.partition("\t")[2], sent=read.sent, met=read.met,
        apart=pairs, relax=read.relax,
    )
    return Committed(on_disk, record, secret, frozen, arrivals, arrivals.problems)


def changed_since(known: Committed) -> Problem | None:
    """What has changed in who sent how many since the list was frozen, or last repaired."""
    then = dict(known.secret.sent) or dict(known.frozen.sent)
    now = known.arrivals.frozen.sent
    differing = sorted(maker for maker in {*then, *now} if then.get(maker) != now.get(maker))
    if not differing:
        return None
    said = [f"maker {now[m]} {m}" if m in now else f"without {m}" for m in differing]
    name = known.on_disk.call.name
    fix = (
        f"bring the change in with: swapboard repair {name}; or write the list as it was."
        if known.record.dealt
        else f"freeze it anew with: swapboard commit {name} --anew; or write the list as it was."
    )
    must = "must fit the list that was frozen for this deal"
    return Problem(secret_path(name), 0, "", must, ", ".join(said), fix)


def _told(record: DealRecord) -> Secret | None:
    """What an opened deal tells of its secret; None where pairs kept apart are not told."""
    proof = json.loads(record.proof)
    repairs = tuple(repair.record for repair in record.repairs)
    try:
        pairs = tuple((str(one), str(other)) for one, other, _ in proof["apart"])
        due = json.loads(repairs[-1])["due"] if repairs else []
        sent = tuple((str(maker), int(count)) for maker, count in due)
        secret = bytes.fromhex(proof["secret"])
    except (KeyError, TypeError, ValueError):
        return None
    if len(pairs) < record.list_text.count("\napart\t"):
        return None
    return Secret(secret, b"", record.list_text, pairs, sent, repairs)


def _pairs(frozen: Frozen) -> tuple[tuple[str, str], ...]:
    pairs = {tuple(sorted(pair)) for pair in frozen.apart}
    return tuple(sorted(pair for pair in pairs if set(pair) <= set(frozen.sent)))


def _record(
    on_disk: OnDisk, kept: Secret, day: date, earlier: tuple[EarlierDeal, ...]
) -> DealRecord:
    proof = proof_before(kept.text, kept.deal)
    return DealRecord(
        path=deal_path(on_disk.call.path),
        frozen=day,
        dealt=None,
        opened=None,
        proof=json.dumps(proof, ensure_ascii=False),
        list_text=kept.text,
        list_sha256=proof["list_sha256"],
        commitment=proof["commitment"],
        public_value="",
        earlier=earlier,
    )


def with_record(known: Committed, record: DealRecord) -> Committed:
    """The same with its deal file written anew."""
    save(known.on_disk, {record.path: write_deal(record)})
    return replace(known, record=record)
