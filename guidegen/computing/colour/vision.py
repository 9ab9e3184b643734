"""How colours look to people who lack one kind of cone.

Machado, Oliveira, Fernandes, "A physiologically-based model for simulation of color vision deficiency", IEEE
Transactions on Visualization and Computer Graphics 15 (2009) 1291: the matrices for severity 1.0, for linear sRGB.
"""

from __future__ import annotations

# Red cones lacking, green cones, blue cones.
MATRICES: dict[str, tuple[tuple[float, float, float], ...]] = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
