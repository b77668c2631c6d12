"""The environment in .venv: whole or not at all, made once, never somebody else's."""

import json
import signal
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

import environment
from stand_in import Maker

SITE_DEMO = Path(environment.__file__).parent


@pytest.fixture
def root(tmp_path):
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "small"\n')
    return tmp_path


def ensure(root, extras=(), maker=None, said=None):
    maker = maker or Maker()
    say = (said if said is not None else []).append
    environment.ensure(root, extras, say, maker.make, maker.install)
    return maker


def leftovers(root):
    return sorted(path.name for path in root.glob(".venv.*") if path.name != ".venv.lock")


def tree(folder):
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_is_made_once_and_then_used(root):
    """An environment that fits is used at once, and nothing is said about it."""
    assert ensure(root).asked == [frozenset()]
    said = []
    assert ensure(root, said=said).asked == []
    assert said == []


def test_gives_the_folder(root):
    """The answer is the whole path of .venv."""
    maker = Maker()
    place = environment.ensure(root, (), lambda text: None, maker.make, maker.install)
    assert place == root.resolve() / ".venv"


def test_its_files_name_the_place_where_it_ends(root):
    """No file of a finished environment names the folder in which it was built."""
    ensure(root)
    content = tree(root / ".venv")
    assert content["bin/tool"].decode() == f"#!{root.resolve()}/.venv/bin/python\n"
    assert not any(b".venv.new" in data for data in content.values())


def test_more_extras_than_needed_fit(root):
    """An environment with the test extras serves the demo too."""
    ensure(root, {"test"})
    assert ensure(root).asked == []


def test_missing_extras_are_added_to_those_there(root):
    """What was installed for another command is not taken away."""
    ensure(root, {"print"})
    assert ensure(root, {"test"}).asked == [frozenset({"print", "test"})]
    assert ensure(root, {"print"}).asked == []


@pytest.mark.parametrize("change", ["project", "python gone", "stamp spoilt", "folder moved"])
def test_is_made_anew_when_it_no_longer_fits(root, change):
    """Another pyproject.toml, Python, stamp or folder makes a new environment; the old goes."""
    ensure(root)
    (root / ".venv" / "old").touch()
    if change == "project":
        (root / "pyproject.toml").write_text('[project]\nname = "other"\n')
    elif change == "python gone":
        (root / ".venv" / "bin" / "python").unlink()
        (root / ".venv" / "bin" / "python").symlink_to("/nowhere/python")
    elif change == "stamp spoilt":
        (root / ".venv" / environment.STAMP).write_text("[1")
    else:
        moved = root.parent / (root.name + "-moved")
        root = root.rename(moved)
    assert len(ensure(root).asked) == 1
    assert not (root / ".venv" / "old").exists()
    assert leftovers(root) == []


@pytest.mark.parametrize(
    "failure", [environment.Trouble("no way"), OSError("disk full"), KeyboardInterrupt()]
)
def test_a_failed_first_try_leaves_nothing(root, failure):
    """After a failed first try there is no environment, and no part of one."""
    expected = KeyboardInterrupt if isinstance(failure, KeyboardInterrupt) else environment.Trouble
    with pytest.raises(expected):
        ensure(root, maker=Maker(failure))
    assert not (root / ".venv").exists()
    assert leftovers(root) == []


@pytest.mark.parametrize(
    "failure", [environment.Trouble("no way"), OSError("disk full"), KeyboardInterrupt()]
)
def test_a_failed_later_try_keeps_the_old_one(root, failure):
    """After a failed later try the environment is as it was, to the byte."""
    ensure(root)
    before = tree(root / ".venv")
    with pytest.raises((environment.Trouble, KeyboardInterrupt)):
        ensure(root, {"test"}, Maker(failure))
    assert tree(root / ".venv") == before
    assert leftovers(root) == []


def test_a_swap_that_cannot_be_finished_is_taken_back(root, monkeypatch):
    """When the new environment cannot be renamed into place the old one returns."""
    ensure(root)
    before = tree(root / ".venv")
    rename = Path.rename

    def stubborn(path, target):
        if ".new-" in path.name:
            raise OSError("not today")
        return rename(path, target)

    monkeypatch.setattr(Path, "rename", stubborn)
    with pytest.raises(environment.Trouble, match="not today"):
        ensure(root, {"test"})
    assert tree(root / ".venv") == before
    assert leftovers(root) == []


def test_a_strangers_environment_is_left_alone(root):
    """A .venv without the stamp is refused with the line that puts it aside."""
    (root / ".venv").mkdir()
    (root / ".venv" / "mine").touch()
    with pytest.raises(environment.Trouble, match=r"mv .*\.venv .*\.venv\.mine"):
        ensure(root)
    assert (root / ".venv" / "mine").exists()


def test_a_link_is_a_strangers_environment(root):
    """A .venv that is a link is never replaced, whatever it leads to."""
    ensure(root)
    (root / ".venv").rename(root / "elsewhere")
    (root / ".venv").symlink_to(root / "elsewhere")
    (root / "pyproject.toml").write_text("changed")
    with pytest.raises(environment.Trouble, match="left alone"):
        ensure(root)
    assert (root / "elsewhere" / environment.STAMP).exists()


def test_a_swap_half_done_is_healed(root):
    """Killed between the two renames, the old environment is put back and used."""
    ensure(root)
    (root / ".venv").rename(root / ".venv.old-1")
    (root / ".venv.new-1").mkdir()
    assert ensure(root).asked == []
    assert (root / ".venv" / environment.STAMP).exists()
    assert leftovers(root) == []


def test_a_folder_without_project_is_trouble(tmp_path):
    """Without pyproject.toml the answer is Trouble, not a traceback."""
    with pytest.raises(environment.Trouble, match=r"pyproject\.toml"):
        ensure(tmp_path)


def in_another_process(root, install):
    """Starts a run whose install step is the given lines."""
    script = f"""
        import os, signal, sys, time
        from pathlib import Path
        sys.path[:0] = [{str(SITE_DEMO)!r}, {str(Path(__file__).parent)!r}]
        import environment
        from stand_in import Maker
        root = Path({str(root)!r})
        def install(aside, root, extras):
            {install}
        environment.ensure(root, (), print, Maker().make, install)
    """
    return subprocess.Popen(
        [sys.executable, "-c", textwrap.dedent(script)], stdout=subprocess.PIPE, text=True
    )


def test_a_killed_try_is_cleared_away_by_the_next(root):
    """A run killed while it installs leaves no .venv, and the next run leaves no trace of it."""
    run = in_another_process(root, "os.kill(os.getpid(), signal.SIGKILL)")
    run.communicate()
    assert run.returncode == -signal.SIGKILL
    assert not (root / ".venv").exists()
    assert len(leftovers(root)) == 1
    assert len(ensure(root).asked) == 1
    assert leftovers(root) == []


def test_what_a_killed_try_left_goes_even_when_all_is_well(root):
    """Leftovers are removed by a run that needs no new environment, too."""
    ensure(root)
    (root / ".venv.new-1").mkdir()
    (root / ".venv.old-1").mkdir()
    assert ensure(root).asked == []
    assert leftovers(root) == []


def test_two_runs_at_once_make_one_environment(root):
    """The second of two runs waits for the first, then uses what that one made."""
    install = "open(root / 'made', 'a').write('x'); time.sleep(1)"
    runs = [in_another_process(root, install) for _ in range(2)]
    said = [run.communicate()[0] for run in runs]
    assert [run.returncode for run in runs] == [0, 0]
    assert (root / "made").read_text() == "x"
    assert sum("ready" in text for text in said) == 1


def test_the_stamp_says_what_is_in_it(root):
    """The stamp lists the extras, so that a person can read what is installed."""
    ensure(root, {"test"})
    stamp = json.loads((root / ".venv" / environment.STAMP).read_text())
    assert stamp["extras"] == ["test"]
