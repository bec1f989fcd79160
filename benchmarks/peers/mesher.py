"""A general mesher, gmsh, and quadratic triangles. It is GPL, so never a part of the project: used only where it is."""

from __future__ import annotations

import importlib.util
from collections.abc import Callable

import numpy as np
from skfem import MeshTri

from ..posed import Case
from .triangles import bodies

NOT_HERE = "not installed here"


def here() -> bool:
    return importlib.util.find_spec("gmsh") is not None


def version() -> str:
    if not here():
        return NOT_HERE
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version("gmsh")
    except PackageNotFoundError:
        return "here, version unknown"


def drawn(case: Case) -> Callable[[float, float], MeshTri]:
    """The section handed to the mesher, outlines parted where they cross; gives what makes a grid of it.

    The grid's triangles are so wide: ``smallest`` at each corner, and ``growth`` for each metre away from the nearest.
    """
    import gmsh

    if not gmsh.isInitialized():
        gmsh.initialize(["gmsh"], interruptible=False)
        gmsh.option.setNumber("General.Terminal", 0)
        gmsh.option.setNumber("General.NumThreads", 1)
    name = f"{case.name} {hash(case.parts)}"
    gmsh.model.add(name)
    faces = [(2, _face(gmsh, part.outline)) for part in case.parts]
    gmsh.model.occ.fragment(faces, [])
    gmsh.model.occ.synchronize()
    corners = [tag for _, tag in gmsh.model.getEntities(0)]
    field = gmsh.model.mesh.field
    far = field.add("Distance")
    field.setNumbers(far, "PointsList", corners)
    for option in ("MeshSizeExtendFromBoundary", "MeshSizeFromPoints", "MeshSizeFromCurvature"):
        gmsh.option.setNumber(f"Mesh.{option}", 0)

    def grid(smallest: float, growth: float) -> MeshTri:
        gmsh.model.setCurrent(name)
        gmsh.model.mesh.clear()
        wide = field.add("MathEval")
        field.setString(wide, "F", f"{smallest} + {growth} * F{far}")
        field.setAsBackgroundMesh(wide)
        gmsh.model.mesh.generate(2)
        field.remove(wide)
        tags, places, _ = gmsh.model.mesh.getNodes()
        _, corners_of = gmsh.model.mesh.getElementsByType(2)
        row = np.zeros(int(tags.max()) + 1, int)
        row[tags.astype(int)] = np.arange(len(tags))
        three = row[corners_of.astype(int)].reshape(-1, 3).T
        used, three = np.unique(three, return_inverse=True)
        points = places.reshape(-1, 3)[used, :2].T
        return bodies(case, MeshTri(np.ascontiguousarray(points), np.ascontiguousarray(three.reshape(3, -1))))

    return grid


def _face(gmsh, outline) -> int:  # type: ignore[no-untyped-def]
    occ = gmsh.model.occ
    points = [occ.addPoint(x, y, 0.0) for x, y in outline]
    lines = [occ.addLine(a, b) for a, b in zip(points, [*points[1:], points[0]], strict=True)]
    return int(occ.addPlaneSurface([occ.addCurveLoop(lines)]))
