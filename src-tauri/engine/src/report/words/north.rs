//! North, the compass and the phone's zero error.

use crate::finding::north::{NorthRemedy, NorthRule, SteelShows};
use crate::plan::BearingHow;
use crate::survey::NorthFrom;

pub(super) fn sentence(rule: &NorthRule) -> String {
    let words = match rule {
        NorthRule::CompassWeak => "So near a magnetic pole a compass is weak and the declination uncertain.",
        NorthRule::CompassUseless => "Here, beside a magnetic pole, no compass bearing can be relied on.",
        NorthRule::DeclinationOutOfDate => {
            "The survey's date lies outside the years 2025 to 2030 that the magnetic model holds for, so true north is \
             less sure."
        }
        NorthRule::TrueNorthUnknown { no_place, no_date } => {
            let missing = match (no_place, no_date) {
                (true, true) => "the yard's place and the survey's date are",
                (true, false) => "the yard's place is",
                _ => "the survey's date is",
            };
            return format!(
                "Bearings were read from a compass, but {missing} missing, so true north is unknown: the plan is in \
                 magnetic north."
            );
        }
        NorthRule::BearingWithoutReference => "The compass alone does not give this bearing.",
        NorthRule::SteelNearby { shows: SteelShows::AtOneEnd } => {
            "The bearings read from the two ends of this line do not fit each other: something of steel pulls the \
             compass at one of them."
        }
        NorthRule::SteelNearby { shows: SteelShows::ByStrength } => {
            "The magnetic field here is not as strong as the Earth's should be: steel or a magnet is near the phone."
        }
        NorthRule::SteelNearby { shows: SteelShows::BySpread } => {
            "Repeated readings of this bearing do not agree with each other."
        }
        NorthRule::ZeroUnknown => {
            "The zero error of this phone on this side is not known yet, so one reading alone is rough."
        }
        NorthRule::ZeroOld => {
            "The zero error of this phone was found more than a month ago; heat, a fall or another case change it."
        }
        NorthRule::ZeroLarge => "The two readings differ by more than a phone's own error explains.",
        NorthRule::ZeroDrifted => {
            "The zero error of this phone has changed by more than its uncertainty since it was last found."
        }
    };
    words.to_owned()
}

/// From what the yard's correction to true north came.
pub fn north_from(from: &NorthFrom) -> String {
    match from {
        NorthFrom::True => "Bearings are given from true north.".into(),
        NorthFrom::Baseline { from, to, bearing_deg } => {
            format!("Bearings are read from the line {from} to {to}, taken to run at {bearing_deg}°.")
        }
        NorthFrom::DeclinationGiven { declination_deg } => {
            format!("Magnetic bearings, with a declination of {} as given.", east_west(*declination_deg))
        }
        NorthFrom::DeclinationByModel { declination_deg, on } => format!(
            "Magnetic bearings, with a declination of {} by the World Magnetic Model 2025 for the yard's place on {on}.",
            east_west(*declination_deg)
        ),
        NorthFrom::Unknown => "Magnetic bearings as read: true north is unknown.".into(),
    }
}

fn east_west(declination_deg: f64) -> String {
    let side = if declination_deg < 0.0 { "west" } else { "east" };
    format!("{:.1}° {side}", declination_deg.abs())
}

/// How a bearing of the compass got into the yard's reference, or what is missing.
pub fn bearing_how(how: &BearingHow) -> String {
    match how {
        BearingHow::FromLine { from, to } => format!("Turned from the known line {from} to {to}."),
        BearingHow::AsTheCompassHasIt => "As the compass has it.".into(),
        BearingHow::TurnedToTrue => "From the compass, turned to true north for this place and date.".into(),
        BearingHow::Missing(first) => remedy(first),
    }
}

pub(super) fn remedy(remedy: &NorthRemedy) -> String {
    let words = match remedy {
        NorthRemedy::UseABaseline => "Survey from a baseline, such as a house wall, instead of the compass.",
        NorthRemedy::CheckTheDate => {
            "Check the survey's date, or give the declination from a chart of that year."
        }
        NorthRemedy::EnterPlaceAndDate => {
            "Enter the place and the date of the survey, or the declination if you know it."
        }
        NorthRemedy::EnterPlaceAndDateFirst => {
            "This yard's bearings count from true north. Enter its place and the date of the survey first."
        }
        NorthRemedy::SightAlong { from, to } => {
            return format!(
                "This yard's bearings count from the line {from} to {to}. Sight along that line too, from the same spot."
            );
        }
        NorthRemedy::StandAwayFromSteel => {
            "Stand away from cars, fences, the tubes, rebar and the belt buckle, and read both again; or sight on a \
             known line instead of the compass."
        }
        NorthRemedy::MoveAwayAndReadAgain => {
            "Take off a magnetic case, move some metres away from steel, turn the phone in a figure of eight, and read \
             again."
        }
        NorthRemedy::SetTheCompass => {
            "Turn the phone in a figure of eight to set its compass, stand away from steel, and read again."
        }
        NorthRemedy::MeasureTurnedAround => {
            "Measure once more with the phone turned end for end: that takes the error out and remembers it."
        }
        NorthRemedy::TurnEndForEnd => "Measure once more with the phone turned end for end.",
        NorthRemedy::DoBothAgain => {
            "Do both again: the same spot, the same side down, the top pointing the other way the second time."
        }
        NorthRemedy::DoThePairOnceMore => {
            "Do the pair once more; if it stays so, read the slopes taken since then again."
        }
    };
    words.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_declination_has_its_side_and_its_date() {
        let by_model = |declination_deg| {
            north_from(&NorthFrom::DeclinationByModel { declination_deg, on: "2026-07-04".into() })
        };
        assert!(by_model(12.8234).contains("12.8° east") && by_model(-12.77).contains("12.8° west"));
        assert!(by_model(12.8).ends_with("on 2026-07-04."));
    }
}
