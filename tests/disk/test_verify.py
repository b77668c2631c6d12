"""Nothing goes live that has a dead link, runs inline, or loads from elsewhere."""

import pytest

from swapboard.disk.html_facts import facts_of
from swapboard.disk.verify import verify_pages

POLICY = (
    "default-src 'none'; img-src 'self'; style-src 'self'; script-src 'self'; base-uri 'none'"
)
HEAD = f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'


def faults(body, files=("a.html", "cards/b c.html", "x.css")):
    pages = {"a.html": HEAD + body, "cards/b c.html": HEAD + '<p id="here">'}
    found = verify_pages(["a.html"], files, lambda path: pages.get(path, ""))
    return [(p.must, p.got) for p in found]


@pytest.mark.parametrize(
    "body",
    [
        '<a href="cards/b%20c.html">',
        '<a href="cards/b%20c.html#here">',
        '<a href="#top"><b id="top">',
        '<a href="https://elsewhere.example/x" title="a > b">',
        '<a href="mailto:a@example.org">',
        '<link rel="stylesheet" href="x.css">',
        '<a href="a.html#theme=birds">',
        "<p>src=&quot;nowhere.png&quot; onclick=&quot;x&quot;</p>",
    ],
)
def test_a_good_page_has_no_fault(body):
    """Relative links, fragments, and links out are all in order."""
    assert faults(body) == []


@pytest.mark.parametrize(
    ("body", "word"),
    [
        ('<a href="cards/gone.html">', "exist"),
        ('<a href="../a.html">', "exist"),
        ('<a href="/a.html">', "exist"),
        ('<a href="cards/b%20c.html#nowhere">', "places"),
        ('<img srcset="x.css 1x, gone.avif 2x">', "exist"),
        ('<img src="https://elsewhere.example/p.png">', "elsewhere"),
        ('<img src="//elsewhere.example/p.png">', "elsewhere"),
        ('<link rel="stylesheet" href="https://elsewhere.example/x.css">', "elsewhere"),
        ("<script>alert(1)</script>", "inline"),
        ("<style>p{}</style>", "inline"),
        ('<p style="color:red">', "inline"),
        ('<p title="a>b" onclick="x()">', "inline"),
        ("<p ONCLICK=x()>", "inline"),
        ('<a href="JavaScript:x()">', "inline"),
        ('<a href=" java&#115;cript:x()">', "inline"),
        ('<iframe src="a.html"></iframe>', "inline"),
        ('<base href="https://elsewhere.example/">', "inline"),
    ],
)
def test_a_fault_is_found(body, word):
    """Each way out of the site, or of its policy, is named."""
    assert any(word in must for must, _ in faults(body))


def test_a_page_without_a_policy_is_a_fault():
    """Every page carries the strict policy itself."""
    found = verify_pages(["a.html"], ["a.html"], lambda path: "<p>hello</p>")
    assert any("policy" in problem.must for problem in found)


def test_facts_are_read_off_quoted_and_bare_values():
    """Single, double and no quotes are the same to a browser (HTML Living Standard 13.1.2.3)."""
    facts = facts_of("<a href='a.html'><a href=b.html><a href=\"c.html\"><i id=x>")
    assert facts.links == {"a.html", "b.html", "c.html"}
    assert facts.ids == {"x"}
