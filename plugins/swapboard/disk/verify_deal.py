"""Checking a published deal: from its file alone, or from a call of a board."""

import json
from hashlib import sha256
from pathlib import Path

from swapboard.dealing.proof_check import FAILS, HOLDS, UNKNOWN, Step, check_proof
from swapboard.disk.call_edit import CallRefused, open_call
from swapboard.problems import Problem
from swapboard.records.deal_file import LARGEST
from swapboard.views.call_deals import proof_files


def verify_deal(what: str, board: Path) -> list[Step]:
    """Every step of the check of a proof's file, or of the call `what` of a board.

    Raises `CallRefused` where there is neither.
    """
    file = Path(what)
    if file.suffix == ".json" or file.is_file():
        return steps_of(_read(file))
    on_disk = open_call(board, what)
    files = proof_files(on_disk.call)
    if not files:
        fix = f"freeze its list first: swapboard commit {on_disk.call.name}."
        raise CallRefused([Problem(on_disk.call.path, 0, "", "must have a deal", None, fix)])
    return steps_of(json.loads(files[f"verify/{on_disk.call.name}.json"]))


def steps_of(proof: dict) -> list[Step]:
    """The steps of a proof, and one for each repair published beside it."""
    steps = check_proof(proof)
    repairs = proof.get("repairs", [])
    if not isinstance(repairs, list):
        return [*steps, Step("The repairs can be read", FAILS)]
    return steps + [_repair(repair) for repair in repairs]


def _repair(repair: object) -> Step:
    if not isinstance(repair, dict):
        return Step("The repair can be read", FAILS)
    what = f"The repair of {repair.get('on')} is the one announced by its SHA-256"
    record = repair.get("record")
    if not record:
        return Step(what, UNKNOWN)
    same = sha256(str(record).encode("utf-8", "replace")).hexdigest() == repair.get("digest")
    return Step(what, HOLDS if same else FAILS)


def _read(file: Path) -> dict:
    try:
        with file.open("rb") as opened:
            data = opened.read(LARGEST + 1)
        proof = json.loads(data.decode("utf-8-sig")) if len(data) <= LARGEST else None
    except (ValueError, RecursionError):
        proof = None
    if not isinstance(proof, dict):
        fix = "download it anew from the page that verifies the deal."
        raise CallRefused([Problem(str(file), 0, "", "must be a deal's proof in JSON", None, fix)])
    # A call's own deal file holds the proof among other things.
    inner = proof.get("proof")
    return {**inner, "repairs": proof.get("repairs", [])} if isinstance(inner, dict) else proof
