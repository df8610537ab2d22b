"""The measures of paper and ink, in one place, beside the colours of `palette.py`.

Type sizes are points, at a text scale of 100 %. Room, radii and lines are pixels of the screen.
Durations are milliseconds. The style sheet reads them by their names, in small letters.
"""

TITLE_POINTS = 19.0
FIGURE_POINTS = 16.0
VERDICT_POINTS = 13.0
HEADING_POINTS = 11.0
TAB_POINTS = 10.5
UI_POINTS = 10.0
CAPTION_POINTS = 9.0

GAP_PX = 8
"""Between two things that belong together."""
WIDE_GAP_PX = 14
"""Between two things that do not; also the inner edge of a card."""
CARD_RADIUS_PX = 6
FIELD_RADIUS_PX = 5
SMALL_RADIUS_PX = 4

RULE_PX = 1
RING_PX = 2
"""The ring around what has the keyboard, and around what is asked about or refused."""

LINE_PX = 18
"""The height of a line of text of `UI_POINTS` in a field or button; it grows with the text."""
SMALL_LINE_PX = 16

QUICK_MS = 120
CALM_MS = 180
"""The shortest and the longest motion: seen, and waited for by nobody."""

SHADE = "#000000"
BRIGHT = "#ffffff"
"""Shadow and light, which are no role of a palette: always used thinly, or on a photograph."""
CASING = "#101214"
"""The dark rim around a bright line on a photograph, whatever it shows."""
