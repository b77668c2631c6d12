"""What a page's bytes depend on beside what it shows."""

import hashlib
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

_LIBRARIES = ("babel", "jinja2", "markdown", "markupsafe", "nh3", "pelican")


def page_recipe(templates: Path) -> str:
    """A digest of the templates, of our own code and of the libraries that draw pages."""
    return hashlib.sha256(f"{_digest(templates, '*.html')}\n{_our_own()}".encode()).hexdigest()


@cache
def _our_own() -> str:
    """Of the code as it was first asked for: what runs is what was imported by then, whatever
    has been written to its files since."""
    return f"{_digest(Path(__file__).resolve().parents[1], '*.py')}\n{_versions()}"


def _digest(folder: Path, pattern: str) -> str:
    digest = hashlib.sha256()
    for file in sorted(folder.rglob(pattern)):
        digest.update(f"{file.relative_to(folder).as_posix()}\0".encode())
        digest.update(hashlib.sha256(file.read_bytes()).digest())
    return digest.hexdigest()


def _versions() -> str:
    found = []
    for name in _LIBRARIES:
        try:
            found.append(f"{name} {version(name)}")
        except PackageNotFoundError:
            found.append(name)
    return "\n".join(found)
