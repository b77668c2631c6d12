"""Proofs of a small deal: good ones, and ones that somebody has changed."""

from copy import deepcopy
from hashlib import sha256

from swapboard.dealing.proof import Frozen, deal_frozen, list_text, pair_key, proof_of
from swapboard.dealing.proof_check import check_proof

SECRET, APART_SECRET = b"\x01" * 32, b"\x02" * 32
FROZEN = Frozen(
    call="small-lights",
    public="the figures of 5 December",
    sent={"ada": 2, "Zoë\t%": 2, "ben": 2, "cyd": 2, "dot": 2, "eli": 1, "\U0001f426": 1},
    met=(("ada", "ben"), ("ben", "ada"), ("ada", "elsewhere")),
    apart=(("cyd", "ada"), ("ben", "\U0001f426")),
    relax=("met", "double", "apart"),
)
VALUE = "2.5.8.10.12./"
TEXT = list_text(FROZEN, APART_SECRET)


def proof(opened=True, shown=FROZEN.apart) -> dict:
    """The proof of this deal."""
    made = deal_frozen(FROZEN, SECRET, TEXT, VALUE)
    keys = [(tuple(sorted(pair)), pair_key(APART_SECRET, tuple(sorted(pair)))) for pair in shown]
    return proof_of(made, TEXT, SECRET, VALUE, opened, keys)


def tampered() -> list[tuple[str, dict]]:
    """What was done to a proof, and the proof."""
    good = proof()
    swapped = deepcopy(good)
    one, other = next(
        (a, b) for a in swapped["cards"] for b in swapped["cards"] if a[0] == b[0] and a[2] != b[2]
    )
    one[2], other[2] = other[2], one[2]
    return [
        ("another secret", {**good, "secret": "03" * 32}),
        ("another list", {**good, "list": good["list"].replace("2\tada", "1\tada")}),
        ("another value", {**good, "public_value": "1./"}),
        ("two cards exchanged", swapped),
        ("a card less", {**good, "cards": good["cards"][1:]}),
        ("a pair made up", {**good, "apart": [*good["apart"], ["ada", "ben", "00" * 32]]}),
        ("no proof at all", {"format": "swapboard deal", "version": 1, "opened": True}),
        ("another version", {**good, "version": 2}),
        *(
            (what, with_list(good, good["list"].replace("maker\t2\tada\n", lines)))
            for what, lines in (
                ("a count below nothing", "maker\t-2\tada\n"),
                ("a count that is none", "maker\tNaN\tada\n"),
                ("a line cut short", "maker\t2\n"),
                ("a line with more to it", "maker\t2\tada\t3\n"),
                ("a maker twice", "maker\t2\tada\n" * 2),
                ("more cards than are dealt", "maker\t999999999\tada\n"),
                ("a count without end", f"maker\t{'9' * 400}\tada\n"),
                ("more makers than are dealt", "".join(f"maker\t1\t{i}\n" for i in range(1001))),
            )
        ),
    ]


def with_list(good: dict, text: str) -> dict:
    """A proof of another list, announced as it is."""
    return {**good, "list": text, "list_sha256": sha256(text.encode()).hexdigest()}


def proofs_and_steps() -> list[tuple[dict, list]]:
    """Each proof with the steps of its check in Python."""
    kinds = [proof(), proof(opened=False), proof(shown=FROZEN.apart[:1])]
    return [(each, check_proof(each)) for each in [*kinds, *(bad for _, bad in tampered())]]
