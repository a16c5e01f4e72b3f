"""``python -m shopassist``."""

import sys


def main() -> int:
    """Start the program; the result is the exit status."""
    from shopassist.app import main as run

    return run()


if __name__ == "__main__":
    sys.exit(main())
