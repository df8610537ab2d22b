"""Lawnbook: a desktop notebook for repairing an irrigated lawn."""

__version__ = "0.2.0"
