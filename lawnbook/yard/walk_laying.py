"""Where a closed walk goes on the page: along a line, or over what is drawn. Feet."""

import math

import numpy as np

from lawnbook.yard.fields import Outline, Point
from lawnbook.yard.geometry import signed_area_sqft, tidy


def clockwise(outline: Outline) -> Outline:
    """The outline clockwise on the page, its first corner kept."""
    return outline if signed_area_sqft(outline) <= 0 else (*outline[:1], *reversed(outline[1:]))


def laid(outline: Outline, start: Point, toward: Point) -> Outline:
    """The outline with its first corner at a place, its first side toward another, to 0.01 ft."""
    (ax, ay), (bx, by) = outline[0], outline[1]
    turn = math.atan2(toward[1] - start[1], toward[0] - start[0]) - math.atan2(by - ay, bx - ax)
    cosine, sine = math.cos(turn), math.sin(turn)
    return tuple(
        tidy(
            (
                start[0] + (x - ax) * cosine - (y - ay) * sine,
                start[1] + (x - ax) * sine + (y - ay) * cosine,
            )
        )
        for x, y in outline
    )


def laid_over(outline: Outline, drawn: Outline) -> Outline:
    """The outline moved and turned so that its corners lie nearest to those of a drawn one.

    Both have as many corners, in the same order (Kabsch's best rotation, from memory). ValueError
    where the counts differ.
    """
    if len(outline) != len(drawn):
        raise ValueError("The outlines have different numbers of corners")
    ours, theirs = np.array(outline), np.array(drawn)
    middle, other = ours.mean(axis=0), theirs.mean(axis=0)
    a, b = ours - middle, theirs - other
    turn = math.atan2(float((a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum()), float((a * b).sum()))
    ax, ay = a[0]
    start = (
        float(other[0] + ax * math.cos(turn) - ay * math.sin(turn)),
        float(other[1] + ax * math.sin(turn) + ay * math.cos(turn)),
    )
    (px, py), (qx, qy) = outline[0], outline[1]
    heading = math.atan2(qy - py, qx - px) + turn
    return laid(outline, start, (start[0] + math.cos(heading), start[1] + math.sin(heading)))
