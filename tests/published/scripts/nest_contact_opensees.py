"""Three tubes run down into one another, by OpenSees: the reference of three_nested_tubes_bend_as_with_contact_in_opensees in
src-tauri/engine/src/structure/model/tests.rs.

    python nest_contact_opensees.py

In a plane. Each tube is held by the one about it at its lower end and at its top, and in between only by contact at every
node, once its play is used up to that side. The foot is pinned, the outer top held sideways; the wind meets the outer tube, a
load stands on the inner one's top. Made with openseespy 3.7.1. Under more load the contact does not converge.
"""
import math

import openseespy.opensees as ops

E, LONG, PARTS = 210e9, 4.6, 20
TUBES = [(0.0255, 0.00266), (0.0192, 0.0010), (0.0147, 0.00122)]
SIDE, DOWN = 10.0, 100.0
CONTACT = 2e5  # N/m of a node's contact
STEPS = 2000


def node(tube, k):
    return 1000 * (tube + 1) + k


def section(outside, wall):
    inside = outside - 2 * wall
    return math.pi / 4 * (outside**2 - inside**2), math.pi / 64 * (outside**4 - inside**4)


def main():
    ops.wipe()
    ops.model("basic", "-ndm", 2, "-ndf", 3)
    for tube in range(len(TUBES)):
        for k in range(PARTS + 1):
            ops.node(node(tube, k), 0.0, LONG * k / PARTS)
    ops.fix(node(0, 0), 1, 1, 0)
    ops.fix(node(0, PARTS), 1, 0, 0)
    ops.geomTransf("Corotational", 1)
    element = material = 0
    for tube, (outside, wall) in enumerate(TUBES):
        area, second = section(outside, wall)
        for k in range(PARTS):
            element += 1
            ops.element("elasticBeamColumn", element, node(tube, k), node(tube, k + 1), area, E, second, 1)
    for tube in range(1, len(TUBES)):
        (about, wall), (outside, _) = TUBES[tube - 1], TUBES[tube]
        play = about / 2 - wall - outside / 2
        ops.equalDOF(node(tube - 1, 0), node(tube, 0), 1, 2)
        ops.equalDOF(node(tube - 1, PARTS), node(tube, PARTS), 1)
        for k in range(1, PARTS):
            ops.uniaxialMaterial("ElasticPPGap", material + 1, CONTACT, 1e9, play)
            ops.uniaxialMaterial("ElasticPPGap", material + 2, CONTACT, -1e9, -play)
            # A thread, so that what hangs free has a place.
            ops.uniaxialMaterial("Elastic", material + 3, 1e-3)
            for number in range(material + 1, material + 4):
                element += 1
                ops.element("zeroLength", element, node(tube - 1, k), node(tube, k), "-mat", number, "-dir", 1)
            material += 3
    ops.timeSeries("Linear", 1)
    ops.pattern("Plain", 1, 1)
    for k in range(PARTS + 1):
        ops.load(node(0, k), SIDE * LONG / PARTS * (0.5 if k in (0, PARTS) else 1.0), 0.0, 0.0)
    ops.load(node(len(TUBES) - 1, PARTS), 0.0, -DOWN, 0.0)
    ops.constraints("Transformation")
    ops.numberer("RCM")
    ops.system("UmfPack")
    ops.test("NormDispIncr", 1e-7, 100)
    ops.algorithm("Newton")
    ops.integrator("LoadControl", 1.0 / STEPS)
    ops.analysis("Static")
    assert ops.analyze(STEPS) == 0
    for tube in range(len(TUBES)):
        moment = abs(ops.eleResponse(1 + tube * PARTS + PARTS // 2, "localForces")[2])
        print(f"tube {tube + 1}: {1e3 * ops.nodeDisp(node(tube, PARTS // 2), 1):.2f} mm, {moment:.2f} N m")


if __name__ == "__main__":
    main()
