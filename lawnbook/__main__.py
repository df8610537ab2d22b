"""`python -m lawnbook`: the same as the command `lawnbook`."""

import sys

from lawnbook.cli import main

sys.exit(main())
