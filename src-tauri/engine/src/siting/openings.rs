//! Where nothing fits: the least change of each kind that opens a place, tried by the same search.

use crate::job::Job;
use crate::plan::Surveyed;
use crate::quantity::FieldErrors;
use crate::tube::telescope::telescope;

use super::change::{Scale, SitingChange, scales, switches};
use super::results::{SitingOpening, SitingOpenings};
use super::search::SitingSearch;
use super::wishes::SitingWishes;

/// Whole plans of one trial; where none of so many of its roomiest places is accepted, the trial has failed.
const PLANS_A_TRIAL: u32 = 600;

impl SitingSearch<'_> {
    /// Tries changes until each kind has opened a place or cannot. `told` hears how many of how many kinds were tried, and
    /// says whether to go on. Nothing is tried where the search itself waits for something.
    ///
    /// Each amount is doubled until it opens a place, then narrowed down between the last that did not and the first that
    /// did: where a larger change closes what a smaller one opened, a smaller one may have been stepped over.
    ///
    /// # Errors
    /// As the search.
    pub fn openings(&self, told: &mut dyn FnMut(u32, u32) -> bool) -> Result<SitingOpenings, FieldErrors> {
        let (surveyed, job, wishes) = self.asked();
        let mut found = SitingOpenings { opened: Vec::new(), closed: Vec::new(), stopped: self.waits() };
        if found.stopped {
            return Ok(found);
        }
        let raised_m = telescope(&job.rig.mast_tubes()?, surveyed.units.system).raised_m;
        let (scales, switches) = (scales(job, raised_m), switches(job, wishes));
        let kinds = (scales.len() + switches.len()) as u32;
        let trials = Trials { surveyed, job, wishes };
        let mut ranked: Vec<(f64, SitingOpening)> = Vec::new();
        let tries = switches.into_iter().map(Try::Once).chain(scales.into_iter().map(Try::UpTo));
        for (done, attempt) in (0..).zip(tries) {
            if !told(done, kinds) {
                found.stopped = true;
                break;
            }
            match trials.least(attempt)? {
                Some(opening) => ranked.push(opening),
                None => found.closed.push(attempt.most()),
            }
        }
        ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
        found.opened = ranked.into_iter().map(|(_, opening)| opening).collect();
        self.mark_wholly(&mut found.opened)?;
        Ok(found)
    }
}

/// A kind of change, with more and less or without.
#[derive(Clone, Copy)]
enum Try {
    Once(SitingChange),
    UpTo(Scale),
}

impl Try {
    fn most(self) -> SitingChange {
        match self {
            Self::Once(change) => change,
            Self::UpTo(scale) => scale.at(scale.steps),
        }
    }
}

struct Trials<'a> {
    surveyed: &'a Surveyed,
    job: &'a Job,
    wishes: &'a SitingWishes,
}

/// What has no more or less comes after changes by half of what is tried (common practice: another guy is more to buy
/// than an anchor moved a little).
const SWITCH_SHARE: f64 = 0.5;

impl Trials<'_> {
    /// The least that opens a place, with its share of the most that is tried.
    fn least(&self, attempt: Try) -> Result<Option<(f64, SitingOpening)>, FieldErrors> {
        match attempt {
            Try::Once(change) => Ok(self.opens(change)?.map(|opening| (SWITCH_SHARE, opening))),
            Try::UpTo(scale) => self.least_of(scale),
        }
    }

    fn least_of(&self, scale: Scale) -> Result<Option<(f64, SitingOpening)>, FieldErrors> {
        let (mut shut, mut steps) = (0, 1);
        let mut open = loop {
            if let Some(opening) = self.opens(scale.at(steps))? {
                break opening;
            }
            if steps == scale.steps {
                return Ok(None);
            }
            shut = steps;
            steps = (2 * steps).min(scale.steps);
        };
        while steps - shut > 1 {
            let middle = shut + (steps - shut) / 2;
            match self.opens(scale.at(middle))? {
                Some(opening) => (open, steps) = (opening, middle),
                None => shut = middle,
            }
        }
        Ok(Some((f64::from(steps) / f64::from(scale.steps), open)))
    }

    /// The first place that the search accepts with a change made.
    fn opens(&self, change: SitingChange) -> Result<Option<SitingOpening>, FieldErrors> {
        let Some(rig) = change.applied_to(&self.job.rig) else { return Ok(None) };
        let job = Job { rig, ..self.job.clone() };
        let wishes = change.wished(self.wishes);
        let mut search =
            SitingSearch::begin_with(self.surveyed, &job, &wishes, change.guy_move(&self.job.rig))?;
        let opened = search.first_place(PLANS_A_TRIAL)?;
        Ok(opened.map(|(place, rig)| SitingOpening { change, rig, place }))
    }
}
