"""Speed as ratios to a floor taken in the same run. Run them by `python -m tests.bench`."""
