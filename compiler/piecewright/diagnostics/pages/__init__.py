"""Pages that explain the diagnostics, one a code."""
