"""The README's examples, settings and promises hold."""

import ast
import re
from datetime import date

import pytest

from front_commands import ROOT
from swapboard.problems import errors
from swapboard.records.board import read_board
from swapboard.records.call import CALL_KEYS
from swapboard.records.card import CARD_KEYS
from swapboard.records.maker import MAKER_KEYS
from swapboard.records.offer import OFFER_KEYS
from swapboard.records.types import Kind

README = (ROOT / "README.md").read_text("utf-8")
BOARD_TOML = 'format = 1\n[board]\nname = "Example"\nkeeper = "ines-okafor"\n'
OTHER_FILES = {
    "board.toml": BOARD_TOML,
    "makers/marek-sol.md": "Name: Marek Sol\n\nGrey days.\n",
    "cards/river-fox.md": "Title: River fox\nThemes: rivers, cats\n",
}
PHOTOS = {"night-heron.jpg", "table.jpg"}


def examples(text=README):
    """The complete posts in the README, by the file that each stands for."""
    found = re.findall(r"<!-- file: (\S+) -->\n```\n(.*?)```\n", text, re.DOTALL)
    return dict(found)


def read(texts):
    return read_board({**OTHER_FILES, **texts}, PHOTOS)


def test_there_is_an_example_of_every_kind():
    """Each kind of post has a complete example."""
    kinds = {path.split("/")[0] for path in examples()}
    assert kinds == {"makers", "cards", "calls", "offers", "pages"}


def test_the_examples_are_without_fault():
    """The README's examples together are a board with nothing to mend."""
    board, _, problems = read(examples())
    assert [str(problem) for problem in problems] == []
    assert sorted(board.cards) == ["harbour-fog", "night-heron", "river-fox"]
    assert [person.maker for person in board.calls["small-lights"].people][0] == "marek-sol"


def test_the_examples_say_what_they_seem_to_say():
    """What a reader takes from the examples is what the program reads in them."""
    board, _, _ = read(examples())
    heron = board.cards["night-heron"]
    assert (heron.made, heron.kind, heron.copies_left) == (
        date(2026, 9, 26),
        Kind("print", 3, 20),
        4,
    )
    assert heron.themes == ("birds", "night")
    assert board.cards["harbour-fog"].photo.at == (0.41, 0.22)
    wishes = board.makers["ines-okafor"].likes
    assert [(wish.up_to, wish.weight) for wish in wishes] == [(2, 3), (1, 2), (1, 1)]
    assert all(wish.understood for wish in wishes)
    call = board.calls["small-lights"]
    assert (call.send, call.receive, len(call.return_postage)) == (4, 3, 2)


@pytest.mark.parametrize("path", [path for path in examples() if path.endswith(".md")])
def test_every_key_in_an_example_is_read(path):
    """Misspelling any key of an example is noticed, so none is there in vain."""
    text = examples()[path]
    keys = re.findall(r"^([A-Z][\w ]*):", text.split("\n\n")[0], re.MULTILINE)
    assert keys
    for key in keys:
        spoilt = text.replace(f"{key}:", f"{key}x:", 1)
        _, _, problems = read({**examples(), path: spoilt})
        assert any(problem.path == path for problem in errors(problems)), key


@pytest.mark.parametrize(
    "keys", [CARD_KEYS, MAKER_KEYS, CALL_KEYS, OFFER_KEYS], ids=["card", "maker", "call", "offer"]
)
def test_every_key_is_told_of(keys):
    """Every key that a post may have stands in an example, in a table or in the text."""
    told = set(re.findall(r"`([A-Z][a-z ]+)`", README))
    told |= set(re.findall(r"^([A-Z][a-z ]+): ", "\n".join(examples().values()), re.MULTILINE))
    assert sorted(set(keys.known) - told) == []


def test_the_message_shown_is_the_one_given():
    """The message that the README shows is what the program says, to the letter."""
    texts = {"cards/heron.md": "Title: Heron\nDate: 2026-09-28\nThemes: birds\nMade: last week\n"}
    _, _, problems = read({**examples(), **texts})
    (problem,) = errors(problems)
    assert f"{problem.severity}: {problem}" in README.splitlines()


def test_the_demo_is_of_one_day():
    """`python3 site_demo` and plain Pelican build the demo for the same day."""
    command = (ROOT / "site_demo" / "__main__.py").read_text("utf-8")
    day = date.fromisoformat(re.search(r'^DAY = "(.*)"$', command, re.M)[1])
    conf = (ROOT / "site_demo" / "pelicanconf.py").read_text("utf-8")
    calls = [node for node in ast.walk(ast.parse(conf)) if isinstance(node, ast.Call)]
    days = [call.args for call in calls if getattr(call.func, "id", "") == "date"]
    assert [tuple(arg.value for arg in args) for args in days] == [(day.year, day.month, day.day)]


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_files_named_in_the_docs_exist(page):
    """Every file or folder of the repository that the docs name is there."""
    text = (ROOT / page).read_text("utf-8")
    named = set(re.findall(r"`((?:tests|site_demo|theme)/[\w./-]+)`", text))
    named |= set(re.findall(r"\]\((\w+(?:\.md)?)\)", text))
    modules = re.findall(r"`((?:photo|disk|facets)/[\w.]+)`", text)
    floors = {f"plugins/swapboard/{module}" for module in modules}
    assert named
    made_later = {"site_demo/output"}
    missing = [name for name in named | floors if not (ROOT / name).exists()]
    assert sorted(set(missing) - made_later) == []
