"""How each leaf opens and hangs."""
