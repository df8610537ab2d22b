"""What the pictures of water show, in a few sentences: ledger, year, steps to deeper roots."""

from datetime import date

from lawnbook.charts.ledger_days import ledger_words
from lawnbook.charts.stretch import step_now
from lawnbook.charts.year_water import year_chart_words
from lawnbook.plan.water_model import Stretch, StretchStep, ZoneLedger, ZoneYear
from lawnbook.reading import tr
from lawnbook.yard.amounts import PERCENT, told
from lawnbook.yard.numbers import counted


def ledger_summary(ledger: ZoneLedger, next_watering: date | None = None) -> str:
    """The root zone day by day: what is used up now, what came, what ran short, what is next."""
    return ledger_words(ledger, next_watering)


def year_summary(year: ZoneYear) -> str:
    """The year of water by month: each way's total and thirstiest month, and the plan's verdict."""
    return " ".join(each for each in (year_chart_words(year), year.words) if each)


def stretch_summary(stretch: Stretch, root_depth_in: float) -> str:
    """The steps to the target: roots now, the step that they bear, the next one, and the last."""
    steps = stretch.steps
    words = [
        tr(
            "{count} to the target; roots now reach {depth} from the crowns.",
            count=counted(len(steps), "step"),
            depth=_roots(root_depth_in),
        )
    ]
    now = step_now(stretch)
    coming = next((each for each in steps if not each.borne), None)
    if now is None:
        words.append(tr("They bear none of the steps yet."))
    else:
        words.append(tr("They bear {step}.", step=_step(now)))
    if coming is not None:
        share = f"{100 * coming.share_used_now:.0f}{PERCENT}"
        words.append(
            tr(
                "The next is {step}, and needs roots of {depth}: now it would use up {share} of "
                "their water.",
                step=_step(coming),
                depth=_roots(coming.root_depth_needed_in),
                share=share,
            )
        )
    last = steps[-1]
    if last is not coming and last is not now:
        depth = _roots(last.root_depth_needed_in)
        words.append(tr("The last is {step}, at {depth}.", step=_step(last), depth=depth))
    return " ".join(words)


def _step(step: StretchStep) -> str:
    depth = told(step.depth_in, 2, "in")
    if step.interval_days == 1:
        return tr("{depth} every day", depth=depth)
    return tr("{depth} every {days} days", depth=depth, days=step.interval_days)


def _roots(depth_in: float) -> str:
    return told(depth_in, 1, "in")
