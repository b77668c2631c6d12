"""The Pelican plugins: the only importers of Pelican and Jinja.

Each module in `PLUGINS` adds one kind of page and can be left out.
"""

PLUGINS = (
    "swapboard.site.home",
    "swapboard.site.cards",
    "swapboard.site.calls",
    "swapboard.site.offers",
    "swapboard.site.swaps",
    "swapboard.site.makers",
    "swapboard.site.photos",
    "swapboard.site.filters",
    "swapboard.site.feeds",
    "swapboard.site.compose",
    "swapboard.site.calendar",
    "swapboard.site.announcements",
)
