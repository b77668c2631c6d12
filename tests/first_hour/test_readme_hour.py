"""From nothing to a published board, by the README's own words: Swapboard is installed by pip
into an empty environment, and a board is kept far from the checkout."""

import os
import re
import shlex
import shutil
import signal
import subprocess
import urllib.request
import zipfile
from pathlib import Path

import pytest

from boards import DEMO
from first_hour.hour import REPO
from swapboard.disk.verify import verify_pages

SECTION = "## Your own board in ten minutes\n"
# What the README calls the photos of a keeper, and those that stand in for them: one
# card, and two on a table. Studio and camera are the demo's.
PHOTOS = {"heron.jpg": "night-heron.jpg", "table.jpg": "fern-and-hen.jpg"}
TITLES = ("Heron at dusk", "Fern", "Speckled hen")


def commands() -> list[str]:
    """Every command of the section, in order."""
    text = (REPO / "README.md").read_text("utf-8").split(SECTION)[1].split("\n## ")[0]
    blocks = re.findall(r"^```\n(.*?)^```$", text, re.DOTALL | re.MULTILINE)
    return [line for block in blocks for line in block.splitlines() if line.strip()]


class Shell:
    """One shell for all commands, so that `cd` and the environment carry on."""

    def __init__(self, home: Path, pip: dict[str, str]) -> None:
        kept = {k: v for k, v in os.environ.items() if k in ("PATH", "LANG", "TMPDIR")}
        kept |= {k: v for k, v in os.environ.items() if k.startswith("PIP_")}
        self._process = subprocess.Popen(
            ["bash", "--norc"], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT, text=True, cwd=REPO, env={**kept, "HOME": str(home), **pip},
        )

    def run(self, command: str) -> str:
        """What a command says, which must end well; nobody sits at the terminal."""
        line = f"{{ {command}\n}} </dev/null; echo; echo =ended $?\n"
        self._process.stdin.write(line)
        self._process.stdin.flush()
        said = []
        for text in self._process.stdout:
            if text.startswith("=ended "):
                assert text.split() == ["=ended", "0"], f"{command}\n{''.join(said)}"
                return "".join(said)
            said.append(text)
        raise AssertionError(f"the shell ended at: {command}")

    def close(self) -> None:
        """End the shell."""
        self._process.communicate()


def look_at_preview(shell: Shell) -> str:
    """Start the preview as a keeper does, open its address, end it with Ctrl-C."""
    program, folder = shell.run("command -v swapboard; pwd").split()
    process = subprocess.Popen(
        [program, "preview"], cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        text=True, env={"PATH": os.environ["PATH"], "PYTHONUNBUFFERED": "1"},
        # As at a terminal: a run in the background would hand down that Ctrl-C is ignored.
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )
    try:
        said = ""
        for line in process.stdout:
            said += line
            if address := re.search(r"http://\S+?/(?=\s|$)", line):
                with urllib.request.urlopen(address[0]) as page:
                    return page.read().decode()
        raise AssertionError(said)
    finally:
        process.send_signal(signal.SIGINT)
        process.communicate()


def write_the_posts(board: Path, before: set[str]) -> None:
    """Do what the README asks between its commands: titles, and what is to be seen."""
    new = sorted(post for post in (board / "cards").glob("*.md") if post.name not in before)
    assert len(new) == len(TITLES)
    for post, title in zip(new, TITLES, strict=True):
        lines = post.read_text("utf-8").splitlines()
        kept = [line for line in lines if line.startswith(("Photo:", "Maker:"))]
        head = [f"Title: {title}", *kept, "Themes: birds", "Media: linocut"]
        post.write_text("\n".join([*head, f"Alt: {title}, drawn.", "", "Mine."]) + "\n", "utf-8")


@pytest.fixture(scope="module")
def hour(tmp_path_factory):
    """The keeper's home after every command of the section, the page of the preview, and what
    the other commands said."""
    home = tmp_path_factory.mktemp("home")
    (home / "Pictures").mkdir()
    for name, ours in PHOTOS.items():
        shutil.copy(DEMO / "photos" / ours, home / "Pictures" / name)
    pip = {"PIP_CACHE_DIR": str(Path("~/.cache/pip").expanduser()), "PIP_QUIET": "1",
           "PIP_NO_COMPILE": "1"}  # most of what is installed is never run here
    shell, page, said = Shell(home, pip), "", {}
    board = home / "my-board"
    for command in commands():
        words = shlex.split(command, comments=True)
        if words[:2] == ["swapboard", "check"]:
            write_the_posts(board, {"first-card.md"})
        if words[:2] == ["swapboard", "preview"]:
            page = look_at_preview(shell)
        else:
            said[command] = shell.run(command)
    shell.close()
    return home, page, said


def published(home: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(home / "my-board.zip") as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def test_there_are_three_cards_and_a_call_online(hour):
    """The published board has three cards of one's own, a maker more and a call."""
    files = published(hour[0])
    cards = {name for name in files if re.fullmatch(r"cards/[^/]+\.html", name)}
    pages = {name: data.decode() for name, data in files.items() if name.endswith(".html")}
    for title in TITLES:
        assert any(f">{title}</h1>" in pages[name] for name in cards), title
    assert "calls/small-lights.html" in files and "makers/ines-okafor.html" in files
    assert "small lights" in pages["calls/small-lights.html"]
    assert "Small lights" in pages["index.html"]


def test_every_link_of_what_was_published_leads_somewhere(hour):
    """Pages, pictures, styles and places within pages: all that is linked is in the zip."""
    files = published(hour[0])
    pages = sorted(name for name in files if name.endswith(".html"))
    assert verify_pages(pages, files, lambda name: files[name].decode()) == []


def test_each_card_was_cut_from_its_photo(hour):
    """Both cards of the second photo have pictures of their own."""
    pictures = [name for name in published(hour[0]) if name.endswith(".jpg")]
    stems = {re.sub(r"-[0-9a-f]{10}-\d+\.jpg$", "", name) for name in pictures}
    assert len(stems) == len(TITLES) + 1


def test_every_post_of_a_card_has_its_page(hour):
    """The site that was built has a page per post, pictures of both kinds, and says where."""
    board = hour[0] / "my-board"
    posts = {post.stem for post in (board / "cards").glob("*.md")}
    assert {page.stem for page in (board / "output" / "cards").glob("*.html")} == posts
    assert list((board / "output" / "pictures").glob("*.avif"))
    (build,) = (words for command, words in hour[2].items() if "swapboard build" in command)
    assert "output/index.html" in build


def test_the_checkout_is_not_needed_any_more(hour):
    """The package that pip installed finds its theme and its starter board within itself."""
    code = (
        "from swapboard.disk.resources import starter_folder, theme_folder\n"
        "print(theme_folder(), starter_folder(), sep='\\n')"
    )
    place = hour[0] / "swapboard"
    found = subprocess.run(
        [place / "bin" / "python", "-c", code], cwd=hour[0], capture_output=True, text=True,
        check=True, env={k: v for k, v in os.environ.items() if k in ("PATH", "LANG", "TMPDIR")},
    ).stdout.splitlines()
    assert len(found) == 2 and all(Path(folder).is_relative_to(place) for folder in found)


def test_nothing_private_is_published(hour):
    """Neither posts, nor photos in full size, nor anything of private/ are in the zip."""
    names = set(published(hour[0]))
    assert not {name for name in names if name.startswith(("private", "photos", ".swapboard"))}
    assert not {name for name in names if name.endswith((".md", ".toml", ".csv"))}


def test_the_preview_shows_the_board(hour):
    """At the address that the preview prints is the home page."""
    assert "<h1>A swap board</h1>" in hour[1]
