//! The search: the quick rules everywhere at once, then whole plans, the roomiest places first and the lattice ever finer.

use std::collections::BTreeMap;

use crate::finding::yard::YardRule;
use crate::finding::{Finding, Rule, Severity};
use crate::job::{Hinge, Job, Rig};
use crate::numerics::outline::signed_area;
use crate::numerics::real::hypot;
use crate::plan::{FixedPoints, Surveyed};
use crate::quantity::FieldErrors;
use crate::quantity::bearing::wrap_360;
use crate::tube::telescope::telescope;
use crate::yard::flat::P2;

use super::best_marks::BestMarks;
use super::filter::{BindingRule, MastSize, Quick, QuickRules};
use super::judge_place::{InYard, TriedPlace, placement};
use super::poses::{BaseTurn, GuyMove, GuyTurn, Pose, base_turns};
use super::refine::{PlacedTurn, Room};
use super::results::*;
use super::room::room_cells;
use super::score::{SitingMerit, SitingScore};
use super::wishes::SitingWishes;
use super::zones::YardGrid;

/// Cells of one search: more than these and the step is too fine for the yard.
const MOST_CELLS: usize = 4_000_000;

/// The widest lattice that is planned first, in cells; halved until every cell is.
const COARSEST: usize = 8;

/// What is known of a cell.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Known {
    Refused(u32),
    /// By the quick rules in these poses.
    Possible(u64),
    /// Number in the list of refusals.
    RefusedByPlan(u32),
    /// With its score, and the poses that the quick rules left.
    Good(f64, u64),
    /// The same, but with checks that could not be made.
    Unsure(f64, u64),
}

/// A search under way. It can be asked for its answer at any time.
pub struct SitingSearch<'a> {
    in_yard: InYard<'a>,
    wishes: SitingWishes,
    waits_for: Vec<Finding>,
    field: Option<Field>,
    plans: u32,
    /// The best places with all their marks, and how many plans were made by then.
    closer: Option<(u32, Vec<SitingPlace>)>,
    pub(super) patterns: Option<SitingPatterns>,
}

/// The yard in cells.
struct Field {
    grid: YardGrid,
    poses: Vec<Pose>,
    rules: Vec<BindingRule>,
    known: Vec<Known>,
    refusals: Vec<Finding>,
    /// Cells still to plan, the next one last.
    queue: Vec<u32>,
}

impl<'a> SitingSearch<'a> {
    /// Asks the quick rules everywhere.
    ///
    /// # Errors
    /// Wishes that no yard can meet, and what can't be placed at all; every such field is named.
    pub fn begin(surveyed: &'a Surveyed, job: &'a Job, wishes: &SitingWishes) -> Result<Self, FieldErrors> {
        Self::begin_with(surveyed, job, wishes, None)
    }

    /// The same with guys moved.
    ///
    /// # Errors
    /// As [`Self::begin`].
    pub(super) fn begin_with(
        surveyed: &'a Surveyed,
        job: &'a Job,
        wishes: &SitingWishes,
        guy_move: Option<GuyMove>,
    ) -> Result<Self, FieldErrors> {
        wishes.checked(job.units)?;
        let turns = base_turns(surveyed, job, wishes, guy_move);
        let poses = poses(&turns);
        let nowhere = Pose { front_bearing_deg: 0.0, guy_turn_deg: 0.0, moved: None };
        let first = poses.first().copied().unwrap_or(nowhere);
        let in_yard = InYard { surveyed, job, points: FixedPoints::of(surveyed, job) };
        // Any place will do to find the yard's things and to hear what is missing wherever the mast stands.
        let checked = in_yard.tried([0.0; 2], first, false)?.checked;
        let unchecked = |finding: &Finding| finding.severity == Severity::Unchecked;
        let mut waits_for: Vec<Finding> = in_yard.points.findings().into_iter().filter(unchecked).collect();
        waits_for.extend(checked.findings.iter().filter(|it| is_missing(it)).cloned());
        let Some(outline) = checked.yard.boundary.as_deref().filter(|outline| outline.len() >= 3) else {
            return Ok(Self::begun(in_yard, wishes, waits_for, None));
        };
        let step_m = wishes.step_over(signed_area(outline).abs());
        let grid = YardGrid::over(outline, step_m);
        if grid.cells() > MOST_CELLS {
            return Err(too_fine(step_m, &grid, job));
        }
        let tubes = telescope(&job.rig.mast_tubes()?, surveyed.units.system);
        let radius_m = tubes.stages.iter().map(|stage| stage.outside_mm / 2000.0).fold(0.0, f64::max);
        let size = MastSize { raised_m: tubes.raised_m, radius_m };
        let ground = &surveyed.fit.ground;
        let quick = QuickRules::new(&checked.yard, outline, ground, &turns, size, wishes.clear_of_fall, grid);
        let cells =
            (0..grid.rows).flat_map(|row| (0..grid.columns).map(move |column| grid.centre(column, row)));
        let known: Vec<Known> = cells
            .map(|at| match quick.at(at) {
                Quick::Possible(poses) => Known::Possible(poses),
                Quick::Refused(rule) => Known::Refused(rule),
            })
            .collect();
        let queue = queue(&grid, &known);
        let field = Field { grid, poses, rules: quick.rules, known, refusals: Vec::new(), queue };
        Ok(Self::begun(in_yard, wishes, waits_for, Some(field)))
    }

    fn begun(
        in_yard: InYard<'a>,
        wishes: &SitingWishes,
        waits_for: Vec<Finding>,
        field: Option<Field>,
    ) -> Self {
        Self { in_yard, wishes: wishes.clone(), waits_for, field, plans: 0, closer: None, patterns: None }
    }

    /// What it was begun with.
    pub(super) fn asked(&self) -> (&Surveyed, &Job, &SitingWishes) {
        (self.in_yard.surveyed, self.in_yard.job, &self.wishes)
    }

    /// Whether it was not begun, because nobody knows the yard's boundary.
    pub(super) fn waits(&self) -> bool {
        self.field.is_none()
    }

    /// Plans more places, as many plans as given. False where none is left to plan.
    ///
    /// # Errors
    /// As the plan's stages.
    pub fn go_on(&mut self, plans: u32) -> Result<bool, FieldErrors> {
        let Some(mut field) = self.field.take() else { return Ok(false) };
        let until = self.plans.saturating_add(plans);
        let mut done = Ok(());
        while self.plans < until && done.is_ok() {
            let Some(cell) = field.queue.pop() else { break };
            done = self.settle(&mut field, cell as usize).map(|_| ());
        }
        let more = !field.queue.is_empty();
        self.field = Some(field);
        done.map(|()| more)
    }

    /// Plans more places until one is accepted, at most so many plans: that place in its best turn, with the parts as they are
    /// there.
    ///
    /// # Errors
    /// As the plan's stages.
    pub(super) fn first_place(&mut self, plans: u32) -> Result<Option<(SitingPlace, Rig)>, FieldErrors> {
        let Some(mut field) = self.field.take() else { return Ok(None) };
        while self.plans < plans {
            let Some(cell) = field.queue.pop() else { break };
            if let Some(bits) = self.settle(&mut field, cell as usize)? {
                let at = field.at(cell as usize);
                let best = self.best_turn(at, &field.poses_of(bits))?;
                return Ok(best.map(|(place, pose)| (place, self.in_yard.rig(at, pose).into_owned())));
            }
        }
        Ok(None)
    }

    /// Plans a cell in one turn after another, until one is accepted: then with the turns that the quick rules left.
    fn settle(&mut self, field: &mut Field, cell: usize) -> Result<Option<u64>, FieldErrors> {
        let Some(Known::Possible(bits)) = field.known.get(cell).copied() else { return Ok(None) };
        let at = field.at(cell);
        let mut refused: Option<Finding> = None;
        // Turns of the base that something refuses which no turn of the guys changes.
        let mut in_vain: Vec<f64> = Vec::new();
        for pose in field.poses_of(bits) {
            if in_vain.contains(&pose.front_bearing_deg) {
                continue;
            }
            let place = self.tried(at, pose)?;
            if place.refused.is_none() {
                field.known[cell] = self.accepted(&place, bits);
                return Ok(Some(bits));
            }
            if place.is_refused_without_guys() {
                in_vain.push(pose.front_bearing_deg);
            }
            refused = refused.or(place.refused);
        }
        if let Some(finding) = refused {
            field.known[cell] = Known::RefusedByPlan(field.number_of(finding));
        }
        Ok(None)
    }

    fn tried(&mut self, at: P2, pose: Pose) -> Result<TriedPlace, FieldErrors> {
        self.plans += 1;
        self.in_yard.tried_near(at, pose, self.wishes.clear_of_fall)
    }

    fn accepted(&self, place: &TriedPlace, bits: u64) -> Known {
        let total = self.score(place).total;
        let unsure = place.findings().any(|finding| finding.severity == Severity::Unchecked);
        if unsure || !self.waits_for.is_empty() {
            Known::Unsure(total, bits)
        } else {
            Known::Good(total, bits)
        }
    }

    fn score(&self, place: &TriedPlace) -> SitingScore {
        SitingScore::of_plan(self.in_yard.surveyed, &place.layout, &place.checked, &self.wishes.weights)
    }

    /// What is known by now. The best places are planned in all their turns, so this costs some plans itself.
    ///
    /// # Errors
    /// As the plan's stages.
    pub fn answer(&mut self) -> Result<Siting, FieldErrors> {
        let Some(field) = self.field.take() else { return Ok(self.waiting()) };
        let best = self.best(&field);
        let patterns = self.patterns.clone();
        let answer = best.map(|best| Siting {
            end: if field.queue.is_empty() { SitingEnd::Whole } else { SitingEnd::Stopped },
            waits_for: self.waits_for.clone(),
            area: Some(field.area()),
            rules: field.rules.clone(),
            refusals: field.refusals.clone(),
            binds_most: if best.is_empty() { field.binds_most() } else { None },
            best,
            openings: None,
            patterns,
            plans: self.plans,
        });
        self.field = Some(field);
        answer
    }

    fn waiting(&self) -> Siting {
        Siting {
            end: SitingEnd::Waits,
            waits_for: self.waits_for.clone(),
            area: None,
            rules: Vec::new(),
            refusals: Vec::new(),
            best: Vec::new(),
            binds_most: None,
            openings: None,
            patterns: None,
            plans: self.plans,
        }
    }

    /// Gives the best places the marks that take more than a plan, and puts them in order by all marks together. Twice as many
    /// are looked at as are wished. `told` hears how many of how many were looked at, and says whether to go on.
    ///
    /// # Errors
    /// As the plan's stages.
    pub fn look_closer(&mut self, told: &mut dyn FnMut(u32, u32) -> bool) -> Result<(), FieldErrors> {
        let Some(field) = self.field.take() else { return Ok(()) };
        let looked = self.looked_closer(&field, told);
        self.field = Some(field);
        self.closer = Some((self.plans, looked?));
        Ok(())
    }

    fn looked_closer(
        &mut self,
        field: &Field,
        told: &mut dyn FnMut(u32, u32) -> bool,
    ) -> Result<Vec<SitingPlace>, FieldErrors> {
        let weights = self.wishes.weights;
        let counts = SitingMerit::ALL.into_iter().any(|it| it.is_of_the_best() && weights.of(it) > 0.0);
        let wished = self.wishes.best as usize;
        let said = self.in_yard.job.raising.hinge != Hinge::Unsaid;
        let mut chosen = self.chosen(field, if counts || said { 2 * wished } else { wished })?;
        let marks = self.best_marks();
        let of = chosen.len() as u32;
        for (done, (place, pose)) in (0..).zip(&mut chosen) {
            if !told(done, of) {
                break;
            }
            marks.give(place, &self.in_yard.rig(place.at_m, *pose))?;
        }
        let mut best = in_order(chosen);
        best.truncate(wished);
        Ok(best)
    }

    fn best(&mut self, field: &Field) -> Result<Vec<SitingPlace>, FieldErrors> {
        match &self.closer {
            Some((plans, best)) if *plans == self.plans => Ok(best.clone()),
            _ => Ok(in_order(self.chosen(field, self.wishes.best as usize)?)),
        }
    }

    /// The best place with the parts as they are there, and with all its marks.
    ///
    /// # Errors
    /// As the plan's stages.
    pub(super) fn best_with_parts(&mut self) -> Result<Option<(SitingPlace, Rig)>, FieldErrors> {
        let Some(field) = self.field.take() else { return Ok(None) };
        let chosen = self.chosen(&field, 1);
        self.field = Some(field);
        let Some((mut place, pose)) = chosen?.into_iter().next() else { return Ok(None) };
        let rig = self.in_yard.rig(place.at_m, pose).into_owned();
        self.best_marks().give(&mut place, &rig)?;
        Ok(Some((place, rig)))
    }

    /// Gives places that were found with other parts the marks that take more than a plan.
    ///
    /// # Errors
    /// As the plan's stages.
    pub(super) fn mark_wholly(&self, opened: &mut [SitingOpening]) -> Result<(), FieldErrors> {
        let marks = self.best_marks();
        opened.iter_mut().try_for_each(|opening| marks.give(&mut opening.place, &opening.rig))
    }

    fn best_marks(&self) -> BestMarks<'_> {
        BestMarks::new(self.in_yard.surveyed, &self.in_yard.points, self.in_yard.job)
    }

    /// Which cells nothing opens by now; none where the search waits.
    pub(super) fn closed_cells(&self) -> Option<Vec<bool>> {
        Some(self.field.as_ref()?.known.iter().map(|known| known.open().is_none()).collect())
    }

    /// The open cells, and whether a whole plan accepted each.
    pub(super) fn open_cells(&self) -> impl Iterator<Item = (usize, bool)> + '_ {
        let known = self.field.iter().flat_map(|field| field.known.iter().enumerate());
        known.filter_map(|(cell, known)| Some((cell, known.open()?)))
    }

    /// Plans no other cells than these.
    pub(super) fn keep_to(&mut self, cells: &[bool]) {
        if let Some(field) = &mut self.field {
            field.queue.retain(|cell| cells.get(*cell as usize).copied().unwrap_or(false));
        }
    }

    /// So many places with the most marks of their plans that stand far enough apart, each in its best turn; refined once the
    /// whole yard is known.
    fn chosen(&mut self, field: &Field, count: usize) -> Result<Vec<PlacedTurn>, FieldErrors> {
        let accepted = field.known.iter().enumerate();
        let accepted =
            accepted.filter_map(|(cell, known)| known.accepted().map(|(total, poses)| (total, cell, poses)));
        let mut ranked: Vec<(f64, usize, u64)> = accepted.collect();
        ranked.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        let mut chosen: Vec<P2> = Vec::new();
        let mut best = Vec::new();
        for (_, cell, poses) in ranked {
            if best.len() >= count {
                break;
            }
            let at = field.at(cell);
            if chosen.iter().any(|other| hypot(other[0] - at[0], other[1] - at[1]) < self.wishes.apart_m) {
                continue;
            }
            chosen.push(at);
            best.extend(self.best_turn(at, &field.poses_of(poses))?);
        }
        if field.queue.is_empty() {
            self.refine_all(field, &mut best)?;
        }
        best.into_iter().filter_map(|(place, pose)| self.told(place.at_m, pose).transpose()).collect()
    }

    /// A place of the answer, held against all that is in the yard.
    fn told(&self, at: P2, pose: Pose) -> Result<Option<PlacedTurn>, FieldErrors> {
        let tried = self.in_yard.tried(at, pose, self.wishes.clear_of_fall)?;
        Ok(self.as_place(at, pose, &tried).map(|place| (place, pose)))
    }

    /// One place after another, each kept apart from where the others are by then.
    fn refine_all(&mut self, field: &Field, best: &mut [PlacedTurn]) -> Result<(), FieldErrors> {
        for index in 0..best.len() {
            let Some(from) = best.get(index).cloned() else { break };
            let at = |(_, place): (usize, &PlacedTurn)| place.0.at_m;
            let others: Vec<P2> =
                best.iter().enumerate().filter(|(other, _)| *other != index).map(at).collect();
            let room = Room {
                centre: from.0.at_m,
                cell_m: field.grid.cell_m,
                turn_deg: field.turn_deg(),
                others: &others,
                apart_m: self.wishes.apart_m,
            };
            let refined = self.refined(from, &room)?;
            // In its new place another turn may be better.
            let turned = self.best_turn(refined.0.at_m, &field.poses)?;
            let better = turned.filter(|(place, _)| place.score.total > refined.0.score.total);
            best[index] = better.unwrap_or(refined);
        }
        Ok(())
    }

    /// Of these turns of a place the one with the most marks; none where all are refused.
    fn best_turn(&mut self, at: P2, poses: &[Pose]) -> Result<Option<PlacedTurn>, FieldErrors> {
        let mut best: Option<PlacedTurn> = None;
        for pose in poses {
            let Some(place) = self.scored(at, *pose)? else { continue };
            if best.as_ref().is_none_or(|(known, _)| place.score.total > known.score.total) {
                best = Some((place, *pose));
            }
        }
        Ok(best)
    }

    /// A place in one turn with its marks; none where the plan refuses it.
    pub(super) fn scored(&mut self, at: P2, pose: Pose) -> Result<Option<SitingPlace>, FieldErrors> {
        let tried = self.tried(at, pose)?;
        Ok(self.as_place(at, pose, &tried))
    }

    fn as_place(&self, at: P2, pose: Pose, tried: &TriedPlace) -> Option<SitingPlace> {
        if tried.refused.is_some() {
            return None;
        }
        let mut findings: Vec<Finding> = tried.findings().cloned().collect();
        findings.sort_by_key(|finding| finding.severity);
        Some(SitingPlace {
            at_m: at,
            placement: placement(at, pose),
            score: self.score(tried),
            findings,
            way_up: SitingWayUp::NotLookedAt,
        })
    }
}

/// The one with the most marks first; of equals the one that was found first. Last those where the mast can't be walked up.
fn in_order(places: Vec<PlacedTurn>) -> Vec<SitingPlace> {
    let mut places: Vec<SitingPlace> = places.into_iter().map(|(place, _)| place).collect();
    let closed = |it: &SitingPlace| it.way_up.is_closed();
    places.sort_by(|a, b| closed(a).cmp(&closed(b)).then(b.score.total.total_cmp(&a.score.total)));
    places
}

/// Each value that occurs, and one after another its number with how many in a row have it.
pub(super) fn in_runs<T: PartialEq>(cells: impl Iterator<Item = T>) -> (Vec<T>, Vec<[u32; 2]>) {
    let mut states: Vec<T> = Vec::new();
    let mut runs: Vec<[u32; 2]> = Vec::new();
    for state in cells {
        // Most cells are as the one before.
        if let Some([last, count]) = runs.last_mut()
            && states.get(*last as usize) == Some(&state)
        {
            *count += 1;
            continue;
        }
        let number = states.iter().position(|other| *other == state).unwrap_or_else(|| {
            states.push(state);
            states.len() - 1
        }) as u32;
        runs.push([number, 1]);
    }
    (states, runs)
}

impl Known {
    /// Whether a whole plan accepted it; none where it is closed.
    fn open(self) -> Option<bool> {
        match self {
            Known::Possible(_) => Some(false),
            Known::Good(..) | Known::Unsure(..) => Some(true),
            Known::Refused(_) | Known::RefusedByPlan(_) => None,
        }
    }

    fn accepted(self) -> Option<(f64, u64)> {
        match self {
            Known::Good(total, poses) | Known::Unsure(total, poses) => Some((total, poses)),
            _ => None,
        }
    }

    fn state(self) -> SitingState {
        match self {
            Known::Refused(by) => SitingState::Refused { by },
            Known::Possible(_) => SitingState::Possible,
            Known::RefusedByPlan(by) => SitingState::RefusedByPlan { by },
            Known::Good(..) => SitingState::Good,
            Known::Unsure(..) => SitingState::AsFarAsKnown,
        }
    }
}

impl Field {
    fn at(&self, cell: usize) -> P2 {
        self.grid.centre(cell % self.grid.columns, cell / self.grid.columns)
    }

    fn poses_of(&self, bits: u64) -> Vec<Pose> {
        let set = |(number, pose): (u32, &Pose)| (bits >> number & 1 == 1).then_some(*pose);
        (0..).zip(&self.poses).filter_map(set).collect()
    }

    /// From one turn of the guys to the next; 0 where there is only one.
    fn turn_deg(&self) -> f64 {
        match self.poses[..] {
            [first, second, ..] if second.front_bearing_deg == first.front_bearing_deg => {
                wrap_360(second.guy_turn_deg - first.guy_turn_deg)
            }
            _ => 0.0,
        }
    }

    /// A refusal that says the same of the same things is listed once.
    fn number_of(&mut self, finding: Finding) -> u32 {
        let known = self.refusals.iter().position(|other| other.is_about_the_same(&finding));
        known.unwrap_or_else(|| {
            self.refusals.push(finding);
            self.refusals.len() - 1
        }) as u32
    }

    fn area(&self) -> SitingArea {
        let (states, runs) = in_runs(self.known.iter().map(|known| known.state()));
        let YardGrid { lo, cell_m, columns, rows } = self.grid;
        SitingArea { from_m: lo, cell_m, columns: columns as u32, rows: rows as u32, states, runs }
    }

    /// The quick rule that refuses most cells within the boundary.
    fn binds_most(&self) -> Option<BindingRule> {
        let mut counts: BTreeMap<&BindingRule, u32> = BTreeMap::new();
        for known in &self.known {
            if let Known::Refused(by) = known {
                *counts.entry(self.rules.get(*by as usize)?).or_default() += 1;
            }
        }
        let most = counts.into_iter().max_by_key(|(rule, count)| (*count, std::cmp::Reverse(*rule)));
        most.map(|(rule, _)| rule.clone())
    }
}

fn poses(turns: &[BaseTurn]) -> Vec<Pose> {
    let of = |turn: &BaseTurn| {
        let front_bearing_deg = turn.front_bearing_deg;
        let guys = turn.guy_turns.iter();
        let pose =
            |guys: &GuyTurn| Pose { front_bearing_deg, guy_turn_deg: guys.guy_turn_deg, moved: guys.moved };
        guys.map(pose).collect::<Vec<_>>()
    };
    turns.iter().flat_map(of).collect()
}

/// What has to be asked or measured wherever the mast stands.
fn is_missing(finding: &Finding) -> bool {
    let boundary = matches!(finding.rule, Rule::Yard(YardRule::BoundaryNotGiven));
    let of_place = matches!(finding.rule, Rule::Ground(_));
    boundary || (finding.severity == Severity::Unchecked && !of_place)
}

fn too_fine(step_m: f64, grid: &YardGrid, job: &Job) -> FieldErrors {
    let least_m = step_m * (grid.columns as f64 * grid.rows as f64 / MOST_CELLS as f64).sqrt();
    let shown = |metres| crate::quantity::format::field("step_m", metres, job.units);
    let allowed = format!("{} or more in a yard of this size", shown(least_m));
    crate::quantity::FieldError::new("/siting/step_m", shown(step_m), allowed).into()
}

/// Every possible cell: those of the coarsest lattice first, and among these the roomiest. The next one stands last.
fn queue(grid: &YardGrid, known: &[Known]) -> Vec<u32> {
    let possible: Vec<bool> = known.iter().map(|it| matches!(it, Known::Possible(_))).collect();
    let room = room_cells(&possible, grid.columns);
    let lattice = |cell: usize| {
        let (column, row) = (cell % grid.columns, cell / grid.columns);
        let mut step = COARSEST;
        while step > 1 && !(column % step == step / 2 && row % step == step / 2) {
            step /= 2;
        }
        step
    };
    let mut cells: Vec<u32> = (0..known.len() as u32).filter(|&cell| possible[cell as usize]).collect();
    // Of equals the one that comes first in the yard is planned first.
    cells.sort_by_cached_key(|&cell| (lattice(cell as usize), room[cell as usize], std::cmp::Reverse(cell)));
    cells
}
