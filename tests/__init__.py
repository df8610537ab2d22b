"""Tests of Lawnbook, one file for each feature."""
