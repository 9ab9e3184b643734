"""Colour: spaces and differences, reflectance, mixtures, layers, closest paints."""
