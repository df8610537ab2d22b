"""A picture under the sketch to trace on: an aerial image, or a scanned plan of the plot."""

from typing import Annotated

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Point, Rule
from lawnbook.yard.pictures import Picture
from lawnbook.yard.record_base import Locked, Name, Note, Record


@dataclass(frozen=True, slots=True, kw_only=True)
class Backdrop(Record):
    """A picture laid under the sketch, kept whole inside the notebook behind its SHA-256.

    A place `u`, `v` of it, in pixels to the right of and below its middle, lies `ft_per_px` times
    as far from `middle_ft`, turned by `turn_deg` clockwise. It is reduced when it is taken in.
    """

    name: Name
    sha256: Annotated[
        str, Rule("SHA-256", kind="sha256", help="Of the picture's bytes, in hexadecimal.")
    ]
    data_b64: Annotated[Picture, Rule("Picture", help="The picture's bytes, in base64.")]
    width_px: Annotated[int, Rule("Width", "px", 1, 20_000, help="Of the picture as it is kept.")]
    height_px: Annotated[int, Rule("Height", "px", 1, 20_000, help="Of the picture as it is kept.")]
    middle_ft: Annotated[
        Point,
        Rule("Middle", "ft", -5000, 5000, help="Where its middle lies: x east, y north."),
    ] = (0.0, 0.0)
    ft_per_px: Annotated[
        float,
        Rule("Scale", "ft per pixel", low=0.0001, high=100, help="How large it is drawn."),
    ] = 0.1
    turn_deg: Annotated[
        float,
        Rule("Turned by", "° clockwise", -360, 360, help="How far it is turned on the sketch."),
    ] = 0.0
    fade: Annotated[
        float,
        Rule("Fade", "", 0, 0.95, help="How much of the paper shows through: 0 none, 0.95 most."),
    ] = 0.4
    shown: Annotated[bool, Rule("Shown", help="Whether it is seen under the sketch.")] = True
    locked: Locked = False
    scale_ends: Annotated[
        tuple[Point, Point] | None,
        Rule(
            "Ends of the known distance",
            low=0,
            high=1,
            help="As shares of its width and height, from its upper left corner.",
        ),
    ] = None
    scale_ft: Annotated[
        float | None,
        Rule("Known distance", "ft", low=0.1, high=5000, help="Between the two ends, as measured."),
    ] = None
    note: Note = ""
