"""A finished drawing."""

from __future__ import annotations

from msgspec import Struct


class Figure(Struct, frozen=True):
    """`svg` is one <svg> element that stands alone as a file or inside a page; it holds no ids. `width` and
    `height` are in points, `alt` is what the drawing shows, in words."""

    svg: str
    width: float
    height: float
    alt: str
