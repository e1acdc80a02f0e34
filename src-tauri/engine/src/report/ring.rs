//! The ring of the strands.

use super::rows::{self, row};
use super::{Label, ReportSection, Source};
use crate::finding::Subject;

const CAUTION: &str = "Strands carry wind: let them down with the mast. Plug lights into an outlet with a \
ground-fault (residual-current) device, joints off the ground, and keep them clear of every power line.";

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
        title: "Ring and strands".into(),
        subject: Some(Subject::Ring),
        rows,
        caution: CAUTION.into(),
    })
}
