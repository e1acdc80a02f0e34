//! Closed forms of beams and beam-columns.
//!
//! - AISC, Steel Construction Manual, Table 3-23 (shears, moments and deflections): cantilever, propped
//!   cantilever, overhanging beam (from memory; the numbers re-computed).
//! - Timoshenko & Gere, Theory of Elastic Stability, 2nd ed. (1961), ch. 1 and 2: beam-columns, Euler's loads
//!   (from memory; the numbers re-computed).
//!
//! The mast stands upright and the loads are small enough for the first-order tables to hold, or exact where
//! the axial force counts.

use mastwright_engine::structure::*;

const EI: f64 = 10e3;

fn tube(bottom_m: f64, top_m: f64, bending_n_m2: f64) -> TubePart {
    let play_m = [0.0; 2];
    TubePart { bottom_m, top_m, axial_n: 1e9, bending_n_m2, torsion_n_m2: 1e4, weight_n_per_m: 0.0, play_m }
}

fn mast(height_m: f64, base: BaseSupport, longest_element_m: f64) -> Mast {
    Mast { base, longest_element_m, ..Mast::standing_on([0.0; 3], vec![tube(0.0, height_m, EI)]) }
}

/// A level guy so stiff that it is a prop: both ways, by a pair of taut wires of no weight to speak of.
fn prop(height_m: f64) -> [GuyPart; 2] {
    [1.0, -1.0].map(|side| GuyPart {
        attach_height_m: height_m,
        collar_offset_m: [0.0; 3],
        anchor_m: [side, 0.0, height_m],
        stiffness_n: 5e8,
        weight_n_per_m: 1e-6,
        length: GuyLength::UpperTension { tension_n: 1e3 },
    })
}

fn solved(mast: &Mast, load: impl Fn(&Model) -> LoadCase) -> (Model, Solver) {
    let model = Model::build(mast).unwrap();
    let case = load(&model);
    let mut solver = Solver::new(&model);
    let outcome = solver.solve(&model, &case);
    assert!(matches!(outcome, Outcome::Stands(_)), "{outcome:?}");
    (model, solver)
}

fn at_top(force_n: [f64; 3]) -> impl Fn(&Model) -> LoadCase {
    move |model| {
        let node = model.nodes.len() - 1;
        let points = vec![PointLoad { node, force_n, moment_n_m: [0.0; 3] }];
        LoadCase { points, ..LoadCase::still_air(model) }
    }
}

fn near(what: &str, value: f64, expected: f64, share: f64) {
    assert!((value - expected).abs() <= share * expected.abs(), "{what}: {value} against {expected}");
}

/// Cantilever, P at its end: δ = PL³/3EI, M = PL; even load w: δ = wL⁴/8EI, M = wL²/2. Second-order terms are
/// (δ/L)² of it.
#[test]
fn cantilever() {
    let mast = mast(2.0, BaseSupport::Fixed, 0.5);
    let (_, solver) = solved(&mast, at_top([10.0, 0.0, 0.0]));
    let response = solver.response();
    near("end", response.nodes.last().unwrap().displacement_m[0], 10.0 * 8.0 / (3.0 * EI), 1e-5);
    near("moment", response.largest_bending_n_m(), 20.0, 1e-5);
    near("base moment", response.base.moment_n_m[1], -20.0, 1e-5);
    near("shear", response.elements[0].shear_n, 10.0, 1e-5);
    let even = |model: &Model| {
        let mut case = LoadCase::still_air(model);
        case.wind_on_elements_n_per_m.fill([0.0, 8.0, 0.0]);
        case
    };
    let (_, solver) = solved(&mast, even);
    let response = solver.response();
    near("end", response.nodes.last().unwrap().displacement_m[1], 8.0 * 16.0 / (8.0 * EI), 1e-5);
    near("moment", response.largest_bending_n_m(), 16.0, 1e-5);
    near("next moment", response.elements[0].bending_n_m[1], 8.0 * 1.5 * 1.5 / 2.0, 1e-4);
}

/// Beam overhanging one support, P at the free end of the overhang a, span L: δ = Pa²(L + a)/3EI, moment Pa at
/// the support, PaL²/(9√3·EI) between the supports. P 1 kN, L 2 m, a 0.5 m, EI 10 kN·m²: 20.83 mm, 0.5 kN·m,
/// 12.83 mm, reactions −0.25 and 1.25 kN.
#[test]
fn overhanging_beam() {
    let mut mast = mast(2.5, BaseSupport::Pinned, 0.05);
    mast.guys.extend(prop(2.0));
    // A hundredth of the load, for the table's first order.
    let (model, solver) = solved(&mast, at_top([10.0, 0.0, 0.0]));
    let response = solver.response();
    near("end", response.nodes.last().unwrap().displacement_m[0] * 100.0, 20.83e-3, 3e-4);
    near("moment", response.largest_bending_n_m() * 100.0, 500.0, 1e-4);
    let between = response.nodes.iter().map(|node| -node.displacement_m[0]).fold(0.0, f64::max);
    near("between", between * 100.0, 12.83e-3, 1e-3);
    near("reaction", response.base.force_n[0] * 100.0, 250.0, 1e-3);
    let support: f64 = response.guys.iter().map(|guy| guy.on_mast_n[0]).sum();
    near("support", support * 100.0, -1250.0, 1e-3);
    assert_eq!(model.guys.len(), 2);
}

/// Propped cantilever, even load w: prop 3wL/8, fixed moment wL²/8.
#[test]
fn propped_cantilever() {
    let mut mast = mast(3.0, BaseSupport::Fixed, 0.25);
    mast.guys.extend(prop(3.0));
    let (_, solver) = solved(&mast, |model| {
        let mut case = LoadCase::still_air(model);
        case.wind_on_elements_n_per_m.fill([12.0, 0.0, 0.0]);
        case
    });
    let response = solver.response();
    let support: f64 = response.guys.iter().map(|guy| guy.on_mast_n[0]).sum();
    near("prop", support, -3.0 * 12.0 * 3.0 / 8.0, 1e-4);
    near("moment", response.base.moment_n_m[1], -12.0 * 9.0 / 8.0, 1e-4);
}

/// Cantilever under P down and Q sideways at its end: δ = (Q/P)·(tan(kL)/k − L), M = Q·tan(kL)/k, k² = P/EI
/// (beam-column; Timoshenko & Gere 1961, §1.4 and §1.11). P is 60 % of Euler's load.
#[test]
fn beam_column() {
    let length = 3.0;
    let euler = std::f64::consts::PI.powi(2) * EI / (4.0 * length * length);
    let (p, q) = (0.6 * euler, 1.0);
    for longest_element_m in [0.75, 0.25] {
        let mast = mast(length, BaseSupport::Fixed, longest_element_m);
        let (_, solver) = solved(&mast, at_top([0.0, q, -p]));
        let k = (p / EI).sqrt();
        let response = solver.response();
        let top = response.nodes.last().unwrap().displacement_m[1];
        let share = if longest_element_m > 0.5 { 2e-4 } else { 2e-5 };
        near("end", top, q / p * ((k * length).tan() / k - length), share);
        near("moment", response.largest_bending_n_m(), q * (k * length).tan() / k, share);
    }
}

/// The same with the tie's pull upwards: tanh for tan.
#[test]
fn tie_with_side_load() {
    let (length, p, q) = (3.0, 9e3, 1.0);
    let mast = mast(length, BaseSupport::Fixed, 0.25);
    let (_, solver) = solved(&mast, at_top([0.0, q, p]));
    let k = (p / EI).sqrt();
    let top = solver.response().nodes.last().unwrap().displacement_m[1];
    near("end", top, q / p * (length - (k * length).tanh() / k), 5e-5);
}

/// Euler: π²EI/(2L)² for a cantilever, π²EI/L² pinned at both ends, 2.0457·π²EI/L² fixed and pinned.
#[test]
fn euler_loads() {
    let length = 3.0;
    let pi_2 = std::f64::consts::PI.powi(2);
    let cases = [
        (BaseSupport::Fixed, false, 0.25),
        (BaseSupport::Pinned, true, 1.0),
        (BaseSupport::Fixed, true, 2.0457),
    ];
    for (base, propped, times) in cases {
        let mut mast = mast(length, base, 0.25);
        if propped {
            mast.guys.extend(prop(length));
            // And the other way.
            mast.guys.extend(prop(length).map(|mut guy| {
                guy.anchor_m = [0.0, guy.anchor_m[0], guy.anchor_m[2]];
                guy
            }));
        }
        let p = 0.1 * times * pi_2 * EI / (length * length);
        let load = at_top([0.0, 0.0, -p]);
        let (model, solver) = solved(&mast, &load);
        let factor = buckling_factor(&solver, &model, &load(&model)).unwrap();
        near("factor", factor, 10.0, 2e-4);
    }
}

/// A column under 1.05 of Euler's load balances upright, but must not be said to stand there; one under 0.95
/// stands.
#[test]
fn upright_beyond_euler_is_a_false_equilibrium() {
    let length = 3.0;
    let euler = std::f64::consts::PI.powi(2) * EI / (4.0 * length * length);
    let model = Model::build(&mast(length, BaseSupport::Fixed, 0.25)).unwrap();
    let mut solver = Solver::new(&model);
    let outcome = solver.solve(&model, &at_top([0.0, 0.0, -0.95 * euler])(&model));
    assert!(matches!(outcome, Outcome::Stands(SolveEffort { pushed: 0, .. })), "{outcome:?}");
    let top = solver.response().nodes.last().unwrap().displacement_m[0];
    assert!(top.abs() < 1e-9);
    // Beyond: the elastica comes to rest leaning by some α with P/P_E = (2K(sin(α/2))/π)² (Timoshenko & Gere 1961, §2.7).
    // 1.05 at α = 35° is too far to be let stand (limit 29°): upright it balances, the least push makes it give way.
    let outcome = solver.solve(&model, &at_top([0.0, 0.0, -1.05 * euler])(&model));
    let Outcome::Unstable(Instability { reason, stood_at_share }) = outcome else { panic!("{outcome:?}") };
    assert_eq!(reason, Reason::Buckles);
    // In steps of a 64th of the load it stood up to Euler's at least, and no farther than where the elastica leans by 29°:
    // α = 0.5: K(sin 0.25) 1.5958, P/P_E 1.0321.
    assert!(stood_at_share > 1.0 / 1.05 - 1.0 / 64.0 && stood_at_share < 1.0321 / 1.05, "{stood_at_share}");
    // 1.01: K(k) = 1.57863, k = sin(α/2) = 0.14046; the top comes to rest 2k·√(EI/P) to one side, 0.5338 m.
    // In short beams too: before, the search gave up on the way there and told that it buckles.
    for longest_m in [0.25, 0.1] {
        let model = Model::build(&mast(length, BaseSupport::Fixed, longest_m)).unwrap();
        let mut solver = Solver::new(&model);
        let outcome = solver.solve(&model, &at_top([0.0, 0.0, -1.01 * euler])(&model));
        assert!(
            matches!(outcome, Outcome::Stands(SolveEffort { pushed: 1.., .. })),
            "{longest_m} m: {outcome:?}"
        );
        let [x, y, _] = solver.response().nodes.last().unwrap().displacement_m;
        near("top", x.hypot(y), 0.5338, 2e-2);
    }
}

/// A slender cantilever under a large side force: Bisshopp & Drucker, Large deflection of cantilever beams,
/// Quarterly of Applied Mathematics 3 (1945) 272 (from memory; re-computed by elliptic integrals):
/// PL²/EI = 1: δ/L = 0.3017, shortening 0.0564.
#[test]
fn large_deflection() {
    let mast = mast(2.0, BaseSupport::Fixed, 0.1);
    let (_, solver) = solved(&mast, at_top([EI / 4.0, 0.0, 0.0]));
    let [x, _, z] = solver.response().nodes.last().unwrap().displacement_m;
    near("side", x / 2.0, 0.30172, 2e-4);
    near("down", -z / 2.0, 0.05643, 2e-3);
}

/// Two tubes of the same stiffness, one in the other: outside the overlap as one tube, and the couple between the
/// bearings carries the moment: contact M/overlap where a pure moment passes.
#[test]
fn telescoped_cantilever_passes_its_moment_as_a_couple() {
    let mut mast = mast(2.0, BaseSupport::Fixed, 0.25);
    mast.tubes.push(tube(1.6, 3.6, EI));
    let (model, solver) = solved(&mast, |model| {
        let node = model.nodes.len() - 1;
        let points = vec![PointLoad { node, force_n: [0.0; 3], moment_n_m: [0.0, 10.0, 0.0] }];
        LoadCase { points, ..LoadCase::still_air(model) }
    });
    let response = solver.response();
    // Moment 10 all along the outer tube below the overlap and the inner one above it.
    for (element, of) in model.elements.iter().zip(&response.elements) {
        let [low, high] = element.nodes.map(|node| model.nodes[node].height_m);
        if high <= 1.6 + 1e-9 || low >= 2.0 - 1e-9 {
            near("moment", of.bending_n_m[0], 10.0, 1e-4);
        } else {
            near("couple", of.shear_n, 10.0 / 0.4, 1e-3);
        }
    }
    // Inside the overlap each tube's moment falls to nothing at its own end: with half the stiffness-free
    // length, the turn of the top is ML/EI below and above, and over the overlap that of two triangles:
    // θ = M·o/(3EI) in each.
    let turn = response.nodes.last().unwrap().turn_rad[1];
    near("turn", turn, 10.0 / EI * (1.6 + 1.6 + 2.0 * 0.4 / 3.0), 1e-3);
}
