"""``python -m shopassist``."""

import gc
import sys


def main() -> int:
    """Start the program; the result is the exit status.

    The collector waits until the first paint: a start throws nothing away.
    """
    gc.disable()
    from shopassist.app import main as run

    return run()


if __name__ == "__main__":
    sys.exit(main())
