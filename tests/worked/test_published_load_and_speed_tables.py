"""The load index and speed symbol tables, whole.

Source: the load-capacity index and speed category tables common to the annexes of UN Regulations 30 and 54 and to
tire makers' charts; several public copies agree.
"""

import pytest

from tiremap.model.load_and_speed import load_kg, speed_kmh, speed_symbols

KG = {
    50: 190, 51: 195, 52: 200, 53: 206, 54: 212, 55: 218, 56: 224, 57: 230,
    58: 236, 59: 243, 60: 250, 61: 257, 62: 265, 63: 272, 64: 280, 65: 290,
    66: 300, 67: 307, 68: 315, 69: 325, 70: 335, 71: 345, 72: 355, 73: 365,
    74: 375, 75: 387, 76: 400, 77: 412, 78: 425, 79: 437, 80: 450, 81: 462,
    82: 475, 83: 487, 84: 500, 85: 515, 86: 530, 87: 545, 88: 560, 89: 580,
    90: 600, 91: 615, 92: 630, 93: 650, 94: 670, 95: 690, 96: 710, 97: 730,
    98: 750, 99: 775, 100: 800, 101: 825, 102: 850, 103: 875, 104: 900, 105: 925,
    106: 950, 107: 975, 108: 1000, 109: 1030, 110: 1060, 111: 1090, 112: 1120, 113: 1150,
    114: 1180, 115: 1215, 116: 1250, 117: 1285, 118: 1320, 119: 1360, 120: 1400, 121: 1450,
    122: 1500, 123: 1550, 124: 1600, 125: 1650, 126: 1700, 127: 1750, 128: 1800, 129: 1850,
    130: 1900, 131: 1950, 132: 2000, 133: 2060, 134: 2120, 135: 2180, 136: 2240, 137: 2300,
    138: 2360, 139: 2430, 140: 2500, 141: 2575, 142: 2650, 143: 2725, 144: 2800, 145: 2900,
    146: 3000, 147: 3075, 148: 3150, 149: 3250, 150: 3350, 151: 3450, 152: 3550, 153: 3650,
    154: 3750, 155: 3875, 156: 4000, 157: 4125, 158: 4250, 159: 4375, 160: 4500, 161: 4625,
    162: 4750, 163: 4875, 164: 5000, 165: 5150, 166: 5300, 167: 5450, 168: 5600, 169: 5800,
    170: 6000,
}  # fmt: skip

KMH = {
    "A1": 5, "A2": 10, "A3": 15, "A4": 20, "A5": 25, "A6": 30, "A7": 35, "A8": 40,
    "B": 50, "C": 60, "D": 65, "E": 70, "F": 80, "G": 90, "J": 100, "K": 110,
    "L": 120, "M": 130, "N": 140, "P": 150, "Q": 160, "R": 170, "S": 180, "T": 190,
    "U": 200, "H": 210, "V": 240, "W": 270, "Y": 300,
}  # fmt: skip


@pytest.mark.parametrize(("index", "kg"), KG.items())
def test_a_load_index_stands_for_its_published_load(index, kg):
    assert load_kg(index) == kg


@pytest.mark.parametrize(("symbol", "kmh"), KMH.items())
def test_a_speed_symbol_stands_for_its_published_speed(symbol, kmh):
    assert speed_kmh(symbol) == speed_kmh(symbol.lower()) == kmh


def test_no_symbol_is_known_beyond_the_published_ones():
    assert set(speed_symbols()) == set(KMH)


@pytest.mark.parametrize("index", [-1, 0, 49, 171, 999])
def test_a_load_index_outside_the_table_stays_unknown(index):
    assert load_kg(index) is None


@pytest.mark.parametrize("symbol", ["I", "O", "X", "Z", "", "VV"])
def test_a_letter_that_is_no_speed_symbol_stays_unknown(symbol):
    assert speed_kmh(symbol) is None


def test_the_symbol_h_lies_between_u_and_v():
    assert speed_kmh("U") < speed_kmh("H") < speed_kmh("V")


def test_a_higher_index_always_carries_more():
    loads = [load_kg(index) for index in range(50, 171)]
    assert loads == sorted(set(loads))
