//! Days to remember, for a calendar.

use chrono::{DateTime, Days, NaiveDate, Utc};

/// Something to do on a day.
#[derive(Debug, Clone, PartialEq)]
pub struct CalendarDay {
    /// The same for the same thing to do, so that a calendar taken in again moves it and does not double it.
    pub uid: String,
    pub day: NaiveDate,
    pub title: String,
    pub text: String,
}

/// What a calendar is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CalendarOf {
    Calls,
    Season,
}

impl CalendarOf {
    fn product(self) -> &'static str {
        match self {
            Self::Calls => "Calls to make first",
            Self::Season => "Rounds of the season",
        }
    }
}

/// A calendar of whole days, each with a reminder at nine in the morning of the day before.
///
/// # References
/// RFC 5545: 3.4 and 3.6 (calendar), 3.6.1 (event: UID and DTSTAMP are required; a whole day has VALUE=DATE and ends on the
/// day after), 3.6.6 (alarm by display), 3.3.6 (duration), 3.3.5 (UTC by a Z).
pub fn calendar(of: CalendarOf, name: &str, days: &[CalendarDay], made_at: DateTime<Utc>) -> String {
    let mut lines = Lines::default();
    lines.add("BEGIN:VCALENDAR");
    lines.add("VERSION:2.0");
    lines.add(&format!("PRODID:-//Mastwright//{}//EN", of.product()));
    // What most calendars show for a calendar's name; RFC 5545, 3.8.8.2 lets such lines be.
    lines.text("X-WR-CALNAME", name);
    let stamp = made_at.format("%Y%m%dT%H%M%SZ");
    for it in days {
        lines.add("BEGIN:VEVENT");
        lines.text("UID", &it.uid);
        lines.add(&format!("DTSTAMP:{stamp}"));
        lines.add(&format!("DTSTART;VALUE=DATE:{}", it.day.format("%Y%m%d")));
        if let Some(after) = it.day.checked_add_days(Days::new(1)) {
            lines.add(&format!("DTEND;VALUE=DATE:{}", after.format("%Y%m%d")));
        }
        lines.text("SUMMARY", &it.title);
        lines.text("DESCRIPTION", &it.text);
        lines.add("BEGIN:VALARM");
        lines.add("ACTION:DISPLAY");
        lines.text("DESCRIPTION", &it.title);
        lines.add("TRIGGER:-PT15H");
        lines.add("END:VALARM");
        lines.add("END:VEVENT");
    }
    lines.add("END:VCALENDAR");
    lines.written
}

/// Octets of a line without its end. RFC 5545, 3.1.
const MOST_OCTETS: usize = 75;

#[derive(Default)]
struct Lines {
    written: String,
}

impl Lines {
    /// A line, folded where it is too long: what goes on begins with a space. No letter is cut. RFC 5545, 3.1.
    fn add(&mut self, line: &str) {
        let mut octets = 0;
        for letter in line.chars() {
            if octets + letter.len_utf8() > MOST_OCTETS {
                self.written.push_str("\r\n ");
                octets = 1;
            }
            self.written.push(letter);
            octets += letter.len_utf8();
        }
        self.written.push_str("\r\n");
    }

    /// A text with its signs escaped; control signs, which no calendar may hold, are left out. RFC 5545, 3.3.11.
    fn text(&mut self, name: &str, text: &str) {
        let mut line = format!("{name}:");
        for letter in text.chars() {
            match letter {
                '\\' | ';' | ',' => line.extend(['\\', letter]),
                '\n' => line.push_str("\\n"),
                letter if letter.is_control() => {}
                letter => line.push(letter),
            }
        }
        self.add(&line);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 5545, 3.1: a line of 75 octets stands, one of 76 is folded before the octet that is too much, and a letter of
    /// two octets is not cut.
    #[test]
    fn lines_are_folded_at_75_octets() {
        let folded = |line: String| {
            let mut lines = Lines::default();
            lines.add(&line);
            lines.written
        };
        assert_eq!(folded("x".repeat(75)), format!("{}\r\n", "x".repeat(75)));
        assert_eq!(folded("x".repeat(76)), format!("{}\r\n x\r\n", "x".repeat(75)));
        assert_eq!(folded(format!("{}é", "x".repeat(74))), format!("{}\r\n é\r\n", "x".repeat(74)));
        // What goes on has room for 74 more behind its space.
        let long = folded("x".repeat(75 + 74 + 1));
        assert_eq!(long, format!("{}\r\n {}\r\n x\r\n", "x".repeat(75), "x".repeat(74)));
    }

    /// RFC 5545, 3.3.11: stroke, semicolon, comma and line break are escaped; a colon is not.
    #[test]
    fn texts_are_escaped() {
        let mut lines = Lines::default();
        lines.text("SUMMARY", "a, b; c\\d: e\nf\r\u{7}");
        assert_eq!(lines.written, "SUMMARY:a\\, b\\; c\\\\d: e\\nf\r\n");
    }
}
