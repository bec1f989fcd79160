"""Measures as people of the trade type and read them: the one place where units are converted.

Read with one function for each kind; print with `underpour.measure.say`. Both go by ``units.toml``.
"""

from __future__ import annotations

from .amounts import area as area
from .amounts import energy as energy
from .amounts import time as time
from .amounts import volume as volume
from .flows import flow_of_air as flow_of_air
from .flows import flow_of_water as flow_of_water
from .flows import gas_pressure as gas_pressure
from .flows import humidity as humidity
from .flows import permeability as permeability
from .flows import permeance as permeance
from .flows import radon as radon
from .flows import share as share
from .flows import speed as speed
from .heat import conductivity as conductivity
from .heat import degree_days as degree_days
from .heat import density as density
from .heat import heat_capacity as heat_capacity
from .heat import heat_capacity_by_volume as heat_capacity_by_volume
from .heat import heat_flux as heat_flux
from .heat import power as power
from .heat import resistance as resistance
from .heat import resistance_per_length as resistance_per_length
from .heat import temperature as temperature
from .heat import temperature_difference as temperature_difference
from .heat import transmittance as transmittance
from .lengths import altitude as altitude
from .lengths import depth as depth
from .lengths import length as length
from .lengths import signed_length as signed_length
from .lengths import thickness as thickness
from .loads import force as force
from .loads import line_force as line_force
from .loads import mass as mass
from .loads import pressure as pressure
from .measured import Measure as Measure
from .money import Price as Price
from .money import Sum as Sum
from .money import currency_code as currency_code
from .money import money_per_unit as money_per_unit
from .money import sum_of_money as sum_of_money
from .slopes import slope as slope
from .table import System as System
