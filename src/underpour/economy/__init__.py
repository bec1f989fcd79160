"""What money and carbon are worth over years: present worths, paybacks, life cycles, and the best of a ladder.

Pure formulas over floats and arrays. Rates are parts of one, a year; money is in any one currency.
"""

from .ladder import Flat, best_of, optimum, parabola
from .life_cycle import Again, life_cycle_cost
from .payback import discounted_payback, payback
from .present import present_worth, present_worth_of_years, present_worth_of_years_growing
from .worth import adjusted_return, net_saving, saving_to_investment

__all__ = [
    "Again",
    "Flat",
    "adjusted_return",
    "best_of",
    "discounted_payback",
    "life_cycle_cost",
    "net_saving",
    "optimum",
    "parabola",
    "payback",
    "present_worth",
    "present_worth_of_years",
    "present_worth_of_years_growing",
    "saving_to_investment",
]
