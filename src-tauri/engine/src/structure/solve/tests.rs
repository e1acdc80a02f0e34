use super::*;
use crate::structure::{BaseSupport, GuyLength, GuyPart, Mast, TubePart};

/// Three guys that stand unevenly on a slope, a slim tube run down into a stout one, collars.
fn model(base: BaseSupport) -> Model {
    let guy = |east_m: f64, north_m: f64, up_m: f64| GuyPart {
        attach_height_m: 3.0,
        collar_offset_m: [0.01 * east_m, 0.01 * north_m, 0.0],
        anchor_m: [east_m, north_m, up_m],
        stiffness_n: 4e4,
        weight_n_per_m: 0.5,
        length: GuyLength::UpperTension { tension_n: 150.0 },
    };
    // Loose enough to bow within it.
    let slim = TubePart { play_m: [0.002, 0.0], ..TubePart::of_steel(0.0, 3.0, 0.02, 0.001) };
    let tubes = vec![TubePart::of_steel(0.0, 2.5, 0.06, 0.003), slim];
    let guys = vec![guy(3.0, 0.4, -0.5), guy(-1.2, 2.7, 0.0), guy(-1.5, -2.2, 0.3)];
    Model::build(&Mast { lean: [0.004, 0.002], guys, base, ..Mast::standing_on([0.0; 3], tubes) }).unwrap()
}

fn blown(model: &Model) -> LoadCase {
    let mut case = LoadCase::still_air(model);
    case.wind_on_elements_n_per_m.fill([25.0, 14.0, 0.0]);
    let node = model.node_at(3.0);
    let points = vec![super::super::PointLoad { node, force_n: [30.0, -40.0, -60.0], moment_n_m: [0.0; 3] }];
    LoadCase { points, ..case }
}

/// Every entry of the whole mast's stiffness, both halves.
fn entries(solver: &mut Solver, model: &Model) -> Vec<Vec<f64>> {
    let stiffness = &mut solver.system.stiffness;
    let mut all = vec![vec![0.0; model.unknowns()]; model.unknowns()];
    for level in 0..model.level_sizes.len() {
        let (first, n) = (stiffness.first(level), stiffness.size(level));
        let block = stiffness.diagonal_mut(level).to_vec();
        for r in 0..n {
            for c in r..n {
                (all[first + r][first + c], all[first + c][first + r]) = (block[r * n + c], block[r * n + c]);
            }
        }
        if level + 1 < model.level_sizes.len() {
            let (next, m) = (stiffness.first(level + 1), stiffness.size(level + 1));
            let block = stiffness.beside_mut(level).to_vec();
            for r in 0..n {
                for c in 0..m {
                    (all[first + r][next + c], all[next + c][first + r]) =
                        (block[r * m + c], block[r * m + c]);
                }
            }
        }
    }
    all
}

/// By differences, at rest: with the slim tube bowed so that its ends are turned against each other and its foot leans.
/// Without the twist's part of the chord, or the foot's spin, entries are off by hundredths.
#[test]
fn the_stiffness_at_rest_is_the_second_slope_of_the_energy() {
    let model = model(BaseSupport::Pinned);
    let case = blown(&model);
    let mut solver = Solver::new(&model);
    assert!(matches!(solver.solve(&model, &case), Outcome::Stands(_)));
    let most = solver.system.ends.iter().fold(1.0_f64, |least, end| least.min(end.turn[0]));
    assert!(most < 0.9995, "bowed: {most}");
    solver.system.evaluate_with_stiffness(&model, &case, 1.0, BeamPart::Whole);
    let stiffness = entries(&mut solver, &model);
    let rest = solver.system.ends.clone();
    let held: Vec<usize> = solver.system.held(&model).collect();
    let mut slopes = |column: usize, by: f64| {
        let mut step = vec![0.0; model.unknowns()];
        step[column] = 1.0;
        solver.system.advance(&model, &rest, &step, by);
        solver.system.evaluate(&model, &case, 1.0);
        solver.system.unbalanced.clone()
    };
    for column in (0..model.unknowns()).filter(|column| !held.contains(column)) {
        let (up, down) = (slopes(column, 1e-6), slopes(column, -1e-6));
        for row in 0..model.unknowns() {
            let by_differences = (up[row] - down[row]) / 2e-6;
            let size = (stiffness[row][row] * stiffness[column][column]).abs().sqrt();
            let found = stiffness[row][column];
            assert!(
                (by_differences - found).abs() < 1e-3 * size,
                "{row}, {column}: {by_differences} {found}"
            );
        }
    }
}

/// What is added to the diagonal turns with the yard: as much east as north, however unlike the two are.
#[test]
fn the_diagonal_is_raised_to_all_sides_alike() {
    let model = model(BaseSupport::Pinned);
    let case = blown(&model);
    let mut solver = Solver::new(&model);
    solver.system.evaluate_with_stiffness(&model, &case, 1.0, BeamPart::Whole);
    let before = entries(&mut solver, &model);
    solver.system.stiffen(0.3);
    let after = entries(&mut solver, &model);
    let mut unlike = 0;
    for node in &model.nodes {
        for [east, north] in [[0, 1], [3, 4]].map(|pair| pair.map(|k: usize| node.unknowns[k])) {
            let [a, b] = [east, north].map(|u| after[u][u] - before[u][u]);
            assert!(a > 0.0 && (a / b - 1.0).abs() < 1e-9, "{a} east, {b} north");
            unlike += u32::from((before[east][east] / before[north][north] - 1.0).abs() > 1e-3);
        }
    }
    assert!(unlike > 0);
}

/// Steps with the factors of a mast that is far softer lead away from rest: the mast stays where it was before them.
#[test]
fn a_step_that_makes_it_worse_is_taken_back() {
    let model = model(BaseSupport::Fixed);
    let case = blown(&model);
    let mut solver = Solver::new(&model);
    let mut without_guys = case.clone();
    without_guys.guy_holds.fill(false);
    solver.scale_n = force_scale(&model, &case);
    solver.system.evaluate_with_stiffness(&model, &without_guys, 1.0, BeamPart::Whole);
    assert_eq!(solver.factorise(), 0);
    solver.system.evaluate(&model, &case, 1.0);
    let left = solver.out_of_balance();
    let told = solver.steps_with_same_factors(&model, &case, 1.0, left);
    solver.system.evaluate(&model, &case, 1.0);
    assert!(left > 1.0 && told <= left, "{left} {told}");
    assert!((solver.out_of_balance() / told - 1.0).abs() < 1e-9, "{} {told}", solver.out_of_balance());
}

/// A weightless mast turned about its foot as a whole is at rest, and its foot, which does not spin about the upright axis,
/// tilts on with a spin that follows from its lean: without that in the stiffness the twist of the beam above is missing.
#[test]
fn the_stiffness_of_a_leaning_foot_holds_its_spin() {
    let tube = TubePart { weight_n_per_m: 0.0, ..TubePart::of_steel(0.0, 2.0, 0.05, 0.003) };
    let model =
        Model::build(&Mast { longest_element_m: 1.0, ..Mast::standing_on([0.0; 3], vec![tube]) }).unwrap();
    let case = LoadCase::still_air(&model);
    let mut solver = Solver::new(&model);
    let turn = turn_further(NO_TURN, [0.35, -0.2, 0.0]);
    for (end, node) in solver.system.ends.iter_mut().zip(&model.nodes) {
        *end = End {
            displacement_m: subtract(turned(turn, node.place_m), node.place_m),
            turn,
            axis: turned(turn, node.axis),
        };
    }
    let rest = solver.system.ends.clone();
    solver.system.evaluate_with_stiffness(&model, &case, 1.0, BeamPart::Whole);
    assert!(solver.system.unbalanced.iter().all(|left| left.abs() < 1e-3), "{:?}", solver.system.unbalanced);
    let stiffness = entries(&mut solver, &model);
    let held: Vec<usize> = solver.system.held(&model).collect();
    let foot = model.nodes[0].unknowns;
    for column in [foot[3], foot[4]] {
        let mut slopes = |by: f64| {
            let mut step = vec![0.0; model.unknowns()];
            step[column] = 1.0;
            solver.system.advance(&model, &rest, &step, by);
            solver.system.evaluate(&model, &case, 1.0);
            solver.system.unbalanced.clone()
        };
        let (up, down) = (slopes(1e-6), slopes(-1e-6));
        for row in (0..model.unknowns()).filter(|row| !held.contains(row)) {
            let by_differences = (up[row] - down[row]) / 2e-6;
            let size = (stiffness[row][row] * stiffness[column][column]).sqrt();
            let found = stiffness[row][column];
            assert!(
                (by_differences - found).abs() < 1e-3 * size,
                "{row}, {column}: {by_differences} {found}"
            );
        }
    }
    // By hand: tilting about east spins it by y/c of that, (c, x, y, 0) its turn, and the beam above, which leans with it,
    // is twisted by that spin's part along it and by the tilt's.
    let [c, _, y, _] = turn;
    let axis = turned(turn, [0.0, 0.0, 1.0]);
    let twist = axis[0] - y / c * axis[2];
    let beam = &model.elements[0].beam;
    let bend = 1.0 + (y / c) * (y / c) - twist * twist;
    let expected =
        4.0 * beam.bending_n_m2 / beam.length_m * bend + beam.torsion_n_m2 / beam.length_m * twist * twist;
    let found = stiffness[foot[3]][foot[3]];
    assert!((found / expected - 1.0).abs() < 2e-3, "{found} against {expected}");
}

/// Along a step the energy falls, at its beginning by what is out of balance along it.
#[test]
fn the_slope_along_a_step_begins_with_what_is_out_of_balance() {
    let model = model(BaseSupport::Pinned);
    let case = blown(&model);
    let mut solver = Solver::new(&model);
    solver.system.evaluate_with_stiffness(&model, &case, 1.0, BeamPart::Whole);
    assert_eq!(solver.factorise(), 0);
    solver.find_step();
    let (slope_0, step, start) = (solver.slope(), solver.step.clone(), solver.system.ends.clone());
    assert!(slope_0 < 0.0);
    for share in [1e-6, 1e-5] {
        solver.system.advance(&model, &start, &step, share);
        solver.system.evaluate(&model, &case, 1.0);
        let there = solver.system.slope_there(&model, &step, share);
        assert!((there / slope_0 - 1.0).abs() < 1e-2, "{there} {slope_0}");
    }
}

/// The wind of a bearing, so many times as strong as [`blown`]'s on the tubes.
fn from(model: &Model, bearing: f64, times: f64) -> LoadCase {
    let mut case = LoadCase::still_air(model);
    let wind = [
        28.0 * times * crate::numerics::real::cos(bearing),
        28.0 * times * crate::numerics::real::sin(bearing),
        0.0,
    ];
    case.wind_on_elements_n_per_m.fill(wind);
    case
}

/// Newton doubles its digits, so rest is some steps away from anywhere, and fewer from nearby; what is not right about a step
/// or its line search shows in more of them, though it ends at the same rest.
#[test]
fn rest_is_found_in_few_steps() {
    let mut far = SolveEffort::default();
    let mut near = SolveEffort::default();
    for base in [BaseSupport::Pinned, BaseSupport::Fixed, BaseSupport::Spring { n_m_per_rad: 400.0 }] {
        let model = model(base);
        for times in [0.0, 0.3, 1.0, 1.5] {
            for part in 0..8 {
                let bearing = f64::from(part) * std::f64::consts::FRAC_PI_4;
                let mut solver = Solver::new(&model);
                let Outcome::Stands(effort) = solver.solve(&model, &from(&model, bearing, times)) else {
                    panic!("{base:?} {times} {part}")
                };
                far.steps += effort.steps;
                far.factorisations += effort.factorisations;
                far.pushed += effort.pushed;
                let effort = solver.go_on(&model, &from(&model, bearing + 0.09, 1.05 * times)).expect("near");
                near.steps += effort.steps;
                near.factorisations += effort.factorisations;
            }
        }
    }
    // Counted on 27 November 2026: 592 and 400, then 211 and 200, over 96 masts; one in a hundred more is let pass.
    assert!(far.steps <= 598 && far.factorisations <= 404 && far.pushed == 0, "{far:?}");
    assert!(near.steps <= 213 && near.factorisations <= 202, "{near:?}");
}

/// Every factorisation and every step is counted with the stiffness's entries, and a second solution on top.
#[test]
fn what_a_solution_costs_is_counted() {
    let model = model(BaseSupport::Pinned);
    let case = blown(&model);
    let mut solver = Solver::new(&model);
    let entries = solver.system.stiffness.entries() as u64;
    assert!(matches!(solver.solve(&model, &case), Outcome::Stands(_)));
    let once = solver.spent();
    let least = u64::from(solver.count().factorisations) + u64::from(solver.count().steps);
    assert!(once.is_multiple_of(entries) && once >= least * entries && least >= 2, "{once} {entries}");
    solver.reset(&model);
    assert!(matches!(solver.solve(&model, &case), Outcome::Stands(_)));
    assert_eq!(solver.spent(), 2 * once);
}
