"""What a catch test says, as plain words made of its figures. No Qt, no reckoning here."""

from collections.abc import Sequence

from lawnbook.desk.pages.cans_figures import Can, CanFigures, nearest_head
from lawnbook.desk.telling import captioned
from lawnbook.reading import tr
from lawnbook.yard.amounts import bare, told, trimmed, unit_shown
from lawnbook.yard.fields import Point
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import plain

TYPE_THEM = tr("Type what each can caught, 0 where it caught nothing: rate and evenness follow.")
WRONG_CANS = tr("These figures give no rate: every can needs 0 or more, one of them more than 0.")
HOW_TO_SET = tr(
    "Alike cans, spread evenly over the zone. Placed on the sketch, each is set "
    "beside the map computed from the heads; as a plain list they give rate and "
    "evenness all the same."
)
MOUTH_HELP = tr(
    "The mouth of a round can is 0.785 × its width across, squared: 3.5 in across is 9.6 sq in."
)
MOUTH_HELP_METRIC = tr(
    "The mouth of a round can is 0.785 × its width across, squared: 90 mm across is 64 cm²."
)
FITS = (0.8, 1.25)
"""Caught over computed within which the cans bear the map out (common practice)."""


def needed_words(*, run: bool, mouth: bool) -> str:
    """What is still needed before the cans say anything; True for what is missing."""
    missing = [
        *([tr("the minutes run")] if run else []),
        *([tr("the mouth of the cans")] if mouth else []),
    ]
    return tr("Still needed: {missing}.", missing=" and ".join(missing)) if missing else ""


def rate_words(cans: CanFigures) -> str:
    """The rate with its interval."""
    if cans.low is None or cans.high is None:
        return tr(
            "1 can: {in_per_h}; evenness needs two cans or more.",
            in_per_h=told(cans.in_per_h, 2, "in/h"),
        )
    return tr(
        "{caught} cans: {rate}, between {low} and {high} with 95 % confidence.",
        caught=cans.caught,
        rate=told(cans.in_per_h, 2, "in/h"),
        low=bare(cans.low, 2, "in/h"),
        high=bare(cans.high, 2, "in/h"),
    )


def evenness_words(cans: CanFigures) -> str:
    """DU_LQ with the multiplier that follows, and CU; empty for a single can."""
    if cans.du_lq is None or cans.multiplier is None or cans.cu is None:
        return ""
    return tr(
        "The lowest quarter caught {du_lq:.2f} of the mean (DU), so {multiplier:.2f} "
        "times the net depth is put down for the drier half; CU {cu:.2f}.",
        du_lq=cans.du_lq,
        multiplier=cans.multiplier,
        cu=cans.cu,
    )


def enough_words(cans: CanFigures) -> str:
    """How many cans would tell the rate within a tenth."""
    if cans.enough is None:
        return ""
    if cans.enough <= cans.caught:
        return tr(
            "Rate within 10 %: {caught} cans are enough here (90 % confidence).", caught=cans.caught
        )
    return tr(
        "Rate within 10 %: it would take {enough} cans here (90 % confidence).", enough=cans.enough
    )


def clogged_words(notebook: Notebook, zone_id: str, cans: CanFigures) -> str:
    """A sentence for each can that caught far too little for its place, a line each."""
    return "\n".join(
        _clogged(notebook, zone_id, can, cans) for can in cans.cans if can.clogged
    ) or _as_a_whole(cans)


def can_heads() -> tuple[str, ...]:
    """The heads of a list of cans beside the computed map."""
    shown = (captioned(tr("At"), "ft"), tr("Caught"), unit_shown("in/h"))
    return (tr("Can"), *shown, tr("Map"), tr("Of the map"), tr("bar: caught, tick: map"))


def caught_words(caught: float, unit: str) -> str:
    """What a can caught: millilitres, or a depth that is held in inches."""
    return f"{plain(caught)} mL" if unit == "mL" else trimmed(caught, 2, "in")


def spoken_can(can: Can, unit: str) -> str:
    """A can in one line for a screen reader."""
    parts = [tr("Can {number}", number=can.number)]
    parts += (
        []
        if can.caught is None
        else [tr("caught {caught_words}", caught_words=caught_words(can.caught, unit))]
    )
    parts += [] if can.in_per_h is None else [told(can.in_per_h, 2, "in/h")]
    parts += (
        []
        if can.map_in_per_h is None
        else [tr("map {map_in_per_h}", map_in_per_h=told(can.map_in_per_h, 2, "in/h"))]
    )
    parts += [] if can.of_map is None else [tr("{of_map:.2f} of the map", of_map=can.of_map)]
    return ", ".join(parts)


def place_words(at_ft: Point | None) -> str:
    """Where a can stands on the sketch: feet or metres east and north."""
    east, north = (bare(each, 0, "ft") for each in at_ft or (0.0, 0.0))
    return "" if at_ft is None else f"{east} E, {north} N"


def where_words(places: Sequence[Point], elsewhere: str, elsewhere_count: int) -> str:
    """What is known of the cans' places; `elsewhere` names another zone with placed cans."""
    if places:
        return tr("{cans} on the sketch; drag one there to move it.", cans=_cans(len(places)))
    if elsewhere:
        return tr(
            "{cans} on the sketch in {elsewhere}: choose that zone to type what they "
            "caught. {how_to_set}",
            cans=_cans(elsewhere_count),
            elsewhere=elsewhere,
            how_to_set=HOW_TO_SET,
        )
    return HOW_TO_SET


def _cans(count: int) -> str:
    return tr("1 can stands") if count == 1 else tr("{count} cans stand", count=count)


def _clogged(notebook: Notebook, zone_id: str, can: Can, cans: CanFigures) -> str:
    ratio, at_ft = can.of_map or 0.0, can.at_ft
    head = nearest_head(notebook, zone_id, at_ft) if at_ft is not None else None
    where = ""
    if head is not None:
        feet, direction = head
        where = tr(
            "; the nearest stands {feet} to the {direction}",
            feet=told(feet, 0, "ft"),
            direction=direction,
        )
    others = (
        ""
        if cans.typical_of_map is None
        else tr(" (the others about {typical_of_map:.2f})", typical_of_map=cans.typical_of_map)
    )
    return tr(
        "Can {number} caught {ratio:.2f} of what the heads near it should "
        "give{others}: look for a clogged or tilted head{where}.",
        number=can.number,
        ratio=ratio,
        others=others,
        where=where,
    )


def _as_a_whole(cans: CanFigures) -> str:
    """What the cans say of the map where none of them stands out; empty where they bear it out."""
    if cans.misfit:
        return tr(
            "Many cans are far from the computed map: look at the places of cans and "
            "heads, their radius, arc and profile, and test on a calm day."
        )
    typical = cans.typical_of_map
    if typical is None or FITS[0] <= typical <= FITS[1]:
        return ""
    return tr(
        "As a whole the cans caught {typical:.2f} of what the heads' flows give by the "
        "map: flow, radius or pressure is not what is entered.",
        typical=typical,
    )
