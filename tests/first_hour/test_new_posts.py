"""`add maker` and `add call` write posts that are known to be good."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boards import files_of
from first_hour.hour import DAY, done, swapboard
from swapboard.disk.load import load_board
from swapboard.disk.lock import board_lock
from swapboard.disk.new_posts import add_call, add_maker, proposed_days
from swapboard.disk.start import Answers, start_board

TODAY = date.fromisoformat(DAY)


@pytest.fixture
def board(tmp_path):
    """A new board, kept by Ines."""
    assert start_board(tmp_path / "b", Answers(maker="Ines"), time_zone="UTC") == []
    return tmp_path / "b"


def calls_of(board):
    loaded = load_board(board, TODAY)
    assert loaded.problems == ()
    return loaded.board.calls


def test_a_maker_is_written(board):
    """What the options say is what the board reads."""
    done("add", "maker", "Marek Sól", "--country", "pl", "--media", "lino, ink",
         "--takes-up-to", "3", folder=board)
    maker = load_board(board).board.makers["marek-sol"]
    assert (maker.title, maker.country, maker.takes_up_to) == ("Marek Sól", "Poland", 3)
    assert maker.media == ("linocut", "ink pen")


def test_a_call_has_sensible_days(board):
    """With no dates said there are three weeks, then four, then two."""
    done("add", "call", "Small lights", "--today", DAY, folder=board)
    call = calls_of(board)["small-lights"]
    assert (call.date, call.sign_up_by) == (TODAY, date(2026, 10, 22))
    assert (call.arrive_by, call.mail_out_by) == (date(2026, 11, 19), date(2026, 12, 3))
    assert (call.send, call.receive, call.host, call.by) == (4, 4, "ines", "post")


def test_a_call_in_person_ends_where_people_meet(board):
    """It has a place, an hour and a day to meet, and nothing to mail out."""
    path, problems = add_call(
        board, "The long table", {"By": "in person", "Place": "The hall", "Hour": "14:00"}, TODAY
    )
    assert problems == [] and path == "calls/the-long-table.md"
    call = calls_of(board)["the-long-table"]
    assert (call.place, call.hour, call.mail_out_by) == ("The hall", "14:00", None)


def test_every_option_reaches_the_post(board):
    """Whatever key a call has can be said by an option of its name."""
    said = {
        "--theme": "lamps", "--host": "Ines", "--by": "post", "--send": "4", "--receive": "3",
        "--chosen-by": "host", "--host-takes-part": "no", "--media": "linocut",
        "--not": "glitter, feathers", "--must-have": "your name", "--thickness": "2 mm",
        "--places": "12", "--sign-up-by": "2026-10-15", "--arrive-by": "2026-11-20",
        "--mail-out-by": "2026-12-05", "--countries": "Poland, Portugal",
        "--return-postage": "Poland: two reply stamps", "--adults-only": "yes",
    }
    done("add", "call", "Lamps", "--today", DAY, *sum(said.items(), ()), folder=board)
    call = calls_of(board)["lamps"]
    assert (call.theme, call.send, call.receive, call.chosen_by) == ("lamps", 4, 3, "host")
    assert (call.host_takes_part, call.adults_only, call.places) == (False, True, 12)
    assert (call.not_wanted, call.media) == (("glitter", "feathers"), ("linocut",))
    assert (call.countries, call.thickness) == (("Poland", "Portugal"), "2 mm")
    assert call.return_postage == (("Poland", "two reply stamps"),)
    assert call.sign_up_by == date(2026, 10, 15) and call.must_have == ("your name",)


@pytest.mark.parametrize(
    ("said", "option"),
    [
        ({"Host": "nobody"}, "--host"),
        ({"Send": "99"}, "--send"),
        ({"Sign up by": "soon"}, "--sign-up-by"),
        ({"Sign up by": "2026-12-01", "Arrive by": "2026-11-01"}, "--arrive-by"),
        ({"By": "in person", "Hour": "14:00"}, "--place"),
        ({"Countries": "Polnd"}, "--countries"),
        ({"Media": "lno"}, "--media"),
        ({"Theme": "a\x07b"}, "--theme"),
    ],
)
def test_a_bad_option_is_named_and_nothing_is_written(board, said, option):
    """The message is about the option, since there is no post to look at."""
    before = files_of(board)
    path, problems = add_call(board, "Lamps", said, TODAY)
    assert path == "" and {problem.path for problem in problems} == {option}
    after = files_of(board)
    assert {name for name in after if not name.startswith(".swapboard/")} == set(before)


@pytest.mark.parametrize("title", ["Small lights", "small LIGHTS", "Small-lights!"])
def test_no_post_is_ever_overwritten(board, title):
    """A title that gives the same web address is refused, and the post stays."""
    add_call(board, "Small lights", {}, TODAY)
    before = (board / "calls" / "small-lights.md").read_bytes()
    path, (problem,) = add_call(board, title, {"Send": "2"}, TODAY)
    assert path == "" and "nothing is overwritten" in problem.must
    assert (board / "calls" / "small-lights.md").read_bytes() == before


@pytest.mark.parametrize("name", ["", "  ", "n" * 300, "a\x00b"])
def test_a_name_that_is_none_is_told(board, name):
    """A maker needs a name that can stand on a line."""
    path, problems = add_maker(board, name, {})
    assert path == "" and {problem.path for problem in problems} == {"NAME"}


@pytest.mark.parametrize("name", ["con", "../up", "木村", "a/b", "—", "Zoë: \"Z\" #1"])
def test_any_name_gives_a_good_file(board, name):
    """Whatever somebody is called, the post lies in makers/ and can be read."""
    path, problems = add_maker(board, name, {})
    assert problems == [] and (board / path).parent == board / "makers"
    loaded = load_board(board)
    assert loaded.problems == ()
    assert name in {maker.title for maker in loaded.board.makers.values()}


def test_a_name_left_out_is_asked_until_there_is_one(board):
    """Where somebody can answer they are asked for the name, and told when it is none."""
    typed, complaints = iter(["", "  ", "Marek"]), []

    def ask(words, default, complaint):
        complaints.append(complaint)
        return next(typed)

    assert add_maker(board, "", {}, ask) == ("makers/marek.md", [])
    assert complaints[0] == "" and all("must be a name" in each for each in complaints[1:])


def test_a_board_with_faults_can_still_be_added_to(board):
    """What was wrong before is no reason to refuse a good post."""
    (board / "cards" / "bad.md").write_text("Title: a\nDate: soon\n")
    assert add_maker(board, "Marek", {}) == ("makers/marek.md", [])


def test_a_board_at_work_is_left_alone(board):
    """While another run holds the board nothing is written."""
    with board_lock(board / ".swapboard"):
        path, (problem,) = add_maker(board, "Marek", {})
    assert path == "" and "another run" in problem.must
    assert not (board / "makers" / "marek.md").exists()


def test_without_a_board_it_is_said_where_one_is_missing(tmp_path):
    """In a folder that is no board the message says so, and nothing is made."""
    ran = swapboard("add", "call", "Lamps", folder=tmp_path)
    assert ran.returncode == 1 and "board.toml" in ran.stderr
    assert list(tmp_path.iterdir()) == []


def test_on_a_terminal_what_is_open_is_asked(board):
    """Only what no option said is asked, with proposals, until the answer is good."""
    typed = {"Who": ["nobody", "ines"], "theme": ["lamps"], "Sign up": ["soon", "2026-10-08"]}
    asked = []

    def ask(question, default, complaint):
        asked.append((question, default, complaint))
        for word, answers in typed.items():
            if word in question and answers:
                return answers.pop(0)
        return default

    path, problems = add_call(board, "Lamps", {"Send": "2", "By": "post"}, TODAY, ask)
    assert problems == [] and not any("How many" in question for question, _, _ in asked)
    call = calls_of(board)["lamps"]
    assert (call.theme, call.send, call.sign_up_by) == ("lamps", 2, date(2026, 10, 8))
    assert call.arrive_by == date(2026, 11, 5)
    assert len([complaint for _, _, complaint in asked if complaint]) == 2


def test_place_hour_and_days_in_order_are_asked_until_they_are_there(board):
    """So that nobody who has answered all questions is told at the end to begin anew."""
    typed = {
        "Where": ["", "The hall"], "hour": [" ", "14:00"],
        "Sign up": ["2026-01-01", "2026-10-08"], "do you meet?": ["2026-10-01", "2026-10-20"],
    }  # fmt: skip
    complaints = []

    def ask(question, default, complaint):
        complaints.append(complaint)
        found = next((answers for word, answers in typed.items() if word in question), [])
        return found.pop(0) if found else default

    path, problems = add_call(board, "The hall", {"By": "in person"}, TODAY, ask)
    assert path and problems == []
    call = calls_of(board)["the-hall"]
    assert (call.place, call.hour, call.arrive_by) == ("The hall", "14:00", date(2026, 10, 20))
    assert [words for words in complaints if words] == [
        "It must be said: whoever comes has to know it",
        "It must be said: whoever comes has to know it",
        f"It must not be before {TODAY}: name a later day",
        "It must not be before 2026-10-08: name a later day",
    ]


days = st.dates(TODAY, TODAY + timedelta(days=400))


@given(st.dictionaries(st.sampled_from(["Sign up by", "Arrive by", "Mail out by"]), days))
def test_proposed_days_follow_each_other(kept):
    """Days that are kept in order stay, and the others fall in between."""
    order = ["Sign up by", "Arrive by", "Mail out by"]
    values = sorted(kept.values())
    said = {key: day.isoformat() for key, day in
            zip([key for key in order if key in kept], values, strict=True)}
    proposed = proposed_days(TODAY, said)
    assert [proposed[key] for key in order] == sorted(proposed.values())
    assert all(proposed[key].isoformat() == day for key, day in said.items())
