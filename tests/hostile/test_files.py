"""Texts and settings that are no texts and no settings."""

import pytest

from hostile.small_board import build, errors_of, make

UNREADABLE = {
    "latin-1": "Title: Caf\u00e9\n".encode("latin-1"),
    "utf-16": "Title: X\n".encode("utf-16"),
    "zero bytes": b"Title: X\0\n",
    "a picture": b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 4,
    "half a character": b"Title: X\xe2\x82\n",
    "a lone surrogate": b"Title: \xed\xa0\x80\n",
    "too large": b"Title: X\n\n" + b"word " * 60_000,
    "nothing": b"",
    "an escape": b"Title: \x1b[2J\n",
    "a long line": b"Title: " + b"x" * 100_000 + b"\n",
    "many keys": b"".join(b"Key%d: x\n" % n for n in range(5_000)),
}


@pytest.mark.parametrize("kind", UNREADABLE)
@pytest.mark.parametrize("path", ["cards/x.md", "offers/x.md", "calls/x.people.csv"])
def test_what_cannot_be_read_is_named(tmp_path, path, kind):
    """Whatever stands in a file, the build answers with that file's name."""
    board = make(tmp_path, {path: UNREADABLE[kind], "calls/x.md": "Title: X\nSend: 1\n"})
    built = build(board)
    assert not built.done
    assert any(error.startswith(path) for error in errors_of(built)), built.problems
    assert not (board / "output").exists()


@pytest.mark.parametrize("text", ["Title: Words\r\n\r\nHello\r\n", "Title: Words\r\rHello\r",
                                  "\ufeffTitle: Words\n\nHello\n"])
def test_any_line_ends_and_a_byte_order_mark_are_fine(tmp_path, text):
    """Texts from any editor of any system read the same."""
    board = make(tmp_path, {"pages/words.md": text.encode("utf-8")})
    assert build(board).done
    html = (board / "output" / "pages" / "words.html").read_text()
    assert "<h1>Words</h1>" in html and "<p>Hello</p>" in html


WILD = [
    'language = "../../etc"', 'language = "x-klingon"', 'language = ""', "language = 3",
    'time_zone = "../../etc/passwd"', 'time_zone = "/etc/localtime"', 'time_zone = "Mars/Olympus"',
    'address = "javascript:alert(1)"', 'address = "https://a.example/\\"><script>"',
    'address = "https://a.example/../x"', 'address = "file:///etc"', 'keeper = "../../keeper"',
    'keeper = ""', "keeper = []", 'name = ""', "name = 1979-05-27", 'name = "\\u0000"',
    'name = "\\u001b[2J"', "paper = inf", "about = nan", "about = { a = 1 }",
    "format = 2", "name = 'x", "= 1", "[board]", "x = " + "[" * 3000,
]  # fmt: skip
TABLES = [
    "[lists]\ncards_per_page = 0", "[lists]\ncards_per_page = -9223372036854775808",
    "[lists]\ncards_per_page = 1e400", "[lists]\ncards_per_page = true",
    "[photos]\nlargest_megapixels = 99999999999999999999", "[photos]\nlargest_megabytes = 0x0",
    "[swaps]\noffer_days = 999999999", "[words]\nmedia = [[[['x']]]]", "[words]\nmedia = ['', 'a']",
    "[words]\nsame_as = { a = 'no such medium' }", "[[board]]\nname = 'x'", "[output]\npath = '/'",
    "[board.board]\nx = 1", "photos = 3",
]  # fmt: skip


@pytest.mark.parametrize(
    "text",
    [f"format = 1\n[board]\n{line}\n" for line in WILD] + [f"format = 1\n{t}\n" for t in TABLES]
    + ["format = '1'\n", "format = 1\nformat = 1\n", "{}", "\x00"],
    ids=lambda text: text[:60].encode("unicode_escape").decode(),
)
def test_wild_settings_are_named_with_their_line(tmp_path, text):
    """A setting that makes no sense is an error of board.toml, and nothing is built."""
    board = make(tmp_path, {"board.toml": text})
    built = build(board, set_aside=True)
    assert not built.done
    assert any(error.startswith("board.toml:") for error in errors_of(built)), built.problems
    assert not (board / "output").exists()
