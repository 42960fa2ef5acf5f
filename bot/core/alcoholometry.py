"""Strength of ethanol and water: density, mass fraction, alcohol by volume, US proof.

Lives here: the OIML R 22 formula, its coefficients and its inverse.
Must never: know about sugar, recipes or bottles (that is liquid.py and above).
Strengths are fractions; "abv" is of volume at 20 °C unless a temperature is given.
"""

# OIML R 22:1975 "International alcoholometric tables", the general formula, p. 13 (also the Annex of Council
# Directive 76/766/EEC): 12 + 6 + 36 numbers, read in two whole public transcriptions that agree. Copies with
# 1.693433... (C1,1) or ...536933 and ...563993 (C2,3) carry digit slips.
RHO_AT_20_C = (  # A_k, kg/m³: density at 20 °C in rising powers of the mass fraction
    9.982012300e2,
    -1.929769495e2,
    3.891238958e2,
    -1.668103923e3,
    1.352215441e4,
    -8.829278388e4,
    3.062874042e5,
    -6.138381234e5,
    7.470172998e5,
    -5.478461354e5,
    2.234460334e5,
    -3.903285426e4,
)
WATER_BY_TEMPERATURE = (  # B_k: rising powers of (t - 20 °C), from the first
    -2.0618513e-1,
    -5.2682542e-3,
    3.6130013e-5,
    -3.8957702e-7,
    7.1693540e-9,
    -9.9739231e-11,
)
# C_i,k: row i goes with (t - 20 °C)^i; rising powers of the mass fraction, from the first
MIX_BY_TEMPERATURE = (
    (
        1.693443461530087e-1,
        -1.046914743455169e1,
        7.196353469546523e1,
        -7.047478054272792e2,
        3.924090430035045e3,
        -1.210164659068747e4,
        2.248646550400788e4,
        -2.605562982188164e4,
        1.852373922069467e4,
        -7.420201433430137e3,
        1.285617841998974e3,
    ),
    (
        -1.193013005057010e-2,
        2.517399633803461e-1,
        -2.170575700536993,
        1.353034988843029e1,
        -5.029988758547014e1,
        1.096355666577570e2,
        -1.422753946421155e2,
        1.080435942856230e2,
        -4.414153236817392e1,
        7.442971530188783,
    ),
    (
        -6.802995733503803e-4,
        1.876837790289664e-2,
        -2.002561813734156e-1,
        1.022992966719220,
        -2.895696483903638,
        4.810060584300675,
        -4.672147440794683,
        2.458043105903461,
        -5.411227621436812e-1,
    ),
    (4.075376675622027e-6, -8.763058573471110e-6, 6.515031360099368e-6, -1.515784836987210e-6),
    (-2.788074354782409e-8, 1.345612883493354e-8),
)
COLDEST_C, WARMEST_C = -20.0, 40.0  # R 22's range
SIXTY_F_C = (60.0 - 32.0) * 5.0 / 9.0  # the temperature of US proof, 27 CFR 30.11

_FALLING = tuple(reversed(RHO_AT_20_C))
_SLOPE_FALLING = tuple(k * a for k, a in reversed(list(enumerate(RHO_AT_20_C))[1:]))
_B_FALLING = tuple(reversed(WATER_BY_TEMPERATURE))
_C_FALLING = tuple(tuple(reversed(row)) for row in reversed(MIX_BY_TEMPERATURE))
RHO_ETHANOL_20 = sum(RHO_AT_20_C)  # 789.24 kg/m³
RHO_WATER_20 = RHO_AT_20_C[0]  # 998.20 kg/m³


def _polynomial(falling: tuple[float, ...], x: float) -> float:
    total = 0.0
    for coefficient in falling:
        total = total * x + coefficient
    return total


def density_kg_m3(mass_fraction: float, temperature_c: float = 20.0) -> float:
    """Density of an ethanol-water liquid in kg/m³ by OIML R 22.

    Takes the ethanol as a fraction of mass (0 to 1) and the temperature in °C (-20 to 40). Says nothing
    about ice: below its freezing point the figure is that of the liquid had it not frozen.
    ValueError outside the range of the formula.
    """
    if not 0.0 <= mass_fraction <= 1.0:
        raise ValueError(f"ethanol is {mass_fraction:g} of the mass; it must be between 0 and 1")
    at_20 = _polynomial(_FALLING, mass_fraction)
    if temperature_c == 20.0:
        return at_20
    if not COLDEST_C <= temperature_c <= WARMEST_C:
        raise ValueError(f"{temperature_c:g} °C is outside R 22, {COLDEST_C:g} to {WARMEST_C:g} °C")
    above_20 = temperature_c - 20.0
    mixed = 0.0
    for row in _C_FALLING:
        mixed = (mixed + _polynomial(row, mass_fraction) * mass_fraction) * above_20
    return at_20 + _polynomial(_B_FALLING, above_20) * above_20 + mixed


def density_and_slope_at_20_c(mass_fraction: float) -> tuple[float, float]:
    """Density at 20 °C (kg/m³) and its slope by mass fraction, for solvers; the range is not checked."""
    return _polynomial(_FALLING, mass_fraction), _polynomial(_SLOPE_FALLING, mass_fraction)


def abv_from_mass_fraction(mass_fraction: float, temperature_c: float = 20.0) -> float:
    """Strength by volume (fraction) of an ethanol-water liquid, both volumes at ``temperature_c``.

    p · ρ(p, t) / ρ(1, t), OIML R 22. ValueError outside the range of the formula.
    """
    if temperature_c == 20.0:
        return mass_fraction * density_kg_m3(mass_fraction) / RHO_ETHANOL_20
    return mass_fraction * density_kg_m3(mass_fraction, temperature_c) / density_kg_m3(1.0, temperature_c)


def mass_fraction_from_abv(abv: float, temperature_c: float = 20.0) -> float:
    """Ethanol as a fraction of mass for a strength by volume (fraction): the inverse of the above.

    Newton's method on OIML R 22 to 1e-12. ValueError outside 0..1 or the formula's temperatures.
    """
    if not 0.0 <= abv <= 1.0:
        raise ValueError(f"a strength of {abv * 100:g} % is impossible; it must be between 0 and 100 %")
    fraction = abv * (0.792 + 0.208 * abv**3)  # a start good to 2 %
    for _ in range(12):
        rho, slope = density_and_slope_at_20_c(fraction)
        excess = abv_from_mass_fraction(fraction, temperature_c) - abv
        step = excess * RHO_ETHANOL_20 / (rho + fraction * slope)
        fraction = min(1.0, max(0.0, fraction - step))
        if abs(step) < 1e-12:
            break
    return fraction


def proof_us(abv: float) -> float:
    """US proof of a strength given as a fraction: 2 x the percentage (27 CFR 30.11).

    The regulation means the percentage at 60 °F, which is within 0.1 of the one at 20 °C; a label's
    40 % is 80 proof, and so it is here.
    """
    return abv * 200.0


def abv_from_proof_us(proof: float) -> float:
    """Strength as a fraction of a US proof (see ``proof_us``). ValueError outside 0..200."""
    if not 0.0 <= proof <= 200.0:
        raise ValueError(f"{proof:g} US proof is impossible; it must be between 0 and 200")
    return proof / 200.0
