"""The keys by where they work, and the same as a table."""

from html import escape

from lawnbook.reading import tr

KEYS_WORDS_TO_TELL = (
    (
        tr("Everywhere"),
        (tr("Ctrl+1 to Ctrl+6"), tr("turn to Yard, Plugs, Water, Feed, Season, Sheet")),
        ("F6", tr("from the sketch to the page and back")),
        ("F9", tr("the sketch over both pages, and back")),
        (tr("Ctrl+D, Ctrl+T"), tr("look at another day, back to today")),
        ("Ctrl+K", tr("note something down in plain words")),
        (tr("Ctrl+Z, Ctrl+Shift+Z or Ctrl+Y"), tr("undo and redo any edit")),
        (tr("Ctrl+J, Ctrl+M, Ctrl+L"), tr("duplicate, merge, split what is chosen")),
        (tr("Ctrl+B, Ctrl+Shift+B"), tr("subtract from the first chosen, cut out what lies on it")),
        (tr("Ctrl+R, Ctrl+Shift+R"), tr("turn what is chosen a quarter right, left")),
        (tr("Ctrl+Shift+L, Ctrl+Shift+U"), tr("mirror it left to right, top to bottom")),
        (tr("Ctrl+P, Ctrl+Shift+P"), tr("print the sheet, save it as PDF")),
        (tr("F1, Shift+F1, Ctrl+F1"), tr("Help, these keys, the glossary")),
        ("Ctrl+,", tr("Settings")),
        (
            "Ctrl+Shift+., Ctrl+Shift+,, Ctrl+0",
            tr("larger text, smaller text, text of normal size"),
        ),
        (tr("Ctrl+N, Ctrl+O"), tr("a new yard, open another")),
        ("Ctrl+E", tr("export a yard file")),
        (tr("Ctrl+W, Ctrl+Q"), tr("close the book, quit")),
    ),
    (
        tr("On the sketch"),
        ("P, Z, O, F, H, S, C, T", tr("Pick, Zone, Hole, Feature, Head, Spot, Can, Tape")),
        (tr("Tab, Shift+Tab"), tr("choose the next, the previous")),
        (tr("Enter or F2"), tr("to the name of what is chosen")),
        (
            tr("Shift and click, or drag"),
            tr("choose more; in a box to the right inside, to the left touched"),
        ),
        ("Ctrl+A, M", tr("choose all; mark what is chosen, so that Tab keeps it")),
        ("Arrows", tr("move it by a step; with Shift finely; with Ctrl the side after the corner")),
        ("B, K", tr("move by a typed distance; lock or unlock")),
        (tr("Page Up, Page Down"), tr("earlier, later in the order")),
        (
            tr("Menu, Shift+F10"),
            tr("what can be done with it; a second click there takes what lies below"),
        ),
        (tr("N, Shift+N"), tr("the next corner, the previous")),
        (tr("Insert, Delete"), tr("add a corner, or a can; take away what is chosen")),
        (
            "Digits, <, L, R",
            tr("while drawing: a side’s length, then its direction or turn; Enter"),
        ),
        ("A, Q", tr("while drawing: an arc by its middle and end; close it square")),
        (
            tr("Arrows, then Enter or Insert"),
            tr("with a tool in hand: move a cross, with Shift finely, and press where it stands"),
        ),
        ("Ctrl+C", tr("with the tape: copy what was measured")),
        (tr("Backspace, Esc"), tr("while drawing or measuring: take the last back, give up")),
        (
            tr("Shift, Alt, Ctrl"),
            tr("while dragging: square, no snapping; Ctrl moves a whole side"),
        ),
        ("+, −, 0", tr("zoom in, zoom out, show the whole yard; Space and drag pans")),
    ),
    (
        tr("On the pages"),
        (tr("Tab, Shift+Tab"), tr("the next field, the previous")),
        (
            tr("Left, Right"),
            tr("on the names of the Water page’s sections: the one before, the next"),
        ),
        ("Enter", tr("keep what is entered")),
        (tr("Up, Down"), tr("in a date: the next day, the previous; Page Up and Page Down a week")),
        (tr("0 to 4"), tr("choose a step; Delete takes it away")),
        (tr("Enter, Delete"), tr("in a list: open the row, take it out")),
        ("Esc", tr("in a field of the sketch or the climate: give up what is typed")),
        (
            tr("Left, Right, Page Up, Page Down"),
            tr("on the years: a day, a month; Home and End to the ends, Space plays them"),
        ),
        (
            tr("Arrows, Home, End"),
            tr("on a chart: from one to the next; Enter opens it, Esc lets it go"),
        ),
        (
            tr("Left, Right"),
            tr("on pages as they print: the figure before, the next; Enter opens it"),
        ),
        (tr("Space, Enter, W"), tr("on what is due: tick it off; W shows how it came about")),
        ("Alt+Down", tr("in a field with a mark at its end: the usual values")),
        ("Ctrl+V", tr("on Photos and Backdrop: take in the picture that was copied")),
        (
            "+, −, 0",
            tr("on a photo: enlarge, less, the whole; Enter puts a mark, Delete takes it away"),
        ),
    ),
    (
        tr("In Help, Glossary, Keys, Settings"),
        ("Ctrl+F", tr("to the search; Enter leads to the next that was found")),
        (tr("Up, Down"), tr("in the contents: the passage before, the next")),
        ("Tab", tr("from the contents to the text; there Up and Down scroll")),
        ("Esc", tr("take the search back, then close")),
    ),
)
"""The keys by where they work: a heading, then keys and what they do."""

KEYS = KEYS_WORDS_TO_TELL


def keys_table() -> str:
    """The keys as a table in HTML, a row each below the heading of where they work."""
    rows = []
    for where, *lines in KEYS:
        rows.append(
            f'<tr><td colspan="2" style="padding-top: 10px"><b>{escape(where)}</b></td></tr>'
        )
        rows += [f"<tr>{_cell(keys)}{_cell(what)}</tr>" for keys, what in lines]
    return f"<table>{''.join(rows)}</table>"


def _cell(words: str) -> str:
    return f'<td style="padding-right: 18px; white-space: pre">{escape(words)}</td>'
