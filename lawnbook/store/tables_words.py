"""What stands about the tables on the first sheet of a workbook and beside the CSV files."""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.reading import tr

HOLDS: Mapping[str, str] = MappingProxyType(
    {
        "yard": tr("the yard as a whole, its place and water supply"),
        "n_budgets": tr("your own nitrogen by month"),
        "zones": tr("outline, grass, soil and settings of each"),
        "features": tr("house, beds, paving, trees, water"),
        "heads": tr("place, radius, arc and flow of each"),
        "catch_tests": tr("what the cans caught"),
        "spots": tr("where plugs are pulled"),
        "cores": tr("thatch, roots and what else each showed"),
        "products": tr("fertilizers by their labels"),
        "feedings": tr("what was spread, in pounds by zone"),
        "spreader_runs": tr("pounds over a measured strip"),
        "sprayer_runs": tr("water over a measured area"),
        "waterings": tr("minutes or depth, by zone and day"),
        "weather": tr("temperatures, rain and ETo by day"),
        "climate": tr("the usual weather of each month"),
        "n_rules": tr("limits and blackouts"),
        "water_rules": tr("allowed days and hours"),
        "soil_tests": tr("what the laboratory reported"),
        "care": tr("mowing, coring, overseeding and the like"),
        "ticks": tr("steps of the checklists that are done"),
        "photos": tr("size and marks; the pictures stay here"),
        "backdrops": tr("size and place; the pictures stay here"),
    }
)
"""What each table holds, in few words."""

ABOUT = (
    "",
    tr("Every table of the notebook, one on each sheet or in each CSV file."),
    tr("The unit of a column stands in its heading."),
    tr("Photographs and pictures stay in the notebook: only their SHA-256 and size are listed."),
    "",
    tr("Changing it:"),
    tr("- Change any cell but an id. Leave the id of a new row empty: it gets one when taken in."),
    tr("- An emptied cell empties the value. A row or column that is left out changes nothing."),
    tr("- Dates are written as 2026-11-16. Yes and no are words. No formulas: paste their values."),
    tr("- Lists have semicolons between their entries: 0.6; 0.7"),
    tr(
        "- A place is x y in feet, x east and y north. "
        "An outline is its corners: 0 0; 40 0; 40 25.5"
    ),
    tr("- Several outlines in a cell have a | between them."),
    tr("- Amounts by zone: Front lawn: 3.2; Back lawn: 4"),
    tr('- A name that holds ; : | or a quotation mark stands in quotation marks: "Side; east": 2'),
    tr("- Where a row names another record, its name decides, or its id where the name is empty."),
    tr("- A column that goes on in another, part 2, is read as one."),
    *tr(
        "- Words that begin with = + - @ have an apostrophe before them in a CSV file, so that no\n"
        "  spreadsheet reckons with them. Taking them in drops it again."
    ).splitlines(),
    "",
    tr("Taking it in: open Sheet, then Tables, in the notebook, and choose Take in."),
    tr("Or: lawnbook take-tables FILE -o NOTEBOOK.lawnbook --dry-run"),
    tr("What would change is shown first; nothing is kept before you agree."),
)
"""The lines below the name of the notebook."""
