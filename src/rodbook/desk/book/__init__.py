"""The firm's book: rates, boards, fittings, workshops, price lists, and what hours say of its times."""
