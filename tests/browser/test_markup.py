"""The Nu HTML Checker finds no error in any page or in the style sheet."""

import re

import pytest

from browser.markup_checker import errors_in

pytestmark = pytest.mark.browser


def test_the_checker_finds_what_is_wrong(tmp_path):
    """The checker itself reports a wrong page and a wrong rule, so that silence means none."""
    page, sheet = tmp_path / "page.html", tmp_path / "sheet.css"
    page.write_text("<!DOCTYPE html><html lang=en><title>A</title><p><img src=a>", "utf-8")
    sheet.write_text("p { colour: red }", "utf-8")
    assert "alt" in "".join(errors_in([page]))
    assert "colour" in "".join(errors_in([sheet], "--css"))


def test_every_page_is_valid(any_site):
    """All pages, of every kind, are free of errors (HTML Living Standard)."""
    pages = sorted(any_site.rglob("*.html"))
    assert len(pages) > 12
    assert errors_in(pages) == []


def test_the_style_sheet_is_valid(made_site):
    """The one style sheet is free of errors."""
    sheets = sorted(made_site.rglob("*.css"))
    assert [re.sub(r".*/", "", str(sheet)) for sheet in sheets] == ["site.css"]
    assert errors_in(sheets, "--css") == []


def test_every_site_has_that_style_sheet(made_site, demo_site):
    """A built site has the one that was checked, to the byte, and no other."""
    (sheet,) = made_site.rglob("*.css")
    (of_demo,) = demo_site.rglob("*.css")
    assert of_demo.read_bytes() == sheet.read_bytes()
