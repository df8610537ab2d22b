"""What a record calls the zone, spot or product it is about, also where that is gone."""

from lawnbook.reading import tr
from lawnbook.yard.notebook import Notebook

GONE_ZONE = tr("a zone that was removed")
GONE_SPOT = tr("a spot that was removed")
GONE_PRODUCT = tr("a product that was removed")


def zone_name(notebook: Notebook, zone_id: str) -> str:
    """The name of a zone by its id."""
    zone = notebook.zones.get(zone_id)
    return zone.name if zone is not None else GONE_ZONE


def spot_name(notebook: Notebook, spot_id: str) -> str:
    """The name of a spot by its id."""
    spot = notebook.spots.get(spot_id)
    return spot.name if spot is not None else GONE_SPOT


def product_name(notebook: Notebook, product_id: str) -> str:
    """The name of a product by its id."""
    product = notebook.products.get(product_id)
    return product.name if product is not None else GONE_PRODUCT
