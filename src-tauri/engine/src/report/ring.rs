//! The ring of the strands.

use super::rows::{self, row};
use super::words::cautions;
use super::{Label, ReportSection, SectionTitle, Source, words};
use crate::finding::Subject;

pub(super) fn section(source: &Source) -> Option<ReportSection> {
    let ring = source.computed.plan.ring.as_ref()?;
    let units = source.units();
    let mut rows = vec![
        row(Label::RingRadius, rows::length(ring.radius_m, units)),
        row(Label::TopRadius, rows::length(ring.top_radius_m, units)),
        row(Label::Strands, ring.strand_lengths_m.len().to_string()),
    ];
    let shortest = ring.strand_lengths_m.iter().copied().reduce(f64::min);
    let longest = ring.strand_lengths_m.iter().copied().reduce(f64::max);
    if let (Some(shortest), Some(longest)) = (shortest, longest) {
        rows.push(row(Label::ShortestStrand, rows::length(shortest, units)));
        rows.push(row(Label::LongestStrand, rows::length(longest, units)));
    }
    Some(ReportSection {
        id: "ring".into(),
        title: words::title(&SectionTitle::Ring),
        subject: Some(Subject::Ring),
        rows,
        caution: cautions::STRANDS.into(),
    })
}
