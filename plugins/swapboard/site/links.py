"""Links between pages of one site, as every page writes them."""

from collections.abc import Callable
from functools import cache, lru_cache
from urllib.parse import quote, urlsplit

_KEPT = "/-_.~"  # what RFC 3986 calls unreserved, and the slash


def links_from(page: str) -> Callable[[str], str]:
    """A function that turns a path of this site into a link from `page`.

    Links are relative, so that a site works from any folder of any host and
    from file://. Both paths are relative to the site's root.
    """
    return _links_from_depth(page.count("/"))


@cache
def _links_from_depth(depth: int) -> Callable[[str], str]:
    up = "../" * depth

    @lru_cache(maxsize=200_000)  # the same few links stand on every page
    def link(path: str) -> str:
        target, mark, fragment = path.partition("#")
        return f"{up if target else ''}{quote(target, safe=_KEPT)}{mark}{quote(fragment)}"

    return link


def links_from_anywhere(address: str) -> Callable[[str], str]:
    """Links for the page that a host shows in place of a missing one, at any
    depth: they start at the host's root, under the path of the board's address."""
    top = urlsplit(address).path or "/"

    def link(path: str) -> str:
        return f"{top.rstrip('/')}/{quote(path, safe=_KEPT + '#')}"

    return link
