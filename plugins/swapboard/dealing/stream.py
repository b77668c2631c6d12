"""Randomness that anybody can compute again: SHA-256 in counter mode, from a seed."""

from hashlib import sha256

_MOST_BLOCKS_AT_ONCE = 32
_PREFIX = b"swapboard deal 1\x00"


class Stream:
    """Integers and shuffles out of a seed of any length, the same on every machine.

    The key is SHA-256(prefix ‖ seed), block k is SHA-256(key ‖ k as 8 bytes, the
    highest first); the blocks one after another are the stream of bytes (hash in
    counter mode, as in NIST SP 800-90A, 2015, Hash_DRBG's generation).
    """

    def __init__(self, seed: bytes) -> None:
        self._key = sha256(_PREFIX + bytes(seed)).digest()
        self._block = 0
        self._bytes = b""
        self._at = 0

    def take(self, count: int) -> bytes:
        """The next `count` bytes of the stream."""
        while self._at + count > len(self._bytes):
            key, first = self._key, self._block
            self._block += max(2, min(_MOST_BLOCKS_AT_ONCE, self._block))
            more = [
                sha256(key + block.to_bytes(8, "big")).digest()
                for block in range(first, self._block)
            ]
            self._bytes = self._bytes[self._at :] + b"".join(more)
            self._at = 0
        taken = self._bytes[self._at : self._at + count]
        self._at += count
        return taken

    def below(self, bound: int) -> int:
        """A whole number from 0 to `bound` - 1, each equally likely.

        The least number of bytes that can hold `bound` - 1, read with the highest
        first; a number at or above the last whole multiple of `bound` is thrown
        away, so that no remainder is favoured. Nothing is read for a bound of 1.
        """
        if bound <= 1:
            if bound < 1:
                raise ValueError(f"bound must be at least 1 (got {bound})")
            return 0
        if bound <= 256:
            return self._small(bound)
        size = ((bound - 1).bit_length() + 7) // 8
        limit = (1 << 8 * size) // bound * bound
        while True:
            number = int.from_bytes(self.take(size), "big")
            if number < limit:
                return number % bound

    def _small(self, bound: int) -> int:
        # The same as the general way for one byte; most numbers are small.
        limit = 256 - 256 % bound
        while True:
            at = self._at
            if at < len(self._bytes):
                self._at = at + 1
                number = self._bytes[at]
            else:
                number = self.take(1)[0]
            if number < limit:
                return number % bound

    def shuffle(self, items: list) -> None:
        """Put `items` in one of its orders, each equally likely, from the last place
        down (R. Durstenfeld, 1964, Algorithm 235)."""
        below = self.below
        for last in range(len(items) - 1, 0, -1):
            other = below(last + 1)
            items[last], items[other] = items[other], items[last]

    def pick(self, items: list, count: int) -> list:
        """`count` of the `items`, in a random order; they end up at the list's front."""
        for place in range(count):
            other = place + self.below(len(items) - place)
            items[place], items[other] = items[other], items[place]
        return items[:count]
