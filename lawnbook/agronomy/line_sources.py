"""Where the steps come from by which sprinkler lines are filled in spring and drained for winter.

"blowout-pressure" was read as quoted on another page, "spring-fill" likewise; the pages of the
cities were read themselves.
"""

from lawnbook.agronomy.source import Source

LINE_SOURCES: tuple[Source, ...] = (
    Source(
        "blowout-pressure",
        "Higgins, Colorado State University, winterizing sprinklers, as quoted in a gardening "
        "guide: air at 40 to 80 psi, at most 80 psi in rigid PVC pipe and 50 psi in polyethylene",
        "published",
    ),
    Source(
        "blowout-hired",
        "City of Fort Collins Utilities, Irrigation service notice: a licensed irrigation "
        "contractor is recommended; air goes in below the backflow device, never through the "
        "meter; ball valves are left at 45 degrees",
        "published",
    ),
    Source(
        "backflow-air",
        "City of Coeur d'Alene, Idaho, 2014, Winterize your irrigation system safely: air goes in "
        "below the backflow assembly; a vacuum breaker is taken off first; the assembly is drained",
        "published",
    ),
    Source(
        "backflow-test",
        "City of Coeur d'Alene, Idaho, 2014: the required annual test of the backflow assembly is "
        "done at spring start-up",
        "published",
    ),
    Source(
        "spring-fill",
        "Regional Water Providers Consortium, Oregon, Sprinkler system maintenance tips, as quoted "
        "elsewhere: drains closed, the main valve opened slowly, one valve open so that air can "
        "escape, backflow tested by a certified tester",
        "published",
    ),
    Source(
        "heads-looked-over",
        "US Environmental Protection Agency, WaterSense, Sprinkler spruce-up: heads inspected, "
        "connections looked at for leaks, spray directed at the lawn, the controller set by season",
        "published",
    ),
    Source(
        "lines-practice",
        "Steps of filling and draining sprinkler lines without a page of their own (common "
        "practice)",
        "practice",
    ),
)
