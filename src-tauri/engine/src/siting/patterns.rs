//! Other patterns of guys: three or four, one guy nearer or farther; each is tried by the same search where the job's own
//! pattern leaves the yard closed. The first in the list that opens a place has it.

use crate::job::Job;
use crate::quantity::FieldErrors;

use super::change::{SitingChange, patterns};
use super::results::{SitingOpening, SitingPattern, SitingPatternState, SitingPatterns};
use super::search::{SitingSearch, in_runs};
use super::wishes::SitingWishes;

impl SitingSearch<'_> {
    /// Tries the other patterns, each with so many whole plans at the most, the roomiest places first. `told` hears how many
    /// of how many were tried, and says whether to go on. What it finds is in the answer from then on.
    ///
    /// # Errors
    /// As the search.
    pub fn try_patterns(
        &mut self,
        plans: u32,
        told: &mut dyn FnMut(u32, u32) -> bool,
    ) -> Result<(), FieldErrors> {
        let Some(closed) = self.closed_cells() else { return Ok(()) };
        let mut cells = vec![SitingPatternState::Nothing; closed.len()];
        let (mut tried, mut stopped) = (Vec::new(), false);
        let changes = patterns(self.asked().1);
        for (number, change) in (0..).zip(&changes) {
            if !told(number, changes.len() as u32) {
                stopped = true;
                break;
            }
            let is_open = |cell: usize| matches!(cells[cell], SitingPatternState::Opens { .. });
            let left = (0..closed.len()).map(|cell| closed[cell] && !is_open(cell)).collect();
            let by = tried.len() as u32;
            tried.extend(self.with_pattern(*change, left, plans, by, &mut cells)?);
        }
        let (states, runs) = in_runs(cells.into_iter());
        self.patterns = Some(SitingPatterns { tried, states, runs, stopped });
        Ok(())
    }

    /// None where the parts do not allow it.
    fn with_pattern(
        &self,
        change: SitingChange,
        left: Vec<bool>,
        plans: u32,
        by: u32,
        cells: &mut [SitingPatternState],
    ) -> Result<Option<SitingPattern>, FieldErrors> {
        let (surveyed, job, wishes) = self.asked();
        let Some(rig) = change.applied_to(&job.rig) else { return Ok(None) };
        let changed = Job { rig, ..job.clone() };
        let wishes = SitingWishes { best: 1, ..wishes.clone() };
        let guy_move = change.guy_move(&job.rig);
        let mut search = SitingSearch::begin_with(surveyed, &changed, &wishes, guy_move)?;
        search.keep_to(&left);
        search.go_on(plans)?;
        let (mut opens_cells, mut may_open_cells) = (0, 0);
        for (cell, accepted) in search.open_cells() {
            if !left.get(cell).copied().unwrap_or(false) {
                continue;
            }
            let Some(state) = cells.get_mut(cell) else { continue };
            match (accepted, *state) {
                (true, _) => (*state, opens_cells) = (SitingPatternState::Opens { by }, opens_cells + 1),
                (false, SitingPatternState::Nothing) => {
                    (*state, may_open_cells) = (SitingPatternState::MayOpen { by }, may_open_cells + 1);
                }
                (false, _) => {}
            }
        }
        let best = search.best_with_parts()?;
        let best = best.map(|(place, rig)| SitingOpening { change, rig, place });
        Ok(Some(SitingPattern { change, opens_cells, may_open_cells, best }))
    }
}
