"""File names and words that become file names."""

import os
import re
import unicodedata

import pytest
from click.testing import CliRunner

from boards import files_of
from hostile.small_board import build, errors_of, make
from swapboard.cli import main

UNFIT = [
    b"CON.md", b"nul.md", b"com1.md", b"\xff.md", b"\x1b[2Jx.md", b"a\nb.md", b"a b.md", b"a%2e.md",
    b"-.md", b"a..md", b"<script>.md", b"a'b.md", b'a"b.md', "\u202emd.gpj.md".encode(),
    "\u200b.md".encode(), b"{{ 7 }}.md", b"a:b.md", b"a?.md", b"x" * 240 + b".md",
]  # fmt: skip


@pytest.mark.parametrize("kind", ["cards", "makers", "calls", "offers", "pages"])
@pytest.mark.parametrize("name", UNFIT, ids=ascii)
def test_an_unfit_name_is_named_and_nothing_is_built(tmp_path, kind, name):
    """A name that a host, a terminal or Windows would trip over is an error of its file."""
    board = make(tmp_path)
    (board / kind).mkdir(exist_ok=True)
    with open(os.path.join(os.fsencode(board / kind), name), "wb") as file:
        file.write(b"Title: X\n" if kind != "makers" else b"Name: X\n")
    done = CliRunner().invoke(main, ["build", str(board)])
    assert done.exit_code == 1
    assert done.exception is None or isinstance(done.exception, SystemExit)
    assert "must " in done.output and f"error: {kind}/" in done.output
    assert not set(done.output) & set("\x1b\u202e\u200b")
    assert not (board / "output").exists()


@pytest.mark.parametrize(
    "names",
    [("Heron", "heron"), (unicodedata.normalize("NFC", "é"), unicodedata.normalize("NFD", "é")),
     ("é", "e"), ("stra\u00dfe", "strasse"), ("\ufb01n", "fin"), ("a_b", "a-b")],
)
def test_two_names_with_one_address_are_an_error(tmp_path, names):
    """Where two posts would be one page on some host, the later one is named."""
    board = make(tmp_path, {f"pages/{name}.md": f"Title: {name}\n" for name in names})
    told = errors_of(build(board))
    assert len(told) == 1
    assert "must have a name of its own" in told[0]


@pytest.mark.parametrize("name", ["index", "404", "version.txt", "page-1", "heron.page-1", "theme"])
def test_names_that_sound_like_our_own_pages_are_in_nobodys_way(tmp_path, name):
    """Every kind of post can be called index."""
    board = make(tmp_path, {
        f"cards/{name}.md": "Title: X\n", f"pages/{name}.md": "Title: X\n",
        f"makers/{name}.md": "Name: X\n",
    })
    assert build(board).done
    made = files_of(board / "output")
    assert {f"cards/{name}.html", f"pages/{name}.html", f"makers/{name}.html"} <= made.keys()
    assert {"index.html", "404.html", "version.txt"} <= made.keys()


def test_the_back_of_one_card_and_the_front_of_another_may_be_one_file(demo_board):
    """heron's back and heron-back's front, cut from one photo, do not collide."""
    photo = "night-heron-back.jpg"
    if not (demo_board / "photos" / photo).is_file():
        photo = sorted((demo_board / "photos").iterdir())[0].name
    (demo_board / "cards" / "twin.md").write_text(f"Title: Twin\nPhoto: {photo}\nBack: {photo}\n")
    (demo_board / "cards" / "twin-back.md").write_text(f"Title: Twin's back\nPhoto: {photo}\n")
    built = build(demo_board)
    assert built.done, built.problems


THEMES = ["con", "..", "../../x", "a/b", "<script>alert(1)</script>", "%2e%2e", "🦊", "index",
          "\u202egnp", "x" * 80, "{{ 7*7 }}", "aux.html", "-", "Ä ö", "C#", "C++"]


def test_themes_make_safe_paths(tmp_path):
    """Whatever a theme is called, its page's path is plain and lies in themes/."""
    cards = {f"cards/c{n}.md": f"Title: C\nThemes: {theme}\n" for n, theme in enumerate(THEMES)}
    board = make(tmp_path, cards)
    built = build(board, set_aside=True)
    assert built.done, built.problems
    made = [path for path in files_of(board / "output") if path.startswith("themes/")]
    shown = {path.split(":")[0] for path in built.left_out}
    assert len(made) >= len(THEMES) - len(shown)
    for path in made:
        name = path.removeprefix("themes/").removesuffix(".html")
        assert re.fullmatch(r"[\w-]+(\.page-\d+)?", name), path
        assert name.casefold() not in {"con", "aux", "nul", "prn"}


def test_themes_that_share_an_address_are_an_error(tmp_path):
    """Two themes never share a page unseen."""
    board = make(tmp_path, {
        "cards/a.md": "Title: A\nThemes: C\n", "cards/b.md": "Title: B\nThemes: C++\n",
    })
    assert any("Themes" in error for error in errors_of(build(board)))
