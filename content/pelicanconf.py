"""For plain Pelican: `pelican -s pelicanconf.py` builds what `swapboard build` does."""

from swapboard.site.conf import settings_for

globals().update(settings_for(__file__))
