//! A job handed over by light alone: its document deflated and cut into pictures that the camera of another device reads, in any
//! order.
//!
//! A picture is a QR code (ISO/IEC 18004) of the letters `MW1/3/12/WHOLE/CHECK/PART`: the third of twelve; WHOLE are twelve digits of
//! the SHA-256 of all parts together, by which the pictures of one job know each other and what came of them is checked; CHECK are six
//! of the SHA-256 of all that stands before and after it, so that a picture that was misread is told and read again; PART is the part in base 45
//! (RFC 9285), whose letters a QR code packs best. Nothing but a camera and a screen is needed, and nothing is trusted: what comes together is
//! opened as any file is.

mod base45;
mod found;

use std::collections::BTreeMap;
use std::io::Read as _;

use fast_qr::{ECL, QRBuilder};
use flate2::Compression;
use flate2::bufread::{DeflateDecoder, DeflateEncoder};
use mastwright_engine::job::MOST_FILE_BYTES;
use mastwright_engine::quantity::{FieldError, FieldErrors};
use serde::{Deserialize, Serialize};

use crate::archive::sha256;
pub use found::{FindCodesRequest, FoundCodes, find_codes};

const KIND: &str = "MW1";
/// A part of 200 bytes makes some 332 letters: within the 366 of a code of version 11 with level M (ISO/IEC 18004:2015, table 7), 61 by 61
/// modules. Larger ones, which a browser's own reader takes, `rqrr` mostly misses as soon as they are not held upright. The
/// largest code there is, version 40 with level L, holds 4296 letters.
const PART_BYTES: usize = 200;
/// As many as somebody holds a camera still for: three minutes at two a second.
const MOST_PARTS: usize = 360;
/// Bytes of the largest code, version 40 with level L (the same table).
const LARGEST_CODE_BYTES: usize = 2953;
const WHOLE_DIGITS: usize = 12;
const CHECK_DIGITS: usize = 6;
/// A device that shows one job is read from, not a library of them.
const MOST_TEXTS: usize = 4 * MOST_PARTS;

/// A request for the pictures of a job's document.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct CodesRequest {
    pub document: String,
}

/// What stands in each picture.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CodesAnswer {
    pub texts: Vec<String>,
    /// How long the document is, deflated.
    pub packed_bytes: usize,
}

/// A request for a text as a QR code.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct CodePictureRequest {
    pub text: String,
}

/// A QR code with the light rim that belongs to it, to be drawn dark on light.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CodePicture {
    /// Modules along a side, rim included.
    pub side: usize,
    /// The dark modules as the path of an SVG picture of so many units along a side.
    pub path: String,
}

/// All that a camera has read so far.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct ReadCodesRequest {
    pub texts: Vec<String>,
}

/// What of a job is there.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct ReadCodesAnswer {
    /// How many pictures the job has; 0 while none of it was read.
    pub of: usize,
    /// Those that were not read yet, counted from 1.
    pub missing: Vec<usize>,
    /// Pictures of a job that were misread, and have to be read again.
    pub damaged: usize,
    /// Texts that are of another job, or of no job at all.
    pub strange: usize,
    /// The job's document once all of it is there.
    pub document: Option<String>,
}

/// One picture's text, taken apart.
struct Part<'a> {
    number: usize,
    of: usize,
    whole: &'a str,
    bytes: Vec<u8>,
}

/// The texts of a document's pictures.
///
/// # Errors
/// A document that nobody would hold a camera still for.
pub fn job_codes(request: &CodesRequest) -> Result<CodesAnswer, FieldErrors> {
    let document = request.document.as_bytes();
    let mut packed = Vec::new();
    DeflateEncoder::new(document, Compression::best())
        .read_to_end(&mut packed)
        .map_err(|slip| FieldError::new("/document", slip.to_string(), "a document"))?;
    let parts: Vec<&[u8]> = packed.chunks(PART_BYTES).collect();
    if parts.len() > MOST_PARTS {
        let given = format!("a job that takes {} codes", parts.len());
        let allowed = format!("at most {MOST_PARTS}: send it as a file");
        return Err(FieldError::new("/document", given, allowed).into());
    }
    let whole = digits(&packed, WHOLE_DIGITS);
    let text = |(at, part): (usize, &&[u8])| text_of(at + 1, parts.len(), &whole, part);
    Ok(CodesAnswer { texts: parts.iter().enumerate().map(text).collect(), packed_bytes: packed.len() })
}

/// A text as a picture.
///
/// # Errors
/// A text that is too long for any.
pub fn code_picture(request: &CodePictureRequest) -> Result<CodePicture, FieldErrors> {
    let text = &request.text;
    let code = QRBuilder::new(text.as_str()).ecl(level(text)).build().map_err(|_| {
        let given = format!("{} letters", text.chars().count());
        FieldError::new("/text", given, format!("at most {LARGEST_CODE_BYTES} in one code"))
    })?;
    let dark = |x: usize, y: usize| x < code.size && code[y][x].value();
    let mut path = String::new();
    for y in 0..code.size {
        let mut x = 0;
        while x < code.size {
            let run = (x..code.size).take_while(|&x| dark(x, y)).count();
            if run > 0 {
                path.push_str(&format!("M{} {}h{run}v1h-{run}z", x + RIM, y + RIM));
            }
            x += run.max(1);
        }
    }
    Ok(CodePicture { side: code.size + 2 * RIM, path })
}

/// Light modules on each side (ISO/IEC 18004:2015, 6.3.8).
const RIM: usize = 4;

/// Level M bears that a seventh of a code is not seen; a long link takes the one that leaves it most room.
fn level(text: &str) -> ECL {
    const LETTERS_AT_M: usize = 1000;
    if text.len() > LETTERS_AT_M { ECL::L } else { ECL::M }
}

/// What the texts that a camera has read come to. The job is that of the last of them.
///
/// # Errors
/// More texts than any job has, and parts that are all there and no document.
pub fn read_codes(request: &ReadCodesRequest) -> Result<ReadCodesAnswer, FieldErrors> {
    if request.texts.len() > MOST_TEXTS {
        let given = format!("{} codes", request.texts.len());
        return Err(FieldError::new("/texts", given, format!("at most {MOST_TEXTS}")).into());
    }
    let mut answer = ReadCodesAnswer::default();
    let mut parts = Vec::new();
    for text in &request.texts {
        match part_of(text) {
            Ok(part) => parts.push(part),
            Err(Slip::Damaged) => answer.damaged += 1,
            Err(Slip::Strange) => answer.strange += 1,
        }
    }
    let Some((whole, of)) = parts.last().map(|part| (part.whole, part.of)) else { return Ok(answer) };
    let mut found: BTreeMap<usize, Vec<u8>> = BTreeMap::new();
    for part in parts {
        if part.whole == whole && part.of == of {
            found.insert(part.number, part.bytes);
        } else {
            answer.strange += 1;
        }
    }
    answer.of = of;
    answer.missing = (1..=of).filter(|number| !found.contains_key(number)).collect();
    if answer.missing.is_empty() {
        answer.document = Some(document_of(&found.into_values().collect::<Vec<_>>().concat(), whole)?);
    }
    Ok(answer)
}

fn document_of(packed: &[u8], whole: &str) -> Result<String, FieldError> {
    let wrong =
        |given: &str| FieldError::new("/texts", given, "the codes of one job as Mastwright shows them");
    if digits(packed, WHOLE_DIGITS) != whole {
        return Err(wrong("codes that do not belong together"));
    }
    let mut text = Vec::new();
    // No more than any job has: a code can be made that swells without end.
    let read = DeflateDecoder::new(packed).take(MOST_FILE_BYTES as u64 + 1).read_to_end(&mut text);
    if read.is_err() {
        return Err(wrong("codes that can\u{2019}t be unpacked"));
    }
    if text.len() > MOST_FILE_BYTES {
        return Err(wrong("codes of something larger than any job"));
    }
    String::from_utf8(text).map_err(|_| wrong("codes of something that is no text"))
}

/// Why a text is no part of a job.
enum Slip {
    /// It is one, but not as it was shown.
    Damaged,
    Strange,
}

fn text_of(number: usize, of: usize, whole: &str, part: &[u8]) -> String {
    let (head, part) = (format!("{KIND}/{number}/{of}/{whole}"), base45::encoded(part));
    let check = check_of(&head, &part);
    format!("{head}/{check}/{part}")
}

fn part_of(text: &str) -> Result<Part<'_>, Slip> {
    let rest = text.strip_prefix(KIND).and_then(|rest| rest.strip_prefix('/')).ok_or(Slip::Strange)?;
    // The letters of base 45 have a stroke among them: the part is all that is left.
    let mut fields = rest.splitn(5, '/');
    let mut next = || fields.next().ok_or(Slip::Damaged);
    let (number, of, whole, check, part) = (next()?, next()?, next()?, next()?, next()?);
    if check_of(&format!("{KIND}/{number}/{of}/{whole}"), part) != check {
        return Err(Slip::Damaged);
    }
    let count = |text: &str| text.parse::<usize>().ok().filter(|count| (1..=MOST_PARTS).contains(count));
    let (number, of) = count(number).zip(count(of)).ok_or(Slip::Damaged)?;
    let bytes = base45::decoded(part).ok_or(Slip::Damaged)?;
    if number > of || whole.len() != WHOLE_DIGITS || bytes.is_empty() || bytes.len() > PART_BYTES {
        return Err(Slip::Damaged);
    }
    Ok(Part { number, of, whole, bytes })
}

fn check_of(head: &str, part: &str) -> String {
    digits(format!("{head}/{part}").as_bytes(), CHECK_DIGITS)
}

/// The first digits of the SHA-256, as capital letters: they stand in a code's table of letters, small ones do not.
fn digits(bytes: &[u8], count: usize) -> String {
    sha256(bytes).chars().take(count).collect::<String>().to_uppercase()
}

#[cfg(test)]
mod tests;
