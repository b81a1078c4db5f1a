"""Money: the price, changes by the client, the account, and a price held against another day."""
