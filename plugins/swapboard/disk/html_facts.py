"""What a page links to, can be linked at, and would run: read off its HTML."""

import re
from dataclasses import dataclass
from functools import lru_cache
from html import unescape

# A tag with quoted values that may hold ">" (HTML Living Standard, 13.1.2).
_TAG = re.compile(r"<([a-zA-Z][^\s/>]*)((?:[^>\"']|\"[^\"]*\"|'[^']*')*)>")
_ATTRIBUTE = re.compile(
    r"([^\s\"'<>/=]+)(?:\s*=\s*(?:\"([^\"]*)\"|'([^']*)'|([^\s\"'=<>`]+)))?"
)
_LINKING = frozenset(
    "href src srcset imagesrcset poster action formaction cite data background ping".split()
)
_LOADING = frozenset("src srcset imagesrcset poster data background".split())
_LISTS = frozenset(("srcset", "imagesrcset"))
_HARMLESS = frozenset("class width height alt datetime lang dir title rel type name value".split())
_FOLLOWED = frozenset("a area blockquote q ins del form button".split())
_FORBIDDEN = frozenset("style iframe object embed base frame".split())
_SCRIPT_SCHEME = re.compile(r"[\s\x00-\x1f]*(?:javascript|data|vbscript):", re.I)


@dataclass(frozen=True, slots=True)
class HtmlFacts:
    """`links` are targets as written, unescaped; `loads` those among them that a
    browser fetches by itself; `ids` what a fragment can name; `runs` everything
    that a strict content security policy would have to allow inline; `policy`
    what the page's own policy says, None where it has none."""

    links: frozenset[str]
    loads: frozenset[str]
    ids: frozenset[str]
    runs: tuple[str, ...]
    policy: str | None


def facts_of(html: str) -> HtmlFacts:
    """The facts of one page, in one pass, without building a tree."""
    links: set[str] = set()
    loads: set[str] = set()
    ids: set[str] = set()
    runs: list[str] = []
    policy = None
    for name, rest in _TAG.findall(html):
        found = _of_tag(name, rest)
        if found is None:
            continue
        links |= found.links
        loads |= found.loads
        ids |= found.ids
        runs += found.runs
        if found.policy is not None:
            policy = found.policy
    return HtmlFacts(frozenset(links), frozenset(loads), frozenset(ids), tuple(runs), policy)


@lru_cache(maxsize=100_000)  # most tags of a page stand on many others
def _of_tag(name: str, rest: str) -> HtmlFacts | None:
    """The facts of one opening tag, None where it has none."""
    tag, attributes = name.lower(), _attributes(rest)
    links: set[str] = set()
    loads: set[str] = set()
    for key in attributes.keys() & _LINKING:
        targets = _targets(key, attributes[key])
        links.update(targets)
        if _is_loaded(tag, key, attributes):
            loads.update(targets)
    ids = frozenset((attributes["id"],)) if "id" in attributes else frozenset()
    runs = tuple(_runs(tag, attributes))
    policy = None
    if tag == "meta" and attributes.get("http-equiv", "").lower() == "content-security-policy":
        policy = attributes.get("content", "")
    if not (links or ids or runs) and policy is None:
        return None
    return HtmlFacts(frozenset(links), frozenset(loads), ids, runs, policy)


def _attributes(rest: str) -> dict[str, str]:
    """Attributes by name, the first of a name counting (HTML Living Standard,
    13.2.5.33), without those that can neither load, link nor run."""
    found: dict[str, str] = {}
    for key, double, single, bare in _ATTRIBUTE.findall(rest):
        key = key.lower()
        if (key not in _HARMLESS or key == "rel") and key not in found:
            found[key] = unescape(double or single or bare)
    return found


def _targets(key: str, value: str) -> list[str]:
    if key in _LISTS:
        return [part.split()[0] for part in value.split(",") if part.strip()]
    return [value.strip()]


def _is_loaded(tag: str, key: str, attributes: dict[str, str]) -> bool:
    if key in _LOADING:
        return True
    if key != "href" or tag in _FOLLOWED:
        return False
    return tag != "link" or "canonical" not in attributes.get("rel", "")


def _runs(tag: str, attributes: dict[str, str]) -> list[str]:
    found = [f"<{tag} {key}>" for key in attributes if key[:2] == "on" or key == "style"]
    if tag in _FORBIDDEN or (tag == "script" and "src" not in attributes):
        found.append(f"<{tag}>")
    if attributes.get("http-equiv", "").lower() == "refresh":
        found.append("<meta refresh>")
    found += [
        f"<{tag} {key}={attributes[key][:20]}>"
        for key in attributes.keys() & _LINKING
        if _SCRIPT_SCHEME.match(attributes[key])
    ]
    return found
