"""`python3 site_demo`: what it runs, and how it ends."""

import ast
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from front_commands import ROOT, load

COMMANDS = ["site_demo", "tests"]


@pytest.fixture
def command():
    return load("site_demo")


@pytest.mark.parametrize("folder", COMMANDS)
def test_parses_on_an_older_python(folder):
    """Python 3.8 can read the file far enough to say that it is too old."""
    ast.parse((ROOT / folder / "__main__.py").read_text("utf-8"), feature_version=(3, 8))


@pytest.mark.parametrize("folder", COMMANDS)
def test_an_older_python_is_told_plainly(folder):
    """On Python 3.8 the answer is one plain sentence and exit code 1."""
    script = "import runpy, sys; sys.version_info = (3, 8, 18); runpy.run_path(sys.argv[1])"
    run = subprocess.run(
        [sys.executable, "-c", script, str(ROOT / folder / "__main__.py")],
        capture_output=True,
        text=True,
    )
    assert run.returncode == 1
    assert run.stderr.startswith("Swapboard needs Python 3.11 or newer; this is Python 3.8.")
    assert run.stderr.count("\n") == 1


def program_that(tmp_path, *lines):
    """An environment whose `swapboard` does as told; it notes what it was asked."""
    program = tmp_path / "bin" / "swapboard"
    program.parent.mkdir()
    program.write_text("\n".join(["#!/bin/sh", f'echo "$@" > "{tmp_path}/asked"', *lines, ""]))
    program.chmod(0o755)
    return tmp_path


@pytest.mark.parametrize("code", [0, 3])
@pytest.mark.parametrize(("arguments", "does"), [(["--once"], "build"), ([], "preview")])
def test_runs_one_command_and_passes_its_exit_code_on(
    command, tmp_path, monkeypatch, arguments, does, code
):
    """With --once the demo is built for its own day; without, it is built and shown."""
    place = program_that(tmp_path, f"exit {code}")
    monkeypatch.setattr(command.environment, "ensure", lambda root: place)
    assert command.main(arguments) == code
    asked = (tmp_path / "asked").read_text().strip()
    assert asked == f"{does} {ROOT / 'site_demo'} --today 2026-10-10"


def test_trouble_is_a_sentence_and_exit_code_1(command, monkeypatch, capsys):
    """No environment: the reason on stderr, no traceback."""

    def no_way(root):
        raise command.environment.Trouble("no way")

    monkeypatch.setattr(command.environment, "ensure", no_way)
    assert command.main(["--once"]) == 1
    assert capsys.readouterr().err == "Stopped: no way\n"


WAITS_TO_BE_ENDED = """
import signal, sys, time

def end(*_):
    print("Preview ended.")
    sys.exit(0)

signal.signal(signal.SIGINT, end)
signal.signal(signal.SIGTERM, end)
print("shown", flush=True)
while True:
    time.sleep(0.1)
"""


@pytest.mark.parametrize("way", [signal.SIGINT, signal.SIGTERM])
def test_ends_politely(tmp_path, way):
    """Ctrl-C reaches the command, or being asked to end is passed on; it is waited for."""
    place = program_that(tmp_path, f"exec {sys.executable} {tmp_path}/waits.py")
    (tmp_path / "waits.py").write_text(WAITS_TO_BE_ENDED)
    script = (
        "import signal, sys; signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "sys.path[:0] = sys.argv[1:3]\n"
        "import front_commands, pathlib\n"
        "demo = front_commands.load('site_demo')\n"
        "sys.exit(demo.swapboard(pathlib.Path(sys.argv[3]), 'preview'))"
    )
    arguments = [str(Path(__file__).parent), str(ROOT / "site_demo"), str(place)]
    run = subprocess.Popen(
        [sys.executable, "-c", script, *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
        # As at a terminal: a run in the background would hand down that Ctrl-C is ignored.
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )
    assert run.stdout.readline() == "shown\n"
    if way == signal.SIGINT:
        os.killpg(run.pid, way)  # as a terminal does: the whole group
    else:
        run.send_signal(way)
    out, err = run.communicate()
    assert (run.returncode, out, err) == (0, "Preview ended.\n", "")
