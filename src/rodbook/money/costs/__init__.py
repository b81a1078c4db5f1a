"""What a kind of part costs in each way of making it: on site, bought, and mixtures, as lines that say what they go by."""
