"""Huang, Pavement analysis and design, 2nd edition 2004, chapter 4: stresses of slabs that warp. From memory."""

from pytest import approx

from underpour.physics.plates import curling, springs


def test_the_slab_of_huang_s_first_example():
    """25 ft by 12 ft, 8 in, k 200 pci, 20 °F: l 30.57 in, C 1.07 and 0.63 by ruler, 238 psi in the middle.

    Seen: memory. E 4,000,000 psi, ν 0.15, 5e-6 per °F. C is read off a chart by eye: 0.02.
    """
    inch, psi = 0.0254, 6894.757
    pci = psi / inch
    stiffness = springs.plate_stiffness(4e6 * psi, 8.0 * inch, 0.15)
    radius = springs.radius_of_relative_stiffness(stiffness, 200.0 * pci)
    assert radius / inch == approx(30.57, abs=0.01)
    along, across = (curling.held_share(feet * 12.0 * inch, radius) for feet in (25.0, 12.0))
    assert along == approx(1.07, abs=0.02)
    assert across == approx(0.63, abs=0.02)
    assert curling.stress(4e6, 0.15, 1e-4, along, across) == approx(238.0, abs=4.0)
