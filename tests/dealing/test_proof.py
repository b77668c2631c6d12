"""A published proof can be checked by anybody, and cannot be changed unseen."""

import hmac
import json
from dataclasses import replace
from hashlib import sha256

import pytest

from dealing.proofs import APART_SECRET, FROZEN, SECRET, TEXT, VALUE, proof, tampered
from swapboard.dealing.proof import list_text, seed_of
from swapboard.dealing.proof_check import FAILS, HOLDS, UNKNOWN, check_proof, read_list


def test_an_opened_proof_holds_in_every_step():
    """Also after it has been through JSON."""
    steps = check_proof(json.loads(json.dumps(proof())))
    assert len(steps) == 5 and {step.result for step in steps} == {HOLDS}


def test_a_proof_not_opened_gives_nothing_away():
    """Neither the secret nor the deal; the check says what cannot be checked yet."""
    closed = proof(opened=False)
    assert not {"secret", "cards", "table", "apart"} & closed.keys()
    assert SECRET.hex() not in json.dumps(closed)
    assert [step.result for step in check_proof(closed)] == [HOLDS, UNKNOWN]


def test_pairs_kept_apart_are_not_in_the_list():
    """Only as hashes that need a key of their own; without one the check says so."""
    assert "ada\tcyd" not in TEXT and TEXT.count("apart\t") == 2
    hashed = [line.split("\t")[1] for line in TEXT.splitlines() if line.startswith("apart")]
    names = ["ada", "cyd"]
    for key in (b"", SECRET, seed_of(SECRET, TEXT, VALUE)):
        assert hmac.new(key, "\n".join(names).encode(), sha256).hexdigest() not in hashed
    steps = check_proof(proof(shown=()))
    assert steps[-1].result == UNKNOWN and FAILS not in {step.result for step in steps}


@pytest.mark.parametrize("what, bad", tampered(), ids=[what for what, _ in tampered()])
def test_a_changed_proof_fails(what, bad):
    """Whatever was changed."""
    assert FAILS in {step.result for step in check_proof(bad)}


def test_the_list_has_one_text_only():
    """The order in which things are given does not matter; reading gives them back."""
    other = replace(
        FROZEN, sent=dict(reversed(FROZEN.sent.items())), met=FROZEN.met[::-1],
        apart=tuple(pair[::-1] for pair in FROZEN.apart[::-1]),
    )  # fmt: skip
    assert list_text(other, APART_SECRET) == TEXT
    read = read_list(TEXT)
    assert read.sent == FROZEN.sent and read.relax == FROZEN.relax
    assert set(read.met) == {("ada", "ben"), ("ben", "ada")}
    assert "Zoë%09%25" in TEXT


def test_the_seed_hangs_on_secret_list_and_value():
    """Another of any of them is another seed."""
    seeds = {seed_of(s, t, v) for s in (b"1", b"2") for t in ("a", "b") for v in ("", "x")}
    assert len(seeds) == 8
