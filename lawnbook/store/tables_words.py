"""What stands about the tables on the first sheet of a workbook and beside the CSV files."""

from collections.abc import Mapping
from types import MappingProxyType

HOLDS: Mapping[str, str] = MappingProxyType(
    {
        "yard": "the yard as a whole, its place and water supply",
        "n_budgets": "your own nitrogen by month",
        "zones": "outline, grass, soil and settings of each",
        "features": "house, beds, paving, trees, water",
        "heads": "place, radius, arc and flow of each",
        "catch_tests": "what the cans caught",
        "spots": "where plugs are pulled",
        "cores": "thatch, roots and what else each showed",
        "products": "fertilizers by their labels",
        "feedings": "what was spread, in pounds by zone",
        "spreader_runs": "pounds over a measured strip",
        "sprayer_runs": "water over a measured area",
        "waterings": "minutes or depth, by zone and day",
        "weather": "temperatures, rain and ETo by day",
        "climate": "the usual weather of each month",
        "n_rules": "limits and blackouts",
        "water_rules": "allowed days and hours",
        "soil_tests": "what the laboratory reported",
        "care": "mowing, coring, overseeding and the like",
        "ticks": "steps of the checklists that are done",
        "photos": "size and marks; the pictures stay here",
        "backdrops": "size and place; the pictures stay here",
    }
)
"""What each table holds, in few words."""

ABOUT = (
    "",
    "Every table of the notebook, one on each sheet or in each CSV file.",
    "The unit of a column stands in its heading.",
    "Photographs and pictures stay in the notebook: only their SHA-256 and size are listed.",
    "",
    "Changing it:",
    "- Change any cell but an id. Leave the id of a new row empty: it gets one when taken in.",
    "- An emptied cell empties the value. A row or column that is left out changes nothing.",
    "- Dates are written as 2026-11-16. Yes and no are words. No formulas: paste their values.",
    "- Lists have semicolons between their entries: 0.6; 0.7",
    "- A place is x y in feet, x east and y north. An outline is its corners: 0 0; 40 0; 40 25.5",
    "- Several outlines in a cell have a | between them.",
    "- Amounts by zone: Front lawn: 3.2; Back lawn: 4",
    '- A name that holds ; : | or a quotation mark stands in quotation marks: "Side; east": 2',
    "- Where a row names another record, its name decides, or its id where the name is empty.",
    "- A column that goes on in another, part 2, is read as one.",
    "- Words that begin with = + - @ have an apostrophe before them in a CSV file, so that no",
    "  spreadsheet reckons with them. Taking them in drops it again.",
    "",
    "Taking it in: open Sheet, then Tables, in the notebook, and choose Take in.",
    "Or: lawnbook take-tables FILE -o NOTEBOOK.lawnbook --dry-run",
    "What would change is shown first; nothing is kept before you agree.",
)
"""The lines below the name of the notebook."""
