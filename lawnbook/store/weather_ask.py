"""The questions a weather table raises, each with a value of its own to show what is meant."""

from collections.abc import Mapping, Sequence

from lawnbook.reading import tr
from lawnbook.store.ghcn import HABITS, Habit
from lawnbook.store.weather_columns import UNIT_WORDS, UNITS, Column
from lawnbook.store.weather_result import Option, Question
from lawnbook.store.weather_table import Array
from lawnbook.store.weather_units import example
from lawnbook.yard.numbers import plain

NOAA, SWAP, TEMPERATURE = "noaa", "swap", "temperature"
"""Keys of questions; those about the unit of a column of ours are the column's kind."""

_TENTHS = tr(", written in tenths")
_SHOWN_FIRST = ("tmax", "tmin", "rain", "tdew", "wind")
_SUFFIX = {"f": "f", "c": "c", "in": "in", "mm": "mm", "mph": "mph", "m_s": "m_s", "km_h": "km_h"}


def ask_habit(
    habits: Sequence[Habit], columns: Sequence[Column], raw: Mapping[str, Array]
) -> Question:
    """Which of the sets of units a NOAA table is written in: "TMAX 256: 25.6 °C …, or 256 °F?"."""
    shown = [c for name in _SHOWN_FIRST for c in columns if c.measures == name]
    column = next((c for c in shown if example(raw[c.measures]) is not None), columns[0])
    value = example(raw[column.measures]) or 0.0
    options = tuple(
        Option(habit.key, _amount(value, habit.unit(column))) for habit in (habits or HABITS)
    )
    return _which(NOAA, column, value, options, tr("take a table that names its units."))


def ask_unit(column: Column, units: Sequence[str], values: Array) -> Question:
    """Which unit a column of ours is in, whose bare name does not say it."""
    candidates = tuple(units) or tuple(u for u in UNITS[column.kind] if u in _SUFFIX)
    value = example(values) or 0.0
    options = tuple(Option(unit, _amount(value, unit)) for unit in candidates)
    names = tr(" or ").join(f"{_stem(column)}_{_SUFFIX[unit]}" for unit in candidates)
    mend = tr(
        'the column "{name}" does not say its unit; name it {names}.', name=column.name, names=names
    )
    return _which(column.kind, column, value, options, mend)


def ask_named(columns: Sequence[Column], unit: str, raw: Mapping[str, Array]) -> Question:
    """Whether temperatures are in the unit that their columns name, which they do not look like.

    Needed where °F may stand under °C. The other way round the owner is asked about the notebook's
    table in any case, so the name's word is taken meanwhile.
    """
    other = "f" if unit == "c" else "c"
    column = columns[-1]
    value = example(raw[column.measures]) or 0.0
    options = tuple(Option(each, _amount(value, each)) for each in (other, unit))
    names = tr(" and ").join(each.name for each in columns)
    units = {"likely": UNIT_WORDS[other], "named": UNIT_WORDS[unit]}
    looks = (
        tr("{names} look like {likely}, not {named}", names=names, **units)
        if len(columns) > 1
        else tr("{names} looks like {likely}, not {named}", names=names, **units)
    )
    return Question(
        key=TEMPERATURE,
        sentence=f"{looks}. {column.name} {plain(value)}: {_either(options)}?",
        options=options,
        proposed=other,
        needed=unit == "c",
        mend=tr(
            "{looks} ({value}); name the columns by the unit they are in.",
            looks=looks,
            value=plain(value),
        ),
        column=column.name,
    )


def ask_swap(columns: Sequence[Column]) -> Question:
    """Whether the columns of lows and highs are exchanged."""
    names = {each.measures: each.name for each in columns}
    lows, highs = names["tmin"], names["tmax"]
    return Question(
        key=SWAP,
        sentence=tr(
            "The columns {lows} and {highs} look swapped: on most days the lowest is above the "
            "highest.",
            lows=lows,
            highs=highs,
        ),
        options=(Option("yes", tr("Swap them")), Option("no", tr("Leave them as they are"))),
        proposed="yes",
        mend=tr(
            "the columns {lows} and {highs} look swapped: on most days the lowest is above the "
            "highest; exchange their names.",
            lows=lows,
            highs=highs,
        ),
    )


def _which(
    key: str, column: Column, value: float, options: tuple[Option, ...], mend: str
) -> Question:
    return Question(
        key=key,
        sentence=f"{column.name} {plain(value)}: {_either(options)}?",
        options=options,
        mend=mend,
        column=column.name,
    )


def _amount(value: float, unit: str) -> str:
    """What a value would be in a unit: "25.6 °C, written in tenths", "256 °F"."""
    if unit.startswith("tenths"):
        whole = UNIT_WORDS[unit.removeprefix("tenths_")]
        return f"{plain(value / 10)} {whole}{_TENTHS}"
    return f"{plain(value)} {UNIT_WORDS[unit]}"


def _either(options: Sequence[Option]) -> str:
    return tr(", or ").join(each.words for each in options)


def _stem(column: Column) -> str:
    return column.name.strip().casefold().replace(" ", "_")
