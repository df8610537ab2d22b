"""What the sketch of a yard shows, in a few sentences: zones with their areas, what is chosen."""

from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.notebook import Key, Notebook
from lawnbook.yard.numbers import and_joined, counted
from lawnbook.yard.records import Zone

_MOST_ZONES = 12
"""More zones than this are summed up, not told one by one."""
_NOUNS = {
    "features": ("feature", "features"),
    "heads": ("head", "heads"),
    "spots": ("plug spot", "plug spots"),
}


def sketch_summary(notebook: Notebook, chosen: Key | None = None) -> str:
    """The zones with number and area, how much else is drawn, and the record that is chosen."""
    zones = tuple(notebook.zones.values())
    if not zones and not notebook.features:
        return tr("Nothing is drawn yet.")
    words = []
    if zones:
        area = told(sum(zone_area_sqft(each) for each in zones), 0, "sq ft")
        count = counted(len(zones), "zone")
        words.append(tr("{zones}, {area} of grass.", zones=count, area=area))
        named = [zone_told(number, each) for number, each in enumerate(zones[:_MOST_ZONES], 1)]
        more = len(zones) - len(named)
        named += [tr("{count} more", count=more)] if more else []
        words.append(f"{'; '.join(named)}.")
    words += _others(notebook)
    record = None if chosen is None else notebook.find(*chosen)
    name = getattr(record, "name", "") if record is not None else ""
    if name:
        words.append(tr("{name} is chosen.", name=name))
    return " ".join(words)


def zone_told(number: int, zone: Zone) -> str:
    """A zone with its number and area: "Zone 1 Front lawn, 1,648 sq ft"."""
    area = told(zone_area_sqft(zone), 0, "sq ft")
    return tr("Zone {number} {name}, {area}", number=number, name=zone.name, area=area)


def _others(notebook: Notebook) -> list[str]:
    """How many features, heads and spots there are besides."""
    parts = [
        counted(len(notebook.table(table)), one, many)
        for table, (one, many) in _NOUNS.items()
        if notebook.table(table)
    ]
    return [tr("Besides: {what}.", what=and_joined(parts))] if parts else []
