"""Renders templates from hand-made views, without a board or a build."""

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import html5lib
import jinja2
from babel.dates import format_date
from markupsafe import Markup, escape

from swapboard.site.links import links_from
from theme import examples

THEME = Path(__file__).parents[2] / "theme"
PAGES = examples.pages()


def environment(
    gettext: Callable[[str], str] = str,
    ngettext: Callable[[str, str, int], str] = lambda one, many, n: one if n == 1 else many,
) -> jinja2.Environment:
    """A Jinja environment set up as a build sets up its own, with given translations."""
    made = jinja2.Environment(
        loader=jinja2.FileSystemLoader(THEME / "templates"),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        extensions=["jinja2.ext.i18n"],
    )
    made.install_gettext_callables(gettext, ngettext, newstyle=True)
    made.filters["markdown"] = paragraphs
    made.filters["day"] = lambda day: format_date(day, format="long", locale="en")
    return made


@cache
def untranslated() -> jinja2.Environment:
    """The environment that most tests share: its templates are read once."""
    return environment()


def paragraphs(writing) -> Markup:
    """Text as paragraphs: enough of Markdown for looking at a page."""
    blocks = re.split(r"\n\s*\n", writing.text.strip())
    return Markup("\n").join(Markup("<p>{}</p>").format(escape(block)) for block in blocks)


def page(template: str, view, board, path: str, within: jinja2.Environment | None = None) -> str:
    """The whole page `path`, as its template draws `view`."""
    return (within or untranslated()).get_template(template).render(
        **context(board, path), view=view
    )


def component(call: str, imports: str, board, path: str = "index.html", **values) -> str:
    """What one macro draws: `imports` is its file, `call` how it is called."""
    name = call.partition("(")[0]
    source = f'{{% from "components/{imports}.html" import {name} %}}{{{{ {call} }}}}'
    return untranslated().from_string(source).render(**context(board, path), **values)


def context(board, path: str) -> dict:
    """What every template is given beside its view."""
    link = links_from(path)
    return {
        "board": board,
        "path": path,
        "link": link,
        "asset": lambda name: link(f"theme/{name}"),
    }


def drawn(path: str, **changes):
    """The page `path`, its view changed as asked, as a tree without namespaces."""
    template, view = PAGES[path]
    return parsed(page(template, replace(view, **changes), examples.board(), path))


def parsed(html: str):
    """A whole document, which must be free of parse errors (WHATWG HTML, 13.2)."""
    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(html)


def text(element) -> str:
    """All text in an element, spaces collapsed."""
    return " ".join("".join(element.itertext()).split())


def classed(tree, name: str) -> list:
    """All elements with a class, in order."""
    return [e for e in tree.iter() if isinstance(e.tag, str) and name in e.get("class", "").split()]
