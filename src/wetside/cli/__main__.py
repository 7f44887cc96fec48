"""``python -m wetside.cli``."""

import sys

from wetside.cli import main

sys.exit(main())
