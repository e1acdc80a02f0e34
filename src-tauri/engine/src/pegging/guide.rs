//! The guide of one job: its pegs in their order, each with all that is needed to set it, and what the tapes tell.

use super::blunders::{CheckReading, TapeSet, known_blunders, next_tape, told};
use super::checks::{candidates, checks, covered};
use super::into_ground::into_ground;
use super::network::{Network, SetBy, StakedPoint, reading_sigma_m, tape_line};
use super::order::{Stop, length_m, order};
use super::places::{PegPlace, places};
use super::results::*;
use super::tolerance::Trials;
use crate::job::{Job, PegTape};
use crate::numerics::real::{hypot, sin_deg};
use crate::plan::{Computed, FixedPoints, Surveyed, SwingTies};
use crate::pointer;
use crate::quantity::bearing;
use crate::quantity::estimate::{COVERAGE_95, Estimate};
use crate::stakeout::ties::ties;
use crate::survey::PlacedMark;
use crate::survey::ellipse::{covariance_of_95, principal_variances};

/// The guide of a planned job.
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, pegging, plan};
///
/// let job = demo::lantern_green();
/// let surveyed = plan::survey(&job.yard, job.units).expect("the marks can be placed");
/// let points = plan::FixedPoints::of(&surveyed, &job);
/// let computed = plan::compute_on_points(&surveyed, &points, &job).expect("it can be placed");
/// let guide = pegging::guide(&surveyed, &points, &job, &computed);
/// assert_eq!(guide.steps[0].key, "mast");
/// assert!(guide.walk_m <= guide.listed_walk_m);
/// ```
pub fn guide(surveyed: &Surveyed, points: &FixedPoints, job: &Job, computed: &Computed) -> PegOutGuide {
    let pegs = places(job, computed);
    let making = Making::of(surveyed, job, computed, &pegs);
    let trials = Trials::of(surveyed, points, job, computed);
    let known = known_blunders(&making.network);
    let tolerances: Vec<Tolerance> = pegs.iter().map(|peg| making.tolerance(&trials, peg)).collect();
    let matters_m = making.matters_m(&pegs, &tolerances);
    let chosen = checks(&making.network, &known, &matters_m);
    let readings = making.readings(&job.pegging.tapes);
    let read: Vec<[usize; 2]> = readings.iter().map(|reading| [reading.from, reading.to]).collect();
    let found = told(&making.network, &known, &readings);
    let next = next_tape(&making.network, &known, &found, &readings, &candidates(&making.network));
    let cover = [&chosen, &read].map(|tapes| covered(&making.network, &known, &matters_m, tapes));
    let stops: Vec<Stop> = pegs.iter().map(|peg| making.stop(peg)).collect();
    let way = order(&stops);
    let steps = way.iter().map(|&number| {
        let (peg, tolerance) = (&pegs[number], tolerances[number].clone());
        making.step(peg, tolerance, &found.suspects, cover.each_ref().map(|it| it[making.number(peg)]))
    });
    let listed: Vec<usize> = (0..stops.len()).collect();
    let key = |node: usize| making.network.nodes()[node].key.clone();
    PegOutGuide {
        walk_m: length_m(&stops, &way),
        listed_walk_m: length_m(&stops, &listed),
        steps: steps.collect(),
        checks: making.check_tapes(&chosen, &readings),
        test: StakeOutTest {
            state: found.state,
            read: u32::try_from(readings.len()).unwrap_or(u32::MAX),
            chi_square: found.chi_square,
            suspects: found.suspects.clone(),
            more_than_one: found.more_than_one,
            measure_next: next.map(|ends| ends.map(key)),
            without_peg: making.without_peg(&job.pegging.tapes),
        },
    }
}

/// Metres walked to peg a planned job out, in the guide's order.
pub fn walk_m(surveyed: &Surveyed, job: &Job, computed: &Computed) -> f64 {
    let pegs = places(job, computed);
    let making = Making::of(surveyed, job, computed, &pegs);
    let stops: Vec<Stop> = pegs.iter().map(|peg| making.stop(peg)).collect();
    length_m(&stops, &order(&stops))
}

/// The stake-out of a planned job as a network: for what is computed of it apart from the guide.
pub fn network<'a>(surveyed: &'a Surveyed, job: &'a Job, computed: &'a Computed) -> Network<'a> {
    Making::of(surveyed, job, computed, &places(job, computed)).network
}

/// Marks serve everybody, and the mast, which is what the distances that matter are from. Near it a tip serves the other
/// tips and the stakes; farther out its own error would only be carried on.
fn peg_ties_from(source: &str, stage: &[&PegPlace]) -> bool {
    let is_leg = source.starts_with("leg:");
    let near = stage.iter().all(|peg| matches!(peg.stage, PegStage::Legs | PegStage::Stakes));
    source.starts_with("mark:") || source == "mast" || (is_leg && near)
}

/// What all pegs of a guide are made from.
struct Making<'a> {
    surveyed: &'a Surveyed,
    job: &'a Job,
    computed: &'a Computed,
    network: Network<'a>,
    /// The ties of each peg by its node.
    ties: Vec<Option<SwingTies>>,
    /// Covariance of the ground's gradient.
    gradient: [[f64; 2]; 2],
}

impl<'a> Making<'a> {
    fn of(surveyed: &'a Surveyed, job: &'a Job, computed: &'a Computed, pegs: &[PegPlace]) -> Self {
        let (ground, marks) = (&computed.ground, &computed.yard.marks);
        let ids: Vec<&str> = marks.iter().map(|mark| mark.id.as_str()).collect();
        let joint = surveyed.positions.joint_covariance(&ids);
        let gradient = [[joint[(0, 0)], joint[(0, 1)]], [joint[(1, 0)], joint[(1, 1)]]];
        let mut sources: Vec<PlacedMark> = Vec::new();
        let mut network = Network::new(ground, &surveyed.instruments, joint);
        for (number, mark) in marks.iter().enumerate() {
            let key = format!("mark:{}", mark.id);
            let at = [mark.at[0], mark.at[1]];
            network.add(StakedPoint { key: key.clone(), at, set_by: SetBy::Mark { number } });
            sources.push(PlacedMark { id: key, ..mark.clone() });
        }
        let mut making = Self { surveyed, job, computed, network, ties: vec![None; marks.len()], gradient };
        let mut by_stage: Vec<&PegPlace> = pegs.iter().collect();
        by_stage.sort_by_key(|peg| peg.stage);
        for stage in by_stage.chunk_by(|a, b| a.stage == b.stage) {
            let mut next = Vec::new();
            let may_tie: Vec<PlacedMark> =
                sources.iter().filter(|source| peg_ties_from(&source.id, stage)).cloned().collect();
            for peg in stage {
                making.add(peg, &may_tie);
                let at = [peg.at[0], peg.at[1], ground.height(peg.at)];
                let covariance = [[0.0; 2]; 2];
                next.push(PlacedMark { id: peg.key.clone(), name: peg.name.clone(), at, covariance });
            }
            sources.extend(next);
        }
        making
    }

    fn add(&mut self, peg: &PegPlace, sources: &[PlacedMark]) {
        let ties = ties(peg.at, sources, &self.computed.ground, &self.surveyed.instruments);
        let by_ties = |ties: &SwingTies| {
            let from = [self.network.node(&ties.mark_a)?, self.network.node(&ties.mark_b)?];
            Some(SetBy::Ties { from, tapes_m: [ties.tape_a_m, ties.tape_b_m], side: ties.side })
        };
        let set_by = match (peg.as_built, ties.as_ref().and_then(by_ties)) {
            (false, Some(set_by)) => set_by,
            _ => SetBy::Otherwise { covariance: self.covariance_otherwise(peg) },
        };
        self.network.add(StakedPoint { key: peg.key.clone(), at: peg.at, set_by });
        self.ties.push(ties);
    }

    /// Of a peg that was measured, or is set by bearing and tape for want of ties.
    fn covariance_otherwise(&self, peg: &PegPlace) -> [[f64; 2]; 2] {
        let placed = &self.computed.layout.placed_work;
        let id = peg.key.strip_prefix("guy:").unwrap_or_default();
        if let Some(at) = placed.anchors.get(id).and_then(|anchor| anchor.at).filter(|_| peg.as_built) {
            return at.covariance;
        }
        const MAST: &str = pointer!(as_built?.mast);
        let measured = self.computed.plan.points.iter().find(|point| point.path == MAST);
        if let Some(point) = measured.filter(|_| peg.as_built) {
            return covariance_of_95(&point.ellipse_95);
        }
        let from = self.computed.layout.placed_work.mast;
        let plan_m = hypot(peg.at[0] - from[0], peg.at[1] - from[1]);
        let instruments = &self.surveyed.instruments;
        let along_m = reading_sigma_m(instruments, plan_m);
        let across_m = along_m.max(plan_m * sin_deg(instruments.bearing_sigma_deg));
        // The wider of both in every direction: which way it was taped from is not known.
        let variance = across_m * across_m;
        [[variance, 0.0], [0.0, variance]]
    }

    fn number(&self, peg: &PegPlace) -> usize {
        self.network.node(&peg.key).unwrap_or(0)
    }

    /// What the peg's own tapes reach at 95 %, as seen from the mast.
    fn landing_m(&self, peg: &PegPlace) -> Option<f64> {
        self.ties[self.number(peg)].as_ref().filter(|_| !peg.as_built)?;
        let mast = self.network.node("mast").filter(|_| peg.key != "mast");
        let own = || self.ties[self.number(peg)].as_ref().map(|ties| ties.landing_95.semi_major_m);
        let seen = |mast| {
            let [largest, _] = principal_variances(self.network.seen_from(mast, self.number(peg)));
            (crate::numerics::chi_square::CHI_SQUARE_95_2 * largest.max(0.0)).sqrt()
        };
        mast.map(seen).or_else(own)
    }

    fn tolerance(&self, trials: &Trials, peg: &PegPlace) -> Tolerance {
        let listed = self.computed.plan.pegs.iter().find(|it| it.subject == peg.subject);
        let guys = listed.map_or(&[][..], |listed| &listed.guys);
        trials.tolerance(&peg.subject, guys, self.landing_m(peg))
    }

    /// A blunder that moves a peg by no more than it may be off, or than its tapes reach anyway, is none, by node.
    fn matters_m(&self, pegs: &[PegPlace], tolerances: &[Tolerance]) -> Vec<f64> {
        let mut matters_m = vec![f64::INFINITY; self.network.nodes().len()];
        for (peg, tolerance) in pegs.iter().zip(tolerances) {
            matters_m[self.number(peg)] = tolerance.off_m.max(tolerance.landing_m.unwrap_or(0.0));
        }
        matters_m
    }

    fn stop(&self, peg: &PegPlace) -> Stop {
        let hook = |key: &str| Some(self.network.nodes()[self.network.node(key)?].at);
        let hooks = self.ties[self.number(peg)].as_ref().filter(|_| !peg.as_built);
        let hooks = hooks.map_or_else(Vec::new, |ties| {
            [&ties.mark_a, &ties.mark_b].into_iter().filter_map(|key| hook(key)).collect()
        });
        Stop { at: peg.at, stage: peg.stage, hooks }
    }

    fn step(&self, peg: &PegPlace, tolerance: Tolerance, suspects: &[Suspect], cover: [bool; 2]) -> PegStep {
        let doubted = suspects.iter().any(|it| it.blunder.peg() == Some(&peg.key));
        let [check_covers, read_covers] = cover;
        let ties = self.ties[self.number(peg)].clone();
        PegStep {
            key: peg.key.clone(),
            subject: peg.subject.clone(),
            name: peg.name.clone(),
            stage: peg.stage,
            east_m: peg.at[0],
            north_m: peg.at[1],
            ground_m: self.computed.ground.height(peg.at),
            from: self.start_of(peg).map(|start| self.tape_from(start, peg)),
            ties: ties.map(|ties| self.peg_ties(ties, peg)),
            tolerance,
            into_ground: into_ground(self.job, &self.computed.plan, &self.surveyed.north, &peg.subject),
            done: self.job.pegging.done.iter().any(|done| done.peg == peg.key),
            as_built: peg.as_built,
            checked: match (doubted, read_covers) {
                (true, _) => PegChecked::Doubted,
                (false, true) => PegChecked::Agrees,
                (false, false) => PegChecked::NotYet,
            },
            check_covers,
        }
    }

    /// The mast, or for the mast itself the nearest mark.
    fn start_of(&self, peg: &PegPlace) -> Option<usize> {
        if peg.key != "mast" {
            return self.network.node("mast");
        }
        let far_m = |at: [f64; 2]| hypot(at[0] - peg.at[0], at[1] - peg.at[1]);
        let marks = self.network.nodes().iter().enumerate();
        let marks = marks.filter(|(_, node)| matches!(node.set_by, SetBy::Mark { .. }));
        marks.min_by(|a, b| far_m(a.1.at).total_cmp(&far_m(b.1.at))).map(|(number, _)| number)
    }

    fn tape_from(&self, start: usize, peg: &PegPlace) -> TapeFrom {
        let from = &self.network.nodes()[start];
        let [east, north] = [peg.at[0] - from.at[0], peg.at[1] - from.at[1]];
        let bearing_deg = bearing::of_vector(east, north);
        let ground = &self.computed.ground;
        let tape_m = tape_line(ground, from.at, peg.at).length_m;
        TapeFrom {
            key: from.key.clone(),
            tape_m: Estimate { value: tape_m, half_width_95: self.half_width_m(from.at, peg.at) },
            plan_m: hypot(east, north),
            bearing_deg,
            reading_deg: self.surveyed.north.reading_from_true(bearing_deg),
            height_difference_m: ground.height(peg.at) - ground.height(from.at),
        }
    }

    /// What reading a tape and the ground's slope leave open of its length (95 %).
    fn half_width_m(&self, from: [f64; 2], to: [f64; 2]) -> f64 {
        let line = tape_line(&self.computed.ground, from, to);
        let sigma_m = reading_sigma_m(&self.surveyed.instruments, line.length_m);
        let by = line.by_gradient;
        let slope: f64 = (0..2)
            .flat_map(|row| (0..2).map(move |column| (row, column)))
            .map(|(row, column)| by[row] * self.gradient[row][column] * by[column])
            .sum();
        COVERAGE_95 * (sigma_m * sigma_m + slope.max(0.0)).sqrt()
    }

    fn peg_ties(&self, ties: SwingTies, peg: &PegPlace) -> PegTies {
        let half = |key: &str| {
            let start = self.network.node(key).map(|node| self.network.nodes()[node].at);
            start.map_or(f64::NAN, |start| self.half_width_m(start, peg.at))
        };
        PegTies { half_width_a_m: half(&ties.mark_a), half_width_b_m: half(&ties.mark_b), ties }
    }

    fn readings(&self, tapes: &[PegTape]) -> Vec<CheckReading> {
        let reading = |tape: &PegTape| {
            let (from, to) = (self.network.node(&tape.from)?, self.network.node(&tape.to)?);
            // Between two marks there is no peg to be tested.
            let mark = |node: usize| matches!(self.network.nodes()[node].set_by, SetBy::Mark { .. });
            let id = tape.id.clone();
            (from != to && !(mark(from) && mark(to))).then_some(CheckReading {
                id,
                from,
                to,
                tape_m: tape.tape_m,
            })
        };
        tapes.iter().filter_map(reading).collect()
    }

    fn without_peg(&self, tapes: &[PegTape]) -> Vec<String> {
        let used = self.readings(tapes);
        let left = tapes.iter().filter(|tape| used.iter().all(|reading| reading.id != tape.id));
        left.map(|tape| tape.id.clone()).collect()
    }

    /// The list, then what else was read.
    fn check_tapes(&self, chosen: &[[usize; 2]], readings: &[CheckReading]) -> Vec<CheckTape> {
        let same = |a: [usize; 2], b: [usize; 2]| a == b || a == [b[1], b[0]];
        let of = |ends: [usize; 2]| readings.iter().find(|it| same([it.from, it.to], ends));
        let mut all: Vec<([usize; 2], Option<&CheckReading>)> =
            chosen.iter().map(|&ends| (ends, of(ends))).collect();
        for reading in readings {
            if !all.iter().any(|(_, known)| known.is_some_and(|known| known.id == reading.id)) {
                all.push(([reading.from, reading.to], Some(reading)));
            }
        }
        all.into_iter()
            .enumerate()
            .map(|(row, (ends, read))| self.check_tape(ends, read, row >= chosen.len()))
            .collect()
    }

    fn check_tape(&self, ends: [usize; 2], read: Option<&CheckReading>, extra: bool) -> CheckTape {
        let [from, to] = ends.map(|node| self.network.nodes()[node].key.clone());
        let set = TapeSet::new(&self.network, &[ends]);
        let half_width_95 = set.as_ref().map_or(f64::NAN, |set| COVERAGE_95 * set.covariance[(0, 0)].sqrt());
        let value = set.map_or_else(
            || {
                let at = ends.map(|node| self.network.nodes()[node].at);
                tape_line(&self.computed.ground, at[0], at[1]).length_m
            },
            |set| set.expected_m[0],
        );
        CheckTape {
            id: read.map_or_else(|| format!("{from}~{to}"), |read| read.id.clone()),
            from,
            to,
            expected_m: Estimate { value, half_width_95 },
            read_m: read.map(|read| read.tape_m),
            off_m: read.map(|read| read.tape_m - value),
            extra,
        }
    }
}
