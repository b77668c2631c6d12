"""HTML, scripts and template code in every field stay words."""

import json
import re
from xml.etree import ElementTree

import html5lib
import pytest

from hostile.small_board import build, make
from swapboard.site.writing import TAGS

SCRIPT = "<script>alert(1)</script>"
BREAKS = "\"'><img src=x onerror=alert(2)>"
CODE = "{{ 7*191 }}{% raw %}&lt;b&gt;"
ALL = f"{SCRIPT}{BREAKS}{CODE}"
MARKDOWN = f"""{ALL}

# {ALL}

* [x](javascript:alert(1)) [y](JaVaScRiPt:alert(1)) [z](data:text/html,{SCRIPT})
* [w](//evil.example/) [v](vbscript:x) <javascript:alert(1)> ![i](http://evil.example/i.png)
* [a](java\tscript:alert(1)) [b](&#106;avascript:alert(1)) [c]( javascript:x) [d](http://[)
* <a href="&#x6a;avascript:alert(1)" onclick=x style=x id=main name=y class=z>link</a>

<style>body{{}}</style><iframe src=//evil.example></iframe><object data=x></object><embed src=x>
<svg onload=alert(1)><script>1</script></svg><math><mi xlink:href="javascript:x">m</mi></math>
<form action=//evil.example><input name=x><button formaction=x>b</button></form><base href=//evil>
<meta http-equiv=refresh content="0;url=//evil.example"><link rel=stylesheet href=//evil.example>
<img src=x onerror=alert(1)><video src=x></video><a href="x" target=_blank ping=//evil>p</a>
<noscript><p title="</noscript><img src=x onerror=alert(1)>"><!--><img src=x onerror=alert(1)>
<template><script>1</script></template><plaintext><xmp><textarea></textarea><img src=x onerror=1>

`{CODE}`

{SCRIPT}
"""
TEXT = f"x {ALL}"
FILES = {
    "board.toml": f"format = 1\n[board]\nname = '''{TEXT}'''\nabout = '''{TEXT}'''\n"
                  f"address = \"https://cards.example/a/\"\n[words]\nmedia = ['''{TEXT[:59]}''']\n",
    "makers/keeper.md": f"Name: {TEXT}\nHousehold: {TEXT}\nLikes: {TEXT}\nRather not: {TEXT[:79]}\n"
                        f"Links: https://a.example/?q=<script>\n\n{MARKDOWN}",
    "makers/ada.md": f"Name: Ada {TEXT[:80]}\nLinks: https://a.example/?q='onclick=alert(1)\n",
    "cards/heron.md": f"Title: {TEXT}\nAlt: {TEXT}\nThemes: {TEXT[:79]}\nMedia: {TEXT[:59]}\n"
                      f"On: {TEXT}\nSeries: {TEXT}\nDay: 3\nWants: {TEXT}\n\n{MARKDOWN}",
    "calls/lights.md": f"Title: {TEXT}\nTheme: {TEXT}\nPlace: {TEXT}\nHour: 14:00\nSend: 2\n"
                       f"By: in person\nNot: {TEXT}\nMust have: {TEXT}\nThickness: {TEXT}\n"
                       f"Return postage: Poland: {TEXT}\n\n{MARKDOWN}",
    "calls/lights.people.csv": f'maker,cards,note\n"{TEXT.replace(chr(34), chr(34) * 2)}",2,'
                               f'"{TEXT.replace(chr(34), chr(34) * 2)}"\n',
    "offers/swap.md": f"Title: {TEXT}\nFrom: keeper\nTo: ada\nGives: heron\nAsks: fog\n"
                      f"2026-10-01: proposed\n\n{MARKDOWN}",
    "pages/about.md": f"Title: {TEXT}\n\n{MARKDOWN}",
}
FORBIDDEN = set("style iframe object embed base math video xmp plaintext".split())


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """The hostile board, built with whatever could be kept of it."""
    board = make(tmp_path_factory.mktemp("hostile") / "board", FILES)
    built = build(board, set_aside=True)
    if not built.done or built.left_out:  # the two addresses with marks in them are refused
        for name in ("keeper", "ada"):
            file = board / "makers" / f"{name}.md"
            kept = [x for x in file.read_text().splitlines() if not x.startswith("Links")]
            file.write_text("\n".join(kept) + "\n")
        built = build(board)
    assert built.done, "\n".join(map(str, built.problems))
    return board / "output"


def pages(site):
    return sorted(site.rglob("*.html"))


def test_every_kind_of_post_has_its_page(site):
    """Nothing of the hostile board was dropped on the way."""
    for path in ("cards/heron", "calls/lights", "offers/swap", "makers/keeper", "pages/about"):
        assert (site / f"{path}.html").is_file()


def test_no_page_runs_or_loads_anything_of_a_posts(site):
    """As a browser's parser reads it: no script, handler, style or picture from a post."""
    for page in pages(site):
        tree = html5lib.parse(page.read_text("utf-8"), namespaceHTMLElements=False)
        for element in tree.iter():
            if not isinstance(element.tag, str):
                continue
            where = f"{page.name}: <{element.tag} {element.attrib}>"
            assert element.tag not in FORBIDDEN, where
            if element.tag == "img":
                assert re.match(r"(\.\./)*theme/|/a/theme/", element.get("src")), where
            if element.tag == "script":
                assert not (element.text or "").strip(), where
                assert re.match(r"(\.\./)*(theme|data)/|/a/", element.get("src")), where
            for key, value in element.attrib.items():
                assert not str(key).lower().startswith("on"), where
                assert str(key) not in ("style", "ping", "target", "formaction"), where
                if key in ("href", "src", "action"):
                    scheme = re.match(r"\s*([a-z]+):", value, re.I)
                    assert scheme is None or scheme[1].lower() in ("http", "https", "mailto"), where
                    assert not value.strip().startswith("//"), where


def test_what_somebody_wrote_holds_only_plain_tags(site):
    """Within a post's own text there are words, links and lists, and nothing with a name."""
    seen = 0
    for page in pages(site):
        tree = html5lib.parse(page.read_text("utf-8"), namespaceHTMLElements=False)
        for writing in (e for e in tree.iter() if e.get("class") == "writing"):
            seen += 1
            inner = [e for e in writing.iter() if isinstance(e.tag, str)][1:]
            assert {element.tag for element in inner} <= TAGS
            assert not {key for element in inner for key in element.attrib} & {"id", "name"}
    assert seen >= 5


def test_words_are_shown_as_they_were_written(site):
    """Escaped, not removed: a visitor reads the very marks that the post holds."""
    for path in ("cards/heron", "calls/lights", "offers/swap", "makers/keeper", "pages/about"):
        tree = html5lib.parse((site / f"{path}.html").read_text(), namespaceHTMLElements=False)
        heading = "".join(tree.find(".//h1").itertext())
        assert ALL in heading
        assert "1337" not in "".join(tree.itertext())


def test_the_people_of_a_call_are_words_too(site):
    """Names and notes of the table are escaped like anything else."""
    html = (site / "calls" / "lights.html").read_text()
    tree = html5lib.parse(html, namespaceHTMLElements=False)
    row = tree.find(".//tbody/tr/th")
    note = row.find("span[@class='people__note']")
    assert row.text.strip() == TEXT and "".join(note.itertext()) == TEXT


def test_the_filters_data_is_inert(site):
    """The script's data is one call of one function with JSON that holds no tag."""
    text = (site / "data" / "cards.js").read_text("utf-8")
    assert "<" not in text
    data = json.loads(text.removeprefix("swapboardCards(").removesuffix(");\n"))
    assert TEXT in [card["title"] for card in data["cards"]]


def test_other_files_hold_no_markup_of_a_posts(site):
    """Feeds and other XML parse, and hold the words as words."""
    for file in [*site.rglob("*.xml"), *site.rglob("*.svg")]:
        tree = ElementTree.parse(file)
        assert not [e for e in tree.iter() if e.tag.rpartition("}")[2] in ("script", "img")]
