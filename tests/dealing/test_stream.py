"""Randomness from a seed: the published vectors, and that nothing is favoured."""

from hashlib import md5, sha256

import pytest

from dealing.every_deal import looks_uniform
from swapboard.dealing.proof import commitment, hmac_sha256
from swapboard.dealing.public_value import draw_order, key_of
from swapboard.dealing.stream import Stream


def test_the_example_of_rfc_3797_comes_out():
    """Section 6 of the RFC: the key of its figures, and the order in which 16 are drawn."""
    key = key_of([[9319], [2, 5, 12, 8, 10], [9, 18, 26, 34, 41, 45]])
    assert key == "9319./2.5.8.10.12./9.18.26.34.41.45./"
    drawn = draw_order(key, 25, 16, lambda data: md5(data, usedforsecurity=False).digest())
    assert drawn == [17, 7, 2, 16, 25, 23, 8, 24, 19, 13, 22, 5, 18, 9, 1, 4]


@pytest.mark.parametrize(
    "secret, published",
    [  # FIPS 180-4 examples, NIST
        (b"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"),
        (
            b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
        ),
    ],
)
def test_a_commitment_is_the_sha_256_of_the_secret(secret, published):
    """The examples of the standard."""
    assert commitment(secret) == published


@pytest.mark.parametrize(
    "key, message, published",
    [  # RFC 4231, sections 4.2, 4.3 and 4.7
        (
            b"\x0b" * 20, b"Hi There",
            "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7",
        ),
        (
            b"Jefe", b"what do ya want for nothing?",
            "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
        ),
        (
            b"\xaa" * 131, b"Test Using Larger Than Block-Size Key - Hash Key First",
            "60e431591ee0b67f0d8a26aacbf5b77f8e0bc6213728c5140546040f0ee37f54",
        ),
    ],
)  # fmt: skip
def test_seeds_use_hmac_sha_256_as_published(key, message, published):
    """The test cases of RFC 4231."""
    assert hmac_sha256(key, message).hex() == published


def test_the_stream_is_sha_256_in_counter_mode():
    """Its bytes are those that the specification's first section says."""
    key = sha256(b"swapboard deal 1\x00" + b"seed").digest()
    blocks = b"".join(sha256(key + k.to_bytes(8, "big")).digest() for k in range(40))
    stream = Stream(b"seed")
    assert b"".join(stream.take(n) for n in (1, 31, 33, 1000, 7)) == blocks[:1072]


@pytest.mark.parametrize("bound", [2, 129, 256, 257, 70_000, 2**64 + 1])
def test_numbers_below_a_bound_are_read_as_specified(bound):
    """The least number of bytes, and what is past the last whole multiple thrown away."""
    stream, plain = Stream(b"x"), Stream(b"x")
    size = next(n for n in range(1, 99) if 256**n >= bound)
    for _ in range(50):
        while (number := int.from_bytes(plain.take(size), "big")) >= 256**size // bound * bound:
            pass
        assert stream.below(bound) == number % bound
    assert Stream(b"").below(1) == 0
    with pytest.raises(ValueError, match="at least 1"):
        stream.below(0)


def test_every_order_of_a_shuffle_is_equally_likely():
    """All 24 orders of four things."""
    from itertools import permutations

    stream = Stream(b"orders")

    def draw(_):
        items = [0, 1, 2, 3]
        stream.shuffle(items)
        return tuple(items)

    assert looks_uniform(draw, list(permutations(range(4))))
