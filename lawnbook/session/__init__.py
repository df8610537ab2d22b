"""The open notebook: edit, undo, redo, autosave, subscribe; no Qt."""
