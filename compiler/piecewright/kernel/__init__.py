"""The sewing geometry: exact, and ignorant of text."""
