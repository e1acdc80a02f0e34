//! How fast the mast's equilibrium is found: a mast of three telescoped tubes, two levels of three guys.
//! The goal is in docs/performance.md.

use divan::{Bencher, black_box};
use mastwright_engine::numerics::real::{cos_deg, sin_deg};
use mastwright_engine::structure::*;

#[path = "../../tests/support/guyed_mast.rs"]
mod guyed_mast;

fn main() {
    let model = model();
    println!("{} elements, {} nodes, {} unknowns", model.elements.len(), model.nodes.len(), model.unknowns());
    let (mut solver, cases) = (Solver::new(&model), directions(&model));
    for name in ["cold", "warm"] {
        let (mut steps, mut factorisations) = (0, 0);
        for case in &cases {
            if name == "cold" {
                solver.reset(&model);
            }
            let Outcome::Stands(standing) = solver.solve(&model, case) else { panic!("{name}: unstable") };
            steps += standing.steps;
            factorisations += standing.factorisations;
        }
        let mean = |sum: u32| f64::from(sum) / cases.len() as f64;
        println!("{name}: {:.2} steps, {:.2} factorisations a solution", mean(steps), mean(factorisations));
    }
    divan::main();
}

fn model() -> Model {
    let tubes = vec![
        TubePart::of_steel(0.0, 4.0, 73.0e-3, 5.2e-3),
        TubePart::of_steel(3.4, 7.4, 60.3e-3, 3.9e-3),
        TubePart::of_steel(6.8, 10.3, 48.3e-3, 3.7e-3),
    ];
    let guys = [(5.8, 0.0), (9.9, 0.0)].into_iter().flat_map(|(attach_height_m, turn_deg)| {
        [0.0, 120.0, 240.0].map(|bearing| GuyPart {
            attach_height_m,
            collar_offset_m: [0.0; 3],
            anchor_m: [7.0 * sin_deg(bearing + turn_deg), 7.0 * cos_deg(bearing + turn_deg), 0.0],
            stiffness_n: 60e3,
            weight_n_per_m: 0.45,
            length: GuyLength::UpperTension { tension_n: 350.0 },
        })
    });
    let mast = Mast { guys: guys.collect(), ..Mast::standing_on([0.0; 3], tubes) };
    Model::build(&mast).expect("a mast")
}

/// Wind from 72 directions.
fn directions(model: &Model) -> Vec<LoadCase> {
    let toward = |deg: f64, size: f64| [size * sin_deg(deg), size * cos_deg(deg), 0.0];
    let one = |deg: f64| {
        let mut case = LoadCase::still_air(model);
        for (wind, element) in case.wind_on_elements_n_per_m.iter_mut().zip(&model.elements) {
            if element.exposed {
                *wind = toward(deg, 30.0);
            }
        }
        case.wind_on_guys_n_per_m.fill(toward(deg, 4.0));
        let [x, y, _] = toward(deg, 150.0);
        let node = model.nodes.len() - 1;
        case.points.push(PointLoad { node, force_n: [x, y, -100.0], moment_n_m: [0.0; 3] });
        case
    };
    (0..72).map(|i| one(5.0 * f64::from(i))).collect()
}

/// From the equilibrium of the direction before, 5° away.
#[divan::bench(sample_count = 300, sample_size = 72)]
fn solve_from_the_next_direction(bencher: Bencher) {
    let model = model();
    let (mut solver, cases) = (Solver::new(&model), directions(&model));
    let mut next = 0;
    bencher.bench_local(|| {
        next = (next + 1) % cases.len();
        solver.solve(&model, black_box(&cases[next]))
    });
}

/// From the unloaded mast.
#[divan::bench(sample_count = 300, sample_size = 72)]
fn solve_from_the_unloaded_mast(bencher: Bencher) {
    let model = model();
    let (mut solver, cases) = (Solver::new(&model), directions(&model));
    let mut next = 0;
    bencher.bench_local(|| {
        next = (next + 1) % cases.len();
        solver.reset(&model);
        solver.solve(&model, black_box(&cases[next]))
    });
}

#[divan::bench]
fn find_the_buckling_factor(bencher: Bencher) {
    let model = model();
    let (mut solver, cases) = (Solver::new(&model), directions(&model));
    solver.solve(&model, &cases[7]);
    bencher.bench_local(|| buckling_factor(&solver, &model, black_box(&cases[7])));
}

/// The mast that `tests/published/scripts/speed_against_opensees.py` times on both sides, from the unloaded state.
#[divan::bench(sample_count = 300, sample_size = 20)]
fn mast_of_the_opensees_run(bencher: Bencher) {
    let fixture = guyed_mast::fixture();
    let case = fixture["cases"]
        .as_array()
        .and_then(|cases| cases.iter().find(|case| case["name"] == "two tubes, two levels"));
    let case = case.expect("the fixture has this mast");
    let model = Model::build(&guyed_mast::mast(case, 0.5)).expect("a mast");
    let loads = guyed_mast::loads(case, &model);
    let mut solver = Solver::new(&model);
    bencher.bench_local(|| {
        solver.reset(&model);
        solver.solve(&model, black_box(&loads))
    });
}
