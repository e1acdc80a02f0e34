//! Which rig, in words.

use serde::Serialize;

use super::rows::{count, length, mass, row, sourced};
use super::{Label, Row, format, words};
use crate::job::{AnchorLayout, Job, Section, Tube};
use crate::quantity::Units;
use crate::rigs::{RigChoice, RigOffer};
use crate::source::SourceKey;

/// The masts offered, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RigsReport {
    pub headline: String,
    pub caution: String,
    pub offers: Vec<RigOfferText>,
}

/// One of them.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RigOfferText {
    /// What it is before the others in.
    pub title: String,
    pub rows: Vec<Row>,
    /// What has to be entered before its gust limit is known, a line each; none where it is.
    pub missing: Vec<Row>,
}

/// Puts the offers into words.
pub fn rigs(job: &Job, choice: &RigChoice) -> RigsReport {
    let units = job.units;
    RigsReport {
        headline: words::rigs::headline(choice, units),
        caution: words::rigs::CAUTION.to_owned(),
        offers: choice.offers.iter().map(|offer| offer_text(job, offer)).collect(),
    }
}

fn offer_text(job: &Job, offer: &RigOffer) -> RigOfferText {
    let units = job.units;
    let tubes: Vec<String> = offer.rig.tubes.iter().map(|tube| tube_words(tube, units)).collect();
    let levels = &offer.rig.guy_levels;
    let heights: Vec<String> =
        levels.iter().map(|level| format::length(level.attach_height_m, units)).collect();
    let out_m = levels.iter().find_map(|level| match level.anchor_layout {
        AnchorLayout::EqualRadius { radius_m } => Some(radius_m),
        _ => None,
    });
    let mut rows = vec![
        row(Label::OfferTubes, words::rigs::listed(&tubes)),
        row(Label::OfferGuys, words::rigs::listed(&heights)),
    ];
    rows.extend(out_m.map(|out_m| row(Label::OfferAnchors, length(out_m, units))));
    rows.extend(offer.ring_radius_m.map(|radius_m| row(Label::OfferRing, length(radius_m, units))));
    let people = row(Label::OfferPeople, count(offer.people as usize));
    let slender = row(Label::OfferSlender, words::rigs::slenderness(offer.slenderness));
    rows.extend([
        row(Label::OfferLongest, length(offer.longest_piece_m, units)),
        row(Label::OfferMass, mass(offer.mass_kg, units)),
        sourced(people, SourceKey::Niosh94_110, SourceKey::Niosh94_110.source().confidence),
        sourced(slender, SourceKey::Aisc360E2, SourceKey::Aisc360E2.source().confidence),
        row(Label::OfferCost, words::rigs::cost(offer)),
        row(Label::OfferGust, words::rigs::gust(offer, job.wind.asked_gust_m_per_s, units)),
    ]);
    let missing = super::verdict::missing(&offer.missing, units.system).map(|section| section.rows);
    RigOfferText { title: words::rigs::merits(&offer.merits), rows, missing: missing.unwrap_or_default() }
}

fn tube_words(tube: &Tube, units: Units) -> String {
    let size = match &tube.section {
        Section::Listed { table, size } => words::tube_size(*table, size),
        // Only listed ones are offered.
        Section::Measured { outside_mm, .. } => format::length_small(*outside_mm, units),
    };
    words::rigs::tube(&size, &format::length(tube.length_m, units), tube.overlap_m, units)
}
