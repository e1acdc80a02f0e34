use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use mastwright_engine::demo;
use mastwright_engine::job;

use super::found::{FindCodesRequest, find_codes};
use super::*;

/// A document long enough for several pictures, that deflate can't shorten to one.
fn document() -> String {
    let mut job = demo::lantern_green();
    let mut noise = 7_u32;
    job.notes = (0..2000)
        .map(|_| {
            noise = noise.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            char::from(b'!' + (noise >> 24) as u8 % 90)
        })
        .collect();
    job::write_job(&job)
}

fn codes(document: &str) -> Vec<String> {
    job_codes(&CodesRequest { document: document.to_owned() }).unwrap().texts
}

fn read(texts: &[String]) -> ReadCodesAnswer {
    read_codes(&ReadCodesRequest { texts: texts.to_vec() }).unwrap()
}

/// The picture as a camera might see it: each module so many pixels, on a grey that is neither black nor white.
fn seen(picture: &CodePicture, pixels: usize) -> FindCodesRequest {
    let side = picture.side * pixels;
    let mut grey = vec![225_u8; side * side];
    for run in picture.path.split('M').skip(1) {
        let (at, rest) = run.split_once('h').unwrap();
        let (x, y) = at.split_once(' ').unwrap();
        let (x, y): (usize, usize) = (x.parse().unwrap(), y.parse().unwrap());
        let long: usize = rest.split('v').next().unwrap().parse().unwrap();
        for row in y * pixels..(y + 1) * pixels {
            grey[row * side + x * pixels..row * side + (x + long) * pixels].fill(40);
        }
    }
    FindCodesRequest { width: side, height: side, grey_base64: STANDARD.encode(grey) }
}

fn photographed(text: &str, pixels: usize) -> Vec<String> {
    let picture = code_picture(&CodePictureRequest { text: text.to_owned() }).unwrap();
    find_codes(&seen(&picture, pixels), &mut |_| true).unwrap().texts
}

#[test]
fn a_job_goes_over_as_pictures_that_are_read_in_any_order_and_twice() {
    let document = document();
    let texts = codes(&document);
    assert!(texts.len() > 4, "{}", texts.len());
    let mut seen: Vec<String> = texts.iter().flat_map(|text| photographed(text, 3)).collect();
    assert_eq!(seen, texts, "each picture was read as it was drawn");
    seen.reverse();
    seen.extend(texts.iter().take(2).cloned());
    let answer = read(&seen);
    assert_eq!((answer.of, answer.missing.len(), answer.damaged, answer.strange), (texts.len(), 0, 0, 0));
    assert_eq!(answer.document.as_deref(), Some(document.as_str()));
}

/// The same a little turned, as a hand holds a camera: each module so many pixels, seen through four points a pixel.
fn turned(picture: &CodePicture, pixels: f64, turn_deg: f64) -> FindCodesRequest {
    let straight = STANDARD.decode(seen(picture, 1).grey_base64).unwrap();
    let side = (picture.side as f64 * pixels * 1.3) as usize;
    let (sin, cos) = turn_deg.to_radians().sin_cos();
    let at = |x: f64, y: f64| {
        let (x, y) = (x - side as f64 * 0.15, y - side as f64 * 0.1);
        let (x, y) = ((cos * x + sin * y) / pixels, (cos * y - sin * x) / pixels);
        let within = |value: f64| value >= 0.0 && value < picture.side as f64;
        if within(x) && within(y) { u32::from(straight[y as usize * picture.side + x as usize]) } else { 120 }
    };
    let point = |x: usize, y: usize| {
        let sum: u32 = [(0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75)]
            .iter()
            .map(|(dx, dy)| at(x as f64 + dx, y as f64 + dy))
            .sum();
        (sum / 4) as u8
    };
    let grey: Vec<u8> = (0..side * side).map(|pixel| point(pixel % side, pixel / side)).collect();
    FindCodesRequest { width: side, height: side, grey_base64: STANDARD.encode(grey) }
}

/// The camera goes on looking: one frame of twelve may be missed (which one hangs on the job), none may be read as something else.
#[test]
fn a_picture_that_is_not_held_upright_is_read() {
    let texts = codes(&document());
    let picture = code_picture(&CodePictureRequest { text: texts[0].clone() }).unwrap();
    let mut missed = Vec::new();
    for pixels in [7.0, 8.0, 9.0] {
        for turn_deg in [0.6, 1.7, -4.0, 11.0] {
            let found = find_codes(&turned(&picture, pixels, turn_deg), &mut |_| true).unwrap().texts;
            if found.is_empty() {
                missed.push((pixels, turn_deg));
            } else {
                assert_eq!(found, texts[..1], "{pixels} pixels a module, turned by {turn_deg}\u{b0}");
            }
        }
    }
    assert!(missed.len() <= 1, "{missed:?}");
}

#[test]
fn a_missing_picture_is_named_and_nothing_is_opened() {
    let mut texts = codes(&document());
    let of = texts.len();
    texts.remove(2);
    let answer = read(&texts);
    assert_eq!((answer.of, answer.missing.as_slice(), answer.document), (of, &[3][..], None));
    assert_eq!(read(&[]), ReadCodesAnswer::default());
}

/// Whatever letter is another one, the picture is told to be damaged and what it was stays missing.
#[test]
fn a_damaged_picture_is_told_and_asked_for_again() {
    let texts = codes(&document());
    for at in (4..texts[1].len()).step_by(7) {
        let mut wrong = texts.clone();
        let other = if texts[1].as_bytes()[at] == b'7' { "8" } else { "7" };
        wrong[1].replace_range(at..=at, other);
        let answer = read(&wrong);
        assert_eq!(
            (answer.damaged, answer.missing.as_slice(), answer.document),
            (1, &[2][..], None),
            "letter {at}"
        );
    }
    let mut cut = texts.clone();
    cut[0].truncate(200);
    assert_eq!(read(&cut).damaged, 1);
}

#[test]
fn pictures_of_two_jobs_are_not_mixed() {
    let (one, other) = (codes(&document()), codes(&job::write_job(&demo::lantern_green())));
    let mut seen = one[..3].to_vec();
    seen.extend(other.iter().cloned());
    seen.push("https://elsewhere.example/".to_owned());
    let answer = read(&seen);
    assert_eq!((answer.of, answer.strange), (other.len(), 4));
    assert_eq!(answer.document, Some(job::write_job(&demo::lantern_green())));
}

/// Parts whose own checks are right, made by somebody who knows how, are checked as a whole.
#[test]
fn what_was_made_to_mislead_is_refused_in_words() {
    let given =
        |texts: Vec<String>| read_codes(&ReadCodesRequest { texts }).unwrap_err().errors[0].given.clone();
    let whole = "ABCDEF012345";
    assert!(given(vec![text_of(1, 1, whole, b"anything")]).contains("do not belong together"));
    let no_deflate = [0xff_u8; 20];
    assert!(given(vec![text_of(1, 1, &digits(&no_deflate, 12), &no_deflate)]).contains("unpacked"));
    // A thousand times as long as it says: the largest that two parts can swell to is cut off before it is kept.
    let swollen = vec![b' '; MOST_FILE_BYTES + 1000];
    let mut packed = Vec::new();
    DeflateEncoder::new(swollen.as_slice(), Compression::best()).read_to_end(&mut packed).unwrap();
    let parts: Vec<&[u8]> = packed.chunks(PART_BYTES).collect();
    let texts =
        parts.iter().enumerate().map(|(at, part)| text_of(at + 1, parts.len(), &digits(&packed, 12), part));
    assert!(given(texts.collect()).contains("larger than any job"));
    assert_eq!(
        read(&[text_of(0, 2, whole, b"x"), text_of(3, 2, whole, b"x"), text_of(1, 2, whole, b"")]).damaged,
        3
    );
    assert!(given(vec![String::new(); MOST_TEXTS + 1]).contains("codes"));
}

#[test]
fn a_job_too_long_for_codes_says_so() {
    let mut noise = 1_u64;
    let document: String = (0..MOST_PARTS * PART_BYTES * 2)
        .map(|_| {
            noise = noise.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            char::from(b'!' + (noise >> 57) as u8 % 90)
        })
        .collect();
    let error = job_codes(&CodesRequest { document }).unwrap_err();
    assert!(error.errors[0].allowed.contains("send it as a file"), "{:?}", error.errors);
}

/// Source: ISO/IEC 18004:2015, table 7: the largest code, version 40 with level L, holds 2953 bytes.
#[test]
fn the_largest_text_of_one_code_is_that_of_the_standard() {
    let link = |length: usize| format!("https://a.example/#/take/{}", "x".repeat(length - 25));
    let picture = |text: String| code_picture(&CodePictureRequest { text });
    assert_eq!(picture(link(2953)).unwrap().side, 177 + 8);
    assert!(picture(link(2954)).unwrap_err().errors[0].allowed.contains("2953"));
    assert_eq!(photographed(&link(1273), 3), [link(1273)]);
    // A frame at its longest is one of version 11 with level M, table 7: 366 letters.
    let longest = text_of(MOST_PARTS, MOST_PARTS, "ABCDEF012345", &[0xff; PART_BYTES]);
    assert!(longest.len() <= 366, "{}", longest.len());
    assert_eq!(picture(longest).unwrap().side, 61 + 8);
}

#[test]
fn a_picture_without_a_code_or_of_another_size_breaks_nothing() {
    let look = |width, height, grey: Vec<u8>| {
        find_codes(&FindCodesRequest { width, height, grey_base64: STANDARD.encode(grey) }, &mut |_| true)
    };
    assert_eq!(look(64, 48, vec![128; 64 * 48]).unwrap().texts, Vec::<String>::new());
    let noise = (0..320 * 240_u32).map(|at| (at.wrapping_mul(2_654_435_761) >> 24) as u8).collect();
    assert_eq!(look(320, 240, noise).unwrap().texts, Vec::<String>::new());
    assert!(look(64, 48, vec![0; 10]).unwrap_err().errors[0].allowed.contains("byte for each"));
    for (width, height) in [(0, 5), (usize::MAX, 2), (100_000, 100_000)] {
        assert_eq!(look(width, height, Vec::new()).unwrap_err().errors[0].path, "/width");
    }
}
