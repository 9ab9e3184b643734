"""How the figures are painted at each stage, in colours of the invented ranges."""

from __future__ import annotations

from render import Coat

SLATE = Coat("6b737a", 0.25, 0.12)
SAILCLOTH = Coat("d9cfb8", 0.25, 0.2)

WATCH_AREAS = (
    "coat", "hood", "face", "beard", "scarf", "hands", "pack", "bedroll", "straps", "trousers", "boots", "pole", "lantern", "glass", "base",
)  # fmt: skip
PLANKS = Coat("7b6650", "3d3226", "b09a72", shine=0.03)
IRON = Coat("585b5e", "26282a", "8d9194", metal=True)
LIT = Coat("f3c55c", glow=1.05)

WATCH_FLATS = {
    "coat": Coat("b8862f", 0.22, 0.06),
    "hood": Coat("b8862f", 0.22, 0.06),
    "face": Coat("b27d5e", 0.18, 0.06),
    "beard": Coat("7f8a94", 0.18, 0.06),
    "scarf": Coat("a8342f", 0.2, 0.05),
    "hands": Coat("4f3a2c", 0.2, 0.05),
    "pack": Coat("5d7048", 0.2, 0.05),
    "bedroll": Coat("6f93bd", 0.2, 0.05),
    "straps": Coat("6d4a3c", 0.2, 0.05),
    "trousers": Coat("2c4a78", 0.2, 0.05),
    "boots": Coat("4f3a2c", 0.2, 0.05),
    "pole": Coat("7b6650", 0.2, 0.05),
    "lantern": Coat("585b5e", 0.2, 0.1, metal=True),
    "glass": Coat("e3bd55", 0.1, 0.1),
}
# After the wash: its film over the flats, half as thick again in the recesses as guidegen's own drawings have it.
WATCH_WASHED = {
    "coat": Coat("8a6931", "4a4432", "a97c30"),
    "hood": Coat("8a6931", "4a4432", "a97c30"),
    "face": Coat("85624e", "483f3a", "a37459"),
    "beard": Coat("606c74", "3a4347", "74808a"),
    "scarf": Coat("7e3331", "463232", "9a3430"),
    "hands": Coat("41362f", "23282a", "4a392d"),
    "pack": Coat("49593f", "343d36", "566845"),
    "bedroll": Coat("547393", "364655", "6688af"),
    "straps": Coat("544038", "303032", "65463b"),
    "trousers": Coat("2c4060", "1e2630", "2c4670"),
    "boots": Coat("41362f", "23282a", "4a392d"),
    "pole": Coat("5e5244", "3a3b37", "715f4c"),
    "lantern": Coat("464b4e", "23282a", "525558", metal=True),
    "glass": Coat("a99248", "575440", "d0af51"),
    "base": Coat("525b61", "3c4549", "636b72"),
}
WATCH_DONE = WATCH_WASHED | {
    "coat": Coat("a0772f", "4a4432", "e3bd55", shine=0.2),
    "hood": Coat("a0772f", "4a4432", "e3bd55", shine=0.2),
    "face": Coat("b27d5e", "544438", "e0b096"),
    "beard": Coat("8f9aa0", "434c50", "d5dadb"),
    "scarf": Coat("a8342f", "463232", "cc6a3c"),
    "hands": Coat("4f3a2c", "23282a", "7d5d47"),
    "pack": Coat("5d7048", "343d36", "8ea05c"),
    "bedroll": Coat("6f93bd", "364655", "a6c4cf"),
    "straps": Coat("6d4a3c", "303032", "9a6c55"),
    "trousers": Coat("2c4a78", "1e2630", "5877a3"),
    "boots": Coat("4f3a2c", "1c2022", "80614a", shine=0.22),
    "pole": Coat("7b6650", "3a3b37", "b09a72"),
    "lantern": IRON,
    "glass": LIT,
    "base": PLANKS,
}


def all_in(coat: Coat, areas: tuple[str, ...]) -> dict[str, Coat]:
    """Every area in one coat, as after the undercoat."""
    return dict.fromkeys(areas, coat)


RIDER_DONE = {
    "plumage": Coat("7f8a94", "3b444c", "c3cbd0"),
    "wing": Coat("4c5660", "20272d", "8b98a2"),
    "crest": Coat("24262b", "0f1013", "56606a"),
    "bill": Coat("cc6a3c", "6d3321", "eaa36a", shine=0.2),
    "legs": Coat("6d4a3c", "343434", "a67c5f"),
    "eye": Coat("e3bd55", 0.2, 0.2, shine=0.7),
    "saddle": Coat("8f4a36", "403534", "c27a54", shine=0.2),
    "reins": Coat("4f3a2c", 0.4, 0.2),
    "straps": Coat("4f3a2c", 0.5, 0.3),
    "satchel": Coat("6d4a3c", "343434", "a67c5f"),
    "coat": Coat("2f6c70", "12302f", "6fa6a4"),
    "hood": Coat("2f6c70", "12302f", "6fa6a4"),
    "straw hat": Coat("d1bb86", "7a6238", "f0e4bd"),
    "hair": Coat("7d4130", "3c3533", "b8724d"),
    "scarf": Coat("a99248", "4c4c38", "d0af51"),
    "face": Coat("b27d5e", "553628", "e0b096"),
    "hands": Coat("b27d5e", "553628", "dba98a"),
    "trousers": Coat("6c5c4a", "3a3b37", "b09a72"),
    "boots": Coat("4f3a2c", "1b1511", "80614a", shine=0.2),
    "pole": Coat("6c5c4a", "3a3b37", "b09a72"),
    "spear": Coat("b3b7ba", "5c6064", "eef0f1", metal=True),
    "pennant": Coat("943431", "463232", "d8713f"),
    "reeds": Coat("6f8140", "3a4536", "b5c46e"),
    "base": Coat("4a4a35", "22241a", "6f6e50"),
}
BOAT_DONE = {
    "water": Coat("2a6065", "102c33", "8fc0c2", shine=0.22),
    "rigging": Coat("8f8468", 0.4, 0.2),
    "deck": Coat("6a6050", "3a3b37", "8f8672"),
    "pennant": Coat("a8342f", "4d1714", "d8713f"),
    "mast": Coat("7b6650", "3a2f24", "b09a72"),
    "sail": Coat("b0a486", "5f6152", "f4ead0"),
    "basket": Coat("8f8468", "45473f", "c4b794"),
    "barrel": Coat("544038", "343434", "86695a"),
    "cargo": Coat("8f8468", "45473f", "d6c7a4"),
    "chimney": IRON,
    "cabin": Coat("6f93bd", "33496a", "b4cce0"),
    "windows": Coat("f3c55c", 0.35, 0.25, glow=0.75),
    "roof": Coat("4c5660", "20272d", "8b98a2"),
    "lamp": Coat("a78a4f", "4d3c1c", "dcc58a", metal=True),
    "glass": Coat("f08a3c", glow=1.1),
    "hull": Coat("2c4a78", "121f38", "6f93bd", shine=0.3),
    "keel": Coat("8f4a36", "3c1e16", "b86b4a"),
    "rail": Coat("e2ddd0", "8d867a", "fbfaf5"),
    "oar": Coat("5e5548", "3a3b37", "9a8f7a"),
    "fenders": Coat("8f8468", "45473f", "c4b794"),
    "nameboard": Coat("d6c196", 0.3, 0.3),
}
HOUSE_DONE = {
    "stone": Coat("a8926c", "4f4433", "d6c196"),
    "chimney": Coat("8f4a36", "43221a", "c07552"),
    "pots": Coat("cc6a3c", "6d3321", "e8a070"),
    "frame": Coat("cdb98f", "6e6045", "eee2c4"),
    "door": Coat("2f6c70", "143436", "6fa6a4"),
    "shutters": Coat("2f6c70", "143436", "6fa6a4"),
    "windows": Coat("f3c55c", 0.35, 0.3, glow=0.6),
    "shelf": Coat("7b6650", "3a2f24", "b09a72"),
    "roof": Coat("4c5660", "1f262c", "93a0a8"),
    "verge": Coat("7b6650", "3a2f24", "b09a72"),
    "moss": Coat("7f9144", "3f4a22", "b9c877"),
    "steps": Coat("7f8a94", "40484e", "b9c2c7"),
    "ivy": Coat("5d7048", "28321e", "94a866"),
    "lantern": IRON,
    "glass": LIT,
    "post": Coat("7b6650", "3a2f24", "b09a72"),
    "barrier": Coat("e2ddd0", 0.45, 0.3),
    "stripes": Coat("a8342f", 0.5, 0.25),
    "base": Coat("6e5c48", "362d22", "937f63"),
}
WIDOW_DONE = {
    "post": Coat("7b6650", "342a20", "b09a72"),
    "bands": Coat("5f574c", "2c2620", "9a6a45"),
    "cat": Coat("2a2b30", "101114", "5d6570", shine=0.15),
    "boots": Coat("4f3a2c", "1b1511", "80614a", shine=0.2),
    "dress": Coat("4d3142", "1d1219", "8d6379"),
    "apron": Coat("cbb88f", "6d5c3f", "f2e8cd"),
    "sleeves": Coat("8d7ca2", "453a55", "c5b6d2"),
    "cuffs": Coat("dcd7cb", "8b8577", "faf8f2"),
    "shawl": Coat("2a5f64", "0e2a2e", "6fa6a4"),
    "border": Coat("d6c196", 0.15, 0.2),
    "hands": Coat("c58f70", "5f3c2c", "f0c6a8"),
    "headscarf": Coat("983029", "40120f", "d8713f"),
    "face": Coat("c99274", "64402f", "f4cdb0"),
    "hair": Coat("a9b0b3", "565d60", "e9ebea"),
    "lamp": Coat("a78a4f", "4d3c1c", "e8d29a", metal=True),
    "glass": Coat("f7c25a", glow=0.95),
    "flame": Coat("fff2d0", glow=1.6),
}
SELLER_DONE = {
    "boots": Coat("4f3a2c", "1b1511", "80614a", shine=0.2),
    "trousers": Coat("454f57", "20272d", "6f7a84"),
    "shirt": Coat("d3d2c7", "69726d", "f7f4ea"),
    "apron": Coat("6f93bd", "33496a", "b4cce0"),
    "straps": Coat("4f3a2c", 0.4, 0.3),
    "eel": Coat("574438", "211a15", "b3a28c", shine=0.35),
    "skin": Coat("c58f70", "4e423a", "ecc0a2"),
    "scarf": Coat("943431", "463232", "b4453a"),
    "moustache": Coat("7e4535", "403534", "a8664a"),
    "cap": Coat("536442", "343d36", "74875a"),
    "barrel": Coat("665947", "3a3b37", "8a7c66"),
    "hoops": IRON,
    "brine": Coat("2f6c70", 0.4, 0.3, shine=0.25),
    "base": PLANKS,
}
