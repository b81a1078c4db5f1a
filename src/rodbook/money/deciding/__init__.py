"""What to make and what to buy: decided together, simulated, where the decision turns, and within the crew's weeks."""
