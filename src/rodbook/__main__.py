"""Run the command line as ``python -m rodbook``."""

from rodbook.cli import main

if __name__ == "__main__":
    main()
