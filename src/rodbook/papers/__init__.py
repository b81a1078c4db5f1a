"""Papers that leave the desk: drawings, schedules, orders, layouts and tables."""
