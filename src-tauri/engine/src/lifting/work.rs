//! All of it for one job.

use super::bend;
use super::body::{TurningBody, turning_body};
use super::hands::{self, degrees, push};
use super::hinge;
use super::line::{self, RiggedLine};
use super::results::*;
use super::stage_gust::stage_gusts;
use super::tilt_gust::TiltWind;
use crate::job::{Job, TiltedTubes};
use crate::plan::Computed;
use crate::quantity::FieldErrors;
use crate::raising::RaiseWay;
use crate::round_figures::keep;
use crate::wind_capacity::MastHeight;
use crate::wind_capacity::parts::{Part, parts};
use crate::wind_capacity::standing::Standing;
use crate::workshop::BenchWork;

/// Forces and gusts of a job's raising.
///
/// # Errors
/// Where a section is unknown.
pub fn lifting_work(
    job: &Job,
    computed: &Computed,
    bench: &BenchWork,
    way: Option<&RaiseWay>,
) -> Result<LiftingWork, FieldErrors> {
    let stage_gusts = stage_gusts(job, computed, bench);
    let missing = |open| GustFound::missing(open);
    let Some(way) = way else {
        let tilt_gust = missing(GustMissing::HowItTurnsUp);
        return Ok(LiftingWork { tilt: None, tilt_gust, stage_gusts });
    };
    let Some(body) = turning_body(job, &computed.plan, bench, way)? else {
        return Ok(LiftingWork { tilt: None, tilt_gust: missing(GustMissing::CordWeight), stage_gusts });
    };
    let height = match job.raising.tubes {
        TiltedTubes::RunDown => MastHeight::Lowered,
        TiltedTubes::DrawnOut | TiltedTubes::Unsaid => MastHeight::Raised,
    };
    let standing = Standing::of(job, &computed.layout, height);
    let parts = parts(&standing);
    let lie = hinge::lie(computed, way, keep::HANDS_WALKING.of(job.units.system));
    let rigged = rigged(job, computed, way, &lie);
    let tilting = Tilting { job, computed, bench, way, body: &body, lie, rigged, parts: &parts };
    let tilt = tilting.work();
    let wind = TiltWind {
        job,
        computed,
        way,
        turning: &tilt.turning,
        lie: &lie,
        line: rigged.as_ref(),
        standing: &standing,
        parts: &parts,
        many: job.cards.lifters.map_or_else(|| tilt.people(), u32::from),
    };
    let tilt_gust = wind.limit();
    Ok(LiftingWork { tilt: Some(tilt), tilt_gust, stage_gusts })
}

fn rigged(job: &Job, computed: &Computed, way: &RaiseWay, lie: &Lie) -> Option<RiggedLine> {
    let foot_m = computed.plan.mast.foot_m - way.hinge[2];
    let ground_m = way.ground_m - way.hinge[2];
    job.raising.line.as_ref().map(|line| RiggedLine::of(line, lie, foot_m, ground_m))
}

impl TiltWork {
    /// As many as the weight takes; nobody where a line has no lever, or no team lifts so much.
    fn people(&self) -> u32 {
        match &self.line {
            None => hands::people(self.hardest.force_n),
            Some(line) => line::people(line.pull_n),
        }
        .unwrap_or(0)
    }
}

struct Tilting<'a> {
    job: &'a Job,
    computed: &'a Computed,
    bench: &'a BenchWork,
    way: &'a RaiseWay,
    body: &'a TurningBody,
    lie: Lie,
    rigged: Option<RiggedLine>,
    parts: &'a [Part],
}

impl Tilting<'_> {
    fn work(&self) -> TiltWork {
        let turning = self.body.turning();
        let strengths = bend::strengths(self.parts, self.job.rig.tubes.len());
        let bearings_m = self.bearings_m();
        let mut most: Option<BendUse> = None;
        let mut angles = Vec::new();
        for elevation_deg in degrees(self.way.lying_deg) {
            let (force_n, at_m, on_mast_n) = match &self.rigged {
                None => {
                    let at = push(&turning, &self.lie, elevation_deg);
                    (at.force_n, at.grip_m, hinge::of_push(at.force_n, elevation_deg))
                }
                Some(rigged) => {
                    let at = rigged.pull(&turning, elevation_deg);
                    (at.pull_n, rigged.tied_m, at.on_mast_n)
                }
            };
            let [away_n, lifts_n] = hinge::left_over(turning.mass_kg, on_mast_n);
            let used = strengths.as_ref().and_then(|strengths| {
                bend::most_used(self.body, strengths, &bearings_m, elevation_deg, at_m)
            });
            let bend_use = used.as_ref().map(|(_, used)| used.utilisation);
            if let Some((tube, used)) = used
                && most.as_ref().is_none_or(|most| used.utilisation > most.utilisation)
            {
                let tube = self.job.rig.tubes.get(tube).map_or_else(String::new, |tube| tube.name.clone());
                most = Some(BendUse { tube, ..used });
            }
            let [_, up_n] = on_mast_n;
            angles.push(TiltForces { elevation_deg, force_n, up_n, at_m, away_n, lifts_n, bend_use });
        }
        let lifts = angles
            .iter()
            .fold(&TiltForces::NOTHING, |most, at| if at.lifts_n > most.lifts_n { at } else { most });
        let lifting = HingeLifts { most_n: lifts.lifts_n, at_deg: lifts.elevation_deg };
        let level = Lie { along: 0.0, ..self.lie };
        TiltWork {
            turning,
            lie: self.lie,
            hardest: hands::hardest(&turning, &self.lie, self.way.lying_deg),
            level_hardest_n: hands::hardest(&turning, &level, 0.0).force_n,
            line: self.rigged.as_ref().map(|rigged| rigged.hardest(&turning, self.way.lying_deg)),
            rigged: self.rigged,
            kick: hinge::kick_out(self.job, self.computed, self.way, &angles),
            hinge_lifts: (lifting.most_n > 0.0).then_some(lifting),
            bend: most,
            angles,
        }
    }

    /// How far apart each tube's two bearings in the one below are.
    fn bearings_m(&self) -> Vec<Option<f64>> {
        let joint = |tube: usize| self.bench.fit.joints.iter().find(|it| it.tube as usize == tube);
        (0..self.job.rig.tubes.len()).map(|tube| joint(tube).map(|joint| joint.bearing_m)).collect()
    }
}
