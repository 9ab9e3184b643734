"""A painted card out of a photo: where its pages lie, what its boxes deliver, and the colours they have."""
