"""Plugs: what one core pulled at a spot on a day showed, and its photographs."""

from datetime import date
from typing import Annotated, Literal

from lawnbook.frozen import dataclass
from lawnbook.yard.fields import Outline, Point, Rule
from lawnbook.yard.pictures import Picture
from lawnbook.yard.record_base import BEYOND_LAWNS, MM, Day, Note, Record

# Written out here, where no field named `date` hides the type.
TakenDay = Annotated[
    date | None, Rule("Taken on", help="The day the camera wrote into the photograph.")
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Core(Record):
    """A plug: what one core pulled at a spot on a day showed."""

    spot: Annotated[str, Rule("Spot", refers_to="spots", help="The spot it was pulled at.")]
    date: Day
    thatch_in: Annotated[
        tuple[float, ...],
        Rule(
            "Thatch",
            "in",
            0,
            8,
            ask_above=3,
            slip="millimetres",
            slip_factor=MM,
            too_much=BEYOND_LAWNS,
            help="Readings round the plug, from the crowns to the soil.",
        ),
    ] = ()
    pressed: Annotated[
        bool, Rule("Pressed", help="Whether the thatch was pressed together while it was read.")
    ] = False
    resolution_in: Annotated[
        float | None,
        Rule("Ruler resolution", "in", low=0.001, high=1, help="The finest mark of the ruler."),
    ] = None
    root_depth_in: Annotated[
        float | None,
        Rule(
            "Root depth",
            "in",
            0,
            60,
            ask_above=24,
            slip="millimetres",
            slip_factor=MM,
            too_much=BEYOND_LAWNS,
            help="From the crowns (top of the thatch) to where most roots end.",
        ),
    ] = None
    core_depth_in: Annotated[
        float | None,
        Rule(
            "Plug length",
            "in",
            low=0.1,
            high=60,
            ask_above=24,
            slip="millimetres",
            slip_factor=MM,
            too_much=BEYOND_LAWNS,
            help="From the crowns to the cut end of the plug: roots may go on below it.",
        ),
    ] = None
    sponge: Annotated[
        int | None,
        Rule("Sponge", "", 0, 4, help="How springy it feels, 0 not at all to 4 like a mattress."),
    ] = None
    soil_in_thatch: Annotated[
        int | None,
        Rule(
            "Soil in the thatch",
            "",
            0,
            4,
            help="How much of the thatch has soil in it, 0 none to 4 all.",
        ),
    ] = None
    worms: Annotated[
        int | None, Rule("Worms", "", 0, 200, ask_above=40, help="Earthworms counted in the plug.")
    ] = None
    thatch_moisture: Annotated[
        Literal["dry", "moist", "wet"] | None,
        Rule("Moisture of the thatch", help="How the thatch feels."),
    ] = None
    soil_moisture: Annotated[
        Literal["dry", "moist", "wet"] | None,
        Rule("Moisture of the soil", help="How the soil below feels."),
    ] = None
    clock: Annotated[
        int | None,
        Rule(
            "Clock position",
            "",
            1,
            12,
            help="Where around the spot it was pulled, as on a clock's face, 12 up on the sketch.",
        ),
    ] = None
    ring_in: Annotated[
        float | None,
        Rule(
            "Distance from the spot's mark",
            "in",
            low=1,
            high=60,
            help="How far from the spot's middle it was pulled; 12 in where left out.",
        ),
    ] = None
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoRuler:
    """What was marked on a photograph to read a plug from it.

    Points are shares of the picture's width and height, from its upper left corner. The distance
    of the two ends of the scale is known; the line of the crowns has two ends, and every other
    line runs parallel to it through its one point.
    """

    known_in: Annotated[
        float,
        Rule(
            "Known distance",
            "in",
            low=0.05,
            high=48,
            slip="millimetres",
            slip_factor=MM,
            help="Between the two ends of the scale: on a ruler, or the diameter of a coin.",
        ),
    ]
    scale: Annotated[
        tuple[Point, Point], Rule("Scale", low=0, high=1, help="The two ends of what is known.")
    ]
    crowns: Annotated[
        tuple[Point, Point] | None,
        Rule("Crowns", low=0, high=1, help="A line along the crowns, the top of the thatch."),
    ] = None
    thatch_ends: Annotated[
        Outline,
        Rule("Thatch ends", low=0, high=1, help="Where the thatch meets the soil; one or several."),
    ] = ()
    roots_end: Annotated[
        Point | None, Rule("Roots end", low=0, high=1, help="Where most roots end.")
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo(Record):
    """A photograph of a plug, kept whole inside the notebook behind its SHA-256.

    It is reduced when it is taken in, and holds no place and no camera's data.
    """

    core: Annotated[str, Rule("Plug", refers_to="cores", help="The plug it shows.")]
    sha256: Annotated[
        str, Rule("SHA-256", kind="sha256", help="Of the picture's bytes, in hexadecimal.")
    ]
    data_b64: Annotated[Picture, Rule("Picture", help="The picture's bytes, in base64.")]
    marks: Annotated[
        tuple[tuple[str, float, float], ...],
        Rule(
            "Marks",
            low=0,
            high=1,
            help="Words put on the picture: text, x and y as shares of its width and height.",
        ),
    ] = ()
    ruler: Annotated[
        PhotoRuler | None,
        Rule("Photo ruler", help="The scale and the lines from which the plug was read."),
    ] = None
    taken_on: TakenDay = None
    width_px: Annotated[
        int | None, Rule("Width", "px", 1, 20_000, help="Of the picture as it is kept.")
    ] = None
    height_px: Annotated[
        int | None, Rule("Height", "px", 1, 20_000, help="Of the picture as it is kept.")
    ] = None
