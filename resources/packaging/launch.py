"""Where the packaged program starts; it is also the child that reads HEIC photographs.

The packager takes this file as the program. See build.py beside it.
"""

import sys

from lawnbook.store import heic_apart

if __name__ == "__main__":
    if sys.argv[1:2] == [heic_apart.CHILD]:
        del sys.argv[1]
        sys.exit(heic_apart.main())

    from lawnbook.start import main

    sys.exit(main())
