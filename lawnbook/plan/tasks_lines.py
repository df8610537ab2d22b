"""What the season asks of the sprinkler lines, and the owner's spans without feeding.

The lists of spring start-up and winter blow-out are told around the ends of the irrigation season
until every step is done. Lines are for careful or licensed hands: the lists say so.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta

from lawnbook.plan.checklist_model import Checklist
from lawnbook.plan.checklists import checklist_in, season_of
from lawnbook.plan.filled_in import by_function, counted_in, day_in, seen_from
from lawnbook.plan.frost import frost_comes, frost_near
from lawnbook.plan.season import day_after, first_day, span_words, within
from lawnbook.plan.season_model import Task
from lawnbook.plan.working_model import DATE, DAY, Anew, Input, Working
from lawnbook.plan.workings import given, owned
from lawnbook.plan.zone_facts import Setting
from lawnbook.reading import tr
from lawnbook.yard.numbers import day, short_day
from lawnbook.yard.records import ChecklistName, Season

LINES_WITHIN_DAYS = 30
"""A list is told from so many days before its day to as many after it (common practice)."""

START_BEFORE_DAYS = 14
"""The lines are filled and looked over in so many days before the season (common practice)."""

CLOSED_WITHIN_DAYS = 45
"""A span without feeding is told from so many days before it begins."""

SHUT_DOWN_WHY = tr(
    "Water left in lines, heads and the backflow preventer bursts them in a hard "
    "freeze. Hire it out, or go through the list of the winter blow-out."
)
START_UP_WHY = tr(
    "Filled slowly and looked over before the season, lines show their leaks. Go "
    "through the list of the spring start-up."
)
_PRACTICE = tr("Lists around the ends of the irrigation season (common practice)")
_ONE_DAY = timedelta(days=1)


def line_tasks(setting: Setting) -> Iterator[Task]:
    """The lists that are due, where any lines lie in the ground."""
    zones = setting.notebook.zones.values()
    if not any(zone.irrigated and zone.sprinklers == "in-ground" for zone in zones):
        return
    yield from _start_up(setting)
    yield from _shut_down(setting)


def closed_tasks(setting: Setting) -> Iterator[Task]:
    """The owner's spans without feeding that hold on the day or begin soon, each by its number."""
    rules = setting.notebook.n_rules
    for number, blackout in enumerate(rules.blackouts, start=1):
        starts, ends = _coming(blackout, setting.on)
        if (starts - setting.on).days > CLOSED_WITHIN_DAYS:
            continue
        words = span_words(blackout)
        yield Task(
            key=f"no feed:{number}",
            kind="feed",
            what=tr("Feeding is closed {words}, by your rule", words=words),
            date=starts,
            latest=ends,
            why=tr("Nothing passes the check before spreading on these days."),
            workings=(
                Working(
                    "no_feed",
                    tr("Closed to feeding"),
                    tr("{starts} to {ends}", starts=day(starts), ends=day(ends)),
                    tr("the days of the rule that are still to come"),
                    words,
                    (
                        given(tr("Days without feeding"), words, tr("entered")),
                        *_ends_in(blackout, starts),
                        seen_from(setting.on),
                    ),
                    owned(rules.name),
                    by_function(_closed_anew, DATE, 0),
                ),
            ),
        )


def _ends_in(span: Season, starts: date) -> Iterator[Input]:
    """The first and the last day of a span as typed, of the year that it begins in."""
    first = first_day(span, starts.year)
    last = day_after(span, starts.year) - _ONE_DAY
    for name, symbol, on in ((tr("First day"), "starts", first), (tr("Last day"), "ends", last)):
        yield day_in(given(name, short_day(on), tr("by your rule")), symbol, on)


def _closed_anew(numbers: Mapping[str, float]) -> float:
    """The first day still closed, by a span of other days and seen from another day."""
    starts, ends, on = (date.fromordinal(round(numbers[each])) for each in ("starts", "ends", "on"))
    changed = Season(start=f"{starts:%m-%d}", end=f"{ends:%m-%d}")
    return float(_coming(changed, on)[0].toordinal())


def _coming(span: Season, on: date) -> tuple[date, date]:
    """The rest of a span of the year that holds on a day, or else the next one, whole."""
    last = next(
        end for year in (on.year, on.year + 1) if (end := day_after(span, year) - _ONE_DAY) >= on
    )
    if within(span, on):
        return on, last
    first = next(start for year in (on.year, on.year + 1) if (start := first_day(span, year)) > on)
    return first, next(
        end
        for year in (first.year, first.year + 1)
        if (end := day_after(span, year) - _ONE_DAY) >= first
    )


def _start_up(setting: Setting) -> Iterator[Task]:
    """The start of the season where one is entered and the lines rest before it."""
    season = setting.season
    if season is None:
        return
    starts = (first_day(season, setting.on.year + years) for years in (-1, 0, 1))
    near = [each for each in starts if _is_near(setting, each)]
    if not near or within(season, near[0] - _ONE_DAY):
        return
    begins = near[0]
    early = date.fromordinal(round(_early_anew(_lines_numbers(setting.on, begins))))
    formula = tr(
        "{start_before_days} days before the irrigation season begins, or the day of the plan",
        start_before_days=START_BEFORE_DAYS,
    )
    yield from _list_task(
        setting,
        ("spring start-up", begins),
        Task(
            key="spring start-up:yard",
            kind="check",
            what=tr("Start up the irrigation"),
            date=early,
            latest=begins if begins >= early else None,
            why=START_UP_WHY,
            workings=(
                _working(
                    (tr("Start-up"), early),
                    formula,
                    tr("season from {begins}", begins=day(begins)),
                    _before_season(setting.on, begins),
                    _early_anew,
                ),
            ),
        ),
    )


def _shut_down(setting: Setting) -> Iterator[Task]:
    """The end of the season where frost follows it; where none is entered, when frost is near."""
    if not frost_comes(setting):
        return
    last = _season_end(setting) if setting.season is not None else _frost_day(setting)
    if last is None:
        return
    when = max(setting.on, last)
    has_season = setting.season is not None
    formula = tr("the last day of the irrigation season, or the day of the plan once it is over")
    if not has_season:
        formula = tr("the day of the plan, once frost has come or is usual within 30 days")
    yield from _list_task(
        setting,
        ("winter blow-out", last),
        Task(
            key="winter blow-out:yard",
            kind="check",
            what=tr("Shut down the irrigation before frost"),
            date=when,
            why=SHUT_DOWN_WHY,
            workings=(
                _working(
                    (tr("Shut-down"), when),
                    formula,
                    tr("from {last}", last=day(last)),
                    (*_season_ends(last, entered=has_season), seen_from(setting.on)),
                    _late_anew,
                ),
            ),
        ),
    )


def _season_end(setting: Setting) -> date | None:
    """The last day of the irrigation season that is near, None where it does not end there."""
    if setting.season is None:
        return None
    for years in (-1, 0, 1):
        after = day_after(setting.season, setting.on.year + years)
        if _is_near(setting, after - _ONE_DAY) and not within(setting.season, after):
            return after - _ONE_DAY
    return None


def _frost_day(setting: Setting) -> date | None:
    return setting.on if frost_near(setting) is not None else None


def _is_near(setting: Setting, that: date) -> bool:
    return abs((that - setting.on).days) <= LINES_WITHIN_DAYS


def _list_task(setting: Setting, of: tuple[ChecklistName, date], task: Task) -> Iterator[Task]:
    """The task of a list of a day's season, with how far it has come; none once it is done."""
    name, that = of
    season = season_of(name, that, setting.latitude_deg)
    checklist = checklist_in(
        setting.notebook, name, season, replace(setting, on=max(setting.on, season.ends))
    )
    if checklist.needed and checklist.done < len(checklist.steps):
        yield replace(task, why=f"{task.why}{_begun(checklist)}", care_kind=name)


def _begun(checklist: Checklist) -> str:
    """How far a list has come; empty where nothing is ticked."""
    if not any(step.tick is not None for step in checklist.steps):
        return ""
    return tr(
        " Begun: {done} of {count} steps are done.", done=checklist.done, count=len(checklist.steps)
    )


def _lines_numbers(on: date, begins: date) -> dict[str, float]:
    return {"on": on.toordinal(), "begins": begins.toordinal(), "before": START_BEFORE_DAYS}


def _before_season(on: date, begins: date) -> tuple[Input, ...]:
    """What the day for the start-up rests on."""
    starts = given(tr("Season begins"), day(begins), tr("entered under Yard"))
    before = given(tr("Days before it"), str(START_BEFORE_DAYS), tr("common practice"))
    return (
        day_in(starts, "begins", begins),
        counted_in(before, "before", START_BEFORE_DAYS, DAY),
        seen_from(on),
    )


def _early_anew(numbers: Mapping[str, float]) -> float:
    """The first day for the start-up, as `date.toordinal`."""
    return max(numbers["on"], numbers["begins"] - numbers["before"])


def _late_anew(numbers: Mapping[str, float]) -> float:
    """The day for the shut-down; the day of the plan where frost alone tells it."""
    return max(numbers["on"], numbers.get("last", numbers["on"]))


def _season_ends(last: date, *, entered: bool) -> Iterator[Input]:
    """The last day of the season where one is entered."""
    if entered:
        yield day_in(given(tr("Season ends"), day(last), tr("entered under Yard")), "last", last)


def _working(
    told: tuple[str, date], formula: str, filled: str, inputs: tuple[Input, ...], anew: Anew
) -> Working:
    label, on = told
    season = given(tr("Irrigation season"), filled, tr("entered under Yard"))
    return Working(
        "lines_due",
        label,
        day(on),
        formula,
        filled,
        (season, *inputs),
        _PRACTICE,
        by_function(anew, DATE, 0),
    )
