//! A small archive that swells to gigabytes is refused, by the whole program, within a memory that it would burst.
#![cfg(target_os = "linux")]

use std::fs;
use std::process::{Command, Output};

/// Address space of the program, kB: the system refuses it more. What an honest job of the largest size needs is less.
const MOST_KB: u32 = 600_000;
const GIGABYTE: usize = 1 << 30;

/// Raw deflate of a blank and then blanks without end, by hand: fixed codes, each match the longest at distance 1, so that 13 bits
/// stand for 258 bytes. Source: RFC 1951, 3.2.5 and 3.2.6.
fn swelling(bytes: usize) -> Vec<u8> {
    let mut packed = vec![0_u8];
    let mut filled = 0_u32;
    let mut put = |bit: bool| {
        if filled == 8 {
            packed.push(0);
            filled = 0;
        }
        *packed.last_mut().expect("never empty") |= u8::from(bit) << filled;
        filled += 1;
    };
    // The last block, of fixed codes: 1, then 01 from its low bit.
    [true, true, false].into_iter().for_each(&mut put);
    // Huffman codes go in from their high bit. A blank, 32, is 00110000 + 32.
    let code = |value: u32, bits: u32| (0..bits).rev().map(move |at| value >> at & 1 == 1);
    code(0b0011_0000 + 32, 8).for_each(&mut put);
    for _ in 0..bytes / 258 {
        // Length 258 is symbol 285, 11000101; distance 1 is code 0 of five bits.
        code(0b1100_0101, 8).chain(code(0, 5)).for_each(&mut put);
    }
    // The end of the block, 256.
    code(0, 7).for_each(&mut put);
    packed
}

/// A zip archive of one deflated file by hand, which says of itself what it is told to say. Source: PKWARE APPNOTE 6.3.10, 4.3.7,
/// 4.3.12 and 4.3.16.
fn archive(name: &str, packed: &[u8], says_bytes: u32) -> Vec<u8> {
    let two = |value: usize| u16::try_from(value).expect("short").to_le_bytes();
    let four = |value: usize| u32::try_from(value).expect("short").to_le_bytes();
    // Version, flags, method 8, time, date, checksum, sizes, length of the name, no more.
    let mut facts = Vec::new();
    for part in [two(20), two(0), two(8), two(0), two(0)] {
        facts.extend(part);
    }
    for part in [four(0), four(packed.len()), says_bytes.to_le_bytes()] {
        facts.extend(part);
    }
    facts.extend(two(name.len()));
    facts.extend(two(0));
    let mut bytes = b"PK\x03\x04".to_vec();
    bytes.extend(&facts);
    bytes.extend(name.as_bytes());
    bytes.extend(packed);
    let at = bytes.len();
    bytes.extend(b"PK\x01\x02");
    bytes.extend(two(20));
    bytes.extend(&facts);
    bytes.extend([0; 2 + 2 + 2 + 4 + 4]);
    bytes.extend(name.as_bytes());
    let long = bytes.len() - at;
    bytes.extend(b"PK\x05\x06\0\0\0\0\x01\0\x01\0");
    bytes.extend(four(long));
    bytes.extend(four(at));
    bytes.extend(two(0));
    bytes
}

/// The program with no more memory than that.
fn planned(bytes: &[u8], name: &str) -> Output {
    let file = std::env::temp_dir().join(format!("mastwright-swells-{}-{name}.zip", std::process::id()));
    fs::write(&file, bytes).expect("a file");
    let output = Command::new("sh")
        .args(["-c", &format!("ulimit -v {MOST_KB}; exec \"$0\" plan \"$1\"")])
        .arg(env!("CARGO_BIN_EXE_mastwright"))
        .arg(&file)
        .output()
        .expect("it starts");
    fs::remove_file(&file).expect("it is there");
    output
}

#[test]
fn an_archive_that_swells_to_gigabytes_is_refused_within_its_bound() {
    let swells = swelling(GIGABYTE);
    assert!(swells.len() < 7 << 20, "{}", swells.len());
    let photo = format!("photos/{:064x}.jpg", 1);
    for (name, says_bytes, said) in [
        ("job.json", u32::MAX - 1, "more than 32 MB"),
        (photo.as_str(), u32::MAX - 1, "more than 2 MB"),
        // What it says of itself is not believed.
        ("job.json", 17, "larger than its declared"),
    ] {
        let output = planned(&archive(name, &swells, says_bytes), "large");
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{name}: {told}");
        // Not that there was no memory for it: then it would have been unpacked until there was none.
        assert!(told.contains(said), "{name}: {told}");
    }
}

/// The bound is one that the swollen file would burst: the archive is one that unpacks, and the memory is not enough for it.
#[test]
fn the_same_archive_of_a_small_file_is_read() {
    let output = planned(&archive("job.json", &swelling(2580), 2581), "small");
    let told = String::from_utf8_lossy(&output.stderr).into_owned();
    // Blanks alone are no job; the checksum, which was left out, is found first.
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(told.contains("Invalid checksum"), "{told}");
}
