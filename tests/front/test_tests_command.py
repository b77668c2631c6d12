"""`python3 tests`: which browser it takes, what it runs, and its exit code; and .ci/run."""

import os
import shutil
import subprocess
import types

import pytest

from front_commands import ROOT, load
from longest_first import LONGEST, rank_of


@pytest.fixture
def command():
    return load("tests")


class Runner:
    """Stands in for subprocess.run: answers by the words of a command, remembers them all."""

    def __init__(self, codes=None, browser_path=""):
        self.codes = codes or {}
        self.browser_path = browser_path
        self.asked = []
        self.options = []

    def __call__(self, command, **options):
        line = " ".join(map(str, command))
        self.asked.append(line)
        self.options.append(options)
        code = next((code for word, code in self.codes.items() if word in line), 0)
        return types.SimpleNamespace(returncode=code, stdout=self.browser_path)


def test_a_browser_that_is_there_is_taken(command, tmp_path):
    """With a Chromium on the path nothing is installed."""
    run = Runner()
    found = command.browser(
        tmp_path, lambda name: "/usr/bin/x" if name == "google-chrome" else None, run
    )
    assert found == "/usr/bin/x"
    assert run.asked == []


def test_debian_as_root_installs_its_own(command, tmp_path, monkeypatch):
    """On Debian as root Chromium comes by apt-get, the lists brought up to date first: its shell
    without windows, or, where there is none, all of it."""
    monkeypatch.setattr(command, "_is_debian", lambda: True)
    packages = ["chromium-headless-shell", "chromium"]
    for known in (packages, packages[1:]):
        run = Runner()

        def which(name, run=run, known=known):
            installed = [line.split()[-1] for line in run.asked if "install -y" in line]
            there = name == "apt-get" or (name in installed and name in known)
            return f"/usr/bin/{name}" if there else None

        found = command.browser(tmp_path, which, run, is_root=True)
        asked = packages[: packages.index(known[0]) + 1]
        assert found == f"/usr/bin/{known[0]}"
        assert run.asked == ["apt-get -qq update",
                             *(f"apt-get -qq install -y {name}" for name in asked)]


@pytest.mark.parametrize("is_root", [True, False])
def test_elsewhere_playwright_fetches_one(command, tmp_path, monkeypatch, is_root):
    """Where apt-get cannot help, Playwright's Chromium is fetched, with libraries as root."""
    monkeypatch.setattr(command, "_is_debian", lambda: False)
    fetched = tmp_path / "chrome"

    class Fetching(Runner):
        def __call__(self, line, **options):
            if "install" in line:
                fetched.touch()
            return super().__call__(line, **options)

    run = Fetching(browser_path=f"{fetched}\n")
    assert command.browser(tmp_path, lambda name: None, run, is_root) == str(fetched)
    assert ("--with-deps" in run.asked[-1]) is is_root
    again = Runner(browser_path=f"{fetched}\n")
    assert command.browser(tmp_path, lambda name: None, again, is_root) == str(fetched)
    assert not any("install" in line for line in again.asked)


def test_no_browser_at_all_says_what_to_do(command, tmp_path):
    """When none can be installed the tests do not start, and the way out is named."""
    run = Runner({"apt-get": 1, "playwright": 1}, browser_path="/nowhere/chrome\n")
    with pytest.raises(command.environment.Trouble, match="apt-get install chromium"):
        command.browser(tmp_path, lambda name: None, run, is_root=True)


def test_the_style_is_checked_before_the_tests(command, tmp_path, monkeypatch):
    """ruff runs first, then pytest, both in the root, with the browser's path in a variable; what
    one process of the tests has compiled is kept for the others."""
    monkeypatch.setenv("PYTHONDONTWRITEBYTECODE", "1")
    run = Runner()
    assert command.check(tmp_path, ["-x"], "/usr/bin/chromium", run) == 0
    ruff, tests = run.asked
    assert ruff.endswith("bin/ruff check .")
    assert tests.endswith("bin/python -m pytest -x")
    assert all(options["cwd"] == ROOT for options in run.options)
    assert run.options[1]["env"]["SWAPBOARD_BROWSER"] == "/usr/bin/chromium"
    assert "PYTHONDONTWRITEBYTECODE" not in run.options[1]["env"]


@pytest.mark.parametrize(
    ("codes", "expected"), [({}, 0), ({"ruff": 1}, 1), ({"pytest": 5}, 5), ({"": 2}, 2)]
)
def test_any_failure_is_the_exit_code(command, tmp_path, codes, expected):
    """Style or tests: whichever fails, the command fails, and the tests run all the same."""
    run = Runner(codes)
    assert command.check(tmp_path, ["-x"], "", run) == expected
    assert len(run.asked) == 2


def test_without_arguments_everything_is_run_in_parallel(command):
    """No arguments means all tests, in two processes more than processors, at most six, and no
    order but that of the tests themselves."""
    arguments = command.passed_on([])
    assert "--no-loadscope-reorder" in arguments
    assert arguments[0] == "-n"
    assert int(arguments[1]) == min(4, os.cpu_count()) + 2


def test_the_longest_files_come_first():
    """Every file that is named as long is there, and comes before all that are not named."""
    files = [ROOT / "tests" / name for name in LONGEST]
    assert all(file.is_file() for file in files)
    ranks = [rank_of(file) for file in [*files, ROOT / "tests" / "front" / "test_readme.py"]]
    assert ranks == sorted(set(ranks))
    assert rank_of(ROOT / "elsewhere.py") == ranks[-1]


def test_paths_are_those_of_the_folder_one_stands_in(command, tmp_path, monkeypatch):
    """Paths are made whole before pytest runs elsewhere; options and their values are not."""
    (tmp_path / "photo").mkdir()
    (tmp_path / "test_a.py").touch()
    monkeypatch.chdir(tmp_path)
    given = ["-k", "photo", "photo", "test_a.py::test_b", "-x", "missing"]
    whole = str(tmp_path.resolve())
    expected = ["-k", "photo", f"{whole}/photo", f"{whole}/test_a.py::test_b", "-x", "missing"]
    assert command.passed_on(given) == expected


def test_ci_starts_from_nothing(tmp_path):
    """.ci/run removes the environment, then runs `python3 tests`, from any folder."""
    (tmp_path / ".ci").mkdir()
    shutil.copy(ROOT / ".ci" / "run", tmp_path / ".ci" / "run")
    (tmp_path / ".venv").mkdir()
    stand_in = tmp_path / "bin" / "python3"
    stand_in.parent.mkdir()
    stand_in.write_text('#!/bin/sh\necho "$@"\n')
    stand_in.chmod(0o755)
    run = subprocess.run(
        [tmp_path / ".ci" / "run", "-x"],
        env={**os.environ, "PATH": f"{stand_in.parent}:{os.environ['PATH']}"},
        cwd="/",
        capture_output=True,
        text=True,
    )
    assert (run.returncode, run.stdout) == (0, "tests -x\n")
    assert not (tmp_path / ".venv").exists()
