"""Which class of tire a size code names."""

import pytest

from tiremap.model.size_code import read_size_code
from tiremap.model.tire_class import class_of


# USTMA (formerly RMA) puncture repair procedures: light truck to load range E, truck and bus from F
@pytest.mark.parametrize(
    ("code", "tire_class"),
    [
        ("LT245/75R16 120/116S", "light_truck"),  # load range unknown, load index of a light truck
        ("LT245/75R16 120/116S C", "light_truck"),
        ("LT245/75R16 120/116S E", "light_truck"),
        ("LT275/70R18 125/122R F", "truck"),
        ("LT235/85R16 LR G", "truck"),
        ("LT235/85R16 LR H", "truck"),
        ("LT225/70R19.5 F", "truck"),
        ("31x10.50R15LT C", "light_truck"),
        ("LT245/75R16 120/116F", "light_truck"),  # speed symbol F, 80 km/h
        ("225/65R16C 112/110R", "light_truck"),
        ("315/80R22.5 156/150L", "truck"),
        ("205/55R16 91V", "passenger"),
        ("T125/80D16 97M", "temporary_spare"),
        ("ST235/80R16 LR G", None),
        # load index 122 divides light from heavy in the German directive; load range E reaches beyond it
        ("LT275/70R18 125/122R", None),
        ("LT275/70R18 125/122R E", "light_truck"),
        ("235/65R16C 121/119R", "light_truck"),
        ("235/65R16C 122/120R", None),
        # without LT or C: the load index of twin tires, a flotation size, and one too high without a load index
        ("205/65R16 107/105T", None),
        ("31x10.50R15 109Q", None),
        ("335/80R20", None),
        ("235/85R16", None),
        ("265/70R17", "passenger"),
        ("335/80R20 116Q", "passenger"),
        ("P265/75R16", "passenger"),
        ("335/80R20 147K", "truck"),
    ],
)
def test_a_load_range_above_e_makes_a_truck_tire(code, tire_class):
    assert class_of(read_size_code(code)) == tire_class


def test_every_letter_is_on_one_side_of_the_border():
    of_letters = [class_of(read_size_code(f"LT245/75R16 LR {letter}")) for letter in "BCDEFGHJLMN"]
    assert of_letters == ["light_truck"] * 4 + ["truck"] * 7
