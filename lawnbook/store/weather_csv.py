"""The weather table of a yard file, read strictly: the first thing wrong in it refuses the whole.

It may be any table that `weather_reading` knows; what that would ask has to stand in the table.
"""

from pathlib import Path

from lawnbook.reading import tr
from lawnbook.store.files import read_text_bounded
from lawnbook.store.weather_reading import MOST_BYTES, weather_from_text
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import WeatherDay


def read_weather_file(path: Path) -> tuple[WeatherDay, ...]:
    """The days of a weather file; OwnerError names the file, the line and the mend."""
    return parse_weather(read_text_bounded(path, MOST_BYTES), path.name)


def parse_weather(text: str, where: str) -> tuple[WeatherDay, ...]:
    """The days of a weather table in its own order; OwnerError says where in it, and the mend.

    Whether a day lies in the future, and whether a figure is unlikely, is not judged here (see
    `lawnbook.yard.check`).
    """
    try:
        reading = weather_from_text(text)
    except OwnerError as error:
        raise OwnerError(f"{where} {error}") from error
    wrong = [
        *((fault.line, f"{fault.place}: {fault.sentence}") for fault in reading.faults),
        *(
            (
                each.line,
                tr(
                    "line {line}{part}{column}: {mend}",
                    line=each.line,
                    part="." if each.column else "",
                    column=each.column,
                    mend=each.mend,
                ),
            )
            for each in reading.questions
            if each.needed
        ),
    ]
    if wrong:
        raise OwnerError(f"{where} {min(wrong)[1]}")
    return reading.days
