"""`python -m piecewright` is the command `piecewright`."""

from piecewright.cli import main

if __name__ == "__main__":
    main()
