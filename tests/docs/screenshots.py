"""Makes the README's pictures from the built demo: `python tests/docs/screenshots.py`.

Build the demo first (`python3 site_demo --once`). The same site and browser give
the same pictures; each is kept below `LARGEST` bytes.
"""

import io
import os
import shutil
from pathlib import Path

REPO = Path(__file__).resolve().parents[2]
SITE = REPO / "site_demo" / "output"
PICTURES = REPO / "site_demo" / "screenshots"
VIEW = {"width": 1120, "height": 840}
LARGEST = 120_000
# Each picture's name, the pages it may show (the first that is there), and the theme
# that its filter is set to.
PAGES = (
    ("home", ("index.html",), ""),
    ("cards", ("cards.html",), "night"),
    ("call", ("calls/small-lights.html", "calls/*.html"), ""),
    ("offer", ("offers/estuary-and-harbour.html", "offers/*.html"), ""),
)


def page_for(patterns: tuple[str, ...], site: Path = SITE) -> Path:
    """The first page that a pattern finds; FileNotFoundError where none does."""
    for pattern in patterns:
        for found in sorted(site.glob(pattern)):
            return found
    raise FileNotFoundError(f"{site} has no {patterns[-1]}: build the demo first")


def small_enough(png: bytes) -> bytes:
    """The picture as a JPEG below `LARGEST` bytes, as good as fits."""
    from PIL import Image

    picture = Image.open(io.BytesIO(png)).convert("RGB")
    for quality in range(88, 40, -4):
        data = io.BytesIO()
        picture.save(data, "JPEG", quality=quality, optimize=True, progressive=True)
        if data.tell() < LARGEST:
            return data.getvalue()
    raise ValueError("a screenshot does not fit: make VIEW smaller")


def show_filter(page, theme: str) -> None:
    """Open the filter, choose a theme, and scroll to where filter and cards meet."""
    page.locator("main summary").first.click()
    page.locator("main label", has_text=theme).first.click()
    page.mouse.move(0, 0)
    page.locator("main [role=status]").first.evaluate(
        "count => scrollTo(0, count.getBoundingClientRect().top + scrollY - innerHeight / 3)"
    )


def take(site: Path = SITE, folder: Path = PICTURES) -> list[Path]:
    """Take every picture; the files that were written, in order."""
    from playwright.sync_api import sync_playwright

    names = ("chromium", "chromium-browser", "google-chrome")
    found = os.environ.get("SWAPBOARD_BROWSER") or next(
        filter(None, map(shutil.which, names)), None
    )
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=found, args=["--no-sandbox", "--disable-dev-shm-usage"]
        )
        context = browser.new_context(
            viewport=VIEW, color_scheme="light", reduced_motion="reduce", locale="en-GB"
        )
        page = context.new_page()
        for name, patterns, theme in PAGES:
            page.goto(page_for(patterns, site).as_uri())
            if theme:
                show_filter(page, theme)
            page.evaluate("document.fonts.ready")
            page.wait_for_load_state("networkidle")
            file = folder / f"{name}.jpg"
            file.write_bytes(small_enough(page.screenshot()))
            written.append(file)
        browser.close()
    return written


if __name__ == "__main__":
    for file in take():
        print(f"{file.relative_to(REPO)}: {file.stat().st_size // 1000} kB")
