use super::*;

const JPEG: &[u8] = &[0xff, 0xd8, 0xff, 0xe0, 1, 2, 3];

/// An archive of any files, as somebody else would make it.
fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in files {
        let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
        writer.start_file(*name, options).unwrap();
        writer.write_all(bytes).unwrap();
    }
    writer.finish().unwrap().into_inner()
}

fn said(bytes: &[u8]) -> String {
    opened(bytes, bytes.len()).unwrap_err().errors[0].sentence()
}

fn photo() -> String {
    format!("photos/{}.jpg", sha256(JPEG))
}

#[test]
fn the_hash_is_the_published_one() {
    // FIPS 180-4's example: "abc".
    assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

#[test]
fn a_job_with_its_photos_comes_back_as_it_was() {
    let photos = BTreeMap::from([(sha256(JPEG), JPEG.to_vec())]);
    let bytes = packed("{\"a\": 1}", &photos).unwrap();
    assert_eq!(opened(&bytes, bytes.len()).unwrap(), Opened { text: "{\"a\": 1}".to_owned(), photos });
    // A plain document is a job without photos.
    assert_eq!(opened(b"{}", 2).unwrap().text, "{}");
}

#[test]
fn no_name_leads_anywhere() {
    for name in [
        "../job.json",
        "/etc/passwd",
        "photos/../../x.jpg",
        "..\\x",
        "C:\\x",
        "photos/x.svg",
        "photos/",
        "x\u{202e}y",
    ] {
        let told = said(&archive(&[("job.json", b"{}"), (name, JPEG)]));
        assert!(told.contains("job.json and photos/ alone"), "{name}: {told}");
    }
    let upper = format!("photos/{}.jpg", sha256(JPEG).to_uppercase());
    assert!(said(&archive(&[("job.json", b"{}"), (&upper, JPEG)])).contains("alone"));
}

#[test]
fn what_swells_when_unpacked_is_cut_off() {
    let bomb = archive(&[("job.json", b"{}"), (&photo(), &vec![0; 5 << 20])]);
    assert!(bomb.len() < 100_000, "{}", bomb.len());
    assert!(said(&bomb).contains("more than 2 MB"));
    let bomb = archive(&[("job.json", &vec![b' '; 33 << 20])]);
    assert!(said(&bomb).contains("more than 32 MB"));
    let many: Vec<(String, &[u8])> = (0..200).map(|n| (format!("photos/{n:064x}.jpg"), JPEG)).collect();
    let many: Vec<(&str, &[u8])> = many.iter().map(|(name, bytes)| (name.as_str(), *bytes)).collect();
    assert!(said(&archive(&many)).contains("200 files"));
}

#[test]
fn a_size_that_lies_is_not_believed() {
    let mut bytes = archive(&[("job.json", &vec![b' '; 33 << 20])]);
    let central = bytes.windows(4).rposition(|four| four == b"PK\x01\x02").unwrap();
    bytes[central + 24..central + 28].copy_from_slice(&2_u32.to_le_bytes());
    assert!(opened(&bytes, bytes.len()).is_err());
}

#[test]
fn a_file_twice_is_refused() {
    // Names of one length, so that one can be put in place of the other.
    let other = format!("photos/{:064x}.jpg", 1);
    let mut bytes = archive(&[("job.json", b"{}"), (&photo(), JPEG), (&other, JPEG)]);
    let name = photo();
    while let Some(at) = bytes.windows(other.len()).position(|some| some == other.as_bytes()) {
        bytes[at..at + name.len()].copy_from_slice(name.as_bytes());
    }
    let told = said(&bytes);
    assert!(told.contains("twice"), "{told}");
}

#[test]
fn a_photo_is_what_it_says() {
    let svg = b"<svg onload='x'/>";
    let named = format!("photos/{}.jpg", sha256(svg));
    assert!(said(&archive(&[("job.json", b"{}"), (&named, svg)])).contains("no JPEG"));
    let mut other = JPEG.to_vec();
    other.push(9);
    assert!(said(&archive(&[("job.json", b"{}"), (&photo(), &other)])).contains("another or was damaged"));
    assert!(packed("{}", &BTreeMap::from([(sha256(JPEG), other)])).is_err());
}

#[test]
fn half_an_archive_and_one_without_a_job_are_named() {
    let bytes = archive(&[(&photo(), JPEG)]);
    assert!(said(&bytes).contains("without job.json"));
    for end in (5..bytes.len()).step_by(7) {
        assert!(opened(&bytes[..end], end).is_err(), "cut at {end}");
    }
    for at in 0..bytes.len() {
        let mut flipped = bytes.clone();
        flipped[at] ^= 0x55;
        // Whatever it says: it ends, and never with a panic.
        let _ = opened(&flipped, flipped.len());
    }
    assert!(said(&archive(&[("job.json", b"\xff\xfe{}")])).contains("UTF-16"));
}

/// Each of them is small enough by itself, and packed they are next to nothing.
#[test]
fn photos_that_swell_together_are_cut_off() {
    let zeros = |last: u8| {
        let mut bytes = JPEG.to_vec();
        bytes.resize(MOST_PHOTO_BYTES, 0);
        *bytes.last_mut().unwrap() = last;
        bytes
    };
    let count = MOST_FILE_BYTES / MOST_PHOTO_BYTES + 1;
    let photos: Vec<(String, Vec<u8>)> = (0..count)
        .map(|last| zeros(last as u8))
        .map(|it| (format!("photos/{}.jpg", sha256(&it)), it))
        .collect();
    let with = |count: usize| {
        let photos = photos.iter().take(count).map(|(name, bytes)| (name.as_str(), bytes.as_slice()));
        archive(&std::iter::once(("job.json", b"{}".as_slice())).chain(photos).collect::<Vec<_>>())
    };
    assert!(said(&with(count)).contains("together"), "{}", said(&with(count)));
    let most = with(count - 1);
    assert_eq!(opened(&most, most.len()).unwrap().photos.len(), count - 1);
}
