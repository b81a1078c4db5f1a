"""From costs to prices: the firm's rules, the client's price, changes, and a price held against another day."""
