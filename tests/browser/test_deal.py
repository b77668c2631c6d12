"""The deal in a real Chromium: the same as in Python, card by card."""

import random
from collections import Counter

import pytest

from dealing.proofs import proofs_and_steps
from dealing.random_calls import as_lists, for_browser, random_call
from swapboard.dealing import deal
from theme.rendering import THEME

pytestmark = pytest.mark.browser
NAMES = ("deal-stream.js", "deal.js", "deal-check.js")
SCRIPTS = [THEME / "static" / "js" / name for name in NAMES]
CALLS = 1000


@pytest.fixture
def page(new_page):
    """An empty page with the scripts for dealing."""
    page = new_page()
    for script in SCRIPTS:
        page.add_script_tag(content=script.read_text("utf-8"))
    return page


def test_a_thousand_random_calls_are_dealt_alike(page):
    """Table, cards and method, for calls of all sorts."""
    calls = [random_call(number) for number in range(CALLS)]
    found = page.evaluate(
        """calls => calls.map(({ sent, apart, met, relax, seed }) =>
             swapboardDeal.deal(sent, { apart, met, relax, seed: swapboardStream.unhex(seed) }))""",
        [for_browser(call) for call in calls],
    )
    methods = Counter()
    for call, other in zip(calls, found, strict=True):
        made = as_lists(deal(**call))
        assert other == made, call
        methods[made["method"]] += 1
    assert methods["counting"] > 100 and methods["rejection"] > 5 and methods["settled"] > 50


@pytest.mark.parametrize(
    "people, each, pairs, method",
    [
        (30, 3, 0, "rejection"), (14, 5, 0, "counting and rejection"), (30, 3, 100, "bounds"),
        (60, 8, 0, "walk"),
    ],
)  # fmt: skip
def test_large_calls_are_dealt_alike(page, people, each, pairs, method):
    """By each of the methods for many."""
    sent = {f"maker {i:02}": each for i in range(people)}
    every = [(one, other) for one in sent for other in sent if one != other]
    met = random.Random(1).sample(every, pairs)
    found = page.evaluate(
        "([sent, met]) => swapboardDeal.deal(sent, { met, seed: swapboardStream.utf8('large') })",
        [list(sent.items()), met],
    )
    assert found == as_lists(deal(sent, met=met, seed=b"large")) and found["method"] == method


def test_the_scripts_hash_as_published(page):
    """FIPS 180-4 ("abc"; the 56-byte example) and RFC 4231 (cases 2 and 6)."""
    hashed = page.evaluate(
        """() => { const { hex, sha256, hmac, utf8 } = swapboardStream; return [
          hex(sha256(utf8("abc"))),
          hex(sha256(utf8("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"))),
          hex(hmac(utf8("Jefe"), utf8("what do ya want for nothing?"))),
          hex(hmac(new Uint8Array(131).fill(0xaa),
            utf8("Test Using Larger Than Block-Size Key - Hash Key First"))) ]; }"""
    )
    assert hashed == [
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
        "60e431591ee0b67f0d8a26aacbf5b77f8e0bc6213728c5140546040f0ee37f54",
    ]


def test_proofs_are_judged_alike(page):
    """Good proofs, opened or not, with pairs shown or not, and ones that were tampered with."""
    for proof, steps in proofs_and_steps():
        assert page.evaluate("proof => swapboardDealCheck.check(proof)", proof) == [
            [step.what, step.result] for step in steps
        ]
