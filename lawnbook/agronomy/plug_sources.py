"""Where the statistics of plugs come from; `sources` holds them together with all others."""

from lawnbook.agronomy.source import Source

PLUG_SOURCES: tuple[Source, ...] = (
    Source(
        "noncentral-t",
        "Johnson, Kotz and Balakrishnan 1995, Continuous univariate distributions, volume 2, "
        "chapter 31: noncentral t and the power of the t test (from memory)",
        "memory",
    ),
    Source(
        "one-way-anova",
        "Searle, Casella and McCulloch 1992, Variance components, chapter 3: unbalanced one-way "
        "analysis of variance (from memory)",
        "memory",
    ),
    Source(
        "rounding",
        "Joint Committee for Guides in Metrology 2008, JCGM 100, section F.2.2.1: a reading "
        "rounded to a step has the standard uncertainty step / √12 (from memory)",
        "memory",
    ),
    Source(
        "us-coins",
        "United States Mint, Coin specifications: diameters of the cent, nickel, dime and quarter "
        "(from memory)",
        "memory",
    ),
    Source(
        "other-coins",
        "Royal Canadian Mint, European Central Bank, Royal Mint and Royal Australian Mint: "
        "diameters of coins (from memory)",
        "memory",
    ),
    Source(
        "photo-resolution",
        "How fine a photograph reads: our reckoning, each mark off by one pixel and a ruler by its "
        "mark / √12 (common practice)",
        "practice",
    ),
    Source(
        "hole-clear",
        "Next plugs on rings 12 and 24 in round the mark, 6 in clear of old holes, whose turf is "
        "new, and 12 in where there is room (common practice)",
        "practice",
    ),
    Source(
        "regional-kendall",
        "Helsel and Frans 2006, Regional Kendall test for trend, Environmental Science and "
        "Technology 40:4066–4073 (from memory)",
        "memory",
    ),
    Source(
        "paule-mandel",
        "Paule and Mandel 1982, Consensus values and weighting factors, Journal of Research of the "
        "National Bureau of Standards 87:377–385 (from memory)",
        "memory",
    ),
    Source(
        "hartung-knapp",
        "Hartung and Knapp 2001, Statistics in Medicine 20:3875–3889, and Sidik and Jonkman 2002, "
        "same journal 21:3153–3159: t interval of a random-effects mean, not narrowed as in Röver, "
        "Knapp and Friede 2015, BMC Medical Research Methodology 15:99 (from memory)",
        "memory",
    ),
    Source(
        "fieller",
        "Fieller 1954, Some problems in interval estimation, Journal of the Royal Statistical "
        "Society B 16:175–185 (from memory)",
        "memory",
    ),
    Source(
        "least-squares",
        "Draper and Smith 1998, Applied regression analysis, third edition: least squares, t "
        "intervals of slopes and of the line (from memory)",
        "memory",
    ),
    Source(
        "hodges-lehmann",
        "Hodges and Lehmann 1963, Estimates of location based on rank tests, Annals of "
        "Mathematical Statistics 34:598–611 (from memory)",
        "memory",
    ),
    Source(
        "mover",
        "Zou and Donner 2008, Construction of confidence limits about effect measures, Statistics "
        "in Medicine 27:1693–1702: the interval of a difference from two intervals (from memory)",
        "memory",
    ),
)
