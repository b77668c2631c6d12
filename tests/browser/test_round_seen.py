"""One whole swap by commands alone, its pages looked at in a real Chromium in every phase."""

from datetime import datetime

import pytest

from calls.round import STEPS, Host, new_board

pytestmark = pytest.mark.browser
FITS = "() => document.documentElement.scrollWidth <= innerWidth"


class Seeing(Host):
    """A host who looks at each page that a step asks for, on a phone and on a desk."""

    def __init__(self, board, pages) -> None:
        super().__init__(board)
        self.pages, self.told = pages, []

    def builds(self, today: str) -> None:
        """Build, and have it be that day for the readers as well."""
        super().builds(today)
        for page in self.pages:
            page.clock.set_fixed_time(datetime.fromisoformat(f"{today}T12:00:00Z"))

    def page(self, path: str) -> str:
        """The page, when it was seen to fit, and what it says of the swap's phase."""
        for page in self.pages:
            page.goto((self.board / "output" / path).as_uri())
            assert page.evaluate(FITS), (path, self.told)
        left = page.locator(".call-page__next")
        says = [page.locator(".heading__over").inner_text().partition(" · ")[2]]
        says += [" ".join(left.inner_text().split())] if left.is_visible() else []
        self.told.append(" | ".join(says))
        return super().page(path)


def test_a_whole_round_is_seen_in_each_of_its_phases(new_page, tmp_path):
    """From the announcement to the closing: the phase, and the days left on the reader's day."""
    phone = new_page(viewport={"width": 360, "height": 740}, color_scheme="dark")
    host = Seeing(new_board(tmp_path / "board"), [phone, new_page(viewport=None)])
    for step in STEPS:
        step(host, {})
    assert [words.replace(" · Fewer than hoped for", "") for words in host.told] == [
        "Signing up | Sign up by: 19 days left",
        "Signing up | Sign up by: 10 days left",
        "Cards arriving | Cards arrive by: 10 days left",
        "Cards arriving | Mailed out by: 13 days left",
        "Dealt | Mailed out by: 9 days left",
        "Mailed back | Mailed out by: 2 days left",
        "Mailed back | Mailed out by: 1 day left",
        "Received",
        "Closed",
    ]
    phone.goto((host.board / "output/verify/small-lights.html").as_uri())
    phone.get_by_role("button", name="Check the deal on this computer").click()
    phone.wait_for_selector(".checks")
    results = phone.locator(".checks strong").all_inner_texts()
    assert set(results) == {"holds", "cannot be checked"}
