//! What to change first: the raised mast's limit found again with one thing changed, and again with another.

use super::air;
use super::cautions::cautions;
use super::parts::{Check, Part, parts};
use super::rose::{Guess, bearings, blows_to, direction, greatest_pulls, least};
use super::search::{Search, Windy};
use super::soil;
use super::standing::Standing;
use super::types::{DirectionLimit, MastHeight, WindChange, WindChanges};
use crate::anchor::proof_pull::PROOF_FACTOR;
use crate::habits::step;
use crate::job::{AnchorRule, Fix, GuyLevel, Job, SoilFeel, UnitSystem};
use crate::numerics::real::{atan_deg, tan_deg};
use crate::plan::{GuyResult, Plan, compute};
use crate::resistance::rope::{RopeEnd, RopeMaterial};
use crate::structure::ModelError;

/// Every fifteen degrees: the least of these is within a per cent of the least of 72 for three guys or more.
const DIRECTIONS: u32 = 24;

/// A pull that no guy reaches: the anchor is out of the question.
const ANY_PULL_N: f64 = 200_000.0;

/// The limit with one thing changed, for each thing that helps as a rule; the most helpful first.
///
/// `progress` is told how many changes are done, of how many, and stops by answering false.
///
/// # Errors
/// Where the mast as it is can't be made a structure of.
pub fn wind_changes(
    job: &Job,
    plan: &Plan,
    progress: &mut dyn FnMut(u32, u32) -> bool,
) -> Result<WindChanges, ModelError> {
    let now = least_limit(job, plan)?;
    let options = options(job, plan);
    let mut found = WindChanges { now, changes: Vec::new(), cautions: cautions(), stopped: false };
    for (index, option) in options.iter().enumerate() {
        found.changes.extend(tried(option, &found.now));
        let done = index as u32 + 1;
        if !progress(done, options.len() as u32) && done < options.len() as u32 {
            found.stopped = true;
            break;
        }
    }
    found.changes.sort_by(|a, b| b.gain_m_per_s.total_cmp(&a.gain_m_per_s));
    Ok(found)
}

/// A job with one thing changed.
struct Change {
    id: &'static str,
    what: &'static str,
    job: Job,
}

/// Nothing where the changed job can't be placed or built.
fn tried(option: &Change, now: &DirectionLimit) -> Option<WindChange> {
    let plan = compute(&option.job).ok()?.plan;
    let limit = least_limit(&option.job, &plan).ok()?;
    let proof_pull_n = (option.id == "anchors_proved").then(|| {
        let standing = Standing::of(&option.job, &plan, MastHeight::Raised);
        let mut pulls_n = vec![0.0; standing.anchors.len()];
        let _ = greatest_pulls(&standing, &parts(&standing), limit.gust_m_per_s, DIRECTIONS, &mut pulls_n);
        PROOF_FACTOR * pulls_n.into_iter().fold(0.0, f64::max)
    });
    Some(WindChange {
        id: option.id.to_owned(),
        what: option.what.to_owned(),
        gust_m_per_s: limit.gust_m_per_s,
        gain_m_per_s: limit.gust_m_per_s - now.gust_m_per_s,
        weakest: limit.weakest,
        proof_pull_n,
    })
}

fn least_limit(job: &Job, plan: &Plan) -> Result<DirectionLimit, ModelError> {
    let standing = Standing::of(job, plan, MastHeight::Raised);
    let parts = parts(&standing);
    let route = air::route(job);
    let mut search: Option<Search> = None;
    let (mut guess, mut directions) = (Guess::default(), Vec::new());
    for from_deg in bearings(DIRECTIONS) {
        let mut windy = Windy::new(&standing, &route, blows_to(from_deg))?;
        let search = search.get_or_insert_with(|| Search::new(&parts, &mut windy));
        let found = search.limit(&mut windy, guess.next());
        guess.learn(found.gust_squared);
        directions.push(direction(from_deg, found, &parts));
    }
    let nothing = DirectionLimit { from_deg: 0.0, gust_m_per_s: 0.0, weakest: None };
    Ok(least(&directions).unwrap_or(nothing))
}

fn options(job: &Job, plan: &Plan) -> Vec<Change> {
    let mut options = Vec::new();
    let system = job.units.system;
    let say = |metric, imperial| match system {
        UnitSystem::Metric => metric,
        UnitSystem::Imperial => imperial,
    };
    let mut with = |id, what, change: &dyn Fn(&mut Job) -> bool| {
        let mut changed = job.clone();
        if change(&mut changed) {
            options.push(Change { id, what, job: changed });
        }
    };
    with("anchors_farther_out", "Set the anchors a fifth farther out.", &|job| {
        measured_farther_out(job, plan);
        each_level(job, |level| farther_out(level, plan))
    });
    with("guys_tighter", "Set the guys half as tight again.", &|job| {
        each_level(job, |level| tension(level, 1.5))
    });
    with("guys_looser", "Set the guys a third less tight.", &|job| {
        each_level(job, |level| tension(level, 1.0 / 1.5))
    });
    with("rope_thicker", "Take rope one size up, a quarter thicker.", &|job| each_level(job, thicker));
    with("rope_stiffer", "Take rope that stretches half as much.", &|job| {
        each_level(job, |level| {
            level.rope.stretch_percent /= 2.0;
            true
        })
    });
    with("rope_ends_better", "Tie the guys with a figure-eight loop instead of another knot.", &|job| {
        each_level(job, |level| {
            let strength = &mut level.rope.strength;
            // A spliced eye stays: it keeps more, and knots in HMPE are none.
            let knotted = strength.end == RopeEnd::Knot && strength.minimum_n.is_some();
            if knotted && strength.material != RopeMaterial::Hmpe {
                strength.end = RopeEnd::FigureEightLoop;
                return true;
            }
            false
        })
    });
    let anchors_shown = parts(&Standing::of(job, plan, MastHeight::Raised)).iter().any(is_shown_anchor);
    with("anchors_proved", "Show the anchors to hold more by a proof pull.", &|job| {
        anchors_shown
            && each_level(job, |level| {
                level.proof_pull_n = Some(ANY_PULL_N);
                true
            })
    });
    with("four_guys", "Set four guys a level instead of three.", &|job| four_guys(job, plan));
    with("fewer_strands", "Hang a third fewer strands.", &|job| {
        job.rig.strands.as_mut().is_some_and(|strands| {
            strands.count = strands.count * 2 / 3;
            strands.count > 0
        })
    });
    with("strands_looser", "Hang the strands half as tight.", &|job| {
        job.rig.strands.as_mut().is_some_and(|strands| {
            strands.cord.tension_n /= 2.0;
            strands.cord.tension_n >= 1.0
        })
    });
    with("no_topper", "Leave the topper off.", &|job| job.rig.topper.take().is_some());
    with(
        "less_high",
        say("Raise the top tube half a metre less.", "Raise the top tube 1' 8\" less."),
        &less_high,
    );
    let boards = say("Put boards of 300 mm under the feet.", "Put boards of 12\" under the feet.");
    with("bigger_pads", boards, &|job| {
        let board_mm = step::BOARD.of(system);
        let before = job.rig.base.pad_mm.replace(board_mm);
        before.is_none_or(|side_mm| side_mm < board_mm)
    });
    let stakes = say("Drive stakes 30 cm longer.", "Drive stakes a foot longer.");
    with("longer_stakes", stakes, &|job| {
        job.rig.stakes.length_m += step::STAKE.of(system);
        job.rig.stakes.per_leg > 0
    });
    with("soil_firmer", firmer_in_words(job.yard.soil), &|job| {
        let firmer = soil::one_class_firmer(job.yard.soil);
        job.yard.soil = firmer.unwrap_or(job.yard.soil);
        firmer.is_some()
    });
    options
}

/// Nobody chooses the soil: what it would change says whether digging once more is worth the while.
fn firmer_in_words(soil: SoilFeel) -> &'static str {
    match soil {
        SoilFeel::Sand { .. } => {
            "If the sand lay one class denser (try again with the rod, or move to firmer ground)."
        }
        _ => "If the soil were one class stiffer (dig and feel again, or move to firmer ground).",
    }
}

fn is_shown_anchor(part: &Part) -> bool {
    matches!(part.check, Check::Anchor { .. })
}

/// Changes every level; whether any was.
fn each_level(job: &mut Job, mut change: impl FnMut(&mut GuyLevel) -> bool) -> bool {
    let mut any = false;
    for level in &mut job.rig.guy_levels {
        any |= change(level);
    }
    any
}

fn tension(level: &mut GuyLevel, by: f64) -> bool {
    level.tension_n *= by;
    true
}

fn thicker(level: &mut GuyLevel) -> bool {
    let (rope, area) = (&mut level.rope, 1.25 * 1.25);
    rope.diameter_mm *= 1.25;
    rope.mass_g_per_m *= area;
    // Stiffness and strength go with the area.
    rope.stretch_at_n *= area;
    rope.strength.minimum_n = rope.strength.minimum_n.map(|strength_n| strength_n * area);
    true
}

/// Anchors measured for three guys are set anew with the fourth.
fn four_guys(job: &mut Job, plan: &Plan) -> bool {
    let three = |level: &&mut GuyLevel| level.count == 3 && !matches!(level.anchors, AnchorRule::Free { .. });
    let mut changed = Vec::new();
    for level in job.rig.guy_levels.iter_mut().filter(three) {
        level.count = 4;
        changed.push(level.id.clone());
    }
    let anew = |id: &str| plan.guys.iter().any(|guy| guy.id == id && changed.contains(&guy.level_id));
    job.as_built.iter_mut().for_each(|built| built.anchors.retain(|anchor| !anew(&anchor.guy)));
    !changed.is_empty()
}

/// How much farther out the anchors are tried.
const FARTHER: f64 = 1.2;

fn farther_out(level: &mut GuyLevel, plan: &Plan) -> bool {
    match &mut level.anchors {
        AnchorRule::EqualRadius { radius_m } => *radius_m *= FARTHER,
        AnchorRule::EqualTape { tape_m } => *tape_m *= FARTHER,
        AnchorRule::EqualAngle { angle_deg } => *angle_deg = atan_deg(tan_deg(*angle_deg) / FARTHER),
        AnchorRule::Free { anchors } => {
            let placed = plan.guys.iter().filter(|guy| guy.level_id == level.id);
            *anchors = placed.map(|guy| farther_from_mast(guy, plan)).collect();
        }
    }
    true
}

/// Anchors measured in their places go out from there: they stand before every rule.
fn measured_farther_out(job: &mut Job, plan: &Plan) {
    for anchor in job.as_built.iter_mut().flat_map(|built| &mut built.anchors) {
        if let Some(guy) = plan.guys.iter().find(|guy| guy.id == anchor.guy) {
            anchor.at = anchor.at.as_ref().map(|_| farther_from_mast(guy, plan));
        }
    }
}

fn farther_from_mast(guy: &GuyResult, plan: &Plan) -> Fix {
    let from = |mast_m: f64, at_m: f64| mast_m + FARTHER * (at_m - mast_m);
    Fix::Coordinates {
        east_m: from(plan.mast.east_m, guy.east_m),
        north_m: from(plan.mast.north_m, guy.north_m),
    }
}

/// The top tube goes down, with everything that is on it.
fn less_high(job: &mut Job) -> bool {
    let less_m = step::LOWER.of(job.units.system);
    let [.., below, top] = job.rig.tubes.as_mut_slice() else { return false };
    let room = top.overlap_m + less_m < 0.9 * top.length_m.min(below.length_m);
    if top.joint == crate::job::TubeJoint::Threaded || !room {
        return false;
    }
    top.overlap_m += less_m;
    let lengths: f64 = job.rig.tubes.iter().map(|tube| tube.length_m).sum();
    let overlaps: f64 = job.rig.tubes.iter().map(|tube| tube.overlap_m).sum();
    let below_m = lengths - overlaps - job.rig.tubes.last().map_or(0.0, |tube| tube.length_m);
    // Where the tube below ends, what is on the top tube begins.
    let on_top_m = below_m + job.rig.tubes.last().map_or(0.0, |tube| tube.overlap_m);
    for level in &mut job.rig.guy_levels {
        if level.attach_height_m > on_top_m {
            level.attach_height_m = (level.attach_height_m - less_m).max(on_top_m);
        }
    }
    if let Some(strands) = job.rig.strands.as_mut().filter(|strands| strands.top_height_m > on_top_m) {
        strands.top_height_m = (strands.top_height_m - less_m).max(on_top_m);
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::anchor::soil::ClayFeel;
    use crate::demo::yardstick;
    use crate::job::{AsBuilt, AsBuiltAnchor, Holdfast};
    use crate::limit::types::PartKind;

    fn change(job: &Job, id: &str) -> Option<Change> {
        let plan = compute(job).unwrap().plan;
        options(job, &plan).into_iter().find(|option| option.id == id)
    }

    #[test]
    fn firmer_soil_helps_where_an_anchor_in_it_gives_first() {
        let mut job = yardstick();
        job.yard.soil = SoilFeel::Clay { feel: ClayFeel::Firm };
        job.rig.guy_levels[0].holdfast = Holdfast::Plate { side_m: 0.08, depth_m: 0.6 };
        let now = least_limit(&job, &compute(&job).unwrap().plan).unwrap();
        assert_eq!(now.weakest.as_ref().unwrap().kind, PartKind::Anchor);
        let firmer = change(&job, "soil_firmer").unwrap();
        assert_eq!(firmer.job.yard.soil, SoilFeel::Clay { feel: ClayFeel::Stiff });
        assert!(tried(&firmer, &now).unwrap().gain_m_per_s > 1.0);
    }

    #[test]
    fn measured_anchors_go_farther_out_from_where_they_are() {
        let mut job = yardstick();
        let guy = compute(&job).unwrap().plan.guys[0].clone();
        let at = Fix::Coordinates { east_m: guy.east_m + 0.3, north_m: guy.north_m };
        let measured = AsBuiltAnchor { guy: guy.id, at: Some(at), eye_height_m: None };
        job.as_built = Some(AsBuilt { anchors: vec![measured], ..AsBuilt::default() });
        let stands = compute(&job).unwrap().plan;
        let farther = change(&job, "anchors_farther_out").unwrap();
        for (before, after) in stands.guys.iter().zip(compute(&farther.job).unwrap().plan.guys) {
            assert!((after.radius_m / before.radius_m - FARTHER).abs() < 1e-9, "{}", after.id);
        }
        let four = compute(&change(&job, "four_guys").unwrap().job).unwrap().plan;
        let radius_m = |index: usize| four.guys[index].radius_m;
        assert!(four.guys.len() == 4 && (radius_m(0) - radius_m(2)).abs() < 1e-9);
    }

    #[test]
    fn what_nobody_knows_gets_no_firmer() {
        let mut job = yardstick();
        assert!(change(&job, "soil_firmer").is_some());
        job.yard.soil = SoilFeel::Unknown;
        assert!(change(&job, "soil_firmer").is_none());
    }
}
