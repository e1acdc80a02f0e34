//! The row of the base against sliding shows what governs, with its own capacity: its push over that is its use.

use mastwright_engine::anchor::soil::ClayFeel;
use mastwright_engine::job::*;
use mastwright_engine::plan::compute;
use mastwright_engine::quantity::{UnitSystem, Units};
use mastwright_engine::resistance::Resistance;
use mastwright_engine::source::SourceKey;
use mastwright_engine::wind_capacity::{MastHeight, PartKind, PartUse, WindQuestion, WindTable, wind_table};

fn table(job: &Job, from_deg: f64) -> WindTable {
    let layout = compute(job).unwrap().layout;
    let question = WindQuestion { height: MastHeight::Raised, gust_m_per_s: 15.0, from_deg: Some(from_deg) };
    wind_table(job, &layout, &question).unwrap()
}

fn sliding(table: &WindTable) -> &PartUse {
    table.parts.iter().find(|part| part.part.kind == PartKind::BaseSliding).unwrap()
}

fn on_clay() -> Job {
    let mut job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
    job.yard.bearings = BearingReference::True;
    job.yard.soil = SoilFeel::Clay { feel: ClayFeel::Stiff };
    job
}

/// The use is the push over what the row says that it may carry, whatever governs.
fn shows_what_governs(job: &Job, source: SourceKey) {
    for from_deg in [0.0, 40.0, 90.0, 200.0, 310.0] {
        let table = table(job, from_deg);
        let row = sliding(&table);
        let Some(Resistance::Shown(shown)) = &row.carries else { panic!("shown") };
        assert_eq!(shown.source, source, "from {from_deg}");
        let used = row.force_n.unwrap() / shown.allowable_n();
        assert!((used / row.utilisation.unwrap() - 1.0).abs() < 1e-9, "from {from_deg}: {used} {row:?}");
        if source == SourceKey::Ibc1806 {
            // Adhesion: at most half the weight that rests there, over 1.5. Under design loads a little more or less rests.
            assert!(shown.ultimate_n <= 0.6 * table.foot_down_n);
            assert_eq!(shown.factor, 1.5);
        }
    }
}

#[test]
fn stakes_where_they_hold_more() {
    let mut job = on_clay();
    (job.rig.stakes.diameter_mm, job.rig.stakes.length_m) = (25.0, 1.0);
    shows_what_governs(&job, SourceKey::BromsClay);
}

/// Boards of 0.3 m under three feet: 6224 Pa of adhesion on 0.27 m² are 1680 N, so that half the weight is the cap; thin
/// short stakes beside them hold less.
#[test]
fn adhesion_where_it_holds_more() {
    let mut job = on_clay();
    job.rig.base.pad_mm = Some(300.0);
    (job.rig.stakes.diameter_mm, job.rig.stakes.length_m) = (6.0, 0.3);
    shows_what_governs(&job, SourceKey::Ibc1806);
    job.rig.stakes.per_leg = 0;
    shows_what_governs(&job, SourceKey::Ibc1806);
}
