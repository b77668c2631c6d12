"""`--set-aside` with each kind of broken file: what goes, what stays, what is refused."""

import pytest

from boards import files_of
from hostile.small_board import build, make

OFFER = "From: keeper\nTo: ada\nGives: heron\nAsks: fog\n2026-10-01: proposed\n2026-10-02: agreed\n"
WHOLE = {
    "calls/lights.md": "Title: Lights\nSend: 2\nHost: ada\n",
    "calls/lights.people.csv": "maker,cards\nada,2\n",
    "offers/swap.md": OFFER,
    "pages/about.md": "Title: About\n\nSee [Ada](makers/ada.md) and [fog](cards/fog.md).\n",
}
BROKEN = "Nonsense: x\n"


def built_without(tmp_path, path, content):
    board = make(tmp_path, {**WHOLE, path: content})
    assert not build(board).done
    built = build(board, set_aside=True)
    made = files_of(board / "output") if built.done else {}
    return built, made, [words.split(":")[0] for words in built.left_out]


@pytest.mark.parametrize(
    ("path", "content", "gone"),
    [
        ("cards/fog.md", BROKEN, ["cards/fog.md", "offers/swap.md"]),
        ("cards/new.md", b"\xff\xfe", ["cards/new.md"]),
        ("cards/new.md", b"Title: X\n\n" + b">" * 9000, ["cards/new.md"]),
        ("makers/ada.md", BROKEN,
         ["calls/lights.md", "cards/fog.md", "makers/ada.md", "offers/swap.md"]),
        ("calls/lights.md", BROKEN, ["calls/lights.md"]),
        ("calls/lights.people.csv", "who,what\n", ["calls/lights.md", "calls/lights.people.csv"]),
        ("offers/swap.md", BROKEN, ["offers/swap.md"]),
        ("pages/about.md", BROKEN, ["pages/about.md"]),
    ],
)
def test_a_broken_post_goes_with_all_that_needs_it(tmp_path, path, content, gone):
    """The rest is published without a dead link, and each one left out is named."""
    built, made, named = built_without(tmp_path, path, content)
    assert built.done, built.problems
    assert sorted(named) == gone
    for post in gone:
        if post.endswith(".md"):
            assert post.replace(".md", ".html") not in made
    assert "cards/heron.html" in made and "makers/keeper.html" in made


def test_a_broken_agreed_offer_keeps_its_cards_spoken_for(tmp_path):
    """A card that was promised is not shown as free because its offer cannot be read."""
    agreed = OFFER + "2026-10-04: mailed by nobody\n"
    built, made, named = built_without(tmp_path, "offers/swap.md", agreed)
    assert built.done and named == ["offers/swap.md"]
    assert "fog" in built.left_out[0] and "heron" in built.left_out[0]
    for card in ("heron", "fog"):
        html = made[f"cards/{card}.html"].decode()
        assert "card-page__state--spoken-for" in html


@pytest.mark.parametrize(
    ("path", "content"),
    [("board.toml", "format = 1\nnonsense = 1\n"), ("makers/keeper.md", BROKEN),
     ("private/x.csv", b"maker,street\n\xff\n")],
)
def test_what_nothing_can_stand_without_is_not_set_aside(tmp_path, path, content):
    """Settings, the keeper and private tables have to be mended first."""
    built, made, _ = built_without(tmp_path, path, content)
    assert not built.done and made == {}
    assert any(problem.path == path for problem in built.problems)
