"""What a field's quiet help says to a metric reader, where its rule's own names a US measure."""

from collections.abc import Mapping
from types import MappingProxyType

from lawnbook.reading import is_metric, tr
from lawnbook.yard.fields import FieldInfo

_METRIC: Mapping[str, str] = MappingProxyType(
    {
        "ring_in": tr("How far from the spot's middle it was pulled; 305 mm where left out."),
        "water_price_per_kgal": tr("Price of a cubic metre, in the owner's currency."),
        "density_lb_per_gal": tr("Weight of a litre of a liquid."),
    }
)
"""By the field's name."""


def help_of(info: FieldInfo) -> str:
    """A field's help in the units that the owner reads; "" for none."""
    metric = _METRIC.get(info.name) if is_metric() else None
    return tr(metric) if metric is not None else info.rule.help
