"""Which page a chosen record is shown on, and which pages show it without the book turning."""

PAGE_OF_TABLE = {
    "spots": "Plugs",
    "cores": "Plugs",
    "zones": "Water",
    "heads": "Water",
    "catch_tests": "Water",
    "feedings": "Feed",
    "products": "Feed",
}
STAYS_ON = {"zones": ("Plugs", "Water", "Feed"), "heads": ("Water",)}
"""Pages that show a selected record themselves, so that the book does not turn away from them."""
