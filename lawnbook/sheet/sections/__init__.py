"""The parts of the sheet, one module each: what it says, and how it is drawn."""
