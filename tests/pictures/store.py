"""Keep a picture as a file the way cameras and phones do: by its ending, one turned sideways, one in HEIF."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from PIL import ExifTags, Image

# Tags of Exif 2.32: the camera was held upright, so the picture is to be turned clockwise to be seen.
SIDEWAYS = 6
POSITION = {1: "N", 2: (0.0, 0.0, 0.0), 3: "E", 4: (0.0, 0.0, 0.0)}

# Pictures kept as a phone would leave them: stored sideways, with the place they were taken (none on land).
AS_FROM_A_PHONE = {"coats.jpg"}


def store(codes: np.ndarray, path: Path) -> None:
    """Write RGB bytes as JPEG, WebP, PNG or HEIF."""
    picture = Image.fromarray(codes)
    ending = path.suffix
    if path.name in AS_FROM_A_PHONE:
        exif = Image.Exif()
        exif[ExifTags.Base.Orientation] = SIDEWAYS
        exif[ExifTags.Base.ImageDescription] = "Both wet coats on the oilskins"
        exif.get_ifd(ExifTags.IFD.GPSInfo).update(POSITION)
        picture.transpose(Image.Transpose.ROTATE_90).save(path, quality=85, exif=exif)
    elif ending == ".jpg":
        picture.save(path, quality=85, optimize=True, progressive=True)
    elif ending == ".webp":
        picture.save(path, quality=84, method=6)
    elif ending == ".png":
        picture.quantize(160, dither=Image.Dither.NONE).save(path, optimize=True)
    else:
        import pillow_heif

        pillow_heif.from_pillow(picture).save(path, quality=68)
