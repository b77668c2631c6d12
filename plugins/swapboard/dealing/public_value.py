"""Public figures as one text, and a draw from a list by it, as RFC 3797 has them.

D. Eastlake 3rd, "Publicly Verifiable Nominations Committee (NomCom) Random Selection",
RFC 3797, 2004. Its MD5 is kept only because its example uses it.
"""

from collections.abc import Callable, Iterable
from hashlib import sha256


def key_of(sources: Iterable[Iterable[int]]) -> str:
    """Figures from one or more sources as the key of RFC 3797, section 4.1.

    The figures of a source in rising order, each followed by a full stop; a slash
    ends a source.

    >>> key_of([[9319], [2, 5, 12, 8, 10]])
    '9319./2.5.8.10.12./'
    """
    return "".join("".join(f"{figure}." for figure in sorted(each)) + "/" for each in sources)


def draw_order(
    key: str, pool: int, size: int, digest: Callable[[bytes], bytes] | None = None
) -> list[int]:
    """`size` of the numbers 1 to `pool`, in the order drawn (RFC 3797, section 4.2).

    The i-th number drawn is the one at the place of all left that the digest of i,
    key, i (i as two bytes, from 0) gives, modulo how many are left. `digest` is
    SHA-256 if left out. For waiting lists: who gets the last places is drawn by a
    value that nobody could know.
    """
    digest = digest or (lambda data: sha256(data).digest())
    left, drawn = list(range(1, pool + 1)), []
    for number in range(min(size, pool)):
        around = number.to_bytes(2, "big")
        value = int.from_bytes(digest(around + key.encode() + around), "big")
        drawn.append(left.pop(value % len(left)))
    return drawn
