use std::f64::consts::PI;

use crate::structure::*;

const LONG_M: f64 = 3.0;

/// A tube run down into another one, both held at the top to all sides; the inner one carries a load.
fn nest(play_m: f64, inner_bottom_m: f64) -> (Mast, [TubePart; 2]) {
    let weightless = |tube: TubePart| TubePart { weight_n_per_m: 0.0, ..tube };
    let outer = weightless(TubePart::of_steel(0.0, LONG_M, 25.5e-3, 2.66e-3));
    let inner = weightless(TubePart::of_steel(inner_bottom_m, LONG_M, 19.2e-3, 1.0e-3));
    let inner = TubePart { play_m: [play_m, 0.0], ..inner };
    // As high as what they hold: they add nothing to the load.
    let guy = |east_m: f64, north_m: f64| GuyPart {
        attach_height_m: LONG_M,
        collar_offset_m: [0.0; 3],
        anchor_m: [east_m, north_m, LONG_M],
        stiffness_n: 1e7,
        weight_n_per_m: 1e-3,
        length: GuyLength::UpperTension { tension_n: 1.0 },
    };
    let guys = vec![guy(4.0, 0.0), guy(-2.0, 3.5), guy(-2.0, -3.5)];
    let mast = Mast { guys, longest_element_m: 0.1, ..Mast::standing_on([0.0; 3], vec![outer, inner]) };
    (mast, [outer, inner])
}

/// The load on the inner tube's top at which the pair buckles.
fn buckles_at_n(mast: &Mast) -> f64 {
    let model = Model::build(mast).unwrap();
    let mut case = LoadCase::still_air(&model);
    let node = model.nodes.iter().rposition(|node| node.tube == 1).unwrap();
    case.points.push(PointLoad { node, force_n: [0.0, 0.0, -200.0], moment_n_m: [0.0; 3] });
    let mut solver = Solver::new(&model);
    assert!(matches!(solver.solve(&model, &case), Outcome::Stands(_)));
    200.0 * buckling_factor(&solver, &model, &case).unwrap()
}

fn euler_n(bending_n_m2: f64) -> f64 {
    PI * PI * bending_n_m2 / (LONG_M * LONG_M)
}

/// Euler's load of both rigidities together: before, the inner tube buckled by itself within the outer one, which it would
/// have had to pass through.
#[test]
fn a_slim_tube_run_down_into_another_bends_with_it() {
    let (mast, [outer, inner]) = nest(0.53e-3, 0.0);
    let expected = euler_n(outer.bending_n_m2 + inner.bending_n_m2);
    let found = buckles_at_n(&mast);
    assert!((found / expected - 1.0).abs() < 0.01, "{found} against {expected}");
    assert!(found > 4.0 * euler_n(inner.bending_n_m2));
}

/// Moments go by the rigidities: half-way up, far from the ends, each tube has its share of a side load's moment, which the
/// outer one alone meets.
#[test]
fn nested_tubes_share_a_moment_by_their_rigidities() {
    let (mast, [outer, inner]) = nest(0.0, 0.0);
    let model = Model::build(&mast).unwrap();
    let mut case = LoadCase::still_air(&model);
    for (wind, element) in case.wind_on_elements_n_per_m.iter_mut().zip(&model.elements) {
        *wind = if element.exposed { [20.0, 0.0, 0.0] } else { [0.0; 3] };
    }
    let mut solver = Solver::new(&model);
    assert!(matches!(solver.solve(&model, &case), Outcome::Stands(_)));
    let at_middle = |tube: usize| {
        let mut at = model.elements.iter().zip(&solver.response().elements);
        let found = at.find(|(element, _)| {
            element.tube == tube && (model.nodes[element.nodes[0]].height_m - 0.5 * LONG_M).abs() < 1e-6
        });
        found.unwrap().1.bending_n_m[0]
    };
    let whole = 20.0 * LONG_M * LONG_M / 8.0;
    let both = outer.bending_n_m2 + inner.bending_n_m2;
    for (tube, part) in [outer, inner].iter().enumerate() {
        let expected = whole * part.bending_n_m2 / both;
        let found = at_middle(tube);
        assert!((found / expected - 1.0).abs() < 0.01, "tube {tube}: {found} against {expected}");
    }
}

/// By hand: a torque at the inner one's top twists both together as far as they touch, T·L/ΣGJ, and that one alone over the
/// last 0.1 m, where the outer one's end lets it turn. Each tube has its share of the torque.
#[test]
fn nested_tubes_are_twisted_together() {
    const TORQUE_N_M: f64 = 5.0;
    let (mast, [outer, inner]) = nest(0.0, 0.0);
    let model = Model::build(&mast).unwrap();
    let mut case = LoadCase::still_air(&model);
    let top = model.nodes.iter().rposition(|node| node.tube == 1).unwrap();
    let moment_n_m = [0.0, 0.0, TORQUE_N_M];
    case.points.push(PointLoad { node: top, force_n: [0.0; 3], moment_n_m });
    let mut solver = Solver::new(&model);
    assert!(matches!(solver.solve(&model, &case), Outcome::Stands(_)));
    let both = outer.torsion_n_m2 + inner.torsion_n_m2;
    let expected = TORQUE_N_M * ((LONG_M - 0.1) / both + 0.1 / inner.torsion_n_m2);
    let found = solver.response().nodes[top].turn_rad[2];
    assert!((found / expected - 1.0).abs() < 1e-3, "{found} against {expected}");
    for (element, beam) in model.elements.iter().zip(&solver.response().elements) {
        let by_hand = match (model.nodes[element.nodes[1]].level == model.nodes[top].level, element.tube) {
            (true, 0) => 0.0,
            (true, _) => TORQUE_N_M,
            (false, tube) => TORQUE_N_M * [outer, inner][tube].torsion_n_m2 / both,
        };
        assert!((beam.torque_n_m.abs() - by_hand).abs() < 1e-3 * TORQUE_N_M, "{beam:?} against {by_hand}");
    }
}

/// With play enough to bend in freely the tubes touch at two places only, and so does a tube that is not run down: nothing
/// is promised there that contact might give.
#[test]
fn a_loose_tube_and_a_joint_have_two_bearings() {
    let (mast, [_, inner]) = nest(6e-3, 0.0);
    let (found, expected) = (buckles_at_n(&mast), euler_n(inner.bending_n_m2));
    assert!((found / expected - 1.0).abs() < 0.02, "{found} against {expected}");
    let (mast, _) = nest(0.53e-3, 0.5);
    let model = Model::build(&mast).unwrap();
    let between = |node: &&Node| node.tube == 1 && node.height_m > 0.51 && node.height_m < LONG_M - 0.01;
    for node in model.nodes.iter().filter(between) {
        let other = model.nodes.iter().find(|other| other.tube == 0 && other.level == node.level).unwrap();
        assert!(node.unknowns.iter().all(|unknown| !other.unknowns.contains(unknown)));
    }
}

/// McKenna, Scott & Fenves, OpenSees, by openseespy 3.7.1 (`tests/published/scripts/nest_contact_opensees.py`): three tubes run
/// down into one another (those of job 373), touching at every node only where their play is used up. Under 10 N/m from
/// the side on the outer one and 100 N on the inner one's top they bend 18.31, 17.82 and 16.57 mm half-way up, by moments of
/// 21.93, 4.12 and 1.99 N·m. As one beam: within 1 % for the outer two, the play's few hundredths for the innermost.
#[test]
fn three_nested_tubes_bend_as_with_contact_in_opensees() {
    const UP_M: f64 = 4.6;
    let tube = |outside_m, wall_m, play_m| TubePart {
        weight_n_per_m: 0.0,
        play_m: [0.0, play_m],
        ..TubePart::of_steel(0.0, UP_M, outside_m, wall_m)
    };
    let tubes = vec![tube(25.5e-3, 2.66e-3, 0.0), tube(19.2e-3, 1.0e-3, 0.0), tube(14.7e-3, 1.22e-3, 0.0)];
    let mut mast = nest(0.0, 0.0).0;
    for guy in &mut mast.guys {
        (guy.attach_height_m, guy.anchor_m[2]) = (UP_M, UP_M);
    }
    let mast = Mast { guys: mast.guys, longest_element_m: 0.23, ..Mast::standing_on([0.0; 3], tubes) };
    let model = Model::build(&mast).unwrap();
    let mut case = LoadCase::still_air(&model);
    for (wind, element) in case.wind_on_elements_n_per_m.iter_mut().zip(&model.elements) {
        *wind = if element.tube == 0 { [10.0, 0.0, 0.0] } else { [0.0; 3] };
    }
    let node = model.nodes.iter().rposition(|node| node.tube == 2).unwrap();
    case.points.push(PointLoad { node, force_n: [0.0, 0.0, -100.0], moment_n_m: [0.0; 3] });
    let mut solver = Solver::new(&model);
    assert!(matches!(solver.solve(&model, &case), Outcome::Stands(_)));
    let expected = [(21.93, 0.01), (4.12, 0.01), (1.99, 0.05)];
    for (tube, (moment_n_m, within)) in expected.into_iter().enumerate() {
        let mut beams = model.elements.iter().zip(&solver.response().elements);
        let at_middle = beams.find(|(element, _)| {
            element.tube == tube && (model.nodes[element.nodes[0]].height_m - 0.5 * UP_M).abs() < 1e-6
        });
        let (element, beam) = at_middle.unwrap();
        let found = beam.bending_n_m[0];
        assert!((found / moment_n_m - 1.0).abs() < within, "tube {tube}: {found} against {moment_n_m}");
        let moved_m = solver.response().nodes[element.nodes[0]].displacement_m[0];
        assert!((moved_m / 18.31e-3 - 1.0).abs() < 0.01, "{moved_m}");
    }
}
