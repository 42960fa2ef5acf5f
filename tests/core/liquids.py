"""Drinks for hypothesis to try: anything a bar could have in a vessel, from water to overproof syrup.

Lives here: strategies shared by the core's property tests. Must never: hold expected values.
"""

from hypothesis import strategies as st

from bot.core.liquid import Liquid

volumes_ml = st.floats(0.1, 100_000.0)
strengths = st.floats(0.0, 0.75)
sugars_g_per_l = st.floats(0.0, 250.0)
drinks = st.builds(Liquid.from_volume, volumes_ml, strengths, sugars_g_per_l)
spirited = st.builds(Liquid.from_volume, volumes_ml, st.floats(0.01, 0.75), sugars_g_per_l)
freezers_c = st.floats(-45.0, -0.05)
