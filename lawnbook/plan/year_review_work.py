"""The work done in a year: how often each kind was, and on which days, as it stands on record."""

from collections.abc import Iterable, Iterator
from datetime import date

from lawnbook.plan.care_marks import care_kind
from lawnbook.plan.year_review_model import WorkDone
from lawnbook.plan.year_review_water import Spans
from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook
from lawnbook.yard.shape_records import sentence_case

WATERING, FEEDING, PLUG = tr("Watering days"), tr("Feeding days"), tr("Plugs pulled")
SOIL_TEST, CATCH_TEST = tr("Soil tests"), tr("Catch tests")


def work_done(notebook: Notebook, spans: Spans) -> tuple[WorkDone, ...]:
    """Every kind of work of the year or the year before, the watering first; none that was not.

    Waterings and feedings are counted by their days, whatever the number of zones.
    """
    made = (_counted(what, dates, spans) for what, dates in _kinds(notebook, spans))
    return tuple(each for each in made if each.count or each.count_before)


def _counted(what: str, dates: Iterable[date], spans: Spans) -> WorkDone:
    listed = sorted(dates)
    now = tuple(each for each in listed if spans.now.holds(each))
    before = sum(spans.before.holds(each) for each in listed)
    return WorkDone(what=what, count=len(now), count_before=before, dates=now)


def _kinds(notebook: Notebook, spans: Spans) -> Iterator[tuple[str, list[date]]]:
    yield WATERING, list({each.date for each in notebook.waterings.values()})
    yield FEEDING, list({each.date for each in notebook.feedings.values()})
    yield from _care(notebook, spans)
    yield PLUG, [each.date for each in notebook.cores.values()]
    yield SOIL_TEST, [each.date for each in notebook.soil_tests.values()]
    yield CATCH_TEST, [each.date for each in notebook.catch_tests.values()]
    lists: dict[str, list[date]] = {}
    for tick in notebook.ticks.values():
        lists.setdefault(tick.checklist, []).append(tick.date)
    for name, dates in lists.items():
        yield tr("Steps of {name}", name=name), dates


def _care(notebook: Notebook, spans: Spans) -> Iterator[tuple[str, list[date]]]:
    """Care by its kind, the kind done most often in the year first."""
    kinds: dict[str, list[date]] = {}
    for care in notebook.care.values():
        kinds.setdefault(care_kind(care), []).append(care.date)

    def often(kind: str) -> int:
        return sum(spans.now.holds(each) for each in kinds[kind])

    for kind in sorted(kinds, key=often, reverse=True):
        yield sentence_case(tr(kind)), kinds[kind]
