"""Other people's Markdown is hostile until it is sanitised."""

import html5lib
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from swapboard.disk.html_facts import facts_of
from swapboard.site.links import links_from
from swapboard.site.writing import TAGS, MarkdownWriter
from swapboard.views.types import Writing

WRITER = MarkdownWriter()


def html(text, links=()):
    return WRITER.html(Writing(text, links), links_from("cards/heron.html"))


ATTACKS = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "![x](https://elsewhere.example/pixel.gif)",
    "![x](//elsewhere.example/pixel.gif)",
    "[x](javascript:alert(1))",
    "[x](JaVaScRiPt:alert(1))",
    "[x](java\tscript:alert(1))",
    "[x](&#106;avascript:alert(1))",
    "[x](data:text/html,<script>alert(1)</script>)",
    "[x](vbscript:x)",
    "[x](//elsewhere.example/)",
    "[x](\\\\elsewhere.example\\)",
    "[x](file:///etc/passwd)",
    "<a href='javascript:x()'>x</a>",
    "<svg><script>alert(1)</script></svg>",
    "<math><mtext><table><mglyph><style><img src=x onerror=alert(1)>",
    "<iframe src=https://elsewhere.example></iframe>",
    "<form action=https://elsewhere.example><input name=q></form>",
    "<style>body{display:none}</style>",
    "<p style='position:fixed'>x</p>",
    "<p id=main class=page>x</p>",
    "<base href=https://elsewhere.example>",
    "<meta http-equiv=refresh content=0;https://elsewhere.example>",
    "<link rel=stylesheet href=https://elsewhere.example/x.css>",
    "<object data=x><embed src=x></object>",
    "<video src=https://elsewhere.example/v poster=https://elsewhere.example/p></video>",
    "<!--><script>alert(1)</script>-->",
    "</main></body></html><script>alert(1)</script>",
    "`<script>`\n\n    <script>alert(1)</script>",
    "[x]: javascript:alert(1)\n\n[x]",
    "<javascript:alert(1)>",
    "<noscript><p title='</noscript><img src=x onerror=alert(1)>'>",
    "{{ board }} {% include 'base.html' %}",
]


@pytest.mark.parametrize("attack", ATTACKS)
def test_nothing_runs_and_nothing_loads(attack):
    """No attack leaves anything that runs, loads, names itself or closes our page."""
    made = html(attack)
    facts = facts_of(made)
    assert facts.runs == () and not facts.loads and not facts.ids
    assert all(link.startswith(("http://", "https://", "mailto:")) for link in facts.links)
    elements = {e.tag for e in html5lib.parseFragment(made, namespaceHTMLElements=False).iter()}
    assert elements - {"DOCUMENT_FRAGMENT"} <= TAGS


MARKS = ["*", "_", "`", "[", "](", ")", "\n\n", "> ", "- ", "<", "&", '"', "a"]


@settings(max_examples=150, deadline=None)
@given(st.lists(st.sampled_from([*ATTACKS, *MARKS]), max_size=12))
def test_no_mixture_of_attacks_gets_through(parts):
    """Attacks spliced into each other and into Markdown's own marks."""
    made = html("".join(parts))
    facts = facts_of(made)
    assert facts.runs == () and not facts.loads and not facts.ids


def test_ordinary_markdown_is_kept():
    """Paragraphs, emphasis, lists, quotes, tables and links out."""
    made = html("Some *ink* and **wax**.\n\n- one\n- two\n\n> said\n\n[shop](https://a.example/)")
    for part in ("<em>ink</em>", "<strong>wax</strong>", "<li>one</li>", "<blockquote>"):
        assert part in made
    assert 'href="https://a.example/"' in made and "nofollow" in made


def test_headings_sink_below_the_page_title():
    """A post's own # never competes with the page's one h1."""
    made = html("# One\n\n## Two\n\n### Three")
    assert "<h3>One</h3>" in made and "<h4>Two</h4>" in made
    assert "<h1" not in made and "<h2" not in made


def test_links_to_posts_become_links_to_their_pages():
    """cards/moth.md leads to the card's page, from wherever the text is shown."""
    links = (("cards/moth.md", "cards/moth.html"),)
    assert 'href="../cards/moth.html"' in html("[moth](cards/moth.md)", links)
    assert 'href="../cards/moth.html"' in html("[moth](../cards/moth.md)", links)
    assert "href" not in html("[gone](cards/gone.md)", links)


def test_one_reader_serves_all_posts():
    """What one post defines is unknown to the next."""
    html("[ref]: https://a.example/\n\n[ref]")
    assert "a.example" not in html("[ref]")
