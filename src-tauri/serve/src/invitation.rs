//! What pairs a device: a code drawn by the system, good for one device and ten minutes, that somebody carries over by
//! scanning a picture or by typing.

use std::time::{Duration, Instant};

use fast_qr::QRBuilder;
use fast_qr::convert::{Builder as _, Shape, svg::SvgBuilder};

use crate::devices::drawn;

const GOOD_FOR: Duration = Duration::from_secs(600);
/// Of 2^40 codes somebody who guesses hits one in 10^11 by so many tries; then a new code is drawn.
const TRIES: u32 = 5;
const CODE_BYTES: usize = 5;

/// What became of a code that was given.
#[derive(Debug, PartialEq, Eq)]
pub struct Taken {
    pub right: bool,
    /// Whoever waits for a code has to be shown another one.
    pub renewed: bool,
}

#[derive(Debug)]
pub struct Invitation {
    code: String,
    drawn_at: Instant,
    wrong: u32,
}

impl Invitation {
    /// # Errors
    /// Where the system gives no random numbers.
    pub fn new(now: Instant) -> Result<Self, String> {
        Ok(Self { code: drawn(CODE_BYTES)?, drawn_at: now, wrong: 0 })
    }

    /// The code as it stands; a new one in place of one that has run out.
    ///
    /// # Errors
    /// As of `new`.
    pub fn code(&mut self, now: Instant) -> Result<&str, String> {
        if now.duration_since(self.drawn_at) > GOOD_FOR {
            *self = Self::new(now)?;
        }
        Ok(&self.code)
    }

    /// How long the code as it stands is good for.
    pub fn left(&self, now: Instant) -> Duration {
        GOOD_FOR.saturating_sub(now.duration_since(self.drawn_at))
    }

    /// Whether it is the code, and whether there is a new one since: right, often wrong or too old, it is used up.
    ///
    /// # Errors
    /// As of `new`.
    pub fn take(&mut self, given: &str, now: Instant) -> Result<Taken, String> {
        let known = self.code.clone();
        let given: String = given.chars().filter(char::is_ascii_hexdigit).collect::<String>().to_lowercase();
        let right = self.code(now)? == given;
        self.wrong += u32::from(!right);
        if right || self.wrong >= TRIES {
            *self = Self::new(now)?;
        }
        Ok(Taken { right, renewed: self.code != known })
    }
}

/// A code as people read it aloud: `ab12-cd34-ef`.
pub fn spelt(code: &str) -> String {
    let groups: Vec<&str> =
        code.as_bytes().chunks(4).filter_map(|group| str::from_utf8(group).ok()).collect();
    groups.join("-")
}

/// Where a device pairs itself; the code stands behind `#`, which browsers keep to themselves.
pub fn address(origin: &str, code: &str) -> String {
    format!("{origin}/pair#{code}")
}

/// The address as a QR code (ISO/IEC 18004) of half blocks for a terminal, dark on light whatever the terminal's colours, with
/// the light rim of four modules that the standard wants.
///
/// # Errors
/// Where the address is too long for one.
pub fn for_terminal(address: &str) -> Result<String, String> {
    let code = QRBuilder::new(address).build().map_err(|error| error.to_string())?;
    let drawn = code.to_str();
    let width = drawn.lines().map(|line| line.chars().count()).max().unwrap_or(0) + 6;
    let rim = "█".repeat(width);
    // The picture has one module of rim itself; its first line begins with half a line of it.
    let lines = drawn.lines().skip(1).map(|line| format!("███{line}███"));
    let all = [rim.clone(), rim.clone()].into_iter().chain(lines).chain([rim.clone(), rim]);
    Ok(all.map(|line| format!("\u{1b}[97;40m{line}\u{1b}[0m\n")).collect())
}

/// The same as a picture for the screen.
///
/// # Errors
/// As of `for_terminal`.
pub fn as_svg(address: &str) -> Result<String, String> {
    let code = QRBuilder::new(address).build().map_err(|error| error.to_string())?;
    Ok(SvgBuilder::default().shape(Shape::Square).margin(4).to_str(&code))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_pairs_once_within_its_time() {
        let start = Instant::now();
        let mut invitation = Invitation::new(start).unwrap();
        let code = invitation.code(start).unwrap().to_owned();
        assert_eq!(code.len(), 10);
        assert_eq!(invitation.left(start + Duration::from_secs(60)), Duration::from_secs(540));
        assert_eq!(invitation.left(start + GOOD_FOR * 2), Duration::ZERO);
        assert_eq!(invitation.take("0", start), Ok(Taken { right: false, renewed: false }));
        assert_eq!(
            invitation.take(&spelt(&code).to_uppercase(), start),
            Ok(Taken { right: true, renewed: true })
        );
        assert_eq!(
            invitation.take(&code, start),
            Ok(Taken { right: false, renewed: false }),
            "it is used up"
        );
        let next = invitation.code(start).unwrap().to_owned();
        assert_eq!(
            invitation.take(&next, start + GOOD_FOR + Duration::from_secs(1)),
            Ok(Taken { right: false, renewed: true }),
            "it has run out, and there is another"
        );
    }

    #[test]
    fn who_guesses_finds_another_code_after_five_tries() {
        let start = Instant::now();
        let mut invitation = Invitation::new(start).unwrap();
        let code = invitation.code(start).unwrap().to_owned();
        for again in 1..=TRIES {
            let taken = Taken { right: false, renewed: again == TRIES };
            assert_eq!(invitation.take("0000000000", start), Ok(taken));
        }
        assert_ne!(invitation.code(start).unwrap(), code);
    }
}
