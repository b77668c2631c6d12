"""Which pages of a site stand for all of them, and what they are looked at with."""

from pathlib import Path

AXE_RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
# How many pixels of a page lie outside the window, to the side.
STICKING = "document.documentElement.scrollWidth - document.documentElement.clientWidth"


def kinds_of_page(site: Path) -> list[str]:
    """One page of each kind, and the 404 page: the first by name in each folder."""
    found = sorted(file.relative_to(site).as_posix() for file in site.glob("*.html"))
    for folder in sorted(each for each in site.iterdir() if each.is_dir()):
        pages = sorted(file.relative_to(site).as_posix() for file in folder.glob("*.html"))
        found += pages[:1]
    assert len(found) >= 8
    return found


def axe_script() -> str:
    """axe-core as a script to run in a page."""
    import axe_playwright_python

    return (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text("utf-8")
