"""How much of a head's water lands on the ground of a zone."""

from collections.abc import Sequence

from lawnbook.agronomy.profiles import PROFILES
from lawnbook.yard.fields import Outline
from lawnbook.yard.records import Head


def share_wetted(head: Head, outline: Outline, holes: Sequence[Outline] = ()) -> float:
    """The share, 0 to 1, of a head's water that lands inside an outline and not in its holes.

    By the ground it covers evenly: which ground it reaches does not hang on its profile. 0 for a
    head whose own figures cannot be.
    """
    # Imported here, for it works in arrays: a start should not wait for numpy.
    from lawnbook.agronomy.throw import Sprinkler, share_within

    try:
        sprinkler = Sprinkler(
            at_ft=head.at_ft,
            radius_ft=head.radius_ft,
            start_deg=head.start_deg,
            sweep_deg=head.sweep_deg,
            flow_gpm=1.0,
            profile=PROFILES["flat"],
        )
    except ValueError:
        return 0.0
    return share_within(sprinkler, outline, holes)
