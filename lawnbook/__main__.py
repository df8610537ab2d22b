"""`python -m lawnbook`: the same as the command `lawnbook`."""

import sys

from lawnbook.start import main

sys.exit(main())
