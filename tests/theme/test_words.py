"""Every interface word is marked for translation, and every code has its words."""

import re
from dataclasses import replace

import html5lib
import pytest

from swapboard.records.call_phase import PHASES
from swapboard.records.types import OfferState, State
from swapboard.views.types import Link, Moment
from theme import examples
from theme.rendering import component, environment, page

OPEN, CLOSE = "⟦", "⟧"
MARKED = re.compile(f"{OPEN}[^{OPEN}{CLOSE}]*{CLOSE}")
SPOKEN = ("alt", "aria-label", "title", "placeholder")
NOT_WORDS = {"path", "avif", "jpeg", "edge", "state", "phase", "what", "by", "chosen_by",
             "edition", "index", "newer", "older", "language", "direction", "sections",
             "code", "verdict"}  # fmt: skip


def wordless(value):
    """A view with a number in place of everything that people wrote; codes and paths stay."""
    if isinstance(value, str):
        return value if value in ("all", "theme", "medium") else "7"
    if isinstance(value, tuple):
        return tuple(map(wordless, value))
    if hasattr(value, "__dataclass_fields__"):
        names = [n for n in value.__dataclass_fields__ if n not in NOT_WORDS]
        if isinstance(getattr(value, "by", ""), Link):
            names.append("by")
        return replace(value, **{name: wordless(getattr(value, name)) for name in names})
    return value


def said_on(html: str) -> str:
    """All that a page says: its text, and attributes that are spoken or shown later."""
    tree = html5lib.parse(html, namespaceHTMLElements=False)
    for element in tree.iter():
        if element.get("translate") == "no":  # the form that `take` reads is the same everywhere
            element.text = ""
    said = ["".join(tree.find("head").find("title").itertext())]
    said += ["".join(tree.find("body").itertext())]
    for element in tree.iter():
        if element.tag == "meta" and element.get("name") == "description":
            said.append(element.get("content"))
        for name, value in element.attrib.items():
            if name in SPOKEN or "{" in value or name.endswith("alone"):
                said.append(value)
    return "\n".join(said)


@pytest.mark.parametrize("path", examples.pages())
def test_all_interface_words_are_marked_for_translation(path):
    """Whatever a page says that its view does not is passed through gettext."""
    marking = environment(
        lambda words: f"{OPEN}{words}{CLOSE}",
        lambda one, many, n: f"{OPEN}{one if n == 1 else many}{CLOSE}",
    )
    marking.filters["day"] = lambda day: "7"
    template, view = examples.pages()[path]
    board = replace(wordless(examples.board()), pages=(Link("7", "pages/about.html"),))
    said = said_on(page(template, wordless(view), board, path, marking))
    assert MARKED.search(said)
    rest = said
    while rest != (rest := MARKED.sub(" ", rest)):
        pass
    assert not re.findall(r".*[^\W\d_].*", rest)


@pytest.mark.parametrize(
    "macro, codes",
    [
        ("card_state", list(State)),
        ("card_state_at_length", list(State)),
        ("offer_state", list(OfferState)),
        ("call_phase", list(PHASES)),
        ("call_mark", ["extended", "run short"]),
        ("envelope", ["sealed", "mailed", "received", "lost"]),
        ("deal_method", ["settled", "bounds", "walk"]),
        ("moment", ["announced", "sign up by", "arrive by", "mail out by", "proposed", "agreed",
                    "declined", "withdrawn", "mailed", "received", "lost", "dealt", "opened",
                    "closed", "cancelled", "run short"]),
        ("by_way_of", ["post", "in person"]),
        ("offer_group", ["open", "agreed", "on their way", "complete", "ended"]),
        ("shape", ["upright", "wide"]),
        ("order", ["newest", "oldest", "title", "maker"]),
        ("chosen_by", ["host", "maker"]),
    ],
)  # fmt: skip
def test_every_code_has_words_of_its_own(macro, codes):
    """Each state, phase and event is said in words, no two alike, none left as its code."""
    said = [component(f"{macro}(code)", "words", examples.board(), code=str(c)) for c in codes]
    assert len(set(said)) == len(codes)
    assert all(words and words != str(code) for words, code in zip(said, codes, strict=True))


def test_word_order_is_left_to_the_translation():
    """A translation may put a maker's name before the event."""
    turned = environment(lambda words: words.replace("%(event)s by %(maker)s",
                                                     "%(maker)s: %(event)s"))  # fmt: skip
    stop = Moment("mailed", examples.date(2026, 10, 2), "past", examples.INES)
    template = turned.from_string(
        '{% from "components/moments.html" import what %}{{ what(link, stop) }}'
    )
    html = template.render(stop=stop, link=str)
    assert html == '<a href="makers/ines-okafor.html">Ines Okafor</a>: Mailed'
