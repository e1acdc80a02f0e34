//! Base 45 (RFC 9285): two bytes as three letters of those that a QR code packs two to eleven bits.

const LETTERS: &[u8; 45] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

pub fn encoded(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().div_ceil(2) * 3);
    for pair in bytes.chunks(2) {
        let (mut rest, letters) = match *pair {
            [high, low] => (usize::from(high) * 256 + usize::from(low), 3),
            [one] => (usize::from(one), 2),
            _ => continue,
        };
        for _ in 0..letters {
            text.push(char::from(LETTERS[rest % 45]));
            rest /= 45;
        }
    }
    text
}

/// None for a text that no bytes are written by.
pub fn decoded(text: &str) -> Option<Vec<u8>> {
    let mut bytes = Vec::with_capacity(text.len() / 3 * 2 + 1);
    for letters in text.as_bytes().chunks(3) {
        let digits = letters
            .iter()
            .map(|letter| LETTERS.iter().position(|one| one == letter))
            .collect::<Option<Vec<_>>>()?;
        let value = digits.iter().rev().fold(0, |value, digit| value * 45 + digit);
        match digits.len() {
            3 => bytes.extend_from_slice(&u16::try_from(value).ok()?.to_be_bytes()),
            2 => bytes.push(u8::try_from(value).ok()?),
            _ => return None,
        }
    }
    Some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: RFC 9285, section 4.3, examples 1 to 3, and 4.4.
    #[test]
    fn the_examples_of_rfc_9285() {
        for (bytes, text) in
            [("AB", "BB8"), ("Hello!!", "%69 VD92EX0"), ("base-45", "UJCLQE7W581"), ("ietf!", "QED8WEX0")]
        {
            assert_eq!(encoded(bytes.as_bytes()), text);
            assert_eq!(decoded(text).as_deref(), Some(bytes.as_bytes()));
        }
    }

    /// Source: RFC 9285, section 6: a value that no two bytes have, one letter left over, a letter of no table.
    #[test]
    fn what_no_bytes_are_written_by_is_none() {
        for text in ["GGW", ":::", "A", "AAAA", "::", "ab8", "A\u{e9}"] {
            assert_eq!(decoded(text), None, "{text}");
        }
        assert_eq!(decoded("FGW"), Some(vec![0xff, 0xff]));
        assert_eq!(decoded(""), Some(Vec::new()));
    }
}
