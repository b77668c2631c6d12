"""calls/NAME.deal.json: what the commands write is read back, and nothing else is believed."""

import json
from datetime import date

import pytest

from swapboard.records.board import read_board
from swapboard.records.deal_file import read_deal, write_deal
from swapboard.records.deal_types import DealRecord, EarlierDeal, Move, RepairRecord

PATH = "calls/lights.deal.json"
LIST = "swapboard list 1\ncall\tlights\npublic\t\nrelax\tmet\nmaker\t1\tada\nmaker\t1\tben\n"
RECORD = json.dumps({"moves": [["ada", 1, "ben", ""], ["cyd", 2, "", "ben"]]})


def proof(opened: bool) -> str:
    """A proof as a deal file holds it."""
    data = {
        "format": "swapboard deal", "version": 1, "list": LIST, "list_sha256": "a" * 64,
        "commitment": "b" * 64, "public_value": "", "opened": opened,
    }  # fmt: skip
    if opened:
        data |= {
            "secret": "c" * 64, "apart": [], "method": "settled",
            "table": [["ada", "ben", 1], ["ben", "ada", 1]],
            "cards": [["ada", 1, "ben"], ["ben", 1, "ada"]],
        }  # fmt: skip
    return json.dumps(data)


def record(opened: bool) -> DealRecord:
    """A deal that was mended once and frozen twice."""
    repair = RepairRecord(
        date(2026, 10, 24), "a card was lost", 1, 0, 1, (), "d" * 64, RECORD if opened else "",
        (Move("ada", 1, "ben", ""), Move("cyd", 2, "", "ben")) if opened else (),
    )  # fmt: skip
    return DealRecord(
        PATH, date(2026, 10, 20), date(2026, 10, 21), date(2026, 11, 1) if opened else None,
        proof(opened), LIST, "a" * 64, "b" * 64, "", "settled", "One way.", ("Words.",),
        (("ben", 1, "ada"), ("cyd", 2, "ben")) if opened else (), (repair,),
        (EarlierDeal(date(2026, 10, 19), "e" * 64, "f" * 64, "too early"),),
    )  # fmt: skip


@pytest.mark.parametrize("opened", [False, True])
def test_what_is_written_is_read_back(opened):
    """Opened, with the cards as every repair left them."""
    made = record(opened)
    again, problems = read_deal(PATH, write_deal(made))
    assert problems == [] and again == made


def spoilt(change) -> str:
    """The text of an opened deal file, changed."""
    data = json.loads(write_deal(record(True)))
    change(data)
    return json.dumps(data)


@pytest.mark.parametrize(
    "text",
    [
        "", "{", "[]", "null", "1", '"deal"', "[" * 100_000,
        spoilt(lambda d: d.update(version=2)),
        spoilt(lambda d: d.update(format="something else")),
        spoilt(lambda d: d.update(frozen=None)),
        spoilt(lambda d: d.update(frozen="last week")),
        spoilt(lambda d: d.update(dealt=20261021)),
        spoilt(lambda d: d.update(opened=None)),
        spoilt(lambda d: d.update(proof=[])),
        spoilt(lambda d: d.update(relaxed=[1])),
        spoilt(lambda d: d.update(repairs={})),
        spoilt(lambda d: d["proof"].update(list="maker\t1\tada\n")),
        spoilt(lambda d: d["proof"].update(list=LIST + "maker\t" + "9" * 5000 + "\tdot\n")),
        spoilt(lambda d: d["proof"].update(list=LIST + "maker\t²\tdot\n")),
        spoilt(lambda d: d["proof"].update(commitment="<script>")),
        spoilt(lambda d: d["proof"].update(cards=[["ada", "1", "ben"]])),
        spoilt(lambda d: d["proof"].update(cards=[["ada", 1]])),
        spoilt(lambda d: d["repairs"][0].update(record="[]")),
        spoilt(lambda d: d["repairs"][0].update(on=None)),
        spoilt(lambda d: d["repairs"].append(7)),
        spoilt(lambda d: d["earlier"].append({})),
    ],
)  # fmt: skip
def test_a_file_that_is_none_is_one_problem(text):
    """Edited, cut short or made up: said in one line, with what to do, and no exception."""
    made, problems = read_deal(PATH, text)
    assert made is None and len(problems) == 1
    assert problems[0].path == PATH and "put back the file" in problems[0].fix


def test_a_broken_deal_file_takes_its_call_with_it():
    """The call is named as left out; the rest of the board stands."""
    texts = {
        "board.toml": 'format = 1\n[board]\nkeeper = "ada"\n', "makers/ada.md": "Name: Ada\n",
        "calls/lights.md": "Title: Lights\nSend: 1\n", PATH: "{}",
    }  # fmt: skip
    board, _, problems = read_board(texts, ())
    assert [problem.path for problem in problems] == [PATH]
    assert not board.calls
    assert ("calls/lights.md", f"{PATH} has an error") in {(o.path, o.why) for o in board.left_out}


def test_a_deal_file_without_its_call_is_named():
    """As a list of people is."""
    texts = {
        "board.toml": 'format = 1\n[board]\nkeeper = "ada"\n', "makers/ada.md": "Name: Ada\n",
        PATH: write_deal(record(False)),
    }  # fmt: skip
    _, _, problems = read_board(texts, ())
    assert "must lie beside the call of the same name" in problems[0].must
