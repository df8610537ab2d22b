"""Files from strangers, broken on purpose: `python -m tests.fuzz [CASES] [PARSER ...]`."""
