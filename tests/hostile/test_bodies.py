"""Texts made to be slow, deep or large are refused with their line; all others are drawn."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hostile.small_board import build, errors_of, make
from swapboard.disk.body_limits import body_problems
from swapboard.site.writing import TAGS, MarkdownWriter
from swapboard.views.types import Writing

LINE = 15_000
BOMBS = {
    "quotes on a line": ">" * LINE,
    "quotes with spaces": "> " * 100 + "deep",
    "lists within lists": "\n".join("    " * depth + "* x" for depth in range(300)),
    "lists on a line": "* " * 9000 + "x",
    "numbered lists on a line": "1. " * 500 + "x",
    "quotes and lists": "> * " * 200 + "x",
    "brackets": "[" * LINE,
    "brackets in lines": "\n".join(["[a"] * 60_000),
    "links": "[](" * 5000,
    "pictures": "![" * 7000,
    "backticks": "\n".join("`" * n + "a" for n in range(600)),
    "backticks in pairs": "``a`" * 3700,
    "declarations": "<![CDATA[" * 2000,
    "comments": "\n".join(["<!-- a"] * 30_000),
    "instructions": "<?" * 7000,
    "references to a long address": "[a]: http://" + "x" * LINE + "\n\n" + "[a] " * 400,
    "references to a long title": "[a]: x\n  '" + "x" * LINE + "'\n\n" + "[a] " * 400,
    "many references": "\n".join(f"[a{n}]: http://a/{n}" for n in range(9000)),
    "a wide table": "|a" * 5000 + "\n" + "|-" * 5000 + "\n" + "|a" * 5000,
    "a long table": "a|b\n-|-\n" + "a|b\n" * 60_000,
    "headings": "# x\n" * 60_000,
    "rules": "* * *\n" * 40_000,
    "paragraphs": "x\n\n" * 80_000,
    "a long text": ("word " * 2000 + "\n\n") * 25,
}
AT_THE_LIMIT = {
    "quotes": "> " * 12 + "x",
    "lists": "\n".join("    " * depth + "* x" for depth in range(12)),
    "a rule": "* " * 500,
    "brackets": "[" * 400,
    "half a link": "[a](" * 400,
    "backticks": "`a" * 1000,
    "tags": "<b>" * 2000,
    "tags without end": "<a" * 2000,
    "tables in tables": "<table><tr><td>" * 500,
    "emphasis": "*a **b _c __d " * 500,
    "stars": "*" * LINE,
    "entities": "&#x41;&" * 2000,
    "quotation marks": "\"'" * 5000,
    "the library's own marks": "\u0002klzzwxh:0000\u0003 \u0002wzxhzdk:0\u0003".replace(
        "\u0002", "").replace("\u0003", ""),
    "lines": "x\n" * 450,
}


@pytest.mark.parametrize("kind", BOMBS)
def test_a_text_that_would_take_for_ever_is_an_error_with_its_line(tmp_path, kind):
    """It is named with file and line before anything is drawn, and the site stays."""
    board = make(tmp_path, {"pages/bomb.md": f"Title: Bomb\n\nFine.\n\n{BOMBS[kind][:255_000]}\n"})
    built = build(board)
    assert not built.done
    told = errors_of(built)
    assert told and all(re.match(r"pages/bomb\.md(:\d+)?: ", words) for words in told)
    assert any(re.match(r"pages/bomb\.md:\d+: ", words) for words in told)
    assert not (board / "output").exists()


def test_texts_at_the_limits_are_drawn(tmp_path):
    """What is just allowed is drawn, within the levels that Python has to spare."""
    pages = {f"pages/p{n}.md": f"Title: P\n\n{text}\n"
             for n, text in enumerate(AT_THE_LIMIT.values())}
    built = build(make(tmp_path, pages))
    assert built.done, errors_of(built)


def test_a_fault_is_found_on_its_own_line():
    """Each limit points at the place where it is passed, whatever ends the lines."""
    text = "Title: X\r\n\r\nfine\r\n\r\n" + "> " * 13 + "x\r\n"
    assert [(p.path, p.line) for p in body_problems({"pages/x.md": text})] == [("pages/x.md", 5)]
    ragged = "Title: X\n\n" + "[a]\n\n" * 501
    assert [p.line for p in body_problems({"pages/x.md": ragged})] == [3 + 2 * 500]


PIECES = st.sampled_from(
    "> |* |1. |    |\t|# |---\n|===\n|\n|\n\n|[|]|(|)|[a]: b|`|``|*|**|_|__|<b>|</b>|<a href=x>|"
    "<!--|-->|<script>|<p|<|>|&amp;|&#x3c;|\\|!|http://a|\"|'|...|\u2028|a|word |\u00e9|{{|%}|~~~|"
    "<![x]|<?|<div>|</div>|<img src=x onerror=y>|a@b.c|<a@b>|:|-|+ |- ".split("|")
)


@given(st.lists(PIECES, max_size=120))
@settings(max_examples=300, deadline=None)
def test_whatever_is_within_the_limits_becomes_safe_html(pieces):
    """No text makes the Markdown reader fail, or brings a tag that is not allowed."""
    text = "".join(pieces)
    if body_problems({"a.md": f"Title: X\n\n{text}"}):
        return
    html = MarkdownWriter().html(Writing(text), lambda path: path)
    assert set(re.findall(r"<([a-z0-9]+)", html)) <= TAGS
    assert not re.search(r"<[^>]*\s(on\w+|style|src)\s*=", html)
