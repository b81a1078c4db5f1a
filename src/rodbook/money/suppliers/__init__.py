"""What merchants and workshops send: price lists, lists of charges, and quotes compared and split."""
