"""Templates of the printed pattern."""
