"""`swapboard deal`: from the list of arrivals to a deal that stays as it is."""

import json
import stat
from hashlib import sha256

import pytest
from click.testing import CliRunner

from swapboard.cli import main
from swapboard.dealing.proof_check import HOLDS, UNKNOWN, check_proof
from swapboard.disk.start import start_board

CALL = """Title: Small lights
Host: keeper
Send: 4
Receive: 3
Host takes part: yes

Anything lit and not large.
"""
PEOPLE = """maker,cards,signed up,arrived,note
keeper,3,2026-09-01,,host
ada,4,2026-09-02,2026-10-01,
ben,4,2026-09-02,2026-10-02,
cyd,4,2026-09-03,2026-10-02,
dot,3,2026-09-03,2026-10-03,one short
eli,4,2026-09-04,2026-10-03,
fay,4,2026-09-05,,
gus,4,2026-09-05,2026-10-04,
"""


@pytest.fixture
def board(tmp_path):
    """A board with a call whose cards have arrived, but for one person's."""
    board = tmp_path / "board"
    assert start_board(board) == []
    for name in ("ada", "ben", "cyd", "dot", "eli", "fay", "gus"):
        home = "Household: mill lane\n" if name in ("ada", "ben") else ""
        (board / f"makers/{name}.md").write_text(f"Name: {name.title()}\n{home}\nHello.\n")
    (board / "calls/lights.md").write_text(CALL)
    (board / "calls/lights.people.csv").write_text(PEOPLE)
    return board


def run(board, *arguments):
    """The command's result."""
    return CliRunner().invoke(main, ["deal", "lights", str(board), *arguments])


def dealt(board, *arguments) -> dict:
    """What it prints as JSON."""
    done = run(board, "--json", *arguments)
    assert done.exit_code == 0, done.output
    return json.loads(done.stdout)


def test_a_number_that_is_too_long_is_a_problem_not_a_crash(board):
    """More cards than can be dealt are named before any deal is tried."""
    rows = "".join(f"maker-{number},9999,2026-09-02,2026-10-01,\n" for number in range(11))
    (board / "calls/lights.people.csv").write_text(PEOPLE + rows)
    done = run(board)
    assert done.exit_code == 1 and "cards: must be at most 100000 in all" in done.output
    assert not (board / "private/deals/lights.json").exists()


def test_what_arrived_is_dealt_less_the_hosts_cards(board):
    """The host owes no card, who sent nothing gets nothing, who sent less gets less."""
    data = dealt(board)
    back = {person["maker"]: person["back"] for person in data["people"]}
    assert back == {"keeper": 3, "ada": 3, "ben": 3, "cyd": 3, "dot": 2, "eli": 3, "gus": 3}
    assert {person["maker"]: person["for_host"] for person in data["people"]}["keeper"] == 0
    assert data["not_arrived"] == ["fay"]
    assert data["version"] == 1 and data["possible"] and data["exact"] and not data["relaxed"]
    for giver, taker, count in data["table"]:
        assert giver != taker and count == 1 and {giver, taker} != {"ada", "ben"}
    assert len(data["cards"]) == sum(back.values())
    assert [problem["got"] for problem in data["problems"]] == ["3"]  # dot's parcel is short


def test_a_host_who_takes_part_and_is_not_on_the_list_is_missed(board):
    """A warning, so that nobody notices it only when the envelopes are filled."""
    people = board / "calls/lights.people.csv"
    people.write_text(PEOPLE.replace("keeper,3,2026-09-01,,host\n", ""))
    missed = [p for p in dealt(board)["problems"] if "has no row for keeper" in p["must"]]
    assert [problem["severity"] for problem in missed] == ["warning"]


def test_the_same_arrivals_give_the_same_deal(board):
    """The secret is drawn once; another board has another."""
    first = dealt(board)
    assert dealt(board) == first
    (board / "private/deals/lights.json").unlink()
    (board / "calls/lights.deal.json").unlink()
    again = dealt(board)
    assert again["proof"]["commitment"] != first["proof"]["commitment"]


def test_a_lost_secret_is_never_drawn_anew_in_silence(board):
    """What is published binds the host: without its secret there is no deal."""
    dealt(board)
    (board / "private/deals/lights.json").unlink()
    done = run(board)
    assert done.exit_code == 1 and "calls/lights.deal.json is bound to it" in done.stderr
    assert not (board / "private/deals/lights.json").exists()


def test_a_public_value_is_named_before_and_given_once(board):
    """No value where none was named; none but the first where one was."""
    done = run(board, "--value", "1.2.3./")
    assert done.exit_code == 1 and "must not be given" in done.stderr
    assert not (board / "private/deals").exists()
    named = CALL.replace("Send: 4", "Public value: the draw of 5 December\nSend: 4")
    (board / "calls/lights.md").write_text(named)
    done = run(board, "--value", "1.2.3./")
    assert done.exit_code == 1 and "must be frozen before this is known" in done.stderr
    bound = CliRunner().invoke(main, ["commit", "lights", "--board", str(board)])
    assert bound.exit_code == 0 and "the draw of 5 December" in bound.output
    done = run(board)
    assert done.exit_code == 1 and "must be given: the draw of 5 December" in done.stderr
    first = dealt(board, "--value", "1.2.3./")
    assert first["proof"]["public_value"] == "1.2.3./"
    assert dealt(board) == first
    done = run(board, "--value", "4.5.6./")
    assert done.exit_code == 1 and "a second value would be a second try" in done.stderr


def test_the_secret_is_for_the_host_alone(board):
    """Mode 0600; what may be published before the end holds neither secret nor deal."""
    proof = dealt(board)["proof"]
    file = board / "private/deals/lights.json"
    kept = json.loads(file.read_text())
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert stat.S_IMODE(file.parent.stat().st_mode) == 0o700
    assert proof["commitment"] == sha256(bytes.fromhex(kept["secret"])).hexdigest()
    assert kept["secret"] not in json.dumps(proof) and kept["apart_secret"] not in json.dumps(proof)
    assert "mill lane" not in json.dumps(proof) and "ada\tben" not in proof["list"]
    assert [step.result for step in check_proof(proof)] == [HOLDS, UNKNOWN]


def test_a_frozen_list_is_not_dealt_anew(board):
    """Arrivals written after the deal are an error that names them, and nothing changes."""
    before = dealt(board)
    people = board / "calls/lights.people.csv"
    kept = people.read_text()
    people.write_text(kept.replace("fay,4,2026-09-05,,", "fay,4,2026-09-05,2026-10-09,"))
    done = run(board)
    assert done.exit_code == 1 and "maker 3 fay" in done.stderr
    people.write_text(kept)
    assert dealt(board) == before


def test_earlier_swaps_are_avoided(board):
    """Makers of a completed offer do not get from each other where that can be."""
    for name, maker in (("kite", "cyd"), ("dune", "dot")):
        card = f"Title: {name}\nMaker: {maker}\nPhoto: first-card.jpg\nAlt: A card.\n\nA card.\n"
        (board / f"cards/{name}.md").write_text(card)
    (board / "offers/both.md").write_text(
        "Title: Both\nFrom: cyd\nTo: dot\nGives: kite\nAsks: dune\n"
        "2026-09-01: proposed\n2026-09-02: agreed\n2026-09-03: mailed by cyd\n"
        "2026-09-03: mailed by dot\n2026-09-09: received by cyd\n"
        "2026-09-09: received by dot\n\nYes.\n"
    )
    data = dealt(board)
    assert "met\tcyd\tdot" in data["proof"]["list"]
    assert not any({giver, taker} == {"cyd", "dot"} for giver, taker, _ in data["table"])


def test_the_host_reads_who_gets_what(board):
    """A line for each envelope, the method, and what to publish and to keep."""
    done = run(board)
    assert done.exit_code == 0
    assert "dot gets 2: " in done.output and "Nothing has arrived from: fay" in done.output
    assert "Publish this before you show the deal: " in done.output
    assert "private/deals/lights.json" in done.output


def test_a_deal_that_cannot_be_names_people_and_numbers(board):
    """One with more cards than all others together."""
    (board / "calls/lights.people.csv").write_text(
        "maker,cards,arrived\nada,9,2026-10-01\nben,3,2026-10-01\ncyd,3,2026-10-01\n"
    )
    done = run(board)
    assert done.exit_code == 1
    words = "ada is to get 8 cards, but only 4 can reach them: 2 from ben and 2 from cyd"
    assert words in done.output
    bound = CliRunner().invoke(main, ["commit", "lights", "--board", str(board)])
    assert bound.exit_code == 1 and words in bound.stderr
    assert not (board / "private/deals").exists()
    assert not (board / "calls/lights.deal.json").exists()


@pytest.mark.parametrize(
    "spoil, words",
    [
        (lambda b: (b / "calls/lights.people.csv").write_text("maker,cards\nada,4\n"),
         "must have cards that arrived"),
        (lambda b: (b / "calls/lights.md").write_text(CALL.replace("part: yes", "part: no")),
         "must not be the host"),
        (lambda b: (b / "private/deals").write_text("a file"), "private/deals"),
        (lambda b: ((b / "private/deals").mkdir(),
                    (b / "private/deals/lights.json").write_text("{}")),
         "must be a deal's secret"),
    ],
)  # fmt: skip
def test_what_stands_in_the_way_is_a_problem(board, spoil, words):
    """Each says where and what to do; none is a traceback."""
    spoil(board)
    done = run(board)
    assert done.exit_code == 1 and words in done.stderr and "Fix:" in done.stderr
    assert done.exception is None or isinstance(done.exception, SystemExit)


def test_an_unknown_call_is_named(board):
    """With the nearest name there is."""
    done = CliRunner().invoke(main, ["deal", "light", str(board)])
    assert done.exit_code == 1 and 'did you mean "lights"?' in done.stderr
