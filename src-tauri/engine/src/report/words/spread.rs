//! What came of yards drawn by chance.

/// Behind the headline.
pub(crate) const STOPPED: &str = " It was stopped before its end.";

pub(crate) const TOUCHING: &str = "They touch as planned, so it was not followed further.";

pub(crate) const FAR_ENOUGH: &str = "Far enough in every yard drawn.";

pub(crate) fn guy_length(guy: &str) -> String {
    format!("{guy}: slack rope between its ends")
}

pub(crate) fn within(interval: &str, yards: &str) -> String {
    format!("Within the plan’s {interval} in {yards}.")
}

pub(crate) fn too_near(yards: &str) -> String {
    format!("Too near in {yards}.")
}

/// Distances that the list leaves out.
pub(crate) fn not_shown(count: usize) -> String {
    match count {
        0 => String::new(),
        1 => "One more distance has more to spare than these.".to_owned(),
        more => format!("{more} more distances have more to spare than these."),
    }
}
