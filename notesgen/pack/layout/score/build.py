"""XML elements in one expression, and text that XML can hold."""

from __future__ import annotations

import re
from xml.etree.ElementTree import Element

# What XML 1.0 (fifth edition, section 2.2) leaves out of its characters.
_FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def element(tag: str, /, *children: Element | str | int | float | None, **attributes: str | int) -> Element:
    """An element. A child that is None is left out. `type_` gives the attribute `type`, `new_system` the
    attribute `new-system`."""
    made = Element(tag, {_attribute(key): text(str(value)) for key, value in attributes.items()})
    for child in children:
        if isinstance(child, Element):
            made.append(child)
        elif child is not None:
            made.text = (made.text or "") + (f"{child:g}" if isinstance(child, float) else text(str(child)))
    return made


def text(told: str) -> str:
    """The text on one line, without the characters that no XML file may hold."""
    return " ".join(_FORBIDDEN.sub("", told).split())


def _attribute(key: str) -> str:
    return key.removesuffix("_").replace("_", "-")
