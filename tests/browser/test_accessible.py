"""Every kind of page of the hand-made site and of the demo, looked at by axe."""

import pytest

from browser.kinds import AXE_RULES, STICKING, axe_script, kinds_of_page

pytestmark = pytest.mark.browser

# What is smaller than 24 CSS pixels (WCAG 2.2, 2.5.8), or than 44 where it belongs to the filter.
SMALL = """() => [...document.querySelectorAll('a, button, summary, label, select, input')]
  .filter(e => {
    const box = e.getBoundingClientRect(), high = e.closest('.filters') ? 44 : 24;
    return box.width && !e.closest('.writing, .skip, .steps, p') && !e.matches('label input')
      && !e.matches('label:has(select, input:not([type=checkbox]))')
      && (box.height < high - .5 || box.width < 23.5);
  }).map(e => e.outerHTML.slice(0, 90) + e.getBoundingClientRect().height)"""
# Every rule looks at the light scheme; of the others only those that colours decide.
BY_COLOUR = {"type": "rule", "values": ["color-contrast", "link-in-text-block"]}
LIGHT = ({"color_scheme": "light", "forced_colors": "none"}, {"type": "tag", "values": AXE_RULES})
DARK = ({"color_scheme": "dark", "forced_colors": "none"}, BY_COLOUR)
FORCED = ({"color_scheme": "light", "forced_colors": "active"}, BY_COLOUR)
LOOKS = (LIGHT, DARK, FORCED)


def test_pages_are_accessible_at_every_width_and_look(new_page, any_site):
    """At 320, 360 and 1350 px, in light, dark and forced colours, no page has a fault by WCAG
    2.2 AA that axe finds, none scrolls sideways, and every target can be hit."""
    axe, faults = axe_script(), {}
    # Without motion, or colours would be looked at on their way from one scheme to the other.
    page = new_page(viewport={"width": 320, "height": 800}, reduced_motion="reduce")
    # axe would otherwise fetch the style sheets itself, which the pages' policy forbids.
    run = "only => axe.run({runOnly: only, preload: false, resultTypes: ['violations']})"
    # The demo has no kind of page that the hand-made site lacks: one width will do.
    widths = (320, 360, 1350) if any_site.name.startswith("made") else (360,)
    for path in kinds_of_page(any_site):
        if path == "404.html":
            continue  # its links start at the host's root, so from a file it has no styles
        page.goto(f"{any_site.as_uri()}/{path}")
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        if path == "cards.html":
            page.locator("#filters form").wait_for()
        page.evaluate(axe)
        for width in widths:
            page.set_viewport_size({"width": width, "height": 800})
            assert page.evaluate(STICKING) == 0, (path, width)
            assert page.evaluate(SMALL) == [], (path, width)
            for look, only in LOOKS:
                page.emulate_media(**look)
                told = page.evaluate(run, only)
                assert told["passes"] or look["forced_colors"] == "active"
                found = [(v["id"], v["nodes"][0]["html"]) for v in told["violations"]]
                if found:
                    faults[path, width, *look.values()] = found
            page.emulate_media(**LIGHT[0])
    assert faults == {}
