"""The grammar of the language, its reference and its parse table."""
