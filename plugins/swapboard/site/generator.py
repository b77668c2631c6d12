"""The generator that all kinds of page share."""

from collections.abc import Iterator
from typing import Any

from pelican.generators import Generator

from swapboard.site.run import BuildRun, Page


class BoardGenerator(Generator):
    """Draws the pages of one kind. A plugin says which in `pages`.

    `section` is the kind whose pages these are; a site built without that
    plugin has none of them, and no link to any.
    """

    section = ""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.run: BuildRun = self.settings["SWAPBOARD_RUN"]
        self.run.use(self.env)

    def pages(self) -> Iterator[Page]:
        """Every page of this kind."""
        yield from ()

    def generate_output(self, writer: Any) -> None:
        """Put this generator's pages into the site being staged.

        Pelican's writer is not used: it knows no manifest, and would write
        straight into the site that visitors see.
        """
        if not self.section or self.section in self.run.sections:
            for page in self.pages():
                self.run.put_page(page)
