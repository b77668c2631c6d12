"""Atom feeds (RFC 4287): what is new on a board, for whoever likes to be told."""

import uuid
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from html import escape
from urllib.parse import quote, urljoin, urlsplit

from swapboard.views.types import Picture

MOST_ENTRIES = 30
_NO_DAY = date(1970, 1, 1)


def feed_path(page: str) -> str:
    """The feed that belongs to a page: themes/birds.html has feeds/themes/birds.xml."""
    return f"feeds/{'board' if page == 'index.html' else page.removesuffix('.html')}.xml"


@dataclass(frozen=True, slots=True)
class FeedEntry:
    """A card or a call as a feed shows it; `path` is its page."""

    path: str
    title: str
    by: str
    on: date | None
    words: tuple[str, ...] = ()
    picture: Picture | None = None


@dataclass(frozen=True, slots=True)
class Feed:
    """A feed to be: its own path, the page it belongs to, its entries newest first."""

    path: str
    page: str
    title: str
    entries: tuple[FeedEntry, ...]


def atom(feed: Feed, address: str, language: str) -> str:
    """The feed as an Atom document; the same feed always gives the same text.

    Links are absolute where the board has an `address`, else relative to the
    feed. An entry's id is a tag URI (RFC 4151) of the address's host, else a
    UUID of its path, and stays when titles and pictures change. A day is given
    as its first moment in UTC.
    """
    from feedgenerator import Atom1Feed

    def link(path: str) -> str:
        quoted = quote(path, safe="/-_.~")
        return urljoin(address, quoted) if address else "../" * feed.path.count("/") + quoted

    made = Atom1Feed(
        title=_clean(feed.title),
        link=link(feed.page),
        description=None,
        language=language,
        feed_url=link(feed.path),
        feed_guid=_identity(address, feed.path),
        author_name=_clean(feed.title),
    )
    for entry in feed.entries[:MOST_ENTRIES]:
        moment = datetime.combine(entry.on or _NO_DAY, time(), UTC)
        made.add_item(
            title=_clean(entry.title),
            link=link(entry.path),
            description=None,
            content=_content(entry, link),
            author_name=_clean(entry.by),
            pubdate=moment,
            updateddate=moment,
            unique_id=_identity(address, entry.path),
            categories=[_clean(word) for word in entry.words],
        )
    # The library would date a feed without entries by the clock.
    newest = max((entry.on or _NO_DAY for entry in feed.entries), default=_NO_DAY)
    made.latest_post_date = lambda: datetime.combine(newest, time(), UTC)
    return made.writeString("utf-8")


def _content(entry: FeedEntry, link) -> str:
    """The picture and the names, as HTML."""
    parts = []
    if entry.picture:
        path, width, height = entry.picture.jpeg
        parts.append(
            f'<p><a href="{escape(link(entry.path))}"><img src="{escape(link(path))}" '
            f'width="{width}" height="{height}" alt="{escape(entry.picture.alt)}"></a></p>'
        )
    words = ", ".join((entry.by, *entry.words))
    parts.append(f"<p>{escape(words)}</p>")
    return _clean("".join(parts))


def _identity(address: str, path: str) -> str:
    parts = urlsplit(address)
    if not parts.hostname:
        return uuid.uuid5(uuid.NAMESPACE_URL, path).urn
    # RFC 4151: a date on which the name was ours; the format's first year will do.
    return f"tag:{parts.hostname},2026:{quote(parts.path + path, safe='/-_.~')}"


def _clean(text: str) -> str:
    """Text without the control characters that XML 1.0 (section 2.2) forbids."""
    return "".join(c for c in text if c in "\t\n\r" or (c >= " " and c not in "\ufffe\uffff"))
