"""Make: make or buy, boards and lengths, orders and quotes, papers, and what boards give the shop."""
