//! What goes under each leg, a step a leg, and the templates of what is to be sawn: each foot, and the joint of the timbers.

use crate::drawing::leg_profile::{picture_text_m, profile_of};
use crate::drawing::pages::block::Block;
use crate::drawing::pages::flow::Drafts;
use crate::drawing::pages::notes::{Notes, Paragraph};
use crate::drawing::pages::step::StepBlock;
use crate::drawing::pages::title::Title;
use crate::drawing::words::sheet as sentences;
use crate::job::Job;
use crate::plan::{Computed, LegResult, Support};
use crate::report::format;
use crate::workshop::joints::lap;

use super::{Wanted, foot_template, lap_template, words};

const WORDS_MM: f64 = 2.8;

pub(super) fn draw(drafts: &mut Drafts, job: &Job, computed: &Computed, wanted: &Wanted) {
    let made = words::made(&wanted.about);
    let what = "Under the legs".to_owned();
    let title = Title { made, ..Title::strip_of(&job.name, &what) };
    let mut blocks = vec![Block::Heading(what), caution()];
    let (mut nothing, mut feet) = (Vec::new(), Vec::new());
    for leg in &computed.plan.base.legs {
        if !computed.plan.knows_under(&leg.id) {
            nothing.push(format!("{} leg: {}", leg.id, crate::report::NOT_MEASURED));
        } else if leg.support == Support::OnGround {
            nothing.push(sentences::rests(&leg.id));
        } else {
            blocks.push(Block::Step(step(job, computed, leg)));
            if leg.support == Support::Foot {
                feet.push(foot_template::of(job, leg));
            }
        }
    }
    let paragraphs = nothing.into_iter().map(Paragraph::plain).collect::<Vec<_>>();
    if !paragraphs.is_empty() {
        blocks.push(Block::Notes(Notes { paragraphs, size_mm: WORDS_MM, framed: false }));
    }
    drafts.flow(wanted.paper, &title, blocks);
    for template in feet.into_iter().chain(lap(job).map(|lap| lap_template::of(job, &lap))) {
        drafts.full_size(wanted.paper, &title, &template);
    }
}

fn caution() -> Block {
    Block::Notes(Notes {
        paragraphs: vec![Paragraph::plain(sentences::FEET)],
        size_mm: WORDS_MM,
        framed: true,
    })
}

fn step(job: &Job, computed: &Computed, leg: &LegResult) -> StepBlock {
    let length = |value| format::length(value, job.units);
    let what = if leg.support == Support::Shim { "shims" } else { "a foot" };
    let interval = format::length_interval(leg.gap_centre_m.half_width_95, job.units);
    let picture = profile_of(job, computed, leg);
    StepBlock {
        title: format!("{} leg: {what}", format::capital(&leg.id)),
        number: length(leg.gap_centre_m.value),
        number_is: format!(
            "high at its centre{}, {} from the mast's axis",
            if interval.is_empty() { String::new() } else { format!(", {interval}") },
            length(leg.reach_m - job.rig.base.foot_thickness_mm / 2000.0)
        ),
        words: sentences::foot(leg, job.units),
        more: Vec::new(),
        picture_text_m: picture_text_m(&picture),
        picture,
    }
}
