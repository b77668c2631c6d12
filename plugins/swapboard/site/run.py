"""One build of a board: what all its generators share."""

import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from swapboard.disk.staging import Staging
from swapboard.problems import Problem
from swapboard.site.fingerprint import Teller
from swapboard.site.kept_templates import KEPT
from swapboard.site.links import links_from, links_from_anywhere
from swapboard.site.quick_context import QuickContext
from swapboard.site.writing import MarkdownWriter, WritingRefused
from swapboard.views.showing import Showing
from swapboard.views.types import BoardView

NOT_FOUND = "404.html"


@dataclass(frozen=True, slots=True)
class Page:
    """A page to be: where it goes, the template that draws it, all that it shows."""

    path: str
    template: str
    view: Any


class PageRefused(Exception):
    """A page that cannot be drawn; `problem` names the post that it shows."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(str(problem))
        self.problem = problem


class BuildRun:
    """The board as it is shown, the site being staged, and how pages are drawn.

    `around` stands around every page; `recipe` is a digest of everything else
    that a page's bytes depend on: templates, our code, the libraries' versions.
    """

    def __init__(
        self, showing: Showing, staging: Staging, around: BoardView, recipe: str
    ) -> None:
        self.showing, self.staging, self.around = showing, staging, around
        self.recipe = hashlib.sha256(f"{recipe}\0{around!r}".encode()).hexdigest()
        self._templates: dict[str, Any] = {}
        self._environment: Any = None
        self._teller = Teller()

    def use(self, environment: Any) -> None:
        """Draw with Pelican's Jinja environment; the first generator's serves all."""
        if self._environment is None:
            prepare(environment, self.around.language)
            self._environment = environment

    def put_page(self, page: Page) -> None:
        """Have `page` in the site, drawn anew only where something it shows changed."""
        source = f"{self.recipe}\0{page.template}\0{page.path}\0{self._teller.told(page.view)}"
        fingerprint = hashlib.sha256(source.encode("utf-8", "surrogatepass")).hexdigest()
        self.staging.put(page.path, fingerprint, lambda: self._draw(page))

    def put_bytes(self, path: str, data: bytes) -> None:
        """Have a file in the site as it is."""
        self.staging.put(path, hashlib.sha256(data).hexdigest(), lambda: data)

    def _draw(self, page: Page) -> bytes:
        link = self._links(page.path)
        try:
            html = self._template(page.template).render(
                view=page.view,
                board=self.around,
                path=page.path,
                link=link,
                asset=lambda name: link(f"theme/{name}"),
            )
        except (WritingRefused, RecursionError) as error:
            must = "must hold text that can be drawn"
            fix = "write the text in a simpler way; most likely something is nested very deep"
            path = page.path.removesuffix(".html") + ".md"
            raise PageRefused(Problem(path, 0, "", must, str(error), fix)) from error
        return html.encode("utf-8")

    def _links(self, path: str) -> Callable[[str], str]:
        if path == NOT_FOUND:
            return links_from_anywhere(self.around.address)
        return links_from(path)

    def _template(self, name: str) -> Any:
        if name not in self._templates:
            self._templates[name] = self._environment.get_template(name)
        return self._templates[name]

    @cached_property
    def sections(self) -> frozenset[str]:
        """The kinds of page that this site has."""
        return self.showing.sections


def prepare(environment: Any, language: str) -> None:
    """Teach a Jinja environment our filters and the words of `language`."""
    from babel.dates import format_date
    from jinja2 import pass_context
    from markupsafe import Markup

    locale = language.replace("-", "_")
    writer = MarkdownWriter()
    environment.install_null_translations(newstyle=True)
    environment.auto_reload = False  # a build lasts seconds; an include need not ask the disk
    environment.bytecode_cache = KEPT
    environment.context_class = QuickContext

    @pass_context
    def markdown(context: Any, writing: Any) -> Any:
        return Markup(writer.html(writing, context["link"]))

    environment.filters["markdown"] = markdown
    environment.filters["day"] = lambda day: format_date(day, format="long", locale=locale)
