"""Traditional units and blocks, written in the language."""
