"""Each chart in words, for those who cannot see it: by the name of what draws it in `figures`.

A summary is given what its figure is given, and says it in a few sentences, with the plan's own
words and numbers. It loads no matplotlib.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from lawnbook.charts.told_feed import nitrogen_summary, release_summary
from lawnbook.charts.told_plugs import profile_summary, trend_summary
from lawnbook.charts.told_water import ledger_summary, stretch_summary, year_summary
from lawnbook.charts.told_year import season_summary

SUMMARIES: Mapping[str, Callable[..., str]] = MappingProxyType(
    {
        "profile_figure": profile_summary,
        "trend_figure": trend_summary,
        "nitrogen_figure": nitrogen_summary,
        "release_figure": release_summary,
        "ledger_figure": ledger_summary,
        "year_figure": year_summary,
        "stretch_figure": stretch_summary,
        "season_figure": season_summary,
    }
)
"""What says each chart in words."""
