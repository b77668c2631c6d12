"""What ties a deal to a secret and a list that were fixed before anybody could know it.

Before: the frozen list and the secret's SHA-256 are published. Then a public value
named in the list comes out. Seed = HMAC-SHA-256 (RFC 2104; FIPS 198-1) of list and
value under the secret. After the call is opened the secret is published, and with it
everybody can deal again. Pairs kept apart stand in the list only as hashes under
keys of their own, which stay private until both makers agree.
"""

import hmac
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256

from swapboard.dealing.plan import deal
from swapboard.dealing.result import Deal

FORMAT = "swapboard deal"
VERSION = 1
_HEAD = "swapboard list 1"

Pair = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Frozen:
    """Everything a deal is made of but the secret, as it stood when the call closed.

    `public` names the value that completes the seed, or is "" where none was named.
    """

    call: str
    public: str
    sent: Mapping[str, int]
    met: tuple[Pair, ...]
    apart: tuple[Pair, ...]
    relax: tuple[str, ...]


def hmac_sha256(key: bytes, message: bytes) -> bytes:
    """HMAC-SHA-256."""
    return hmac.new(key, message, sha256).digest()


def commitment(secret: bytes) -> str:
    """What is published of a secret before: its SHA-256, in hexadecimal."""
    return sha256(secret).hexdigest()


def pair_key(apart_secret: bytes, pair: Pair) -> bytes:
    """The key that opens one pair kept apart, and no other."""
    return hmac_sha256(apart_secret, _pair_text(pair))


def pair_hash(key: bytes, pair: Pair) -> str:
    """What the frozen list says of a pair kept apart, in hexadecimal."""
    return hmac_sha256(key, _pair_text(pair)).hex()


def _pair_text(pair: Pair) -> bytes:
    return "\n".join(quoted(maker) for maker in sorted(pair)).encode()


def quoted(name: str) -> str:
    """A name that cannot break out of its line: "%", control characters and line
    ends as % and two hexadecimal digits of each byte of their UTF-8."""
    bad = {"%", "\x7f", "\x85", "\u2028", "\u2029", "\t"}
    return "".join(
        "".join(f"%{byte:02x}" for byte in letter.encode()) if letter in bad or letter < " "
        else letter
        for letter in name
    )  # fmt: skip


def list_text(frozen: Frozen, apart_secret: bytes) -> str:
    """The frozen list as text, the same for the same content: see SPECIFICATION.md."""
    hashes = {
        pair_hash(pair_key(apart_secret, pair), pair)
        for pair in {tuple(sorted(pair)) for pair in frozen.apart}
    }
    met = [pair for pair in set(frozen.met) if pair[0] in frozen.sent and pair[1] in frozen.sent]
    lines = [
        _HEAD,
        f"call\t{quoted(frozen.call)}",
        f"public\t{quoted(frozen.public)}",
        f"relax\t{' '.join(frozen.relax)}",
        *(f"maker\t{count}\t{quoted(maker)}" for maker, count in sorted(frozen.sent.items())),
        *(f"met\t{quoted(giver)}\t{quoted(taker)}" for giver, taker in sorted(met)),
        *(f"apart\t{found}" for found in sorted(hashes)),
    ]
    return "".join(f"{line}\n" for line in lines)


def seed_of(secret: bytes, text: str, value: str = "") -> bytes:
    """The seed: HMAC-SHA-256 under the secret of the list's SHA-256, then the public
    value in UTF-8 (empty where none was named)."""
    return hmac_sha256(secret, sha256(text.encode()).digest() + value.encode())


def deal_frozen(frozen: Frozen, secret: bytes, text: str, value: str = "") -> Deal:
    """The deal of a frozen list whose text is `text`."""
    return deal(
        frozen.sent, apart=frozen.apart, met=frozen.met, relax=frozen.relax,
        seed=seed_of(secret, text, value),
    )  # fmt: skip


def proof_before(text: str, secret: bytes, value: str = "") -> dict:
    """What binds the host before there is a deal: the list and the secret's SHA-256."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "list": text,
        "list_sha256": sha256(text.encode()).hexdigest(),
        "commitment": commitment(secret),
        "public_value": value,
        "opened": False,
    }


def proof_of(
    made: Deal,
    text: str,
    secret: bytes,
    value: str = "",
    opened: bool = False,
    shown: Iterable[tuple[Pair, bytes]] = (),
) -> dict:
    """The proof as data for JSON.

    Before a call is opened it holds what gives nothing away: list, commitment,
    value. Opened, it holds the secret and the deal too, and the keys of those
    pairs kept apart (`shown`) whose two makers both agreed.
    """
    proof = proof_before(text, secret, value) | {"opened": opened}
    if opened:
        proof |= {
            "secret": secret.hex(),
            "apart": [[*sorted(pair), key.hex()] for pair, key in sorted(shown)],
            "method": made.method,
            "table": [[giver, taker, count] for (giver, taker), count in made.table.items()],
            "cards": [[card.giver, card.number, card.taker] for card in made.cards],
        }
    return proof
