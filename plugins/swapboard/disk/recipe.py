"""What a page's bytes depend on beside what it shows."""

import hashlib
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

_LIBRARIES = ("babel", "jinja2", "markdown", "markupsafe", "nh3", "pelican")


def page_recipe(templates: Path) -> str:
    """A digest of the templates, of our own code and of the libraries that draw pages."""
    digest = hashlib.sha256()
    for folder, pattern in ((templates, "*.html"), (_package(), "*.py")):
        for file in sorted(folder.rglob(pattern)):
            digest.update(f"{file.relative_to(folder).as_posix()}\0".encode())
            digest.update(hashlib.sha256(file.read_bytes()).digest())
    digest.update(_versions().encode())
    return digest.hexdigest()


@cache
def _versions() -> str:
    found = []
    for name in _LIBRARIES:
        try:
            found.append(f"{name} {version(name)}")
        except PackageNotFoundError:
            found.append(name)
    return "\n".join(found)


def _package() -> Path:
    return Path(__file__).resolve().parents[1]
