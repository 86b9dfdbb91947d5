"""The lesson files: one TOML file a lesson, no code."""
