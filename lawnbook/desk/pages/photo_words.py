"""What is said about photographs of plugs, as plain words. No Qt."""

from collections.abc import Mapping
from typing import Any

from lawnbook.agronomy.photo_scale import (
    COINS,
    Coin,
    PhotoReading,
    px_per_in,
    read_plug,
    too_thin_pct,
)
from lawnbook.agronomy.sources import cite
from lawnbook.desk.pages.photo_marks import Step, spoken, step_of
from lawnbook.desk.telling import either
from lawnbook.plan.limit_words import half_inch
from lawnbook.plan.plug_model import Place
from lawnbook.reading import is_metric, tr
from lawnbook.yard.amounts import bare, told, unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import day, inches, plain
from lawnbook.yard.record_plug import Core, Photo, PhotoRuler

MM_PER_IN = 25.4
COINS_FROM = f"{cite('us-coins')}. {cite('other-coins')}."
FINENESS_FROM = f"{cite('photo-resolution')}."
HINTS: Mapping[Step, str] = {
    "Scale": tr(
        "Drag from one end of a known distance to the other: two marks of the ruler, "
        "or straight across a coin."
    ),
    "Crowns": tr("Drag a line along the crowns, where the green ends: the top of the thatch."),
    "Thatch ends": tr(
        "Press where the thatch meets the soil; drag to see it enlarged. Several "
        "places are several readings."
    ),
    "Deepest roots": tr("Press where most roots end, not the longest single one."),
}
THERE: Mapping[Step, str] = {
    "Scale": tr("Drag either end to set it. The longer the distance, the finer the picture reads."),
    "Crowns": tr("Drag either end to set it. All depths are measured square to this line."),
    "Thatch ends": HINTS["Thatch ends"],
    "Deepest roots": tr("Drag it to set it: where most roots end, not the longest single one."),
}
KEYS = tr(
    "Tab goes from mark to mark, the arrows move one by a pixel, with Shift by "
    "ten. The wheel or + and − zoom, 0 shows the whole picture."
)
NO_SCALE = tr("Mark the scale first: without a known distance the picture has no inches.")
NO_SCALE_METRIC = tr(
    "Mark the scale first: without a known distance the picture has no millimetres."
)
NOTHING = tr("Nothing to take yet: mark the crowns, then where the thatch or the roots end.")
SHORT_SCALE = 0.05
"""A scale shorter than this part of the picture's longer side is asked about (our choice)."""
SHORT = tr("So short a scale reads poorly: is there a longer known distance in the picture?")
LOST = tr("This picture cannot be read any more; the plug's entry is kept.")
INTO_FORM = tr("They are filled into the form of the new plug, where they may still be changed.")
OTHER_END = tr("Now press on the other end.")
SAME_END = tr("That is where the first end lies: press on the other end, further off.")
HOW_TO_ADD = tr("JPEG, PNG or HEIC; files may be dropped here too.")


def caution() -> str:
    """How ruler and camera are held, and what a ruler out of the plane does."""
    return tr(
        "Lay the ruler in the plane of the plug's cut face, touching it, and hold the camera "
        "square to it. From {away} away, a ruler {nearer} nearer reads {share} % too thin.",
        away=either("12 in", "30 cm"),
        nearer=half_inch(),
        share=f"{too_thin_pct(0.5, 12):.0f}",
    )


def coin_choices() -> tuple[tuple[str, float], ...]:
    """The coins one may lay beside a plug: how each is called, and its diameter in inches."""
    return tuple((coin_words(each), each.diameter_mm / MM_PER_IN) for each in COINS)


def coin_words(coin: Coin) -> str:
    """A coin with its diameter: "US quarter, 24.26 mm"."""
    return tr(
        "{name}, {diameter_mm:.2f} mm (from memory)", name=coin.name, diameter_mm=coin.diameter_mm
    )


def known_words(known_in: float) -> str:
    """A known distance as it is typed: "1", "0.9551"; "25", "24.26" to a metric reader."""
    return plain(known_in, 4 if not is_metric() else 3, "in")


def known_told(ruler: PhotoRuler) -> str:
    """A ruler's known distance with its unit: "1 in", "25.4 mm"."""
    return f"{known_words(ruler.known_in)} {unit_shown('in')}"


def reading_words(reading: PhotoReading) -> str:
    """What a picture reads, in one line, with how fine it can be read."""
    parts = []
    if reading.thatch_in:
        listed = ", ".join(bare(each, 2, "in") for each in reading.thatch_in)
        mean = sum(reading.thatch_in) / len(reading.thatch_in)
        more = tr(", mean {mean}", mean=told(mean, 2, "in")) if len(reading.thatch_in) > 1 else ""
        parts.append(
            tr(
                "thatch {listed} {unit_shown}{more}",
                listed=listed,
                unit_shown=unit_shown("in"),
                more=more,
            )
        )
    if reading.root_depth_in is not None:
        parts.append(tr("roots to {root_depth_in}", root_depth_in=inches(reading.root_depth_in)))
    fine = tr(
        "This picture is read to {resolution_in} at best (our reckoning)",
        resolution_in=inches(reading.resolution_in),
    )
    us, metric = f"{reading.px_per_in:.0f}", f"{10 * reading.px_per_in / MM_PER_IN:.0f}"
    scale = either(tr("{n} pixels an inch", n=us), tr("{n} pixels a centimetre", n=metric))
    words = "; ".join(parts)
    return f"{words[:1].upper()}{words[1:]}. {fine}, {scale}." if words else f"{fine}, {scale}."


def state_words(ruler: PhotoRuler | None, size_px: tuple[int, int]) -> tuple[str, str]:
    """What the marks of a picture read, or what is wrong or missing; and the role of the words."""
    if ruler is None:
        return either(tr(NO_SCALE), tr(NO_SCALE_METRIC)), "caption"
    try:
        words = reading_words(read_plug(ruler, *size_px))
        scale_px = px_per_in(ruler, *size_px) * ruler.known_in
    except ValueError as error:
        return str(error), "refuse"
    if scale_px < SHORT_SCALE * max(size_px):
        return f"{words} {SHORT}", "ask"
    return words, ""


def live_words(ruler: PhotoRuler, key: str, size_px: tuple[int, int]) -> str:
    """What stands beside a mark while it is moved: its own reading, or why there is none."""
    step = step_of(key)
    try:
        if step == "Scale":
            pixels = px_per_in(ruler, *size_px)
            return f"{known_told(ruler)} = {pixels * ruler.known_in:.0f} px"
        reading = read_plug(ruler, *size_px)
    except ValueError:
        return tr("above the crowns") if step == "Thatch ends" else "–"
    if step == "Thatch ends":
        return inches(reading.thatch_in[int(key.partition("_")[2])])
    if step == "Deepest roots" and reading.root_depth_in is not None:
        return inches(reading.root_depth_in)
    return ", ".join(inches(each) for each in reading.thatch_in) or spoken(key)


def fields_read(reading: PhotoReading) -> dict[str, Any]:
    """The fields of a plug that a picture sets, by name: only those it was read for."""
    fields: dict[str, Any] = {}
    if reading.thatch_in:
        fields["thatch_in"] = tuple(round(each, 2) for each in reading.thatch_in)
        fields["resolution_in"] = reading.resolution_in
    if reading.root_depth_in is not None:
        fields["root_depth_in"] = round(reading.root_depth_in, 2)
        fields.setdefault("resolution_in", reading.resolution_in)
    return fields


def before_after(core: Core, fields: Mapping[str, Any]) -> str:
    """What taking the readings would change in a plug: "thatch 0.50 → 0.62, 0.66 in; …"."""
    names = {
        "thatch_in": tr("thatch"),
        "root_depth_in": tr("roots"),
        "resolution_in": tr("ruler resolution"),
    }
    changes = [
        f"{words} {_length(getattr(core, name))} → {_length(fields[name])} {unit_shown('in')}"
        for name, words in names.items()
        if name in fields and getattr(core, name) != fields[name]
    ]
    return "; ".join(changes)


def into_form(fields: Mapping[str, Any]) -> str:
    """What was filled into the form of a new plug."""
    names = {"thatch_in": tr("thatch"), "root_depth_in": tr("roots")}
    filled = [
        f"{words} {_length(fields[name])} {unit_shown('in')}"
        for name, words in names.items()
        if name in fields
    ]
    return tr("In the form now: {filled}.", filled="; ".join(filled))


def taken_words(core: Core, changed: str) -> str:
    """What was taken into a plug, or that it held it already."""
    if not changed:
        return tr("The plug of {date} holds these readings already.", date=day(core.date))
    return tr("Taken into the plug of {date}: {changed}.", date=day(core.date), changed=changed)


def empty_words(notebook: Notebook, place: Place) -> str:
    """What stands where a place has no photograph."""
    return tr(
        "No photo of a plug {place_words} yet. Start a plug, or open one, and add "
        "photos to it: drop a file there, paste one, or choose it. A ruler or a coin "
        "beside the cut face lets the photo be read.",
        place_words=place_words(notebook, place),
    )


def place_words(notebook: Notebook, place: Place) -> str:
    """Where: "at Elm", "in Front", "in the yard"."""
    if place.kind == "spot" and place.id in notebook.spots:
        return tr("at {name}", name=notebook.spots[place.id].name)
    if place.kind == "zone" and place.id in notebook.zones:
        return f"in {notebook.zones[place.id].name}"
    return tr("in the yard")


def photo_title(notebook: Notebook, photo: Photo) -> str:
    """A photograph's heading: "Elm, 3 May 2026"."""
    core = notebook.cores.get(photo.core)
    if core is None:
        return tr("Photo of a new plug")
    spot = notebook.spots.get(core.spot)
    return f"{spot.name}, {day(core.date)}" if spot is not None else day(core.date)


def other_day_words(core: Core, photo: Photo) -> str:
    """That the camera dates a picture otherwise than its plug; empty where it does not."""
    if photo.taken_on is None or photo.taken_on == core.date:
        return ""
    return tr(
        "The camera dates it {taken_on}, the plug is of {date}.",
        taken_on=day(photo.taken_on),
        date=day(core.date),
    )


def _length(value: Any) -> str:
    if value is None or value == ():
        return "–"
    values = value if isinstance(value, tuple) else (value,)
    return ", ".join(bare(each, 2, "in") for each in values)


def keys_told() -> str:
    """What the keys do on the picture, for those who do not see it."""
    return tr(
        "Enter puts the mark of the chosen step down, Tab goes on to the marks; plus and minus "
        "enlarge, 0 shows the whole picture, the arrows move it."
    )
