"""For plain Pelican: `pelican -s site_demo/pelicanconf.py` builds what `swapboard build` does."""

from datetime import date

from swapboard.site.conf import settings_for
from swapboard.site.prepare import Wishes

globals().update(settings_for(__file__, wishes=Wishes(today=date(2026, 10, 10))))
