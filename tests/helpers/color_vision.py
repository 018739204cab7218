"""Colors as numbers: contrast, lightness, and how they look to eyes that lack one kind of cone.

Matrices: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A Physiologically-based Model for Simulation of Color
Vision Deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (2009) 1291-1298, severity 1.0, on
linear sRGB. sRGB to XYZ: IEC 61966-2-1, white D65. Lab and the distance in it: CIE 1976. Contrast: WCAG 2.1.
"""

import numpy as np

DEFICIENCIES = {
    "protanopia": (
        (0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998),
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881),
    ),
    "tritanopia": (
        (1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900),
    ),
}
_TO_XYZ = ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
_WHITE = (0.9505, 1.0, 1.0890)


def linear(color: str) -> np.ndarray:
    """Linear red, green and blue of ``#rrggbb``, 0 to 1."""
    parts = np.array([int(color[at:at + 2], 16) for at in (1, 3, 5)]) / 255
    return np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)


def seen_with(deficiency: str, color: str) -> np.ndarray:
    """Linear red, green and blue of what is seen instead of a color."""
    return np.clip(np.array(DEFICIENCIES[deficiency]) @ linear(color), 0, 1)


def lab(rgb: np.ndarray) -> np.ndarray:
    """CIE 1976 L*, a*, b* of linear red, green and blue."""
    shares = (np.array(_TO_XYZ) @ rgb) / np.array(_WHITE)
    x, y, z = np.where(shares > (6 / 29) ** 3, np.cbrt(shares), shares * (29 / 6) ** 2 / 3 + 4 / 29)
    return np.array([116 * y - 16, 500 * (x - y), 200 * (y - z)])


def lightness(color: str) -> float:
    """L* of a color: what is left of it in grey, 0 to 100."""
    return float(lab(linear(color))[0])


def distance(first: np.ndarray, second: np.ndarray) -> float:
    """CIE76 distance of two colors in linear red, green and blue."""
    return float(np.linalg.norm(lab(first) - lab(second)))


def contrast(first: str, second: str) -> float:
    """Contrast of two colors as WCAG 2.1 counts it, 1 to 21."""
    light, dark = sorted((float(np.array(_TO_XYZ[1]) @ linear(each)) for each in (first, second)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
