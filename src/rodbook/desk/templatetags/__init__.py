"""Tags and filters for the templates."""
