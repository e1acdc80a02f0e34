//! The bytes of a file as text: what is no UTF-8 text is named in words, never read as something else.

use crate::quantity::{FieldError, FieldErrors};

/// A larger file is no yard: 200,000 spot heights, the most that a job may have, take 25 MB.
pub const MOST_FILE_BYTES: usize = 32 << 20;

/// Text of a file that is read whole.
///
/// # Units
/// `whole_bytes` is the file's size, of which `bytes` may be the beginning: nobody has to load a file that is
/// refused for its size.
///
/// # Errors
/// Files too large, packed, or written in another encoding than UTF-8 (RFC 3629; a byte order mark is allowed), by
/// what they are and, for a byte that no UTF-8 text has, where it stands.
pub fn text_of_file(bytes: &[u8], whole_bytes: usize) -> Result<&str, FieldErrors> {
    if whole_bytes.max(bytes.len()) > MOST_FILE_BYTES {
        let megabytes = |bytes: usize| bytes.div_ceil(1 << 20);
        let given = format!("a file of {} MB", megabytes(whole_bytes.max(bytes.len())));
        return Err(FieldError::new("", given, format!("at most {} MB", megabytes(MOST_FILE_BYTES))).into());
    }
    if let Some((given, allowed)) = another_kind(bytes) {
        return Err(FieldError::new("", given, allowed).into());
    }
    std::str::from_utf8(bytes).map_err(|slip| not_utf8(bytes, slip.valid_up_to()))
}

const SAVE_AS_UTF8: &str = "text saved as UTF-8 (in the other program: Save as, encoding UTF-8)";
const UNPACKED: &str = "the file inside it: unpack it first";

/// Kinds of files that are told by how they begin. Sources: RFC 1952, 2.3.1 (gzip); PKWARE APPNOTE 4.3.7 (zip);
/// The Unicode Standard 15.0, table 2-4 (byte order marks); ISO 32000-1, 7.5.2 (PDF).
fn another_kind(bytes: &[u8]) -> Option<(&'static str, &'static str)> {
    match bytes {
        [0x1f, 0x8b, ..] => Some(("a gzip file (packed)", UNPACKED)),
        [b'P', b'K', 3, 4, ..] => Some(("a zip file (packed)", UNPACKED)),
        [b'%', b'P', b'D', b'F', ..] => Some(("a PDF document", "a text file")),
        [0xff, 0xfe, 0, 0, ..] | [0, 0, 0xfe, 0xff, ..] => Some(("text in UTF-32", SAVE_AS_UTF8)),
        [0xff, 0xfe, ..] | [0xfe, 0xff, ..] => Some(("text in UTF-16", SAVE_AS_UTF8)),
        // Without a mark: JSON begins with two characters below 128 (RFC 4627, 3), so every other byte is zero.
        [0, 1..=255, 0, 1..=255, ..] | [1..=255, 0, 1..=255, 0, ..] => Some(("text in UTF-16", SAVE_AS_UTF8)),
        _ => None,
    }
}

fn not_utf8(bytes: &[u8], at: usize) -> FieldErrors {
    let before = bytes.get(..at).unwrap_or_default();
    let line = 1 + before.iter().filter(|&&byte| byte == b'\n').count();
    let column = 1 + before.iter().rev().take_while(|&&byte| byte != b'\n').count();
    let byte = bytes.get(at).copied().unwrap_or_default();
    let given = format!("line {line}, column {column}: the byte 0x{byte:02X}, which no UTF-8 text has there");
    FieldError::new("", format!("{given} (perhaps Latin-1 or Windows-1252)"), SAVE_AS_UTF8).into()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn given(bytes: &[u8]) -> String {
        text_of_file(bytes, bytes.len()).expect_err("it is no text").errors[0].given.clone()
    }

    #[test]
    fn what_is_no_utf8_text_is_named() {
        let utf16: Vec<u8> = "{\"ä\"".encode_utf16().flat_map(u16::to_le_bytes).collect();
        let marked: Vec<u8> = [0xff, 0xfe].into_iter().chain(utf16.clone()).collect();
        let big: Vec<u8> = "{\"ä\"".encode_utf16().flat_map(u16::to_be_bytes).collect();
        for bytes in [utf16, marked, big] {
            assert!(given(&bytes).contains("UTF-16"), "{}", given(&bytes));
        }
        assert!(given(&[0xff, 0xfe, 0, 0, b'{', 0, 0, 0]).contains("UTF-32"));
        assert!(given(&[0x1f, 0x8b, 8, 0]).contains("gzip"));
        assert!(given(b"PK\x03\x04rest").contains("zip"));
        assert!(given(b"%PDF-1.7").contains("PDF"));
        // Latin-1: an e with an acute accent is the one byte E9.
        let latin = given(b"{\n  \"name\": \"Caf\xe9\"}");
        assert!(latin.starts_with("line 2, column 15: the byte 0xE9"), "{latin}");
    }

    #[test]
    fn utf8_text_is_read_as_it_is() {
        for text in ["", "{}", "\u{feff}{\"name\": \"Grüne Wiese ½\"}"] {
            assert_eq!(text_of_file(text.as_bytes(), text.len()), Ok(text));
        }
    }

    #[test]
    fn a_file_too_large_is_refused_by_its_size_alone() {
        let errors = text_of_file(b"{", 200 << 20).expect_err("it is too large");
        assert_eq!(errors.errors[0].given, "a file of 200 MB");
        assert_eq!(errors.errors[0].allowed, "at most 32 MB");
    }
}
