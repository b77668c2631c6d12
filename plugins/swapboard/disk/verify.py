"""The last look at a staged site: links, policy, private fields. Nothing goes live
that fails it."""

import posixpath
from collections.abc import Callable, Iterable
from functools import lru_cache
from pathlib import Path
from urllib.parse import unquote, urlsplit

from swapboard.disk import leaks
from swapboard.disk.contain import write_whole
from swapboard.disk.html_facts import HtmlFacts, facts_of
from swapboard.disk.staging import Staging
from swapboard.problems import Problem

_TEXT = (".html", ".js", ".css", ".xml", ".txt", ".ics", ".json", ".csv", ".svg")
_POLICY = ("default-src 'none'", "script-src 'self'", "style-src 'self'", "img-src 'self'",
           "base-uri 'none'")


def verify(staging: Staging, board: Path) -> list[Problem]:
    """Every fault of the staged site that this build can have brought in.

    A page that did not change since it was verified is looked at again only
    where a file it may point to is gone, or there is something new to look for.
    """
    fields, problems = leaks.private_fields(board)
    everything = sorted(path for path in staging.entries if path.endswith(_TEXT))
    pages = [path for path in (everything if staging.gone() else staging.rewritten)
             if path.endswith(".html")]
    problems += verify_pages(pages, staging.entries, lambda p: _read(staging.folder, p))
    noted = board / ".swapboard" / "verified"
    mark = leaks.fingerprint(fields)
    is_new = not noted.is_file() or noted.read_text("ascii", "replace") != mark
    scanned = everything if is_new else [p for p in staging.rewritten if p.endswith(_TEXT)]
    problems += find_leaks(scanned, fields, lambda p: _read(staging.folder, p))
    if not problems:
        write_whole(noted, mark.encode("ascii"))
    return problems


def verify_pages(
    pages: Iterable[str], files: Iterable[str], read: Callable[[str], str]
) -> list[Problem]:
    """Faults in `pages` of a site made of `files`: links and fragments that lead
    nowhere, anything inline, anything loaded from elsewhere, a weak policy."""
    known = set(files)
    facts: dict[str, HtmlFacts] = {}

    def facts_for(path: str) -> HtmlFacts:
        if path not in facts:
            facts[path] = facts_of(read(path))
        return facts[path]

    problems = []
    for page in pages:
        of_page = facts_for(page)
        problems += [_fault(page, "must run nothing inline", what) for what in of_page.runs]
        missing = [part for part in _POLICY if part not in (of_page.policy or "")]
        problems += [_fault(page, "must have a strict policy", part) for part in missing]
        problems += [
            _fault(page, "must load nothing from elsewhere", target)
            for target in of_page.loads
            if urlsplit(target).scheme or target.startswith("//")
        ]
        if page != "404.html":  # its links start at the host's root
            problems += _dead_links(page, of_page, known, facts_for)
    return problems


def find_leaks(
    paths: Iterable[str], fields: list[leaks.PrivateField], read: Callable[[str], str]
) -> list[Problem]:
    """Private fields that stand in the texts at `paths`. The message names the
    kind and the two places, never the value."""
    if not fields:
        return []
    scan = leaks.LeakScan(fields)
    return [leaks.told_of(field, path) for path in paths for field in scan.found_in(read(path))]


def _dead_links(
    page: str, of_page: HtmlFacts, known: set[str], facts_for: Callable[[str], HtmlFacts]
) -> list[Problem]:
    problems = []
    folder = posixpath.dirname(page)
    for target in sorted(of_page.links):
        file, fragment = _leads_to(folder, target)
        if file is None:
            continue
        if file and file not in known:
            problems.append(_fault(page, "must link to pages that exist", target))
        elif fragment and not _is_there(fragment, facts_for(file or page)):
            problems.append(_fault(page, "must link to places that exist", target))
    return problems


@lru_cache(maxsize=200_000)
def _leads_to(folder: str, target: str) -> tuple[str | None, str]:
    """The file that a link from a page in `folder` leads to ("" is the page
    itself, None is elsewhere), and the place in it."""
    parts = urlsplit(target)
    if parts.scheme or parts.netloc:
        return None, ""
    path = unquote(parts.path)
    file = posixpath.normpath(posixpath.join(folder, path)) if path else ""
    return file, unquote(parts.fragment)


def _is_there(fragment: str, facts: HtmlFacts) -> bool:
    # A fragment with "=" is state for a script to read, not a place.
    return "=" in fragment or fragment in facts.ids


def _fault(page: str, must: str, got: str) -> Problem:
    return Problem(f"output/{page}", 0, "", must, got,
                   "this is a fault of the theme or of Swapboard, not of a post: please report it")


def _read(folder: Path, path: str) -> str:
    return (folder / path).read_text("utf-8", "replace")
