//! What the phone apps ask leave for is what the screens use: no more, and each with its reason.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// A call of the browser's that a phone asks leave for, and what each system wants declared.
const ASKED: [(&str, &[&str], &[&str]); 4] = [
    ("geolocation", &["ACCESS_COARSE_LOCATION"], &["NSLocationWhenInUseUsageDescription"]),
    ("devicemotion", &[], &["NSMotionUsageDescription"]),
    ("video: ", &["CAMERA"], &["NSCameraUsageDescription"]),
    ("audio: ", &["RECORD_AUDIO"], &["NSMicrophoneUsageDescription"]),
];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn sources(folder: &Path) -> String {
    let mut all = String::new();
    for path in fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path()) {
        if path.is_dir() {
            all += &sources(&path);
        } else if path.extension().is_some_and(|ending| ending == "ts" || ending == "svelte") {
            all += &fs::read_to_string(&path).expect("text");
        }
    }
    all
}

fn used() -> Vec<&'static (&'static str, &'static [&'static str], &'static [&'static str])> {
    let screens = sources(&root().join("ui/src"));
    let of_streams = screens.contains("getUserMedia");
    ASKED
        .iter()
        .filter(|(call, ..)| screens.contains(call) && (of_streams || !call.ends_with(": ")))
        .collect()
}

fn read(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

#[test]
fn android_asks_for_what_the_screens_use_and_says_why() {
    let text = read("src-tauri/gen/android/app/src/main/AndroidManifest.xml");
    let manifest = roxmltree::Document::parse(&text).expect("XML");
    let name = |node: roxmltree::Node<'_, '_>| {
        let named = node.attribute(("http://schemas.android.com/apk/res/android", "name"));
        named.unwrap_or_default().rsplit('.').next().unwrap_or_default().to_owned()
    };
    let asks = || manifest.descendants().filter(|node| node.has_tag_name("uses-permission"));
    let mut wanted: BTreeSet<String> =
        used().iter().flat_map(|(_, android, _)| *android).map(|&name| name.to_owned()).collect();
    wanted.insert("INTERNET".to_owned());
    assert_eq!(asks().map(name).collect::<BTreeSet<_>>(), wanted);
    for ask in asks() {
        let before = ask.prev_siblings().skip(1).find(|node| !node.is_text());
        assert!(before.is_some_and(|node| node.is_comment()), "{} has no reason", name(ask));
    }
    // A phone without one of them takes the app all the same: everything can be typed.
    for feature in manifest.descendants().filter(|node| node.has_tag_name("uses-feature")) {
        let required = feature.attribute(("http://schemas.android.com/apk/res/android", "required"));
        assert_eq!(required, Some("false"), "{}", name(feature));
    }
}

#[test]
fn an_iphone_is_told_why_for_each_sensor() {
    let text = read("src-tauri/Info.ios.plist");
    let options = roxmltree::ParsingOptions { allow_dtd: true, ..Default::default() };
    let list = roxmltree::Document::parse_with_options(&text, options).expect("XML");
    let said = |tag: &str| -> Vec<String> {
        let nodes = list.descendants().filter(|node| node.has_tag_name(tag));
        nodes.map(|node| node.text().unwrap_or_default().to_owned()).collect()
    };
    let wanted: BTreeSet<String> =
        used().iter().flat_map(|(_, _, ios)| *ios).map(|&name| name.to_owned()).collect();
    assert_eq!(said("key").into_iter().collect::<BTreeSet<_>>(), wanted);
    assert_eq!(said("string").len(), wanted.len());
    assert!(said("string").iter().all(|reason| reason.starts_with("Mastwright ") && reason.len() > 40));
}

#[test]
fn the_android_project_is_this_app() {
    let config: serde_json::Value = serde_json::from_str(&read("src-tauri/tauri.conf.json")).expect("JSON");
    let id = config["identifier"].as_str().expect("an identifier");
    let gradle = read("src-tauri/gen/android/app/build.gradle.kts");
    assert!(gradle.contains(&format!("applicationId = \"{id}\"")), "{id}");
    assert!(gradle.contains("manifestPlaceholders[\"usesCleartextTraffic\"] = \"false\""));
    let path = format!("src-tauri/gen/android/app/src/main/java/{}/MainActivity.kt", id.replace('.', "/"));
    assert!(read(&path).contains(&format!("package {id}")));
}
