"""What is done, and why, when sprinklers are started in spring and blown out before winter.

Work on backflow devices is for licensed people where the code says so; a list never replaces the
label, the code or a licensed hand.
"""

from typing import Literal

from lawnbook.agronomy.blow_out import MOST_AIR_PSI, most_air_psi
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.amounts import told

Each = Literal["yard", "zone", "untested zone"]
"""What a step is done for: the yard, each zone with lines in the ground, those without a test."""


@dataclass(frozen=True, slots=True)
class StepWords:
    """A step as it is written: its key, what to do, why, the key of its source, and for what.

    `text` has places for the most air that pipe bears; `words` has them filled.
    """

    key: str
    text: str
    why: str
    source: str
    each: Each = "yard"
    leads_to: str = ""

    @property
    def words(self) -> str:
        """What to do, pressures in the owner's units."""
        if "{" not in self.text:
            return self.text
        return tr(
            self.text,
            any_pipe=told(most_air_psi(frozenset()), 0, "psi"),
            rigid=told(MOST_AIR_PSI["rigid PVC"], 0, "psi"),
        )


SPRING_NOTE = tr(
    "Wait until the ground has thawed and hard frost is over. Have buried lines "
    "located before you dig, and leave the backflow device to a licensed tester "
    "where the code asks for one."
)
SPRING: tuple[StepWords, ...] = (
    StepWords(
        "shut-off",
        tr("Find the irrigation's shut-off and every drain"),
        tr("Water that runs where it should not is stopped in seconds only if you know where."),
        "lines-practice",
    ),
    StepWords(
        "drains",
        tr("Close all drains and the test cocks of the backflow device"),
        tr("They were left open for winter; the first water would run out of them."),
        "spring-fill",
    ),
    StepWords(
        tr("slow fill"),
        tr("Open the main valve slowly, a quarter turn at a time, with the farthest zone open"),
        tr(
            "Water that rushes into empty pipe drives air before it and hits the end like "
            "a hammer; the open zone lets the air out."
        ),
        "spring-fill",
    ),
    StepWords(
        "leaks",
        tr("Look at every joint, valve and box for leaks, then read the meter at rest"),
        tr("With no water in use the meter must stand still; where it turns, a line leaks unseen."),
        "heads-looked-over",
    ),
    StepWords(
        tr("backflow test"),
        tr("Have the backflow device tested by a licensed tester, as your code asks"),
        tr("It keeps lawn water out of drinking water; many codes ask for a test each year."),
        "backflow-test",
    ),
    StepWords(
        "heads",
        tr("Run it and see every head: up, upright, turning, and on the lawn"),
        tr("A head that leans, is clogged or waters the path leaves dry and wet places."),
        "heads-looked-over",
        "zone",
    ),
    StepWords(
        "controller",
        tr("Set the controller’s clock, change its battery, and enter the program"),
        tr("After a winter without power the clock is wrong and the program may be lost."),
        "heads-looked-over",
    ),
    StepWords(
        tr("rain sensor"),
        tr("Wet the rain sensor while a zone runs: the zone must stop"),
        tr("A stuck sensor waters in the rain, or never."),
        "lines-practice",
    ),
    StepWords(
        "catch test",
        tr("Set out cans and run it: a catch test"),
        tr("Its rate was never measured, or a head or the pressure has changed since."),
        "ia-catch-can",
        "untested zone",
        "Can",
    ),
)

WINTER_NOTE = tr(
    "Hire it out if you can: a contractor brings the right compressor, and "
    "compressed air hurts people and breaks pipe. If you do it yourself, wear eye "
    "and ear protection, and never stand over heads, valves or pipe while they are "
    "under air."
)
WINTER: tuple[StepWords, ...] = (
    StepWords(
        "hire",
        tr("Decide who does it: have it hired out, or read all steps before you start"),
        tr("A licensed contractor is what a city’s own utility recommends."),
        "blowout-hired",
    ),
    StepWords(
        tr("shut water"),
        tr("Shut off the irrigation’s water, and let the pressure go by opening one zone"),
        tr("Air must not meet water under pressure, nor get into the house’s pipes or the main."),
        "blowout-hired",
    ),
    StepWords(
        "protection",
        tr("Put on eye and ear protection, and send everybody off the lawn"),
        tr("Air under pressure throws water, grit and loose parts."),
        "lines-practice",
    ),
    StepWords(
        tr("air below"),
        tr("Let the air in below the backflow device; take a vacuum breaker off first"),
        tr("Air through a backflow device or the meter damages it and can foul drinking water."),
        "backflow-air",
    ),
    StepWords(
        "pressure",
        tr("Set the air to at most {any_pipe} for polyethylene pipe, {rigid} for rigid PVC"),
        tr(
            "The weakest pipe sets the limit; where you do not know the pipe, keep to the "
            "lower one."
        ),
        "blowout-pressure",
    ),
    StepWords(
        "stay",
        tr("Stay with the compressor, with one zone open before the air goes in"),
        tr("Air shut into a closed line has nowhere to go but through its weakest part."),
        "lines-practice",
    ),
    StepWords(
        "blow",
        tr("Blow it out in short bursts until only mist comes; stop before it runs dry"),
        tr(
            "Begin with the zone farthest from the compressor. Dry gears and hot air wear "
            "heads out; two short rounds do better than a long one."
        ),
        "lines-practice",
        "zone",
    ),
    StepWords(
        tr("backflow drained"),
        tr("Drain the backflow device and leave its valves half open, at 45 degrees"),
        tr("Water shut in behind a closed ball valve splits it when it freezes."),
        "blowout-hired",
    ),
    StepWords(
        tr("controller off"),
        tr("Turn the controller off or to rain, and keep its program"),
        tr("Valves that open on dry lines do harm and draw power."),
        "lines-practice",
    ),
    StepWords(
        tr("air out"),
        tr("Shut the compressor off, let the air out, and only then take the hose off"),
        tr("A hose under pressure whips."),
        "lines-practice",
    ),
)
