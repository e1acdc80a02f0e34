//! Text from a document, made safe to print: nothing in a name may steer a terminal or turn the line round.

/// The text in one line: control characters and marks of writing direction become `\u{FFFD}`, line breaks and tabs a
/// space.
///
/// # References
/// ECMA-48 (control functions of terminals: C0, DEL and C1); Unicode Standard Annex 9 (marks of writing direction).
pub fn visible(text: &str) -> String {
    text.chars().map(|c| if matches!(c, '\n' | '\r' | '\t') { ' ' } else { shown(c) }).collect()
}

/// The same for text of several lines.
pub fn visible_lines(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut characters = text.chars().peekable();
    while let Some(c) = characters.next() {
        // A carriage return belongs to the line breaks of CSV (RFC 4180, 2.1); alone it writes over its own line.
        let breaks = c == '\r' && characters.peek() == Some(&'\n');
        out.push(if breaks || matches!(c, '\n' | '\t') { c } else { shown(c) });
    }
    out
}

/// JSON text with every character that could steer a terminal written as its escape: the same document.
pub fn visible_json(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if c == '\n' || c == '\t' || !steers(c) {
            out.push(c);
        } else {
            // All of them lie below U+10000, where JSON's escape is the code point itself (RFC 8259, 7).
            out.push_str(&format!("\\u{:04x}", u32::from(c)));
        }
    }
    out
}

fn shown(c: char) -> char {
    if steers(c) { '\u{FFFD}' } else { c }
}

fn steers(c: char) -> bool {
    c.is_control() || matches!(c, '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_name_steers_a_terminal() {
        assert_eq!(
            visible("a\u{1b}[2Jb\u{9b}c\u{7f}\r\nd\u{202e}e"),
            "a\u{FFFD}[2Jb\u{FFFD}c\u{FFFD}  d\u{FFFD}e"
        );
        assert_eq!(visible_lines("a\u{1b}\nb\r\nc\rd"), "a\u{FFFD}\nb\r\nc\u{FFFD}d");
        assert_eq!(visible("Grüne Wiese ½ 👩‍🌾"), "Grüne Wiese ½ 👩‍🌾");
    }

    #[test]
    fn json_stays_the_same_document() {
        let name = "a\u{1b}\u{9b}\u{7f}\u{202e}\nb";
        let text = serde_json::to_string_pretty(&serde_json::json!({ "name": name })).unwrap();
        let safe = visible_json(&text);
        assert!(!safe.chars().any(|c| steers(c) && c != '\n'), "{safe:?}");
        assert_eq!(serde_json::from_str::<serde_json::Value>(&safe).unwrap()["name"], name);
    }
}
