"""A board's Pelican settings: all that its pelicanconf.py needs."""

import os
from pathlib import Path
from typing import Any

from jinja2 import StrictUndefined

from swapboard.disk.resources import theme_folder
from swapboard.site import PLUGINS
from swapboard.site.kept_templates import KEPT
from swapboard.site.pelican_class import SwapboardPelican
from swapboard.site.prepare import Wishes


def settings_for(
    board: str | os.PathLike[str], output: Path | None = None, wishes: Wishes | None = None
) -> dict[str, Any]:
    """Pelican settings for the board in the folder `board` (or the folder of the
    file `board`, so that a pelicanconf.py can pass its own name)."""
    folder = Path(board).resolve()
    if folder.is_file():
        folder = folder.parent
    nothing: dict[str, Any] = dict.fromkeys(
        ("ARTICLE_PATHS", "PAGE_PATHS", "STATIC_PATHS", "THEME_STATIC_PATHS", "DIRECT_TEMPLATES"),
        [],
    )
    no_feeds = dict.fromkeys(
        ("FEED_ALL_ATOM", "CATEGORY_FEED_ATOM", "TRANSLATION_FEED_ATOM", "AUTHOR_FEED_ATOM",
         "AUTHOR_FEED_RSS")
    )
    return {
        **nothing,
        **no_feeds,
        "PATH": str(folder),
        "OUTPUT_PATH": str(output or folder / "output"),
        "THEME": str(theme_folder()),
        "PLUGINS": list(PLUGINS),
        "PELICAN_CLASS": SwapboardPelican,
        "DELETE_OUTPUT_DIRECTORY": False,
        "LOAD_CONTENT_CACHE": False,
        "CACHE_CONTENT": False,
        "SITEURL": "",
        "TIMEZONE": "UTC",
        "JINJA_ENVIRONMENT": {
            "autoescape": True,
            "undefined": StrictUndefined,
            "trim_blocks": True,
            "lstrip_blocks": True,
            "extensions": ["jinja2.ext.i18n"],
            "bytecode_cache": KEPT,  # Pelican's own generators compile templates too
        },
        "SWAPBOARD_WISHES": wishes or Wishes(),
    }
