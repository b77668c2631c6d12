"""The style sheets and scripts keep the theme's rules."""

import gzip
import re

import pytest

from swapboard.site.theme_files import NOT_PUBLIC, SHEET, theme_files
from theme.rendering import THEME

# The keeper's own page for putting corners right has tests of its own.
PUBLIC = [file for file in sorted((THEME / "static").rglob("*.*s"))
          if not file.name.startswith(NOT_PUBLIC)]  # fmt: skip
SHEETS = [file for file in PUBLIC if file.suffix == ".css"]
SCRIPTS = [file for file in PUBLIC if file.suffix == ".js"]
LAYERS = {"tokens", "reset", "base", "pages", "print"}
PHYSICAL = re.compile(
    r"(?<![\w-])(?:(?:margin|padding|border|inset|scroll-margin|scroll-padding)-"
    r"(?:left|right|top|bottom)|left|right|top|bottom|width|height|(?:min|max)-(?:width|height)|"
    r"border-(?:top|bottom)-(?:left|right)-radius|float:\s*(?:left|right))\s*:"
    r"|(?<![\w-])text-align\s*:\s*(?:left|right)"
)


def without_comments(css: str) -> str:
    """A style sheet's rules alone, its media conditions left out."""
    return re.sub(r"@media[^{]*", "@media ", re.sub(r"/\*.*?\*/", "", css, flags=re.S))


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_styles_know_no_left_and_right(sheet):
    """Only logical properties are used, so that a page can run from right to left."""
    assert not PHYSICAL.findall(without_comments(sheet.read_text("utf-8")))


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_styles_stand_in_layers_and_load_nothing(sheet):
    """Each rule is in a named layer, and no sheet fetches anything."""
    css = without_comments(sheet.read_text("utf-8"))
    openings = re.findall(r"^@layer ([a-z]+) \{", css, flags=re.M)
    assert set(openings) <= {"tokens", "reset", "base", "components", "pages"}
    assert css.count("{") == css.count("}")
    depth = 0
    for line in css.splitlines():
        assert depth or not line.strip() or line.startswith("@layer")
        depth += line.count("{") - line.count("}")
    assert "url(" not in css and "@import" not in css


def test_every_component_has_a_style_sheet_of_its_name():
    """A component's macro file and style sheet are found by the same name."""
    macros = {file.stem for file in (THEME / "templates" / "components").glob("[!_]*.html")}
    sheets = {sheet.stem for sheet in SHEETS} - LAYERS
    assert sheets == macros - {"liking", "plain", "words", "writing"}


def spared(css: str) -> str:
    """A sheet without comments and any space."""
    return re.sub(r"\s+", "", re.sub(r"/\*.*?\*/", "", css, flags=re.S))


def test_all_style_sheets_become_one_in_order():
    """Pages wait for one sheet: tokens, reset, base, components by name, pages, print."""
    made = dict(theme_files(THEME / "static"))
    assert [path for path in made if path.endswith(".css")] == [SHEET]
    first, last = ["tokens", "reset", "base"], ["pages", "print"]
    components = sorted(sheet.stem for sheet in SHEETS if sheet.stem not in first + last)
    sources = [
        (THEME / "static" / "css" / f"{name}.css").read_text("utf-8")
        for name in (*first, *components, *last)
    ]
    bundle = made[SHEET].decode("utf-8")
    assert spared(bundle) == "".join(map(spared, sources))
    assert len(bundle) < 0.9 * sum(map(len, sources))
    base = (THEME / "templates" / "base.html").read_text("utf-8")
    assert re.findall(r'rel="stylesheet" href="{{ asset\("([^"]+)"', base) == ["site.css"]


def test_the_keepers_own_page_is_no_part_of_a_site():
    """Nothing of the page for putting corners right is published."""
    assert not [path for path, _ in theme_files(THEME / "static") if "fix" in path]


def test_what_only_paper_needs_is_kept_to_paper():
    """Every rule of the print sheet stands within @media print."""
    css = spared((THEME / "static" / "css" / "print.css").read_text("utf-8"))
    inside = css.removeprefix("@layerpages{@mediaprint{").removesuffix("}}")
    assert len(inside) == len(css) - len("@layerpages{@mediaprint{}}")
    depth = 0
    for mark in re.findall("[{}]", inside):
        depth += 1 if mark == "{" else -1
        assert depth >= 0


def relative_luminance(colour: str) -> float:
    """Relative luminance of #rrggbb (WCAG 2.2, "relative luminance")."""
    shares = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours (WCAG 2.2, "contrast ratio")."""
    dark, light = sorted((relative_luminance(one), relative_luminance(other)))
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize(
    "colour, on_white",
    [("#767676", 4.542), ("#777777", 4.478), ("#595959", 7.005)],  # recomputed from WCAG 2.2
)
def test_contrast_is_measured_as_published(colour, on_white):
    """The measure itself gives the known ratios on white."""
    assert contrast(colour, "#ffffff") == pytest.approx(on_white, abs=0.001)


def colours(scheme: str) -> dict[str, str]:
    """The colour tokens of the light or dark scheme."""
    css = (THEME / "static" / "css" / "tokens.css").read_text("utf-8")
    light, _, dark = css.partition("prefers-color-scheme: dark")
    found = re.findall(r"--([\w-]+): (#[0-9a-f]{3,6});", light if scheme == "light" else dark)
    return {n: "#" + "".join(c * 2 for c in v[1:]) if len(v) == 4 else v for n, v in found}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_colours_can_be_read(scheme):
    """Text has 4.5:1 on every ground it stands on, and marks 3:1 (WCAG 2.2, 1.4.3 and 1.4.11)."""
    of = colours(scheme)
    for ground in ("mat", "slip"):
        for ink in ("ink", "ink-soft", "postmark"):
            assert contrast(of[ink], of[ground]) >= 4.5, (ink, ground)
        assert contrast(of["line-strong"], of[ground]) >= 3, ground
    assert contrast(of["on-postmark"], of["postmark"]) >= 4.5
    assert contrast(of["ink-soft"], of["card-blank"]) >= 4.5


def test_the_browser_is_told_the_colour_of_the_mat():
    """The theme colours in the head are those that pages lie on, light and dark."""
    base = (THEME / "templates" / "base.html").read_text("utf-8")
    told = re.findall(r'theme-color" content="(#\w+)" media="\(prefers-color-scheme: (\w+)', base)
    assert {scheme: colour for colour, scheme in told} == {
        scheme: colours(scheme)["mat"] for scheme in ("light", "dark")
    }


# Bytes, packed. The deal is loaded only where somebody verifies one.
LARGEST = 4 * 1024
LARGEST_OF = {"deal.js": 8 * 1024}


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: script.name)
def test_scripts_are_small_and_put_in_nothing_but_text(script):
    """A script stays small when packed, makes no markup from text and asks no server."""
    code = script.read_text("utf-8")
    assert len(gzip.compress(code.encode("utf-8"), mtime=0)) < LARGEST_OF.get(script.name, LARGEST)
    for word in ("innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(",
                 "fetch(", "XMLHttpRequest", "import(", "setTimeout"):  # fmt: skip
        assert word not in code
