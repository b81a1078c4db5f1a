"""Site: dates, hours, and what is done, ordered or come."""
