"""Sources of what a new owner finds out without a laboratory or a gauge: soil texture and rates."""

from lawnbook.agronomy.source import Source

FIRST_SOURCES = (
    Source(
        "usda-texture",
        "USDA Soil Science Division Staff 2017, Soil Survey Manual, Agriculture Handbook 18, "
        "chapter 3: definitions of the twelve texture classes",
        "published",
    ),
    Source(
        "jar-test",
        "Montana State University, Land Resources and Environmental Sciences, Soil texture jar "
        "test, 2021: sand marked at one minute, silt at six hours, clay at 24",
        "published",
    ),
    Source(
        "ribbon-test",
        "Thien 1979, A flow diagram for teaching texture-by-feel analysis, Journal of Agronomic "
        "Education 8:54; lengths as Oregon State University, Forage Information System",
        "published",
    ),
    Source(
        "rotor-range",
        "University of Florida IFAS, Landscaping: water efficient irrigation: rotors put down 0.2 "
        "to 0.8 in/h",
        "published",
    ),
    Source(
        "spray-range",
        "Fixed sprays put down 1.3 to 2.0 in/h, some three times what rotors do (from memory)",
        "memory",
    ),
    Source(
        "stream-range",
        "Nozzles of several rotating streams put down 0.4 to 0.6 in/h (from memory)",
        "memory",
    ),
)
"""The sources, to be joined with all others in `agronomy.sources`."""
