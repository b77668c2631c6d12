"""Other people's Markdown as safe HTML."""

from collections.abc import Callable

from swapboard.views.types import Writing

TAGS = frozenset(
    "a abbr b blockquote br cite code dd del dl dt em h3 h4 h5 h6 hr i ins kbd li ol p pre q s "
    "small strong sub sup table tbody td th thead tr u ul var".split()
)
_ATTRIBUTES = {"a": {"href", "title"}, "abbr": {"title"}, "ol": {"start"}, "td": set(), "th": set()}
_SCHEMES = ("https://", "http://", "mailto:")


class WritingRefused(Exception):
    """A text that the Markdown library cannot make sense of."""


class MarkdownWriter:
    """One Markdown reader for the whole run, and the allowlist behind it.

    Nothing that loads anything is allowed (no pictures, frames or styles), and
    a link leads to http, https, mailto or a post of this board; any other loses
    its address and keeps its words. Headings sink below the page's own.
    """

    def __init__(self) -> None:
        import nh3
        from markdown import Markdown

        self._clean = nh3.clean
        extensions = ["sane_lists", "smarty", "tables"]
        self._markdown = Markdown(extensions=extensions, output_format="html")

    def html(self, writing: Writing, link: Callable[[str], str]) -> str:
        """`writing` as HTML that is safe to put into a page; `link` makes links from it.

        Raises `WritingRefused`; `disk/body_limits.py` names what would take too long.
        """
        rendered = self._convert(writing.text)
        for level in (2, 1):
            rendered = rendered.replace(f"<h{level}>", f"<h{level + 2}>")
            rendered = rendered.replace(f"</h{level}>", f"</h{level + 2}>")
        known = dict(writing.links)

        def keep(tag: str, attribute: str, value: str) -> str | None:
            if (tag, attribute) != ("a", "href"):
                return value
            if value.lower().startswith(_SCHEMES):
                return value
            target = known.get(value.removeprefix("../").removeprefix("./"))
            return link(target) if target else None

        return self._clean(
            rendered,
            tags=set(TAGS),
            attributes=_ATTRIBUTES,
            attribute_filter=keep,
            url_schemes={"http", "https", "mailto"},
            link_rel="nofollow noopener noreferrer",
            generic_attribute_prefixes=set(),
        )

    def _convert(self, text: str) -> str:
        try:
            return self._markdown.reset().convert(text)
        except Exception as error:  # it has raised anything, for one odd text or another
            raise WritingRefused(f"{type(error).__name__}: {error}"[:200]) from error
