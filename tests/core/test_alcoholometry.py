"""Density and strength against printed tables: OIML R 22, Perry, the CRC and Lange handbooks."""

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from bot.core import alcoholometry as am

# mass %, kg/m³ at 20 °C, tolerance. R22: OIML R 22:1975 formula. PERRY: Perry 7th ed., density table at
# 20 °C. CRC: Handbook 102nd ed., "Concentrative Properties of Aqueous Solutions".
DENSITIES_AT_20_C = [
    pytest.param(0, 998.20, 0.02, id="R22-water"),
    pytest.param(100, 789.24, 0.02, id="R22-ethanol"),
    pytest.param(1, 996.36, 0.08, id="PERRY-1"),
    pytest.param(5, 989.38, 0.08, id="PERRY-5"),
    pytest.param(10, 981.87, 0.08, id="PERRY-10"),
    pytest.param(20, 968.7, 0.35, id="CRC-20"),
    pytest.param(40, 935.2, 0.35, id="CRC-40"),
    pytest.param(60, 891.1, 0.35, id="CRC-60"),
    pytest.param(80, 843.6, 0.35, id="CRC-80"),
    pytest.param(96, 801.3, 0.35, id="CRC-96"),
]
# % vol, mass %, kg/m³ at 20 °C: OIML R 22 formula; tolerances 0.01 % and 0.05 kg/m³.
STRENGTHS_R22 = [
    (12, 9.641, 982.35),
    (18, 14.560, 975.71),
    (30, 24.607, 962.21),
    (40, 33.300, 948.05),
    (50, 42.426, 930.14),
    (70, 62.386, 885.56),
]
# mass %, % vol: Lange 15th ed., table 5.13; tolerance 0.1 points.
STRENGTHS_LANGE = [(4.8, 6.0), (16.4, 20.2), (39.0, 46.3)]
# mass %, °C; tolerance 1.5 kg/m³ against Melinder 2010 (CoolProp 8.0 INCOMP::MEA), run beside it: guards the
# digits of the temperature terms, which nothing at 20 °C sees.
AWAY_FROM_20_C = [(10, 0), (10, 40), (30, -15), (30, 0), (30, 40), (50, -20), (50, 0), (50, 40), (60, -20)]
# % vol at 20 °C, °C, density / density at 20 °C, tolerance: OIML R 22, the 2.4 % that a 40 % spirit gains.
COLD = [(40, -18, 1.024, 0.001)]
# US proof, parts of water in 100 volumes, both at 60 °F: 27 CFR 30.66; tolerance 0.02.
WATER_IN_PROOF_SPIRIT = [(100, 53.73), (112, 47.75), (188, 7.36), (191, 5.59)]
# °C, kg/m³ of water: handbook values (IAPWS-95, rounded); tolerance 0.02.
WATER = [(0, 999.84), (4, 999.97), (10, 999.70), (15, 999.10), (25, 997.05), (30, 995.65), (40, 992.22)]


@pytest.mark.parametrize(("percent", "density", "tolerance"), DENSITIES_AT_20_C)
def test_density_at_20_c_is_the_printed_one(percent: float, density: float, tolerance: float) -> None:
    assert am.density_kg_m3(percent / 100) == pytest.approx(density, abs=tolerance)


@pytest.mark.parametrize(("temperature_c", "density"), WATER)
def test_density_of_water_is_the_printed_one(temperature_c: float, density: float) -> None:
    assert am.density_kg_m3(0.0, temperature_c) == pytest.approx(density, abs=0.02)


@pytest.mark.parametrize(("percent", "temperature_c"), AWAY_FROM_20_C)
def test_density_away_from_20_c_agrees_with_melinder(percent: float, temperature_c: float) -> None:
    fluid = f"INCOMP::MEA[{percent / 100}]"
    melinder = PropsSI("D", "T", 273.15 + temperature_c, "P", 101325.0, fluid)
    assert am.density_kg_m3(percent / 100, temperature_c) == pytest.approx(melinder, abs=1.5)


@pytest.mark.parametrize(("abv", "percent", "density"), STRENGTHS_R22)
def test_strength_gives_mass_fraction_and_density_of_r22(abv: float, percent: float, density: float) -> None:
    fraction = am.mass_fraction_from_abv(abv / 100)
    assert fraction * 100 == pytest.approx(percent, abs=0.01)
    assert am.density_kg_m3(fraction) == pytest.approx(density, abs=0.05)


@pytest.mark.parametrize(("percent", "abv"), STRENGTHS_LANGE)
def test_mass_fraction_gives_strength_of_lange(percent: float, abv: float) -> None:
    assert am.abv_from_mass_fraction(percent / 100) * 100 == pytest.approx(abv, abs=0.1)


@pytest.mark.parametrize(("abv", "temperature_c", "ratio", "tolerance"), COLD)
def test_cold_spirit_is_denser(abv: float, temperature_c: float, ratio: float, tolerance: float) -> None:
    fraction = am.mass_fraction_from_abv(abv / 100)
    cold = am.density_kg_m3(fraction, temperature_c) / am.density_kg_m3(fraction)
    assert cold == pytest.approx(ratio, abs=tolerance)


@pytest.mark.parametrize(("proof", "parts"), WATER_IN_PROOF_SPIRIT)
def test_water_in_proof_spirit_is_the_gauging_manuals(proof: float, parts: float) -> None:
    fraction = am.mass_fraction_from_abv(proof / 200, am.SIXTY_F_C)
    water = am.density_kg_m3(fraction, am.SIXTY_F_C) * (1 - fraction)
    assert 100 * water / am.density_kg_m3(0.0, am.SIXTY_F_C) == pytest.approx(parts, abs=0.02)


def test_r22_has_all_54_coefficients() -> None:
    """12 + 6 + (11 + 10 + 9 + 4 + 2), OIML R 22:1975 p. 13."""
    assert len(am.RHO_AT_20_C) == 12
    assert len(am.WATER_BY_TEMPERATURE) == 6
    assert [len(row) for row in am.MIX_BY_TEMPERATURE] == [11, 10, 9, 4, 2]


@given(abv=st.floats(0.0, 1.0), temperature_c=st.sampled_from([-20.0, 0.0, 15.0, am.SIXTY_F_C, 20.0, 40.0]))
def test_strength_and_mass_fraction_are_inverse(abv: float, temperature_c: float) -> None:
    fraction = am.mass_fraction_from_abv(abv, temperature_c)
    assert am.abv_from_mass_fraction(fraction, temperature_c) == pytest.approx(abv, abs=1e-9)


@given(p=st.floats(0.0, 0.999))
def test_more_ethanol_is_lighter_and_stronger(p: float) -> None:
    assert am.density_kg_m3(p + 0.001) < am.density_kg_m3(p)
    assert am.abv_from_mass_fraction(p + 0.001) > am.abv_from_mass_fraction(p)


@given(p=st.floats(0.0, 1.0))
def test_general_formula_meets_the_20_c_polynomial(p: float) -> None:
    assert am.density_kg_m3(p, 20.0 + 1e-9) == pytest.approx(am.density_kg_m3(p), abs=1e-6)
    assert am.density_and_slope_at_20_c(p)[0] == am.density_kg_m3(p)


@pytest.mark.parametrize("fraction", [-0.001, 1.001, float("nan")])
def test_impossible_mass_fraction_is_refused(fraction: float) -> None:
    with pytest.raises(ValueError, match="between 0 and 1"):
        am.density_kg_m3(fraction)


@pytest.mark.parametrize("temperature_c", [-20.1, 40.1, float("nan")])
def test_temperature_outside_r22_is_refused(temperature_c: float) -> None:
    with pytest.raises(ValueError, match="R 22"):
        am.density_kg_m3(0.3, temperature_c)


@pytest.mark.parametrize("abv", [-0.01, 1.01, float("nan")])
def test_impossible_strength_is_refused(abv: float) -> None:
    with pytest.raises(ValueError, match="impossible"):
        am.mass_fraction_from_abv(abv)


@pytest.mark.parametrize(("abv", "proof"), [(0.4, 80), (0.5, 100), (0.575, 115), (0.0, 0), (1.0, 200)])
def test_us_proof_is_twice_the_percentage(abv: float, proof: float) -> None:
    """27 CFR 30.11."""
    assert am.proof_us(abv) == pytest.approx(proof)
    assert am.abv_from_proof_us(proof) == pytest.approx(abv)


@pytest.mark.parametrize("proof", [-1, 201])
def test_impossible_proof_is_refused(proof: float) -> None:
    with pytest.raises(ValueError, match="proof"):
        am.abv_from_proof_us(proof)
