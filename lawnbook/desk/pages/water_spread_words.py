"""How evenly a zone's heads throw, in words: the figures of the computed map beside the cans."""

from lawnbook.desk.pages.water_run_words import Figure
from lawnbook.plan.model import ZoneWater
from lawnbook.plan.water_model import ZoneCoverage
from lawnbook.plan.workings import PERCENT, counted
from lawnbook.reading import tr
from lawnbook.yard.amounts import told

NO_MAP = tr(
    "No map of this zone yet: draw its heads on the sketch and give each its flow, "
    "and the map shows where their water falls."
)
NO_MAP_OF_HOSE = tr(
    "A sprinkler on a hose has no fixed place to compute a map from: its rate and "
    "evenness come from cans."
)
EVENNESS = tr(
    "1.00 would be perfectly even. DU is what the driest quarter (or half) of the "
    "zone gets over the mean; CU is 1 less the average difference from the mean."
)
"""What the letters stand for: distribution uniformity, and Christiansen's coefficient."""

_SOME = 0.005


def coverage_figures(coverage: ZoneCoverage) -> tuple[Figure, ...]:
    """The figures of the map, each with the words below it."""
    return (
        (told(coverage.mean_in_per_h, 2, "in/h"), tr("mean rate on the zone")),
        (f"{coverage.du_lq:.2f}", tr("DU, lowest quarter")),
        (f"{coverage.du_lh:.2f}", tr("DU, lower half")),
        (f"{coverage.cu:.2f}", tr("CU, Christiansen’s")),
        (_percent(coverage.wasted_share), tr("thrown outside")),
    )


def coverage_sentences(coverage: ZoneCoverage) -> tuple[str, ...]:
    """Heads counted, dry and wet patches, and what the map takes for granted."""
    heads = tr(
        "Computed from {heads}", heads=counted(coverage.heads - coverage.without_flow, "head")
    )
    if coverage.neighbours:
        heads += tr(
            " and {heads} of neighbouring zones", heads=counted(coverage.neighbours, "head")
        )
    lines = [f"{heads}.", *_patches(coverage)]
    if coverage.without_flow:
        left_out = counted(coverage.without_flow, "head")
        lines.append(
            tr(
                "{left_out} without a flow has been left out: the map is too dry there."
                if coverage.without_flow == 1
                else "{left_out} without a flow have been left out: the map is too dry there.",
                left_out=left_out,
            )
        )
    if coverage.assumed_profiles:
        many = counted(coverage.assumed_profiles, "head")
        lines.append(tr("{many} taken to throw a cone, until a profile is entered.", many=many))
    return tuple(lines)


def _patches(coverage: ZoneCoverage) -> list[str]:
    lines = []
    if coverage.dry_share >= _SOME:
        lines.append(
            tr(
                "{percent} of the zone gets less than half the mean; driest is {place}.",
                percent=_percent(coverage.dry_share),
                place=_place(coverage.driest_at_ft),
            )
        )
    if coverage.wet_share >= _SOME:
        lines.append(
            tr(
                "{percent} gets more than one and a half times the mean; wettest is {place}.",
                percent=_percent(coverage.wet_share),
                place=_place(coverage.wettest_at_ft),
            )
        )
    if not lines:
        lines.append(tr("No patch gets less than half or more than one and a half times the mean."))
    return lines


def cans_beside_map(zone: ZoneWater) -> str:
    """The cans' figures against the map's; empty where one of the two is missing."""
    coverage, rate = zone.coverage, zone.precipitation_rate_in_per_h
    if coverage is None or zone.rate_source != "catch test" or rate is None:
        return ""
    even = "" if zone.du_lq is None else tr(", DU {du_lq:.2f}", du_lq=zone.du_lq)
    return tr(
        "The cans measured {rate}{even}; the map computes {mean_in_per_h}, DU "
        "{du_lq:.2f}. The plan goes by the cans.",
        rate=told(rate, 2, "in/h"),
        even=even,
        mean_in_per_h=told(coverage.mean_in_per_h, 2, "in/h"),
        du_lq=coverage.du_lq,
    )


def _place(at_ft: tuple[float, float]) -> str:
    return tr(
        "near {at_ft} east, {at_ft_2} north on the sketch",
        at_ft=told(at_ft[0], 0, "ft"),
        at_ft_2=told(at_ft[1], 0, "ft"),
    )


def _percent(share: float) -> str:
    return f"{100 * share:.0f}{PERCENT}"
