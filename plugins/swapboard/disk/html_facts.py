"""What a page links to, can be linked at, and would run: read off its HTML."""

import re
from dataclasses import dataclass
from html import unescape

# A tag with quoted values that may hold ">" (HTML Living Standard, 13.1.2).
_TAG = re.compile(r"<(/?)([a-zA-Z][^\s/>]*)((?:[^>\"']|\"[^\"]*\"|'[^']*')*)>")
_ATTRIBUTE = re.compile(
    r"([^\s\"'<>/=]+)(?:\s*=\s*(?:\"([^\"]*)\"|'([^']*)'|([^\s\"'=<>`]+)))?"
)
_LINKING = {"href", "src", "poster", "action", "formaction", "cite", "data", "background", "ping"}
_LOADING = {"src", "srcset", "poster", "data", "background"}
_NOT_LOADED = {"a", "area", "blockquote", "q", "ins", "del", "form", "button"}


@dataclass(frozen=True, slots=True)
class HtmlFacts:
    """`links` are targets as written, unescaped; `loads` those among them that a
    browser fetches by itself; `ids` what a fragment can name; `runs` everything
    that a strict content security policy would have to allow inline."""

    links: tuple[str, ...]
    loads: tuple[str, ...]
    ids: frozenset[str]
    runs: tuple[str, ...]
    policy: str | None


def facts_of(html: str) -> HtmlFacts:
    """The facts of one page, in one pass, without building a tree."""
    links: list[str] = []
    loads: list[str] = []
    ids: set[str] = set()
    runs: list[str] = []
    policy = None
    for closing, name, rest in _TAG.findall(html):
        if closing:
            continue
        tag = name.lower()
        attributes = _attributes(rest)
        if tag == "meta" and attributes.get("http-equiv", "").lower() == "content-security-policy":
            policy = attributes.get("content", "")
        if "id" in attributes:
            ids.add(attributes["id"])
        for key, value in attributes.items():
            targets = _targets(key, value)
            links += targets
            if key in _LOADING or (key == "href" and tag not in _NOT_LOADED and tag != "link"):
                loads += targets
            if key == "href" and tag == "link" and "canonical" not in attributes.get("rel", ""):
                loads += targets
        runs += _runs(tag, attributes)
    return HtmlFacts(tuple(links), tuple(loads), frozenset(ids), tuple(runs), policy)


def _attributes(rest: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for key, double, single, bare in _ATTRIBUTE.findall(rest):
        found.setdefault(key.lower(), unescape(double or single or bare))
    return found


def _targets(key: str, value: str) -> list[str]:
    if key in ("srcset", "imagesrcset"):
        return [part.split()[0] for part in value.split(",") if part.strip()]
    return [value.strip()] if key in _LINKING else []


def _runs(tag: str, attributes: dict[str, str]) -> list[str]:
    found = [f"<{tag} {key}>" for key in attributes if key.startswith("on") or key == "style"]
    if tag == "style" or (tag == "script" and "src" not in attributes):
        found.append(f"<{tag}>")
    if tag in ("iframe", "object", "embed", "base", "frame"):
        found.append(f"<{tag}>")
    if attributes.get("http-equiv", "").lower() == "refresh":
        found.append("<meta refresh>")
    scheme = re.compile(r"[\s\x00-\x1f]*(javascript|data|vbscript):", re.I)
    found += [f"<{tag} {key}={value[:20]}>" for key, value in attributes.items() if scheme.match(value)]
    return found
