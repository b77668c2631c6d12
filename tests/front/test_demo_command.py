"""`python3 site_demo`: what it runs, what it serves, how it ends."""

import ast
import signal
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path
from threading import Thread

import pytest

from front_commands import ROOT, load

COMMANDS = ["site_demo", "tests"]


@pytest.fixture
def command():
    return load("site_demo")


@pytest.fixture
def site(command, tmp_path):
    """A small site being served; gives its address."""
    (tmp_path / "index.html").write_text("home")
    (tmp_path / "404.html").write_text("<p>no such page here")
    (tmp_path / "cards").mkdir()
    (tmp_path / "cards" / "heron.html").write_text("a heron")
    (tmp_path / "heron.avif").write_bytes(b"picture")
    with command.server(tmp_path, 8700) as server:
        thread = Thread(target=server.serve_forever, args=(0.05,))
        thread.start()
        yield f"http://127.0.0.1:{server.server_address[1]}/"
        server.shutdown()
        thread.join()


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


@pytest.mark.parametrize("code", [0, 3])
def test_once_builds_and_passes_the_exit_code_on(command, tmp_path, monkeypatch, code):
    """With --once the demo is built for its own day, and the build's exit code is the answer."""
    program = tmp_path / "bin" / "swapboard"
    program.parent.mkdir()
    program.write_text(f'#!/bin/sh\necho "$@" > "{tmp_path}/asked"\nexit {code}\n')
    program.chmod(0o755)
    monkeypatch.setattr(command.environment, "ensure", lambda root: tmp_path)
    assert command.main(["--once"]) == code
    asked = (tmp_path / "asked").read_text().strip()
    assert asked == f"build {ROOT / 'site_demo'} --today 2026-10-10"


def test_a_failed_build_is_not_served(command, tmp_path, monkeypatch):
    """When the build fails the command ends with its exit code and serves nothing."""
    monkeypatch.setattr(command.environment, "ensure", lambda root: tmp_path)
    monkeypatch.setattr(command, "build", lambda place: 1)
    monkeypatch.setattr(command, "serve", lambda folder: pytest.fail("served"))
    assert command.main([]) == 1


def test_trouble_is_a_sentence_and_exit_code_1(command, monkeypatch, capsys):
    """No environment: the reason on stderr, no traceback."""

    def no_way(root):
        raise command.environment.Trouble("no way")

    monkeypatch.setattr(command.environment, "ensure", no_way)
    assert command.main(["--once"]) == 1
    assert capsys.readouterr().err == "Stopped: no way\n"


def test_serves_pages(site):
    """A page is given as it is."""
    assert urllib.request.urlopen(site + "cards/heron.html").read() == b"a heron"


def test_says_what_an_avif_is(site):
    """AVIF pictures carry their media type on every Python."""
    assert urllib.request.urlopen(site + "heron.avif").headers["Content-Type"] == "image/avif"


@pytest.mark.parametrize("path", ["nothing.html", "cards/", "..%2f..%2fetc/passwd"])
def test_what_is_not_there_gets_the_sites_own_page(site, path):
    """A missing page, a folder without index and a way out of the site all get the 404 page."""
    with pytest.raises(urllib.error.HTTPError) as caught:
        urllib.request.urlopen(site + path)
    assert caught.value.code == 404
    assert caught.value.read() == b"<p>no such page here"


def test_takes_the_next_port_when_one_is_taken(command, tmp_path):
    """Two servers at once take two ports, both on this machine's own address only."""
    with command.server(tmp_path, 8800) as first:
        taken = first.server_address[1]
        with command.server(tmp_path, taken) as second:
            assert second.server_address[0] == "127.0.0.1"
            assert second.server_address[1] > taken


@pytest.mark.parametrize("way", [signal.SIGINT, signal.SIGTERM])
def test_ends_politely(tmp_path, way):
    """Ctrl-C, or being asked to end, ends it with exit code 0 and no traceback."""
    script = (
        "import signal, sys; signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "sys.path[:0] = sys.argv[1:3]\n"
        "import front_commands\n"
        "front_commands.load('site_demo').serve(sys.argv[3], 8900)"
    )
    (tmp_path / "index.html").write_text("home")
    arguments = [str(Path(__file__).parent), str(ROOT / "site_demo"), str(tmp_path)]
    run = subprocess.Popen(
        [sys.executable, "-c", script, *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    address = run.stdout.readline().split()[5]
    assert urllib.request.urlopen(address).read() == b"home"
    run.send_signal(way)
    out, err = run.communicate()
    assert (run.returncode, out, err) == (0, "\nEnded.\n", "")
