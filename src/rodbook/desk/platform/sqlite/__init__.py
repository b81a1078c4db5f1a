"""SQLite as the framework has it, but that those who save stand in line."""
