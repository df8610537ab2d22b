"""The figures of two days of a spot, line by line, as the page and the window both tell them."""

from collections.abc import Callable, Sequence
from statistics import fmean

from lawnbook.frozen import dataclass
from lawnbook.plan.evidence_words import signed
from lawnbook.plan.plug_model import DayPlugs, ThenNow
from lawnbook.plan.then_now import NO_REPLICATES
from lawnbook.plan.workings import counted
from lawnbook.sheet.headlines import Headline
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import plain
from lawnbook.yard.records import Core

NONE = "–"
"""What stands where a thing was not looked at."""
DAYS_A_MONTH = 365.25 / 12
_MOST_READINGS = 4
_WHERE_HOUR = "o'clock"


@dataclass(frozen=True, slots=True)
class FigureLine:
    """A line of the table: what it is, then, now, and the change where there is one."""

    name: str
    then: str
    now: str
    change: str = ""


def figure_lines(notebook: Notebook, pair: ThenNow) -> tuple[FigureLine, ...]:
    """Every figure of the two days; lines that neither day has are left out, but for thatch."""
    then, now = (_cores(notebook, each) for each in (pair.then, pair.now))
    made = (
        FigureLine(
            "Thatch, in",
            _thatch(pair.then),
            _thatch(pair.now),
            _change(pair.thatch_change_in),
        ),
        FigureLine("Readings, in", _readings(then, pair.then), _readings(now, pair.now)),
        FigureLine(
            "Roots, in",
            _figure(pair.then.root_depth_in),
            _figure(pair.now.root_depth_in),
            _change(pair.root_change_in),
        ),
        *(_line(name, then, now, say) for name, say in _READ.items()),
    )
    return tuple(
        each for each in made if each.name == "Thatch, in" or {each.then, each.now} != {NONE}
    )


def pair_headlines(pair: ThenNow) -> tuple[Headline, ...]:
    """The change in thatch with its doubt, that of the roots, and the time between."""
    return (_thatch_headline(pair), _roots_headline(pair), _time_headline(pair))


def _thatch_headline(pair: ThenNow) -> Headline:
    then, now = _figure(pair.then.thatch_in), _figure(pair.now.thatch_in)
    if pair.thatch_change_in is None:
        return Headline(NONE, "Thatch", f"{then}, then {now} in", "not compared")
    reach = pair.plus_minus_in
    doubt = "doubt not known" if reach is None else f"± {reach:.2f} in by measuring"
    if reach is not None and NO_REPLICATES in pair.words:
        doubt = f"at least {doubt}"
    change = f"{signed(pair.thatch_change_in)} in"
    return Headline(change, "Thatch", f"from {then} to {now} in", doubt)


def _roots_headline(pair: ThenNow) -> Headline:
    then, now = _figure(pair.then.root_depth_in), _figure(pair.now.root_depth_in)
    change = pair.root_change_in
    if change is None:
        return Headline(NONE, "Roots", f"{then}, then {now} in", "not compared")
    return Headline(f"{signed(change)} in", "Roots", f"from {then} to {now} in")


def _time_headline(pair: ThenNow) -> Headline:
    """Whole months, or days where they are few."""
    days = (pair.now.date - pair.then.date).days
    months = round(days / DAYS_A_MONTH)
    if months < 2:
        return Headline(counted(days, "day"), "Between them", "")
    years, rest = divmod(months, 12)
    parts = [counted(years, "year")] if years else []
    parts += [counted(rest, "month")] if rest else []
    return Headline(
        " ".join(parts),
        "Between them",
        counted(len(pair.done_between), "care entry", "care entries"),
    )


def _line(
    name: str,
    then: Sequence[Core],
    now: Sequence[Core],
    say: Callable[[Sequence[Core]], str],
) -> FigureLine:
    return FigureLine(name, say(then), say(now))


def _cores(notebook: Notebook, of: DayPlugs) -> tuple[Core, ...]:
    ids = (each.core_id for each in of.columns)
    return tuple(notebook.cores[each] for each in ids if each in notebook.cores)


def _thatch(of: DayPlugs) -> str:
    told = _figure(of.thatch_in)
    return f"{told}, pressed" if of.pressed else told


def _readings(cores: Sequence[Core], of: DayPlugs) -> str:
    """The readings that the day's thatch is the mean of; many of them as a count."""
    read = [each.thatch_in for each in cores if each.thatch_in and each.pressed == of.pressed]
    flat = [reading for readings in read for reading in readings]
    if not flat:
        return NONE
    if len(flat) <= _MOST_READINGS:
        return ", ".join(f"{each:.2f}" for each in flat)
    # Short enough for the printed column: how many plugs they are of, the columns show.
    return f"{len(flat)} of {min(flat):.2f}–{max(flat):.2f}"


def _figure(value: float | None) -> str:
    return NONE if value is None else f"{value:.2f}"


def _change(value: float | None) -> str:
    return "" if value is None else signed(value)


def _mean(values: Sequence[int | None]) -> str:
    """A mark of a scale, or the mean of a day's marks; a dash where there is none."""
    read = [each for each in values if each is not None]
    return plain(fmean(read), 1) if read else NONE


def _words(values: Sequence[str | None]) -> str:
    """What was said of each plug, the same thing once."""
    return ", ".join(dict.fromkeys(each for each in values if each)) or NONE


def _hours(cores: Sequence[Core]) -> str:
    hours = ", ".join(str(each.clock) for each in cores if each.clock is not None)
    return f"{hours} {_WHERE_HOUR}" if hours else NONE


_READ: dict[str, Callable[[Sequence[Core]], str]] = {
    "Sponge, of 4": lambda cores: _mean([each.sponge for each in cores]),
    "Soil in thatch, of 4": lambda cores: _mean([each.soil_in_thatch for each in cores]),
    "Worms": lambda cores: _mean([each.worms for each in cores]),
    "Thatch felt": lambda cores: _words([each.thatch_moisture for each in cores]),
    "Soil felt": lambda cores: _words([each.soil_moisture for each in cores]),
    "Pulled at": _hours,
}
"""What is told of the plugs of a day besides their depths, in the order of the form."""
