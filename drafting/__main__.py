"""Run the command line: ``python -m drafting``."""

from drafting.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
