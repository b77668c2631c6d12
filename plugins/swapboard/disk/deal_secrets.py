"""What the host alone knows of a deal: private/deals/NAME.json, mode 0600.

Losing this file kills the deal: it can be neither made again nor verified.
"""

import json
from dataclasses import dataclass
from pathlib import Path

from swapboard.dealing import VERSION
from swapboard.dealing.proof import commitment
from swapboard.disk.private_file import read_private, write_private
from swapboard.problems import Problem

FOLDER = "private/deals"
Pair = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Secret:
    """What is kept of a deal: the secret of its seed, the one that hides pairs kept
    apart, the list as it was frozen, and the pairs. `sent` is what each was to get
    back after the last repair (empty before there is any), `repairs` their records;
    `earlier` holds what was kept of deals that were given up."""

    deal: bytes
    apart: bytes
    text: str
    pairs: tuple[Pair, ...] = ()
    sent: tuple[tuple[str, int], ...] = ()
    repairs: tuple[str, ...] = ()
    earlier: tuple[dict, ...] = ()


def secret_path(call: str) -> str:
    """Where a call's secret is kept, by its path in the board."""
    return f"{FOLDER}/{call}.json"


def read_secret(board: Path, call: str) -> Secret | Problem | None:
    """The secret of a call's deal; None where there is none; raises OSError."""
    path = secret_path(call)
    text = read_private(board, path)
    if not text:
        return None
    try:
        data = json.loads(text)
        if data["version"] != VERSION:
            raise ValueError("another version")
        return Secret(
            deal=bytes.fromhex(data["secret"]),
            apart=bytes.fromhex(data["apart_secret"]),
            text=str(data["list"]),
            pairs=tuple((str(one), str(other)) for one, other in data.get("apart", [])),
            sent=tuple((str(maker), int(count)) for maker, count in data.get("sent", [])),
            repairs=tuple(map(str, data.get("repairs", []))),
            earlier=tuple(map(dict, data.get("earlier", []))),
        )
    except (ValueError, KeyError, TypeError, RecursionError):
        fix = "put a copy of it back; without it this deal cannot be made or shown again."
        return Problem(path, 0, "", "must be a deal's secret as this version writes it", None, fix)


def write_secret(board: Path, call: str, secret: Secret, new: bool = False) -> None:
    """Keep a secret; `new` never overwrites one. Raises OSError."""
    text = json.dumps(as_kept(secret), ensure_ascii=False, indent=2)
    write_private(board, secret_path(call), text, new)


def as_kept(secret: Secret) -> dict:
    """A secret as it is kept, for JSON."""
    return {
        "version": VERSION,
        "secret": secret.deal.hex(),
        "apart_secret": secret.apart.hex(),
        "commitment": commitment(secret.deal),
        "list": secret.text,
        "apart": [list(pair) for pair in secret.pairs],
        "sent": [list(one) for one in secret.sent],
        "repairs": list(secret.repairs),
        "earlier": list(secret.earlier),
    }
