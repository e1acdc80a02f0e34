//! The verdict in one line, and what is missing.

use crate::verdict::Verdict;

pub(crate) const NOT_KNOWN: &str = "Not known yet";

pub(crate) fn long(verdict: Option<&Verdict>) -> String {
    match verdict {
        Some(Verdict::Stop { stops, missing, unchecked }) => {
            let not_known = missing.len() + *unchecked as usize;
            let findings = if *stops == 1 { "1 finding says" } else { &format!("{stops} findings say") };
            let more =
                if not_known > 0 { format!(" {not_known} more not known yet.") } else { String::new() };
            format!("STOP: {findings} not to build it like this.{more}")
        }
        Some(Verdict::NotKnown { missing, unchecked }) => {
            let entries = match missing.len() {
                0 => None,
                1 => Some("1 entry is missing for what wind it takes".to_owned()),
                n => Some(format!("{n} entries are missing for what wind it takes")),
            };
            let checks = match unchecked {
                0 => None,
                1 => Some("1 check that nobody has made".to_owned()),
                n => Some(format!("{n} checks that nobody has made")),
            };
            let what: Vec<String> = entries.into_iter().chain(checks).collect();
            format!("{NOT_KNOWN}: {}.", what.join(", and "))
        }
        Some(Verdict::Look { cautions: 0 }) => {
            "Nothing here says stop. Look it over: a plan can't see what was not measured.".into()
        }
        Some(Verdict::Look { cautions }) => {
            let cautions = if *cautions == 1 { "1 caution" } else { &format!("{cautions} cautions") };
            format!("Nothing here says stop. Look at {cautions}, and at what no rule covers.")
        }
        None => format!("{NOT_KNOWN}."),
    }
}

/// What an entry that is missing serves; the reason is a sentence.
pub(crate) fn without_it(reason: &str, parts: &str) -> String {
    format!("{reason} Without it nothing shows that these hold: {parts}.")
}
