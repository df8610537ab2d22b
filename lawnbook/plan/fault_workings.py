"""How the ground that a check of the sketch tells of came about."""

from lawnbook.plan.filled_in import reckons, together
from lawnbook.plan.working_model import Working
from lawnbook.plan.workings import given, sources
from lawnbook.reading import tr
from lawnbook.yard.amounts import told
from lawnbook.yard.faults import Fault, area_told


def fault_workings(fault: Fault) -> tuple[Working, ...]:
    """The area that a fault is about; none where it is no matter of ground."""
    if fault.area_sqft <= 0:
        return ()
    corners = sum(len(ring) for ring in fault.rings)
    inputs = (
        given(tr("Pieces"), str(len(fault.rings)), tr("shown on the sketch")),
        given(tr("Corners"), str(corners), tr("of the outlines that meet there")),
        together(given(tr("All lengths"), told(1.0), tr("1 is as drawn")), "scale"),
    )
    return (
        Working(
            "fault_area",
            tr("Ground that is meant"),
            area_told(fault.area_sqft),
            tr("half the sum of xᵢ × yᵢ₊₁ − xᵢ₊₁ × yᵢ round the outline, less the holes"),
            "",
            inputs,
            sources(),
            reckons(f"{fault.area_sqft!r} × {{scale}}²", "sq ft", 1),
        ),
    )
