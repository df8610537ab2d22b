"""The figures of two days of a spot, line by line, as the page and the window both tell them."""

from collections.abc import Callable, Sequence
from statistics import fmean

from lawnbook.frozen import dataclass
from lawnbook.plan.plug_model import DayPlugs, ThenNow
from lawnbook.plan.then_now import NO_REPLICATES
from lawnbook.reading import tr
from lawnbook.sheet.headlines import Headline
from lawnbook.yard.amounts import bare, told, unit_shown
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.numbers import counted, plain
from lawnbook.yard.records import Core

NONE = "–"
"""What stands where a thing was not looked at."""
DAYS_A_MONTH = 365.25 / 12
_MOST_READINGS = 4
_WHERE_HOUR = tr("o'clock")


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
    unit = unit_shown("in")
    made = (
        FigureLine(
            tr("Thatch, {unit}", unit=unit),
            _thatch(pair.then),
            _thatch(pair.now),
            _change(pair.thatch_change_in),
        ),
        FigureLine(
            tr("Readings, {unit}", unit=unit), _readings(then, pair.then), _readings(now, pair.now)
        ),
        FigureLine(
            tr("Roots, {unit}", unit=unit),
            _figure(pair.then.root_depth_in),
            _figure(pair.now.root_depth_in),
            _change(pair.root_change_in),
        ),
        *(_line(name, then, now, say) for name, say in _READ.items()),
    )
    thatch, *others = made
    return (thatch, *(each for each in others if {each.then, each.now} != {NONE}))


def pair_headlines(pair: ThenNow) -> tuple[Headline, ...]:
    """The change in thatch with its doubt, that of the roots, and the time between."""
    return (_thatch_headline(pair), _roots_headline(pair), _time_headline(pair))


def _thatch_headline(pair: ThenNow) -> Headline:
    then, now = _figure(pair.then.thatch_in), _figure(pair.now.thatch_in)
    if pair.thatch_change_in is None:
        return Headline(NONE, tr("Thatch"), _apart(then, now), tr("not compared"))
    reach = pair.plus_minus_in
    doubt = tr("doubt not known")
    if reach is not None:
        doubt = tr("± {reach} by measuring", reach=told(reach, 2, "in"))
    if reach is not None and NO_REPLICATES in pair.words:
        doubt = tr("at least {doubt}", doubt=doubt)
    change = f"{signed_length(pair.thatch_change_in)} {unit_shown('in')}"
    return Headline(change, tr("Thatch"), _from_to(then, now), doubt)


def _roots_headline(pair: ThenNow) -> Headline:
    then, now = _figure(pair.then.root_depth_in), _figure(pair.now.root_depth_in)
    change = pair.root_change_in
    if change is None:
        return Headline(NONE, tr("Roots"), _apart(then, now), tr("not compared"))
    grown = f"{signed_length(change)} {unit_shown('in')}"
    return Headline(grown, tr("Roots"), _from_to(then, now))


def _apart(then: str, now: str) -> str:
    return tr("{then}, then {now} {unit}", then=then, now=now, unit=unit_shown("in"))


def _from_to(then: str, now: str) -> str:
    return tr("from {then} to {now} {unit}", then=then, now=now, unit=unit_shown("in"))


def _time_headline(pair: ThenNow) -> Headline:
    """Whole months, or days where they are few."""
    days = (pair.now.date - pair.then.date).days
    months = round(days / DAYS_A_MONTH)
    if months < 2:
        return Headline(counted(days, "day"), tr("Between them"), "")
    years, rest = divmod(months, 12)
    parts = [counted(years, "year")] if years else []
    parts += [counted(rest, "month")] if rest else []
    return Headline(
        " ".join(parts),
        tr("Between them"),
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
    figure = _figure(of.thatch_in)
    return tr("{figure}, pressed", figure=figure) if of.pressed else figure


def _readings(cores: Sequence[Core], of: DayPlugs) -> str:
    """The readings that the day's thatch is the mean of; many of them as a count."""
    read = [each.thatch_in for each in cores if each.thatch_in and each.pressed == of.pressed]
    flat = [reading for readings in read for reading in readings]
    if not flat:
        return NONE
    if len(flat) <= _MOST_READINGS:
        return ", ".join(bare(each, 2, "in") for each in flat)
    # Short enough for the printed column: how many plugs they are of, the columns show.
    return tr(
        "{count} of {least}–{most}",
        count=len(flat),
        least=bare(min(flat), 2, "in"),
        most=bare(max(flat), 2, "in"),
    )


def _figure(value: float | None) -> str:
    return NONE if value is None else bare(value, 2, "in")


def _change(value: float | None) -> str:
    return "" if value is None else signed_length(value)


def signed_length(change_in: float) -> str:
    """A change of thickness or depth with its sign: "−0.12", "+0.05"; "0.00" for none."""
    text = bare(abs(change_in), 2, "in")
    if text == bare(0.0, 2, "in"):
        return text
    return f"{'−' if change_in < 0 else '+'}{text}"


def _mean(values: Sequence[int | None]) -> str:
    """A mark of a scale, or the mean of a day's marks; a dash where there is none."""
    read = [each for each in values if each is not None]
    return plain(fmean(read), 1) if read else NONE


def _words(values: Sequence[str | None]) -> str:
    """What was said of each plug, the same thing once."""
    return ", ".join(dict.fromkeys(tr(each) for each in values if each)) or NONE


def _hours(cores: Sequence[Core]) -> str:
    hours = ", ".join(str(each.clock) for each in cores if each.clock is not None)
    return f"{hours} {_WHERE_HOUR}" if hours else NONE


_READ: dict[str, Callable[[Sequence[Core]], str]] = {
    tr("Sponge, of 4"): lambda cores: _mean([each.sponge for each in cores]),
    tr("Soil in thatch, of 4"): lambda cores: _mean([each.soil_in_thatch for each in cores]),
    tr("Worms"): lambda cores: _mean([each.worms for each in cores]),
    tr("Thatch felt"): lambda cores: _words([each.thatch_moisture for each in cores]),
    tr("Soil felt"): lambda cores: _words([each.soil_moisture for each in cores]),
    tr("Pulled at"): _hours,
}
"""What is told of the plugs of a day besides their depths, in the order of the form."""
