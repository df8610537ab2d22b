"""Limits as a metric reader is told them: round figures that are themselves within the limit."""

import re
from datetime import date

import pytest

from lawnbook.reading import Reading, reading_as
from lawnbook.yard.limits import field_complaints
from lawnbook.yard.measures import parse_measure
from lawnbook.yard.records import ClimateMonth, Record

ON = date(2026, 6, 15)


def said(record: Record) -> str:
    """The one sentence that a record is met with."""
    (complaint,) = field_complaints(record, ON)
    return complaint.sentence


def test_a_metric_reader_is_told_round_limits() -> None:
    hot = ClimateMonth(id="01", month=1, tmean_f=300)
    with reading_as(Reading(units="metric")):
        assert said(hot).endswith("enter -51 to 48°C.")
    assert said(hot).endswith("enter -60 to 120°F.")


@pytest.mark.parametrize("tmean_f", [300, -300])
def test_a_limit_that_is_told_may_be_entered(tmean_f: float) -> None:
    with reading_as(Reading(units="metric")):
        sentence = said(ClimateMonth(id="01", month=1, tmean_f=tmean_f))
        told = re.findall(r"-?\d+(?=°C or more|°C\.$| to )", sentence.partition("enter")[2])
        assert told
        for each in told:
            typed_f = parse_measure(each, "Mean temperature", "°F")
            held = ClimateMonth(id="01", month=1, tmean_f=typed_f)
            assert not [c for c in field_complaints(held, ON) if c.severity == "refuse"]
