"""The commands, one a file: parse, one call, print."""
