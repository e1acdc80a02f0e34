//! Which rig: the masts that can be built for a height.

use crate::quantity::Units;
use crate::report::format;
use crate::rigs::{NoRig, RigChoice, RigMerit, RigOffer};

pub const CAUTION: &str = "A proposal to begin from, and no licence to build it. Tubes are heavy and long: keep them away from \
                           power lines, lift with enough people, and follow local codes and licensed advice.";

pub fn headline(choice: &RigChoice, units: Units) -> String {
    match (choice.none_because, choice.offers.len()) {
        (Some(NoRig::TooHigh { highest_m }), _) if highest_m > 0.0 => format!(
            "No tubes of that length that slide in each other make a mast so high and stiff enough. With the longest pieces they \
             reach {} at most: take longer pieces, other tables, or a lower height.",
            format::length(highest_m, units)
        ),
        (Some(NoRig::TooHigh { .. }), _) => {
            "In these tables no tubes slide in each other with fitting play: take others, or tubes by calliper.".into()
        }
        (Some(NoRig::StrandTooShort { strand_length_m }), _) => format!(
            "A strand of {} is shorter than it hangs high: take longer strands or a lower height.",
            format::length(strand_length_m, units)
        ),
        (None, 1) => format!("{} One mast is before the others in everything.", sets(choice.sets_found)),
        (None, count) => format!("{} {count} of them, each before the others in something.", sets(choice.sets_found)),
    }
}

fn sets(found: u32) -> String {
    match found {
        1 => "One set of tubes reaches that height and slides in itself.".into(),
        found => format!("{found} sets of tubes reach that height and slide in each other."),
    }
}

pub fn merits(merits: &[RigMerit]) -> String {
    let words: Vec<&str> = merits
        .iter()
        .map(|merit| match merit {
            RigMerit::Lightest => "lightest",
            RigMerit::Stiffest => "stiffest",
            RigMerit::ShortestPieces => "shortest pieces",
        })
        .collect();
    let mut text = words.join(", ");
    if let Some(first) = text.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    text
}

pub fn listed(parts: &[String]) -> String {
    parts.join(" + ")
}

pub fn tube(size: &str, length: &str, overlap_m: f64, units: Units) -> String {
    if overlap_m > 0.0 {
        format!("{size}, {length} ({} inside)", format::length(overlap_m, units))
    } else {
        format!("{size}, {length}")
    }
}

pub fn slenderness(value: f64) -> String {
    format!("{} of at most {}", value.ceil(), crate::rigs::MOST_SLENDER)
}

/// By the prices entered, in whatever money; sizes without one are named.
pub fn cost(offer: &RigOffer) -> String {
    if let Some(cost) = offer.tubes_cost {
        return format!("{cost:.2} in whole lengths, by the prices entered");
    }
    let sizes: Vec<String> =
        offer.no_price.iter().map(|size| super::tube_size(size.table, &size.size)).collect();
    format!("Not known yet: no price of {} is entered under Cut list", sizes.join(", "))
}

/// Rounded down, and held against the gust asked for; without it what is not known.
pub fn gust(offer: &RigOffer, asked_m_per_s: f64, units: Units) -> String {
    let Some(gust_m_per_s) = offer.gust_m_per_s else {
        return if offer.not_laid_out {
            "Not known yet: it could not be laid out in this yard".into()
        } else {
            "Not known yet".into()
        };
    };
    let said = format::speed_rounded_down(gust_m_per_s, units);
    let asked = format::speed(asked_m_per_s, units);
    if gust_m_per_s >= asked_m_per_s {
        format!("{said}, more than the {asked} asked for")
    } else {
        format!("{said}, less than the {asked} asked for")
    }
}
