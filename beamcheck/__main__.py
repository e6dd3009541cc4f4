"""`python -m beamcheck` is the command `beamcheck`."""

from .cli import main

if __name__ == "__main__":
    main(prog_name="whatcarries")
