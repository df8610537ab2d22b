"""The year in review as it is read aloud: headlines, sentences, and every table in words."""

from collections.abc import Iterator, Sequence

from lawnbook.charts.review import paired_words
from lawnbook.plan.year_review_model import YearReview
from lawnbook.reading import tr
from lawnbook.sheet.review_figures import (
    TableRow,
    cost_rows,
    headlines,
    nitrogen_months,
    thatch_heads,
    thatch_rows,
    water_months,
    work_rows,
    zone_heads,
    zone_rows,
)


def year_spoken(review: YearReview) -> str:
    """Which year it is, and up to which day."""
    return f"{review.span.label}. {review.compared}"


def figures_shown(review: YearReview) -> tuple[tuple[str, str], ...]:
    """The headlines as large figures, each with the words below it."""
    return tuple(
        (each.figure, "\n".join(part for part in (each.name, each.remark, each.before) if part))
        for each in headlines(review)
    )


def described(review: YearReview) -> str:
    """All that the printed review says."""
    return "\n".join(_lines(review))


def _lines(review: YearReview) -> Iterator[str]:
    yield review.compared
    for each in headlines(review):
        said = ", ".join(part for part in (each.figure, each.remark, each.before) if part)
        yield f"{each.name}: {said}."
    yield paired_words(water_months(review), 0)
    yield paired_words(nitrogen_months(review), 2)
    yield from (each.text for each in review.changed)
    years = ((review.span.label, ""), (review.before.label, ""))
    yield from _table(tr("Cost"), (("", ""), *years), cost_rows(review))
    yield from _table(tr("Work"), (("", ""), *years), work_rows(review))
    yield from _table(tr("Zone"), zone_heads(review), zone_rows(review))
    yield from _table(tr("Spot"), thatch_heads(review), thatch_rows(review))


def _table(name: str, heads: Sequence[tuple[str, str]], rows: Sequence[TableRow]) -> Iterator[str]:
    """A line for each row, every cell under its head; a head without a name has that before it."""
    named, last = [], ""
    for head, unit in heads[1:]:
        last = head or last
        named.append(f"{last} {unit}".strip())
    for row in rows:
        cells = ", ".join(f"{head} {cell}" for head, cell in zip(named, row.cells, strict=False))
        said = "; ".join(part for part in (row.words or cells, row.detail) if part)
        yield f"{name} {row.name}: {said}."
