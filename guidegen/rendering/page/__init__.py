"""What pages share: the frame, addresses, pictures, amounts, how a paint is shown."""
