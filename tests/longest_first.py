"""In which order files of tests are begun.

With several processes each takes the next file when it has done one. A file of a minute that
is begun last is waited for by all, so the longest go first: those of more than ten seconds
of processor time, as measured; where they stand among each other matters little.
"""

from pathlib import Path

LONGEST = """
first_hour/test_readme_hour.py
site/test_build.py
browser/test_accessible.py
photo/test_learned.py
browser/test_offer_to_received.py
browser/test_pages.py
browser/test_fix_page.py
browser/test_call_pages.py
dealing/test_uniform.py
site/test_histories.py
browser/test_filter.py
browser/test_finding.py
browser/test_compose.py
taking/test_ended.py
browser/test_compose_pictures.py
demo/test_studio.py
browser/test_hand.py
browser/test_deal.py
dealing/test_repair.py
matching/test_ways.py
site/test_killed.py
browser/test_sign_up_and_news.py
disk/test_photo_cache.py
browser/test_markup.py
matching/test_optimum.py
front/test_environment_for_real.py
hostile/test_disk.py
browser/test_round_seen.py
photo/test_finding.py
hostile/test_pictures_in_builds.py
privacy/test_planted_addresses.py
calls/test_host_at_work.py
cli/test_add_card.py
hostile/test_names.py
demo/test_hands.py
first_hour/test_publish.py
""".split()
_PLACES = {name: place for place, name in enumerate(LONGEST)}
_TESTS = Path(__file__).parent


def rank_of(file: Path) -> int:
    """The place of a file of tests, by which it is sorted; all that are not named come last."""
    name = file.relative_to(_TESTS).as_posix() if file.is_relative_to(_TESTS) else ""
    return _PLACES.get(name, len(_PLACES))
