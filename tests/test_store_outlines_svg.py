"""The drawing true to scale: all that is drawn lies on its page."""

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest
from PySide6.QtCore import QByteArray
from PySide6.QtSvg import QSvgRenderer

from lawnbook.store.outlines_svg import svg_of
from lawnbook.yard.notebook import Notebook, apply, put
from lawnbook.yard.records import Head
from tests.sketch_hand import sketch_yard

HEADS = (
    Head(id="head", zone="front", at_ft=(0.0, 0.0), radius_ft=30.0),
    Head(
        id="head", zone="front", at_ft=(0.0, 10.0), radius_ft=40.0, start_deg=200.0, sweep_deg=140.0
    ),
    Head(
        id="head", zone="back", at_ft=(70.0, 0.0), radius_ft=25.0, start_deg=-10.0, sweep_deg=120.0
    ),
    Head(
        id="head",
        zone="back",
        at_ft=(70.0, 20.0),
        radius_ft=60.0,
        start_deg=-360.0,
        sweep_deg=360.0,
    ),
)


def with_head(head: Head) -> Notebook:
    """The sketch yard with this head in place of its own."""
    held = sketch_yard()
    return apply(held, put(held, "heads", head))


@pytest.mark.parametrize("head", HEADS)
def test_no_throw_is_cut_off_by_the_page(head: Head) -> None:
    """By Qt's own reading of the drawing, an independent one."""
    text, _ = svg_of(with_head(head))
    drawn = QSvgRenderer(QByteArray(text.encode()))
    assert drawn.isValid()
    arc = drawn.boundsOnElement("head")
    page = drawn.viewBoxF()
    assert arc.width() > 0
    assert page.contains(arc)


def test_a_throw_within_the_yard_leaves_the_page_as_it_is() -> None:
    held = sketch_yard()
    small = replace(held.heads["head"], radius_ft=2.0, sweep_deg=360.0)
    assert size_of(svg_of(with_head(small))[0]) == size_of(svg_of(held)[0])


def size_of(svg: str) -> tuple[float, ...]:
    """Width and height of the page in millimetres."""
    root = ET.fromstring(svg)
    return tuple(float(re.sub("mm", "", root.attrib[name])) for name in ("width", "height"))
