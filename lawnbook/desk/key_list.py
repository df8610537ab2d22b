"""The keys by where they work, and the same as a table."""

from html import escape

KEYS_WORDS_TO_TELL = (
    (
        "Everywhere",
        ("Ctrl+1 to Ctrl+6", "turn to Yard, Plugs, Water, Feed, Season, Sheet"),
        ("F6", "from the sketch to the page and back"),
        ("F9", "the sketch over both pages, and back"),
        ("Ctrl+D, Ctrl+T", "look at another day, back to today"),
        ("Ctrl+K", "note something down in plain words"),
        ("Ctrl+Z, Ctrl+Shift+Z or Ctrl+Y", "undo and redo any edit"),
        ("Ctrl+J, Ctrl+M, Ctrl+L", "duplicate, merge, split what is chosen"),
        ("Ctrl+B, Ctrl+Shift+B", "subtract from the first chosen, cut out what lies on it"),
        ("Ctrl+R, Ctrl+Shift+R", "turn what is chosen a quarter right, left"),
        ("Ctrl+Shift+L, Ctrl+Shift+U", "mirror it left to right, top to bottom"),
        ("Ctrl+P, Ctrl+Shift+P", "print the sheet, save it as PDF"),
        ("F1, Shift+F1, Ctrl+F1", "Help, these keys, the glossary"),
        ("Ctrl+,", "Settings"),
        ("Ctrl+Shift+., Ctrl+Shift+,, Ctrl+0", "larger text, smaller text, text of normal size"),
        ("Ctrl+N, Ctrl+O", "a new yard, open another"),
        ("Ctrl+E", "export a yard file"),
        ("Ctrl+W, Ctrl+Q", "close the book, quit"),
    ),
    (
        "On the sketch",
        ("P, Z, O, F, H, S, C, T", "Pick, Zone, Hole, Feature, Head, Spot, Can, Tape"),
        ("Tab, Shift+Tab", "choose the next, the previous"),
        ("Enter or F2", "to the name of what is chosen"),
        (
            "Shift and click, or drag",
            "choose more; in a box to the right inside, to the left touched",
        ),
        ("Ctrl+A, M", "choose all; mark what is chosen, so that Tab keeps it"),
        ("Arrows", "move it by a step; with Shift finely; with Ctrl the side after the corner"),
        ("B, K", "move by a typed distance; lock or unlock"),
        ("Page Up, Page Down", "earlier, later in the order"),
        ("Menu, Shift+F10", "what can be done with it; a second click there takes what lies below"),
        ("N, Shift+N", "the next corner, the previous"),
        ("Insert, Delete", "add a corner, or a can; take away what is chosen"),
        ("Digits, <, L, R", "while drawing: a side’s length, then its direction or turn; Enter"),
        ("A, Q", "while drawing: an arc by its middle and end; close it square"),
        (
            "Arrows, then Enter or Insert",
            "with a tool in hand: move a cross, with Shift finely, and press where it stands",
        ),
        ("Ctrl+C", "with the tape: copy what was measured"),
        ("Backspace, Esc", "while drawing or measuring: take the last back, give up"),
        ("Shift, Alt, Ctrl", "while dragging: square, no snapping; Ctrl moves a whole side"),
        ("+, −, 0", "zoom in, zoom out, show the whole yard; Space and drag pans"),
    ),
    (
        "On the pages",
        ("Tab, Shift+Tab", "the next field, the previous"),
        ("Left, Right", "on the names of the Water page’s sections: the one before, the next"),
        ("Enter", "keep what is entered"),
        ("Up, Down", "in a date: the next day, the previous; Page Up and Page Down a week"),
        ("0 to 4", "choose a step; Delete takes it away"),
        ("Enter, Delete", "in a list: open the row, take it out"),
        ("Esc", "in a field of the sketch or the climate: give up what is typed"),
        (
            "Left, Right, Page Up, Page Down",
            "on the years: a day, a month; Home and End to the ends, Space plays them",
        ),
        ("Arrows, Home, End", "on a chart: from one to the next; Enter opens it, Esc lets it go"),
        ("Space, Enter, W", "on what is due: tick it off; W shows how it came about"),
        ("Alt+Down", "in a field with a mark at its end: the usual values"),
        ("Ctrl+V", "on Photos and Backdrop: take in the picture that was copied"),
        (
            "+, −, 0",
            "on a photo: enlarge, less, the whole; Enter puts a mark, Delete takes it away",
        ),
    ),
    (
        "In Help, Glossary, Keys, Settings",
        ("Ctrl+F", "to the search; Enter leads to the next that was found"),
        ("Up, Down", "in the contents: the passage before, the next"),
        ("Tab", "from the contents to the text; there Up and Down scroll"),
        ("Esc", "take the search back, then close"),
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
