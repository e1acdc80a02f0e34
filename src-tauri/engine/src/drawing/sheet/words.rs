//! Words on the sheets: what goes under each leg, what to take care of, where north is, when the yard was surveyed.

use std::collections::BTreeSet;

use crate::drawing::layers::View;
use crate::drawing::layers::north_and_scale::north_words;
use crate::drawing::pages::About;
use crate::drawing::pages::notes::{Notes, Paragraph};
use crate::drawing::pages::text::SMALL_MM;
use crate::drawing::words::sheet::{CAUTIONS, HEIGHTS_FROM, not_shown};
use crate::job::Job;
use crate::plan::{Computed, LegResult, Support};
use crate::report::{format, north_from, verdict};

/// What is wrong, what goes under each leg, and the cautions.
pub(super) fn notes(job: &Job, computed: &Computed, unknown: &BTreeSet<char>) -> Notes {
    let mut paragraphs = vec![
        Paragraph::heading(verdict::long(computed.plan.verdict.as_ref())),
        Paragraph::heading("Under the legs"),
    ];
    for leg in &computed.plan.base.legs {
        let known = computed.plan.knows_under(&leg.id);
        let words =
            if known { leg_words(job, leg) } else { format!("{}: {}", leg.id, crate::report::NOT_MEASURED) };
        paragraphs.push(Paragraph::plain(words));
    }
    if let Some(side_mm) = job.rig.base.joint_pad_mm {
        let side = format::length_small(side_mm, job.units);
        paragraphs.push(Paragraph::plain(format!(
            "joint: a board {side} square, packed tight: without it the timbers bend"
        )));
    }
    paragraphs.extend(not_shown(unknown).map(Paragraph::plain));
    paragraphs.push(Paragraph::heading("Take care"));
    paragraphs.extend(CAUTIONS.map(Paragraph::plain));
    Notes { paragraphs, size_mm: SMALL_MM, framed: false }
}

fn leg_words(job: &Job, leg: &LegResult) -> String {
    let length = |value| format::length(value, job.units);
    let what = match leg.support {
        Support::OnGround => return format!("{}: rests on the ground", leg.id),
        Support::Shim => "shim",
        Support::Foot => "foot",
    };
    let interval = format::length_interval(leg.gap_centre_m.half_width_95, job.units);
    format!(
        "{}: {what} {} {interval} at its centre; inner {}, outer {}, left {}, right {}; bevels {} along, {} across",
        leg.id,
        length(leg.gap_centre_m.value),
        length(leg.gap_inner_m),
        length(leg.gap_outer_m),
        length(leg.gap_left_m),
        length(leg.gap_right_m),
        format::angle(leg.bevel_along_deg),
        format::angle(leg.bevel_across_deg)
    )
}

/// Which way north is on the drawing, and how that is known.
pub(super) fn north(job: &Job, computed: &Computed) -> String {
    let north = north_words(&View { job, computed }).join(", ");
    format!("North: {north}. {}", north_from(&computed.plan.north.from))
}

/// When the yard was surveyed and where it is.
pub(super) fn facts(job: &Job) -> Vec<String> {
    let surveyed = job.yard.surveyed_at.map_or_else(
        || "Date of the survey not noted".to_string(),
        |at| format!("Surveyed {}", at.format("%Y-%m-%d %H:%M %:z")),
    );
    let place = job.yard.place.as_ref().map_or_else(
        || "Place not noted".to_string(),
        |place| format!("{} {:.5}, {:.5}", place.name, place.latitude_deg, place.longitude_deg),
    );
    vec![surveyed, place.trim().to_string(), HEIGHTS_FROM.to_string()]
}

/// When and by whom the sheets were made: an old one in a pocket is known by it.
pub(super) fn made(about: &About) -> String {
    let at = about.made_at.map(|at| format!("made {}", at.format("%Y-%m-%d %H:%M")));
    let by = about
        .author
        .as_deref()
        .filter(|author| !author.trim().is_empty())
        .map(|author| format!("by {author}"));
    let words: Vec<String> = at.into_iter().chain(by).collect();
    words.join(" ")
}
