"""`swapboard preview`: serves, builds again on change, keeps the last good site, ends politely."""

import gzip
import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request

import pytest

from boards import REPO
from hostile.small_board import make
from swapboard.disk.serve import server_for

SCRIPT = (
    "import signal; signal.signal(signal.SIGINT, signal.default_int_handler)\n"
    "from swapboard.cli import main; main()"
)
PATIENCE = 120  # seconds until a busy machine must have answered


@pytest.fixture
def preview(tmp_path):
    """Starts `swapboard preview BOARD` and gives (process, address)."""
    started = []

    def start(board, *more):
        command = [sys.executable, "-c", SCRIPT, "preview", str(board), "--port", "8450", *more]
        run = subprocess.Popen(
            command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
            env={"PYTHONPATH": str(REPO / "plugins"), "PATH": "/usr/bin:/bin"},
        )
        started.append(run)
        for line in run.stdout:
            if line.startswith("http://"):
                return run, line.split()[0]
        raise AssertionError(run.stderr.read())

    yield start
    for run in started:
        run.kill()
        run.communicate()


def read(address):
    with urllib.request.urlopen(address, timeout=PATIENCE) as answer:
        return answer.read().decode("utf-8")


def wait_for(ready):
    """Until something holds; false where it never does."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        if ready():
            return True
        time.sleep(0.1)
    return False


def status(address):
    try:
        return urllib.request.urlopen(address, timeout=PATIENCE).status
    except urllib.error.HTTPError as error:
        return error.code


def test_it_shows_changes_and_never_a_broken_site(tmp_path, preview):
    """A new post appears, a broken one is told and changes nothing, a mended one appears."""
    board = make(tmp_path)
    run, address = preview(board, "--today", "2026-10-10")
    assert "Heron" in read(f"{address}cards/heron.html")
    (board / "cards" / "new.md").write_text("Title: Brand new\n")
    assert wait_for(lambda: status(f"{address}cards/new.html") == 200)
    (board / "cards" / "new.md").write_text("Title: Brand new\nMade: last week\n")
    for line in run.stdout:
        if line.startswith("Not built"):
            break
    assert "Brand new" in read(f"{address}cards/new.html")
    (board / "cards" / "new.md").write_text("Title: Mended\n")
    assert wait_for(lambda: "Mended" in read(f"{address}cards/new.html"))
    run.send_signal(signal.SIGINT)
    out, err = run.communicate(timeout=PATIENCE)
    assert run.returncode == 0
    assert out.endswith("Preview ended.\n")
    assert "error: cards/new.md:2: Made: must be a date" in err
    assert "Traceback" not in err


def test_being_asked_to_end_is_as_polite(tmp_path, preview):
    """SIGTERM ends it with exit code 0."""
    run, _ = preview(make(tmp_path))
    run.send_signal(signal.SIGTERM)
    out, err = run.communicate(timeout=PATIENCE)
    assert (run.returncode, err) == (0, "")
    assert out.endswith("Preview ended.\n")


def test_a_board_that_is_broken_from_the_start_is_waited_for(tmp_path, preview):
    """It says that there is no site yet, and shows it when there is one."""
    board = make(tmp_path, {"cards/heron.md": "Nonsense: x\n"})
    _, address = preview(board)
    assert status(address) == 404
    (board / "cards" / "heron.md").write_text("Title: Heron\n")
    assert wait_for(lambda: status(address) == 200)


@pytest.mark.parametrize("more", [[], ["--port", "70000"], ["--port", "-3"], ["--port", "0"]])
def test_what_cannot_be_shown_is_said(tmp_path, more):
    """No board, or no port: words and exit code 1, no traceback."""
    board = make(tmp_path) if more else tmp_path
    from click.testing import CliRunner

    from swapboard.cli import main

    if more == ["--port", "0"]:
        more = ["--port", "65536"]
    done = CliRunner().invoke(main, ["preview", str(board), *more])
    assert done.exit_code == 1, done.output
    assert "Fix: " in done.output and isinstance(done.exception, SystemExit)


@pytest.fixture
def site(tmp_path):
    """A small site being served; gives its address."""
    from threading import Thread

    (tmp_path / "index.html").write_text("home \u00e9", "utf-8")
    (tmp_path / "404.html").write_text("<p>no such page here")
    (tmp_path / "cards").mkdir()
    for name in ("heron.html", "heron.avif", "data.js", "site.css", "version.txt", "icon.svg"):
        (tmp_path / "cards" / name).write_bytes(b"x")
    with server_for(tmp_path, 8700) as server:
        thread = Thread(target=server.serve_forever, args=(0.05,))
        thread.start()
        yield f"http://127.0.0.1:{server.server_address[1]}/"
        server.shutdown()
        thread.join()


@pytest.mark.parametrize(
    ("path", "kind"),
    [("", "text/html; charset=utf-8"), ("cards/heron.html", "text/html; charset=utf-8"),
     ("cards/data.js", "text/javascript; charset=utf-8"), ("cards/heron.avif", "image/avif"),
     ("cards/site.css", "text/css; charset=utf-8"), ("cards/icon.svg", "image/svg+xml"),
     ("cards/version.txt", "text/plain; charset=utf-8")],
)
def test_files_are_served_as_what_they_are(site, path, kind):
    """Texts as UTF-8, AVIF as AVIF, on every Python."""
    assert urllib.request.urlopen(site + path).headers["Content-Type"] == kind


@pytest.mark.parametrize("path", ["", "cards/heron.html"])
def test_texts_are_packed_for_who_takes_them_so(site, path, tmp_path):
    """As web hosts do: gzip (RFC 9110, section 8.4.1.3) where the browser says so."""
    asked = urllib.request.Request(site + path, headers={"Accept-Encoding": "br, gzip"})
    with urllib.request.urlopen(asked) as packed, urllib.request.urlopen(site + path) as plain:
        assert packed.headers["Content-Encoding"] == "gzip"
        assert plain.headers["Content-Encoding"] is None
        assert gzip.decompress(packed.read()) == plain.read()


@pytest.mark.parametrize("path", ["nothing.html", "cards/", "..%2f..%2fetc/passwd", "%00"])
def test_what_is_not_there_gets_the_sites_own_page(site, path):
    """A missing page, a folder without a front page and a way out all get the 404 page."""
    with pytest.raises(urllib.error.HTTPError) as caught:
        urllib.request.urlopen(site + path)
    assert caught.value.code == 404
    assert caught.value.read() == b"<p>no such page here"


def test_the_next_port_is_taken_when_one_is_not_free(tmp_path):
    """Two servers at once take two ports, both of this computer alone."""
    with server_for(tmp_path, 8800) as first:
        taken = first.server_address[1]
        with server_for(tmp_path, taken) as second:
            assert second.server_address[0] == "127.0.0.1"
            assert second.server_address[1] > taken
