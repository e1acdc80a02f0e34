//! People and minutes of the user's own rehearsal.

use super::Making;
use crate::cards::card::{CardMissing, CardNumber, CardValue, NumberOf};
use crate::job::RehearsedTime;

/// How long it took, and with how many; not known where nobody has entered it.
pub(super) fn numbers(time: &RehearsedTime) -> [CardNumber; 2] {
    let minutes = time.minutes.map(|value| CardValue::Minutes { value });
    let people = time.people.map(|value| CardValue::Count { value: u32::from(value) });
    [
        CardNumber::or(NumberOf::RehearsedMinutes, minutes, CardMissing::Rehearsal),
        CardNumber::or(NumberOf::RehearsedPeople, people, CardMissing::Rehearsal),
    ]
}

/// Minutes that are missing before the gust comes; none where it can be done in time, or where that is not known.
pub(super) fn too_long(making: &Making, time: &RehearsedTime) -> Option<[f64; 2]> {
    let (takes, left) = (time.minutes?, making.job.cards.forecast_in_minutes?);
    (takes > left).then_some([takes, left])
}
