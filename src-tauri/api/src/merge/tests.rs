//! Hand cases: two devices in one yard.

use mastwright_engine::job::{History, Stamp, blank};
use mastwright_engine::quantity::{UnitSystem, Units};
use serde_json::{Value, json};

use super::*;

fn by(device: &str, at_ms: u64) -> Stamp {
    Stamp { at_ms, device: device.to_owned() }
}

/// A job with a slope, a tree and a mark `B`, made on the laptop at 100.
fn made() -> Held {
    let mut job =
        serde_json::to_value(blank(Units { system: UnitSystem::Metric, inch_fraction: 16 })).unwrap();
    let at = json!({ "by": "bearing_tape", "from": "A", "bearing_deg": 40.0, "tape_m": 12.0 });
    job["yard"]["marks"].as_array_mut().unwrap().push(json!({ "id": "B", "name": "corner", "at": at }));
    job["yard"]["slopes"] = json!([slope("slope-1", 3.0)]);
    job["yard"]["obstacles"] = json!([{ "id": "tree", "name": "Oak", "keep_off_m": null,
        "shape": { "kind": "tree", "at": { "by": "coordinates", "east_m": 5.0, "north_m": 5.0 },
            "trunk_radius_m": 0.3, "crown_radius_m": 2.0, "crown_base_m": 2.0, "height_m": 8.0 } }]);
    Held::new("laptop-1", Held::shape(&job).unwrap(), &by("laptop", 100))
}

fn slope(id: &str, slope_deg: f64) -> Value {
    json!({ "id": id, "bearing_deg": 90.0, "slope_deg": slope_deg, "sigma_deg": null, "struck": false })
}

fn edited(held: &Held, who: &Stamp, edit: impl FnOnce(&mut Value)) -> Held {
    let mut job = held.job().clone();
    edit(&mut job);
    held.changed(Held::shape(&job).unwrap(), who).unwrap()
}

/// Both ways round, twice over, and what is open then.
fn merged(a: &Held, b: &Held) -> (Value, Vec<Conflict>) {
    let one = a.merged(b).unwrap();
    assert_eq!(one, b.merged(a).unwrap(), "it does not matter which is merged into which");
    assert_eq!(one, one.merged(a).unwrap(), "what is in it already changes nothing");
    assert_eq!(one, one.merged(&one).unwrap());
    let open = conflicts(&one);
    (one.into_parts().0, open)
}

#[test]
fn what_each_wrote_elsewhere_is_in_both_and_asks_nothing() {
    let base = made();
    let phone = edited(&base, &by("phone", 200), |job| {
        job["yard"]["slopes"].as_array_mut().unwrap().push(slope("slope-phone-2", 4.0));
        job["wind"]["ice_mm"] = json!(3.0);
    });
    let laptop = edited(&base, &by("laptop", 150), |job| {
        job["yard"]["slopes"].as_array_mut().unwrap().push(slope("slope-laptop-2", 5.0));
        job["rig"]["base"]["front_reach_m"] = json!(1.7);
    });
    let (job, open) = merged(&phone, &laptop);
    assert!(open.is_empty(), "{open:?}");
    let ids: Vec<&str> =
        job["yard"]["slopes"].as_array().unwrap().iter().map(|it| it["id"].as_str().unwrap()).collect();
    assert_eq!((ids.len(), ids[0]), (3, "slope-1"));
    assert_eq!((&job["wind"]["ice_mm"], &job["rig"]["base"]["front_reach_m"]), (&json!(3.0), &json!(1.7)));
}

/// Both tick off the mast, each another peg besides, and one reads a tape: all of it is there, and nobody is asked.
#[test]
fn ticks_and_check_tapes_of_both_are_kept() {
    let set = |pegs: [&str; 2]| json!(pegs.map(|peg| json!({ "peg": peg })));
    let tape =
        json!({ "id": "leg:front~guy:upper-1", "from": "leg:front", "to": "guy:upper-1", "tape_m": 4.1 });
    let base = made();
    let phone = edited(&base, &by("phone", 200), |job| job["pegging"]["done"] = set(["mast", "leg:front"]));
    let laptop = edited(&base, &by("laptop", 150), |job| {
        job["pegging"] = json!({ "done": set(["mast", "guy:upper-1"]), "tapes": [tape.clone()] });
    });
    let (job, open) = merged(&phone, &laptop);
    assert!(open.is_empty(), "{open:?}");
    let done = job["pegging"]["done"].as_array().unwrap();
    let mut pegs: Vec<&str> = done.iter().map(|it| it["peg"].as_str().unwrap()).collect();
    pegs.sort_unstable();
    assert_eq!(pegs, ["guy:upper-1", "leg:front", "mast"]);
    assert_eq!(job["pegging"]["tapes"], json!([tape]));
}

/// Each took a photo, and one wrote under it while the other said what it shows: all of it is kept, and nobody is asked.
#[test]
fn photos_of_both_are_kept() {
    let photo = |id: &str, digit: &str| json!({ "id": id, "sha256": digit.repeat(64), "shows": "", "note": "", "taken_at": null });
    let base = edited(&made(), &by("laptop", 110), |job| job["photos"] = json!([photo("photo-1", "a")]));
    let phone = edited(&base, &by("phone", 200), |job| {
        job["photos"].as_array_mut().unwrap().push(photo("photo-phone-2", "b"));
        job["photos"][0]["note"] = json!("roots");
    });
    let laptop = edited(&base, &by("laptop", 150), |job| {
        job["photos"].as_array_mut().unwrap().push(photo("photo-laptop-2", "c"));
        job["photos"][0]["shows"] = json!("tree");
    });
    let (job, open) = merged(&phone, &laptop);
    assert!(open.is_empty(), "{open:?}");
    let photos = job["photos"].as_array().unwrap();
    let mut digits: Vec<&str> = photos.iter().map(|it| &it["sha256"].as_str().unwrap()[..1]).collect();
    digits.sort_unstable();
    assert_eq!(digits, ["a", "b", "c"]);
    assert_eq!((&photos[0]["note"], &photos[0]["shows"]), (&json!("roots"), &json!("tree")));
}

#[test]
fn one_reading_written_twice_keeps_both_and_asks() {
    let base = made();
    let write = |held: &Held, who: &Stamp, deg: f64| {
        edited(held, who, |job| job["yard"]["slopes"][0]["slope_deg"] = json!(deg))
    };
    let (phone, laptop) = (write(&base, &by("phone", 200), 4.25), write(&base, &by("laptop", 300), 5.5));
    let (job, open) = merged(&phone, &laptop);
    // Until somebody answers the later one is shown.
    assert_eq!(job["yard"]["slopes"][0]["slope_deg"], json!(5.5));
    let [conflict] = open.as_slice() else { panic!("one conflict: {open:?}") };
    assert_eq!((conflict.about.as_str(), conflict.shown, conflict.can_keep_both), ("Slope reading", 0, true));
    let said: Vec<(&str, u64, &str)> = conflict
        .sides
        .iter()
        .map(|side| (side.by.device.as_str(), side.by.at_ms, side.says[0].value.as_str()))
        .collect();
    assert_eq!(said, [("laptop", 300, "5.5°"), ("phone", 200, "4.25°")]);
    assert!(conflict.sides.iter().all(|side| side.says.len() == 1), "only what differs: {conflict:?}");
}

/// What a round in the background brings changes no value under anybody's hands: where two wrote, each device shows what it
/// showed before until somebody says which holds; and that each shows another side changes nothing of what is merged.
#[test]
fn an_open_conflict_leaves_on_each_device_what_stood_there() {
    let base = made();
    let write =
        |who: &Stamp, deg: f64| edited(&base, who, |job| job["yard"]["slopes"][0]["slope_deg"] = json!(deg));
    let (phone, laptop) = (write(&by("phone", 200), 4.25), write(&by("laptop", 300), 5.5));
    let given = |held: &Held| {
        let (job, history) = held.clone().into_parts();
        HeldJob { job, history }
    };
    let merge = |here: &Held, there: &Held| {
        merge_jobs(&MergeRequest { here: given(here), there: given(there) }).unwrap()
    };
    let shows = |answer: &MergeAnswer| answer.job["yard"]["slopes"][0]["slope_deg"].as_f64().unwrap();
    let (on_phone, on_laptop) = (merge(&phone, &laptop), merge(&laptop, &phone));
    assert_eq!((shows(&on_phone), shows(&on_laptop)), (4.25, 5.5));
    for answer in [&on_phone, &on_laptop] {
        let [one] = answer.conflicts.as_slice() else { panic!("one conflict: {:?}", answer.conflicts) };
        assert_eq!(one.sides[one.shown as usize].says[0].value, format!("{}°", shows(answer)));
    }
    // Told of each other again they stay as they are, and one that is settled is settled on both.
    let (phone, laptop) = [on_phone, on_laptop].map(|one| Held::of(one.job, one.history).unwrap()).into();
    assert_eq!((shows(&merge(&phone, &laptop)), shows(&merge(&laptop, &phone))), (4.25, 5.5));
    assert_eq!(phone.merged(&laptop).unwrap(), laptop.merged(&phone).unwrap());
    let settled = settle(&phone, "/yard/slopes/@slope-1", Some(1), &by("phone", 210)).unwrap();
    let taken = merge(&laptop, &settled);
    assert_eq!((shows(&taken), taken.conflicts.len()), (4.25, 0));
}

#[test]
fn what_came_is_told_by_device_and_each_reading_once() {
    let base = made();
    let mut phone = edited(&base, &by("phone", 200), |job| {
        job["yard"]["slopes"].as_array_mut().unwrap().push(slope("slope-phone-2", 4.0));
        job["yard"]["slopes"][0]["slope_deg"] = json!(3.5);
        job["yard"]["obstacles"][0]["name"] = json!("Elm");
        job["yard"]["obstacles"][0]["shape"]["height_m"] = json!(9.0);
        job["wind"]["ice_mm"] = json!(3.0);
    });
    phone.name_device("phone", "Ada’s phone");
    let given = |held: &Held| {
        let (job, history) = held.clone().into_parts();
        HeldJob { job, history }
    };
    let merge = |here: &Held, there: &Held| {
        merge_jobs(&MergeRequest { here: given(here), there: given(there) }).unwrap().came
    };
    let of_phone =
        Came { device: "phone".into(), device_name: "Ada’s phone".into(), readings: 2, others: 2 };
    assert_eq!(merge(&base, &phone), [of_phone], "two slopes; the tree and the ice");
    assert_eq!(merge(&phone, &base), [], "it had all of it");
}

#[test]
fn states_of_two_jobs_are_not_brought_together() {
    let (base, other) = (made(), Held::new("laptop-2", made().job().clone(), &by("laptop", 100)));
    let [here, there] = [base, other].map(|held| {
        let (job, history) = held.into_parts();
        HeldJob { job, history }
    });
    let errors = merge_jobs(&MergeRequest { here, there }).unwrap_err().errors;
    assert_eq!(errors[0].path, "/there/history/job");
}

#[test]
fn who_had_seen_it_overwrites_without_being_asked() {
    let base = made();
    let phone = edited(&base, &by("phone", 200), |job| job["yard"]["slopes"][0]["slope_deg"] = json!(4.0));
    // Its clock is behind, and still it wrote later: it had seen what the phone wrote.
    let laptop = base.merged(&phone).unwrap();
    let laptop =
        edited(&laptop, &by("laptop", 120), |job| job["yard"]["slopes"][0]["slope_deg"] = json!(6.0));
    let (job, open) = merged(&phone, &laptop);
    assert_eq!((job["yard"]["slopes"][0]["slope_deg"].clone(), open.len()), (json!(6.0), 0));
}

#[test]
fn a_clock_that_was_set_back_makes_no_writing_older() {
    let base = made();
    let write = |held: &Held, at_ms: u64, deg: f64| {
        edited(held, &by("phone", at_ms), |job| job["yard"]["slopes"][0]["slope_deg"] = json!(deg))
    };
    let phone = write(&base, 300, 4.0);
    let laptop = base.merged(&phone).unwrap();
    // The laptop has heard of what the phone wrote at 300; what it writes now says 250 by its clock.
    let phone = write(&phone, 250, 7.0);
    let (job, open) = merged(&laptop, &phone);
    assert_eq!((job["yard"]["slopes"][0]["slope_deg"].clone(), open.len()), (json!(7.0), 0));
}

#[test]
fn taken_out_and_untouched_is_gone_taken_out_and_changed_is_asked() {
    let base = made();
    let gone = edited(&base, &by("phone", 200), |job| {
        job["yard"]["obstacles"] = json!([]);
        job["yard"]["slopes"] = json!([]);
    });
    let (job, open) = merged(&base, &gone);
    assert_eq!((job["yard"]["obstacles"].clone(), open.len()), (json!([]), 0));
    let higher = edited(&base, &by("laptop", 150), |job| {
        job["yard"]["obstacles"][0]["shape"]["height_m"] = json!(9.5);
        job["yard"]["slopes"][0]["slope_deg"] = json!(3.5);
    });
    let (job, open) = merged(&gone, &higher);
    assert_eq!(job["yard"]["obstacles"][0]["shape"]["height_m"], json!(9.5), "nothing is lost");
    assert_eq!(job["yard"]["obstacles"][0]["name"], json!("Oak"), "nor what nobody changed");
    let about: Vec<&str> = open.iter().map(|one| one.about.as_str()).collect();
    assert_eq!(about, ["Thing in the yard “Oak”", "Slope reading"]);
    assert!(open.iter().all(|one| one.sides[0].is_gone && !one.sides[1].is_gone && one.shown == 1));
    // Both with their device and time, what the one changed, and a question.
    for one in &open {
        let who: Vec<(&str, u64)> = one.sides.iter().map(|it| (it.by.device.as_str(), it.by.at_ms)).collect();
        assert_eq!(who, [("phone", 200), ("laptop", 150)]);
        assert_eq!(one.asks, "One device took it out, another changed it. Is it still there?");
    }
    let said = |one: &Conflict, label: &str| {
        one.sides[1].says.iter().find(|it| it.label == label).map(|it| it.value.clone())
    };
    assert_eq!(said(&open[0], "Height").as_deref(), Some("9.500 m"), "{:?}", open[0].sides);
    assert_eq!(open[0].sides[1].says.len(), 1, "nothing that nobody changed: {:?}", open[0].sides[1].says);
    assert_eq!(said(&open[1], "Slope").as_deref(), Some("3.5°"));
}

/// A tube that comes back with the question stands where it stood: the order of tubes is that of the mast.
#[test]
fn a_tube_that_comes_back_stands_where_it_stood() {
    let base =
        with_tubes(&made(), &by("laptop", 110), json!([tube("a", 3.0), tube("b", 3.0), tube("c", 3.0)]));
    let gone = with_tubes(&base, &by("phone", 200), json!([tube("a", 3.0), tube("c", 3.0)]));
    let shorter =
        with_tubes(&base, &by("laptop", 150), json!([tube("a", 3.0), tube("b", 2.0), tube("c", 3.0)]));
    let before = gone.merged(&shorter).unwrap();
    let asked = conflicts(&before);
    assert_eq!(asked.len(), 1);
    let out = settle(&before, &asked[0].place, Some(0), &by("phone", 400)).unwrap();
    assert_eq!(tubes_of(out.job()), named(&[("a", 3.0), ("c", 3.0)]));
    let back = reopen(&out, &before, &by("phone", 400), &by("phone", 500)).unwrap();
    for held in [&back, &back.merged(&out).unwrap(), &shorter.merged(&out).unwrap().merged(&back).unwrap()] {
        assert_eq!(tubes_of(held.job()), named(&[("a", 3.0), ("b", 2.0), ("c", 3.0)]));
    }
}

/// What somebody said by mistake is asked about again, with who had written what, and on the device that took it over.
#[test]
fn an_answer_that_is_taken_back_is_asked_again_with_the_same_sides() {
    let base = made();
    let gone = edited(&base, &by("phone", 200), |job| job["yard"]["obstacles"] = json!([]));
    let higher = edited(&base, &by("laptop", 150), |job| {
        job["yard"]["obstacles"][0]["shape"]["height_m"] = json!(9.5)
    });
    let before = gone.merged(&higher).unwrap();
    let asked = conflicts(&before);
    let out = settle(&before, &asked[0].place, Some(0), &by("phone", 400)).unwrap();
    assert_eq!(out.job()["yard"]["obstacles"], json!([]));
    let taken_over = higher.merged(&out).unwrap();
    let back = reopen(&out, &before, &by("phone", 400), &by("phone", 500)).unwrap();
    assert_eq!(back.job(), before.job());
    let (job, open) = merged(&taken_over, &back);
    assert_eq!(job["yard"]["obstacles"][0]["shape"]["height_m"], json!(9.5));
    assert_eq!(open, asked);
    // It goes through the document, too.
    let document = with_history(back.job(), back.history());
    let read = Held::from_document(&document, "x", &by("x", 1)).unwrap();
    assert_eq!(conflicts(&read), asked);
    // Where somebody who knew of the answer went on from it, there is nothing to take back.
    let on = edited(&taken_over, &by("laptop", 600), |job| {
        job["yard"]["obstacles"] = base.job()["yard"]["obstacles"].clone();
    });
    let on = out.merged(&on).unwrap();
    assert!(reopen(&on, &before, &by("phone", 400), &by("phone", 700)).is_err());
}

#[test]
fn a_mark_that_another_measured_from_comes_back_and_asks() {
    let base = made();
    let gone =
        edited(&base, &by("phone", 200), |job| drop(job["yard"]["marks"].as_array_mut().unwrap().pop()));
    let from_it = edited(&base, &by("laptop", 150), |job| {
        job["placement"]["mast"] =
            json!({ "by": "bearing_tape", "from": "B", "bearing_deg": 10.0, "tape_m": 3.0 });
    });
    let (job, open) = merged(&gone, &from_it);
    assert_eq!(job["yard"]["marks"][1]["id"], json!("B"));
    assert_eq!(job["yard"]["marks"][1]["at"]["tape_m"], json!(12.0));
    assert_eq!(open.len(), 1);
    assert_eq!(open[0].about, "Mark B “corner”");
    assert_eq!(open[0].asks, "One device took the mark out, another measured from it. Is it still there?");
    let who: Vec<(&str, u64)> = open[0].sides.iter().map(|it| (it.by.device.as_str(), it.by.at_ms)).collect();
    assert_eq!(who, [("phone", 200), ("laptop", 150)]);
    let why = &open[0].sides[1].says[0];
    assert_eq!((why.label.as_str(), why.value.as_str()), ("Measured from it", "Placement › mast"));
    assert!(mastwright_engine::job::read_job_value(&job).is_ok(), "it can be planned");
}

#[test]
fn settled_is_settled_on_every_device() {
    let base = made();
    let write =
        |who: &Stamp, deg: f64| edited(&base, who, |job| job["yard"]["slopes"][0]["slope_deg"] = json!(deg));
    let (phone, laptop) = (write(&by("phone", 200), 4.25), write(&by("laptop", 300), 5.5));
    let both = phone.merged(&laptop).unwrap();
    let place = conflicts(&both)[0].place.clone();
    for (side, shows) in [(0, 5.5), (1, 4.25)] {
        let settled = settle(&both, &place, Some(side), &by("phone", 210)).unwrap();
        assert_eq!(settled.job()["yard"]["slopes"][0]["slope_deg"], json!(shows));
        for before in [&both, &laptop, &phone] {
            let (job, open) = merged(&settled, before);
            assert_eq!((job["yard"]["slopes"][0]["slope_deg"].clone(), open.len()), (json!(shows), 0));
        }
    }
    let kept = settle(&both, &place, None, &by("phone", 210)).unwrap();
    let (job, open) = merged(&kept, &laptop);
    let degs: Vec<&Value> =
        job["yard"]["slopes"].as_array().unwrap().iter().map(|it| &it["slope_deg"]).collect();
    assert_eq!((degs, open.len()), (vec![&json!(5.5), &json!(4.25)], 0));
    assert!(mastwright_engine::job::read_job_value(&job).is_ok(), "each has an id of its own");
    assert_eq!(settle(&both, &place, Some(2), &by("phone", 9)).unwrap_err().errors[0].path, "/side");
    assert_eq!(settle(&both, "/name", Some(0), &by("phone", 9)).unwrap_err().errors[0].path, "/place");
}

#[test]
fn the_same_written_twice_is_no_conflict() {
    let base = made();
    let write = |who: &Stamp| edited(&base, who, |job| job["wind"]["ice_mm"] = json!(2.0));
    let (job, open) = merged(&write(&by("phone", 200)), &write(&by("laptop", 300)));
    assert_eq!((job["wind"]["ice_mm"].clone(), open.len()), (json!(2.0), 0));
}

fn entry(number: u32, taken_at: &str, name: &str, replaces: Option<u32>) -> Value {
    json!({ "number": number, "taken_at": taken_at, "who": "", "subject": { "kind": "mark", "id": "A" }, "name": name,
        "part": "at", "action": "read", "value": { "kind": "length", "length_m": 1.0, "sigma_m": null },
        "instrument": "typed", "captures": [], "replaces": replaces })
}

#[test]
fn both_logs_are_kept_in_the_order_of_their_times_and_still_refer_to_their_own() {
    let base = edited(&made(), &by("laptop", 110), |job| {
        job["log"] = json!([entry(1, "2026-05-01T10:00:00Z", "first", None)]);
    });
    let with = |who: &Stamp, more: Vec<Value>| {
        edited(&base, who, |job| job["log"].as_array_mut().unwrap().extend(more))
    };
    let phone = with(
        &by("phone", 200),
        vec![
            entry(2, "2026-05-01T12:00:00+02:00", "phone", None),
            entry(3, "2026-05-01T10:20:00Z", "phone again", Some(2)),
        ],
    );
    let laptop = with(
        &by("laptop", 200),
        vec![
            entry(2, "2026-05-01T10:10:00Z", "laptop", Some(1)),
            // The clock was set back between the two.
            entry(3, "2026-05-01T09:00:00Z", "laptop again", Some(2)),
        ],
    );
    let (job, _) = merged(&phone, &laptop);
    let said: Vec<(u64, &str, Option<u64>)> = job["log"]
        .as_array()
        .unwrap()
        .iter()
        .map(|it| (it["number"].as_u64().unwrap(), it["name"].as_str().unwrap(), it["replaces"].as_u64()))
        .collect();
    let expected = [
        (1, "first", None),
        (2, "phone", None),
        (3, "laptop", Some(1)),
        (4, "laptop again", Some(3)),
        (5, "phone again", Some(2)),
    ];
    assert_eq!(said, expected);
}

#[test]
fn a_job_changed_without_noting_it_asks_where_it_differs() {
    let base = made();
    let mut by_hand = base.job().clone();
    by_hand["wind"]["ice_mm"] = json!(7.0);
    let by_hand = Held::relied_on(Held::shape(&by_hand).unwrap(), base.history().clone());
    let (_, open) = merged(&base, &by_hand);
    let about: Vec<&str> = open.iter().map(|one| one.about.as_str()).collect();
    assert_eq!(about, ["Wind › ice"]);
}

#[test]
fn a_history_goes_with_its_job_through_a_file() {
    let phone = edited(&made(), &by("phone", 200), |job| job["yard"]["slopes"] = json!([]));
    let text = with_history(phone.job(), phone.history()).to_string();
    let document = mastwright_engine::job::Document::read(&text).unwrap_or_else(|errors| panic!("{errors}"));
    let again = Held::from_document(&document.value(), "x", &by("x", 1)).unwrap();
    assert_eq!(again, phone);
}

#[test]
fn states_are_compared_by_what_they_have_seen() {
    let base = made();
    let phone = edited(&base, &by("phone", 200), |job| job["wind"]["ice_mm"] = json!(1.0));
    let laptop = edited(&base, &by("laptop", 200), |job| job["wind"]["ice_mm"] = json!(2.0));
    let of = |here: &Held, there: &Held| compared(&seen(here.history()), &seen(there.history()));
    assert_eq!(of(&base, &base), Compared::Same);
    assert_eq!(of(&phone, &base), Compared::NewerHere);
    assert_eq!(of(&base, &phone), Compared::NewerThere);
    assert_eq!(of(&phone, &laptop), Compared::BothChanged);
}

fn seen(history: &History) -> Vec<Stamp> {
    history.seen.clone()
}

#[test]
fn an_answer_to_a_history_that_cannot_be_read_is_no_panic() {
    let base = made();
    let mut history = base.history().clone();
    history.places.push(mastwright_engine::job::PlaceHistory {
        place: "/yard/marks/@A/at".to_owned(),
        written: vec![mastwright_engine::job::Writing {
            first: None,
            by: by("x", 5),
            gone: false,
            json: Some("\"no fix\"".to_owned()),
        }],
    });
    let wrong = Held::relied_on(base.job().clone(), history.clone());
    assert!(wrong.merged(&base).is_err(), "a text is no fix");
    history.places[0].written[0].json = Some("{".to_owned());
    let unreadable = Held::relied_on(base.job().clone(), history);
    assert_eq!(unreadable.merged(&base).unwrap().job(), base.job());
}

/// Files without a history are told apart by what they hold: what came of merging two of them is no state of what came of
/// merging two others, and a place that only one of them has is still there after all are merged.
#[test]
fn merges_of_other_files_are_other_jobs() {
    let file = |name: &str, slopes: Value| {
        let mut job = made().job().clone();
        (job["name"], job["yard"]["slopes"]) = (json!(name), slopes);
        job
    };
    let one = merge_documents(
        [&file("Orchard", json!([slope("slope-1", 3.0)])), &file("Orchard", json!([slope("slope-1", 4.0)]))],
        None,
        ["a.json", "b.json"],
    )
    .unwrap();
    let other = merge_documents(
        [&file("Quay", json!([slope("slope-9", 1.0)])), &file("Quay", json!([]))],
        None,
        ["c.json", "d.json"],
    )
    .unwrap();
    assert_ne!(one.history.job, other.history.job);
    let devices = |answer: &MergeAnswer| -> Vec<String> {
        answer.history.seen.iter().map(|stamp| stamp.device.clone()).collect()
    };
    assert!(devices(&one).iter().all(|device| !devices(&other).contains(device)));
    // The same files the other way round are the same job.
    let [a, b] = [3.0, 4.0].map(|deg| file("Orchard", json!([slope("slope-1", deg)])));
    assert_eq!(merge_documents([&b, &a], None, ["b.json", "a.json"]).unwrap().history, one.history);
}

fn tube(name: &str, length_m: f64) -> Value {
    json!({ "name": name, "section": { "kind": "measured", "outside_mm": 48.0, "wall_mm": 3.0 }, "length_m": length_m,
        "overlap_m": 0.0, "joint": "telescoped", "pin_hole_mm": null, "yield_mpa": null })
}

fn with_tubes(held: &Held, who: &Stamp, tubes: Value) -> Held {
    edited(held, who, |job| job["rig"]["tubes"] = tubes)
}

/// Each tube as its name and length.
fn tubes_of(job: &Value) -> Vec<(String, f64)> {
    let tubes = job["rig"]["tubes"].as_array().unwrap();
    tubes
        .iter()
        .map(|it| (it["name"].as_str().unwrap().to_owned(), it["length_m"].as_f64().unwrap()))
        .collect()
}

fn named(tubes: &[(&str, f64)]) -> Vec<(String, f64)> {
    tubes.iter().map(|&(name, length_m)| (name.to_owned(), length_m)).collect()
}

#[test]
fn who_changes_one_tube_and_who_changes_another_are_not_asked() {
    let base =
        with_tubes(&made(), &by("laptop", 110), json!([tube("a", 3.0), tube("b", 3.0), tube("c", 3.0)]));
    let phone = with_tubes(&base, &by("phone", 200), json!([tube("a", 2.5), tube("b", 3.0), tube("c", 3.0)]));
    let laptop =
        with_tubes(&base, &by("laptop", 150), json!([tube("a", 3.0), tube("b", 3.0), tube("c", 2.0)]));
    let (job, open) = merged(&phone, &laptop);
    assert_eq!((tubes_of(&job), open.len()), (named(&[("a", 2.5), ("b", 3.0), ("c", 2.0)]), 0));
    // The same one: asked, by where it stands.
    let other =
        with_tubes(&base, &by("laptop", 150), json!([tube("a", 2.0), tube("b", 3.0), tube("c", 3.0)]));
    let (_, open) = merged(&phone, &other);
    let [one] = open.as_slice() else { panic!("{open:?}") };
    assert_eq!((one.about.as_str(), one.can_keep_both), ("Tube 1 “a”", false));
    let said: Vec<&str> = one.sides.iter().map(|side| side.says[0].value.as_str()).collect();
    assert_eq!(said, ["2.500 m", "2.000 m"]);
}

/// By its place in the list the tube at the top would have been taken for another one.
#[test]
fn a_tube_that_is_taken_out_shifts_no_writing_onto_its_neighbour() {
    let base =
        with_tubes(&made(), &by("laptop", 110), json!([tube("a", 3.0), tube("b", 3.0), tube("c", 3.0)]));
    let phone = with_tubes(&base, &by("phone", 200), json!([tube("b", 3.0), tube("c", 3.0)]));
    let laptop =
        with_tubes(&base, &by("laptop", 150), json!([tube("a", 3.0), tube("b", 3.0), tube("c", 2.0)]));
    let (job, open) = merged(&phone, &laptop);
    assert_eq!((tubes_of(&job), open.len()), (named(&[("b", 3.0), ("c", 2.0)]), 0));
    // Turned round and one more put in between: each is still itself.
    let turned = with_tubes(
        &base,
        &by("phone", 200),
        json!([tube("c", 3.0), tube("new", 1.0), tube("b", 3.0), tube("a", 3.0)]),
    );
    let (job, open) = merged(&turned, &laptop);
    assert_eq!((tubes_of(&job), open.len()), (named(&[("c", 2.0), ("new", 1.0), ("b", 3.0), ("a", 3.0)]), 0));
    // What one took out and the other changed is asked about, and stands where it stood.
    let shorter =
        with_tubes(&base, &by("laptop", 150), json!([tube("a", 2.0), tube("b", 3.0), tube("c", 3.0)]));
    let (job, open) = merged(&phone, &shorter);
    assert_eq!(tubes_of(&job), named(&[("a", 2.0), ("b", 3.0), ("c", 3.0)]));
    assert_eq!((open.len(), open[0].sides[0].is_gone), (1, true));
}

#[test]
fn a_height_and_a_place_of_one_tree_are_two_writings_and_its_kind_is_asked_about() {
    let base = made();
    let shape = |held: &Held, who: &Stamp, edit: fn(&mut Value)| {
        edited(held, who, |job| edit(&mut job["yard"]["obstacles"][0]["shape"]))
    };
    let phone = shape(&base, &by("phone", 200), |tree| {
        (tree["height_m"], tree["height_sigma_m"]) = (json!(9.5), json!(0.4));
    });
    let laptop = shape(&base, &by("laptop", 150), |tree| tree["at"]["east_m"] = json!(5.5));
    let (job, open) = merged(&phone, &laptop);
    let tree = &job["yard"]["obstacles"][0]["shape"];
    assert_eq!((&tree["height_m"], &tree["at"]["east_m"], open.len()), (&json!(9.5), &json!(5.5), 0));
    // A height and how sure it is are one reading.
    let other = shape(&base, &by("laptop", 150), |tree| tree["height_m"] = json!(9.0));
    let (job, open) = merged(&phone, &other);
    assert_eq!(open[0].about, "Thing in the yard “Oak”: height");
    let tree = &job["yard"]["obstacles"][0]["shape"];
    assert_eq!((&tree["height_m"], &tree["height_sigma_m"]), (&json!(9.5), &json!(0.4)));
    // Who makes it a post takes no height from who sighted the tree.
    let post = shape(&base, &by("laptop", 300), |tree| {
        *tree = json!({ "kind": "post", "at": tree["at"], "radius_m": 0.1, "height_m": 8.0 });
    });
    let both = phone.merged(&post).unwrap();
    let open = conflicts(&both);
    let [one] = open.as_slice() else { panic!("{open:?}") };
    assert_eq!(one.about, "Thing in the yard “Oak”: shape");
    let said: Vec<&str> = one.sides.iter().map(|side| side.says[0].value.as_str()).collect();
    assert_eq!(said, ["post", "tree"]);
    let settled = settle(&both, &one.place, Some(1), &by("phone", 400)).unwrap();
    assert_eq!(settled.job()["yard"]["obstacles"][0]["shape"]["height_m"], json!(9.5));
    assert!(conflicts(&settled).is_empty());
}

/// A history from before the keys names the tubes and a thing's shape as wholes.
#[test]
fn a_history_from_before_the_keys_is_read_part_by_part() {
    let base = made();
    let whole = |place: &str, written: Vec<(Stamp, Option<Value>)>| mastwright_engine::job::PlaceHistory {
        place: place.to_owned(),
        written: written
            .into_iter()
            .map(|(by, is)| mastwright_engine::job::Writing {
                by,
                first: None,
                gone: false,
                json: is.map(|is| is.to_string()),
            })
            .collect(),
    };
    let old = |held: &Held, places: Vec<mastwright_engine::job::PlaceHistory>| {
        let (job, mut history) = held.clone().into_parts();
        (history.places, history.keys) = (places, vec![]);
        Held::of(job, history).unwrap()
    };
    // The phone wrote the tubes and the tree's height, and notes it as it was noted then.
    let phone = edited(&base, &by("phone", 200), |job| {
        job["rig"]["tubes"][0]["length_m"] = json!(2.75);
        job["yard"]["obstacles"][0]["shape"]["height_m"] = json!(9.5);
    });
    let at_200 = || vec![(by("phone", 200), None)];
    let shape = "/yard/obstacles/@tree/shape";
    let phone = old(&phone, vec![whole("/rig/tubes", at_200()), whole(shape, at_200())]);
    let laptop = old(
        &edited(&base, &by("laptop", 150), |job| job["notes"] = json!("x")),
        vec![whole("/notes", vec![(by("laptop", 150), None)])],
    );
    let (job, open) = merged(&phone, &laptop);
    assert_eq!(job["rig"]["tubes"][0]["length_m"], json!(2.75));
    assert_eq!(job["yard"]["obstacles"][0]["shape"]["height_m"], json!(9.5));
    assert_eq!((&job["notes"], open.len()), (&json!("x"), 0), "{open:?}");
    // An open conflict of two whole lists is one of the tubes that differ.
    let mut tubes = phone.job()["rig"]["tubes"].clone();
    tubes[0]["length_m"] = json!(2.25);
    let torn = vec![(by("laptop", 150), Some(tubes)), (by("phone", 200), None)];
    let (_, open) = merged(&old(&phone, vec![whole("/rig/tubes", torn), whole(shape, at_200())]), &phone);
    let about: Vec<&str> = open.iter().map(|one| one.place.as_str()).collect();
    assert_eq!(about, ["/rig/tubes/@0"]);
}
