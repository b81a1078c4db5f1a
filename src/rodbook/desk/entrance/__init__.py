"""Who comes in and what they did: sign-in, accounts, the second step, and the trail of deeds."""
