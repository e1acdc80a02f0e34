//! Working days: Monday to Friday. Holidays are not known here.

use chrono::{Datelike, Days, NaiveDate, Weekday};

fn is_working_day(day: NaiveDate) -> bool {
    !matches!(day.weekday(), Weekday::Sat | Weekday::Sun)
}

/// The working day before this day.
pub fn working_day_before(day: NaiveDate) -> Option<NaiveDate> {
    // A week has working days.
    (1..=7).filter_map(|back| day.checked_sub_days(Days::new(back))).find(|day| is_working_day(*day))
}

/// The last day to give notice so that this many whole working days lie between it and the day of the digging; neither of
/// the two counts. None before the calendar's beginning.
///
/// Source: South Carolina 811, "Three full working day notice calendar": called in on Monday, dug on Friday;
/// Illinois (JULIE): two days, to dig at the weekend call no later than Wednesday (`one-call-notice`).
pub fn last_call_before(digging: NaiveDate, whole_working_days: u8) -> Option<NaiveDate> {
    (0..=whole_working_days).try_fold(digging, |day, _| working_day_before(day))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn on(year: i32, month: u32, day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(year, month, day).unwrap()
    }

    /// As South Carolina's calendar of three full working days has it: notice on Monday, digging on Friday; and what follows
    /// from the same rule over a weekend: notice on Thursday, digging on Wednesday.
    #[test]
    fn three_full_working_days_as_south_carolina_counts() {
        assert_eq!(last_call_before(on(2026, 12, 4), 3), Some(on(2026, 11, 30)));
        assert_eq!(last_call_before(on(2026, 12, 9), 3), Some(on(2026, 12, 3)));
    }

    /// As Illinois tells it: two days without that of the request and without weekends; who digs at the weekend asks on
    /// Wednesday.
    #[test]
    fn two_days_before_a_weekend_as_illinois_counts() {
        assert_eq!(last_call_before(on(2026, 12, 5), 2), Some(on(2026, 12, 2)));
        assert_eq!(last_call_before(on(2026, 12, 6), 2), Some(on(2026, 12, 2)));
    }

    /// Without any whole day between: the working day before.
    #[test]
    fn no_whole_day_is_the_working_day_before() {
        assert_eq!(last_call_before(on(2026, 12, 7), 0), Some(on(2026, 12, 4)));
    }
}
