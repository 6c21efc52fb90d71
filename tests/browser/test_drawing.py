"""The drawing as a browser and a screen reader take it."""

from __future__ import annotations

from playwright.sync_api import Page

from notesgen.pack.layout.drawing.tab import tab_figures
from notesgen.pack.layout.sheet import lay_out
from tests.pack.rich import LESSON


def test_a_figure_is_one_image_that_is_read_as_words(page: Page) -> None:
    sheet = lay_out(LESSON)
    figures = [figure for passage in sheet.passages for figure in tab_figures(passage, sheet, 430)]
    page.set_content("".join(figure.svg for figure in figures))
    images = page.get_by_role("img")
    assert images.count() == len(figures)
    for at, figure in enumerate(figures):
        assert page.get_by_role("img", name=figure.alt, exact=True).count() == 1
        box = images.nth(at).bounding_box()
        assert box is not None
        # CSS: 96 pixels are 72 points.
        assert abs(box["width"] - figure.width * 96 / 72) < 1
