"""Lessons as data, what runs them, and the command line."""
