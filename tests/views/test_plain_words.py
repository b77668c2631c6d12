"""What people wrote in Markdown, as it stands in a mail and on paper."""

import pytest

from swapboard.views.plain_words import plain_words


@pytest.mark.parametrize(
    ("markdown", "text"),
    [
        ("# Bring *what* fell\n\nSoft\nwrapped **bold** text.",
         "Bring what fell\n\nSoft wrapped bold text."),
        ("- one\n- two `code`\n    - deeper\n- three\n\nAfter.",
         "• one\n• two code\n  • deeper\n• three\n\nAfter."),
        ("3. third\n4. fourth", "3. third\n4. fourth"),
        ("See [the rules](../pages/rules.md) and [more](https://x.example/a?b=1&c=2).",
         "See the rules and more (https://x.example/a?b=1&c=2)."),
        ("<https://x.example/> <me@x.example> [write](mailto:me@x.example)",
         "https://x.example/ me@x.example write (me@x.example)"),
        ("> quoted\n> more\n\n| a | b |\n|---|---|\n| 1 | 2 |", "quoted more\n\na, b\n1, 2"),
        ("one  \ntwo", "one\ntwo"),
        ("1 < 2 & 3 <b>bold</b> <del>gone</del>![x](y.jpg)", "1 < 2 & 3 bold"),
        ("    code  as\n    it is", "code  as\nit is"),
        ("  \n", ""),
    ],
)  # fmt: skip
def test_the_words_stay_and_the_marks_go(markdown, text):
    """Lists keep their bullets, links their addresses."""
    assert plain_words(markdown) == text


def test_a_text_that_the_library_cannot_read_stays_as_it_is(monkeypatch):
    """Nothing is lost where its page will say what is wrong."""

    def fails(*_):
        raise RecursionError

    monkeypatch.setattr("markdown.Markdown.convert", fails)
    assert plain_words(" *as* written ") == "*as* written"
