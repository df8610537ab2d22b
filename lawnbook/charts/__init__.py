"""Pictures from a Plan: marks, and matplotlib Figures that paint them; no pyplot, no Qt."""
