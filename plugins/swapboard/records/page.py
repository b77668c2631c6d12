"""pages/NAME.md: text → a page of the keeper's own."""

from swapboard.problems import Problem
from swapboard.records.header import Keys
from swapboard.records.names import title_of
from swapboard.records.post import open_post
from swapboard.records.types import TextPage
from swapboard.settings import Settings

PAGE_KEYS = Keys(("Title",), {"name": "Title"})


def read_page(path: str, text: str, settings: Settings) -> tuple[TextPage, list[Problem]]:
    """A page as its post has it; its title defaults to its name."""
    name, header, fields = open_post(path, text, PAGE_KEYS)
    title = fields.text("Title") or title_of(name)
    return TextPage(name, path, title, header.body, fields.lines(header)), fields.problems
