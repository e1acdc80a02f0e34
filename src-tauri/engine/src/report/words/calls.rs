//! Whom to call or ask first.

use crate::calls::{CallKind, CallState};

/// Beside the list, whatever stands in it.
pub(crate) const CAUTION: &str = "Nothing is driven into the ground before every utility has answered and its lines are marked. Holidays \
are not counted here, and local rules go before these days: the locate service and the building office say theirs.";

pub(crate) const UNDATED: &str = "Say when the digging begins: then each call has its last day.";

pub(crate) fn title(what: &CallKind, line: &str) -> String {
    match what {
        CallKind::BuildingOffice { .. } => "Ask the building office".to_owned(),
        CallKind::PrivateLines => "Ask whoever laid private lines".to_owned(),
        CallKind::LineOwner { .. } => format!("Ask the owner of {line}"),
        CallKind::LookUp => "Look up for wires".to_owned(),
        CallKind::Neighbours => "Ask your neighbours".to_owned(),
        CallKind::LocateService { .. } => "Call the locate service".to_owned(),
        CallKind::LocateServiceAgain { .. } => "Call the locate service again".to_owned(),
        CallKind::Forecast => "Look at the forecast".to_owned(),
    }
}

/// `height` is the mast's, `until` the last day of the answer that there is.
pub(crate) fn says(what: &CallKind, height: &str, until: &str) -> String {
    match what {
        CallKind::BuildingOffice { .. } => {
            format!(
                "Whether a mast {height} high may stand there for a while, and what it asks of guys and lights."
            )
        }
        CallKind::PrivateLines => {
            "To a shed, a pool, a lamp, a septic tank, a sprinkler: no locate service marks them.".to_owned()
        }
        CallKind::LineOwner { .. } => {
            "Which voltage it carries, and whether it can be switched off while the mast goes up.".to_owned()
        }
        CallKind::LookUp => {
            "Walk round the place as far as the mast could fall, and say in Measure what hangs there."
                .to_owned()
        }
        CallKind::Neighbours => "The mast could fall over the boundary. Ask before it stands.".to_owned(),
        CallKind::LocateService { whole_working_days, notice_stated } => {
            notice(*whole_working_days, *notice_stated)
        }
        CallKind::LocateServiceAgain { whole_working_days, notice_stated, .. } => {
            format!("Its answer holds until {until} only. {}", notice(*whole_working_days, *notice_stated))
        }
        CallKind::Forecast => {
            "Gusts on the days of the work: put it off where they come near what it can take.".to_owned()
        }
    }
}

fn notice(whole_working_days: u8, stated: bool) -> String {
    let days = if whole_working_days == 1 { "whole working day" } else { "whole working days" };
    let taken = if stated { "" } else { " Nobody has asked it yet how many it wants: places differ." };
    format!(
        "{whole_working_days} {days} between the call and the digging; neither the day of the call nor that of the digging \
         counts.{taken}"
    )
}

pub(crate) fn state(state: CallState) -> &'static str {
    match state {
        CallState::Open => "to do",
        CallState::Late => "late: put the digging off",
        CallState::Made => "made",
        CallState::Answered => "answered",
    }
}
