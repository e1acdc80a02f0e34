//! The printed PDF as another reader sees it: its rulers are as long as they say, the map's scale is true, its words can be
//! selected, its fonts go with it.

use mastwright_engine::cards::deck;
use mastwright_engine::demo;
use mastwright_engine::drawing::sheet::{SheetSet, Wanted};
use mastwright_engine::drawing::{Paper, sheets};
use mastwright_engine::job::{Job, SeasonLesson};
use mastwright_engine::judge::judged;
use mastwright_engine::pegging;
use mastwright_engine::plan::{self, Computed};
use mastwright_engine::quantity::UnitSystem;
use mastwright_engine::report::cards;
use mastwright_paper::pdf;

use crate::pdf_reader::{self, PageShown, Stroked};
use crate::yardstick::yardstick;

pub fn job(system: UnitSystem) -> (Job, Computed) {
    let mut job = yardstick();
    job.units.system = system;
    let computed = judged(&job).expect("the yardstick can be placed");
    (job, computed)
}

fn printed(system: UnitSystem, paper: Paper) -> Vec<PageShown> {
    let (job, computed) = job(system);
    let bytes = pdf(&sheets(&job, &computed, &Wanted::on(paper))).expect("a PDF");
    pdf_reader::pages(&pdf_reader::read(&bytes))
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (b[0] - a[0]).hypot(b[1] - a[1])
}

/// Width and height of a line.
fn size(line: &Stroked) -> [f64; 2] {
    [0, 1].map(|axis| {
        let places = || line.points.iter().map(|at| at[axis]);
        places().fold(f64::NEG_INFINITY, f64::max) - places().fold(f64::INFINITY, f64::min)
    })
}

/// How long the words beside a ruler say it is.
fn said_mm(words: &str) -> Option<f64> {
    let said = words.strip_prefix("Check: ")?.split(" long").next()?;
    let (number, unit) = said.split_once(' ')?;
    Some(number.parse::<f64>().ok()? * if unit == "in" { 25.4 } else { 1.0 })
}

/// Words of one line, whichever pieces the file has them in.
fn whole(page: &PageShown) -> Vec<(String, [f64; 2])> {
    let mut lines: Vec<(String, [f64; 2], f64)> = Vec::new();
    for run in &page.words {
        match lines.last_mut() {
            Some((words, from, length))
                if (distance(*from, run.from) - *length).abs() < 0.02 && *length > 0.0 =>
            {
                *words += &run.words;
                *length += run.length_mm;
            }
            _ => lines.push((run.words.clone(), run.from, run.length_mm)),
        }
    }
    lines.into_iter().map(|(words, from, _)| (words, from)).collect()
}

/// Within a micrometre or so: a hundredth of what the eye sees on a steel rule.
#[test]
fn every_ruler_is_exactly_as_long_as_it_says() {
    for (system, paper) in [
        (UnitSystem::Metric, Paper::A4),
        (UnitSystem::Imperial, Paper::Letter),
        (UnitSystem::Metric, Paper::A3),
        (UnitSystem::Imperial, Paper::Tabloid),
    ] {
        let mut seen = 0;
        for page in printed(system, paper).into_iter().chain(workshop(system, paper)) {
            for (words, at) in whole(&page) {
                let Some(said) = said_mm(&words) else { continue };
                // The line next to the words that has a ruler's ticks: a corner of it is within 6 mm of them.
                let near = |line: &&Stroked| {
                    line.points.len() > 6 && line.points.iter().any(|point| distance(*point, at) < 6.0)
                };
                let longest = |line: &Stroked| size(line).into_iter().fold(0.0, f64::max);
                let ruler = page.strokes.iter().filter(near).map(longest).find(|mm| (mm - said).abs() < 5.0);
                let length = ruler.unwrap_or_else(|| panic!("no ruler beside {words:?} at {at:?}"));
                assert!((length - said).abs() < 0.002, "{words}: {length} mm");
                seen += 1;
            }
        }
        assert!(seen >= 3, "{paper:?}: {seen} rulers: one under the map and two on each template");
    }
}

/// The workshop's sheets of the demo, whose tubes have pins.
fn workshop(system: UnitSystem, paper: Paper) -> Vec<PageShown> {
    let mut job = demo::lantern_green();
    job.units.system = system;
    workshop_of(&job, paper)
}

fn workshop_of(job: &Job, paper: Paper) -> Vec<PageShown> {
    let computed = judged(job).expect("it can be placed");
    let wanted = Wanted { set: SheetSet::Workshop, ..Wanted::on(paper) };
    let bytes = pdf(&sheets(job, &computed, &wanted)).expect("a PDF");
    pdf_reader::pages(&pdf_reader::read(&bytes))
}

/// By calliper, as the demo's tubes are: 48.4 and 48.2 mm, so 48.3 and 151.739 mm round, from seam to seam; the holes of a pair lie half of it
/// apart. 38.4 and 38.3: 120.480 mm. One of 39.5 by its one reading 124.093 mm, whatever its list says (ANSI C80.3, 1-1/4: 1.510 in, 120.49 mm);
/// read by nobody it is as long as that. The rulers of these pages are measured above.
#[test]
fn strips_are_as_long_as_their_tubes_are_round() {
    let pages = workshop(UnitSystem::Imperial, Paper::Letter);
    let read = |reading: Option<f64>| {
        let mut job = demo::lantern_green();
        let calliper = &mut job.rig.tubes[1].calliper;
        (calliper.outside_mm, calliper.outside_across_mm) = (reading, None);
        workshop_of(&job, Paper::Letter)
    };
    let (thick, unread) = (read(Some(39.5)), read(None));
    let says = |pages: &[PageShown], what: &str| {
        let text = |page: &PageShown| {
            whole(page).iter().map(|(words, _)| words.as_str()).collect::<Vec<_>>().join(" ")
        };
        pages.iter().any(|page| text(page).contains(what))
    };
    assert!(says(&unread, "by its table: measure") && !says(&pages, "by its table"));
    for (pages, tube, round_mm) in [
        (&pages, "Lower tube, upper end", 151.739),
        (&pages, "Middle tube, lower end", 120.480),
        (&thick, "Middle tube, lower end", 124.093),
        (&unread, "Middle tube, lower end", 120.487),
    ] {
        let of = |page: &&PageShown| {
            whole(page).iter().any(|(words, _)| words.contains(tube) && words.contains("Strip"))
        };
        let page = pages.iter().find(of).unwrap_or_else(|| panic!("{tube} has a strip"));
        let upright = page.strokes.iter().filter(|line| {
            let [w, h] = size(line);
            w < 0.01 && (h - 50.0).abs() < 0.01
        });
        let at: Vec<f64> = upright.map(|line| line.points[0][0]).collect();
        assert_eq!(at.len(), 2, "{tube}: two seams");
        assert!(((at[1] - at[0]).abs() - round_mm).abs() < 0.3, "{tube}: {at:?}");
    }
    assert!(pages.len() >= 10, "{} pages", pages.len());
}

/// The scale is measured, not read: control marks lie on the paper as far from each other as in the yard, 1 : the
/// denominator that the words have.
#[test]
fn the_map_is_true_to_the_scale_it_names() {
    for (system, paper) in [(UnitSystem::Metric, Paper::A4), (UnitSystem::Imperial, Paper::Letter)] {
        let (_, computed) = job(system);
        let page = &printed(system, paper)[0];
        let scale =
            whole(page).into_iter().find_map(|(words, _)| words.strip_prefix("Scale ").map(str::to_owned));
        let scale = scale.expect("a scale");
        let denominator: f64 = scale.rsplit("1:").next().unwrap().trim_end_matches(')').parse().unwrap();
        // Guys run from the mast to their anchors: lines of two points of exactly these lengths and directions.
        let mut found = 0;
        for guy in &computed.plan.guys {
            let on_paper =
                [guy.east_m - guy.attach[0], guy.attach[1] - guy.north_m].map(|m| 1000.0 * m / denominator);
            found += usize::from(page.strokes.iter().any(|line| {
                let [a, b] = line.points[..] else { return false };
                let off = |from: [f64; 2], to: [f64; 2]| {
                    distance([to[0] - from[0], to[1] - from[1]], on_paper) < 0.003
                };
                off(a, b) || off(b, a)
            }));
        }
        assert!(found >= 3 && found == computed.plan.guys.len(), "{found} guys at {scale}");
    }
}

#[test]
fn pages_are_of_the_paper_s_size() {
    // Points by hand: A4 210 mm × 72 / 25.4 = 595.276, 297 mm → 841.890; Letter 8.5 in × 72 = 612, 11 in → 792.
    let by_hand = [
        (Paper::A4, [595.276, 841.890]),
        (Paper::A3, [841.890, 1190.551]),
        (Paper::Letter, [612.0, 792.0]),
        (Paper::Tabloid, [792.0, 1224.0]),
    ];
    for (paper, [short, long]) in by_hand {
        for page in printed(UnitSystem::Metric, paper) {
            let mut points = page.size_mm.map(|mm| mm * 72.0 / 25.4);
            points.sort_by(f64::total_cmp);
            assert!(
                (points[0] - short).abs() < 0.002 && (points[1] - long).abs() < 0.002,
                "{paper:?}: {points:?}"
            );
        }
    }
}

#[test]
fn its_words_can_be_selected_and_found() {
    let (job, computed) = job(UnitSystem::Metric);
    let bytes = pdf(&sheets(&job, &computed, &Wanted::on(Paper::A4))).unwrap();
    let pdf = pdf_reader::read(&bytes);
    let all: Vec<u32> = pdf.get_pages().into_keys().collect();
    // By the reader's own way, not by ours.
    let text = pdf.extract_text(&all).expect("text");
    let flat: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains(&job.name), "{flat}");
    assert!(flat.contains("Power lines") && flat.contains("Page 1 of"), "{flat}");
    for guy in &computed.plan.guys {
        assert!(flat.contains(&guy.name), "{}", guy.name);
    }
    // A word with a rim stands in it once.
    let first = pdf.extract_text(&[1]).unwrap();
    assert_eq!(first.matches("Scale 1:").count(), 1);
}

#[test]
fn its_fonts_go_with_it_and_hold_only_the_letters_used() {
    let (job, computed) = job(UnitSystem::Imperial);
    let bytes = pdf(&sheets(&job, &computed, &Wanted::on(Paper::Letter))).unwrap();
    let pdf = pdf_reader::read(&bytes);
    let mut names = Vec::new();
    for object in pdf.objects.values() {
        let Ok(font) = object.as_dict() else { continue };
        if font.get(b"Type").and_then(|kind| kind.as_name()).ok() != Some(b"FontDescriptor") {
            continue;
        }
        let name = String::from_utf8_lossy(font.get(b"FontName").unwrap().as_name().unwrap()).into_owned();
        // ISO 32000-1, 9.6.4: six capitals and a plus say that it is a subset.
        let (tag, own) = name.split_once('+').expect("a subset");
        assert!(tag.len() == 6 && tag.chars().all(|c| c.is_ascii_uppercase()), "{name}");
        let file = font.get(b"FontFile2").or(font.get(b"FontFile3")).expect("a font file in the PDF");
        let file = pdf.get_object(file.as_reference().unwrap()).unwrap().as_stream().unwrap();
        // The whole font has 342 kB.
        assert!(file.content.len() < 60_000, "{name}: {} bytes", file.content.len());
        names.push(own.to_owned());
    }
    names.sort();
    assert_eq!(names, ["Inter-Bold", "Inter-Regular"]);
}

#[test]
fn it_says_what_it_is_of_whom_and_from_when_and_has_a_bookmark_a_page() {
    let (job, computed) = job(UnitSystem::Metric);
    let mut wanted = Wanted::on(Paper::A4);
    wanted.about.author = Some("A. Builder".into());
    wanted.about.made_at = Some("2026-11-26T14:20:30+05:30".parse().unwrap());
    let document = sheets(&job, &computed, &wanted);
    let bytes = pdf(&document).unwrap();
    assert!(bytes == pdf(&document).unwrap(), "the same bytes again");
    let pdf = pdf_reader::read(&bytes);
    let info = pdf.get_dictionary(pdf.trailer.get(b"Info").unwrap().as_reference().unwrap()).unwrap();
    let said = |key: &[u8]| lopdf::decode_text_string(info.get(key).unwrap()).unwrap();
    assert!(said(b"Title").contains(&job.name));
    assert_eq!(said(b"Author"), "A. Builder");
    assert!(said(b"CreationDate").starts_with("D:20261126142030+05'30"), "{}", said(b"CreationDate"));
    let marks = pdf.get_toc().expect("bookmarks").toc;
    let titles: Vec<&str> = marks.iter().map(|mark| mark.title.as_str()).collect();
    let names: Vec<&str> = document.pages.iter().map(|page| page.name.as_str()).collect();
    assert_eq!(titles, names);
    assert_eq!(marks.iter().map(|mark| mark.page).collect::<Vec<_>>(), (1..=names.len()).collect::<Vec<_>>());
}

/// The half-lap on paper is as large as the timbers are: its shaded part as long as a timber is wide, as high as that and two
/// cuts of half the depth.
#[test]
fn the_half_lap_is_printed_at_full_size() {
    for (system, paper) in [(UnitSystem::Metric, Paper::A4), (UnitSystem::Imperial, Paper::Letter)] {
        let (mut job, computed) = job(system);
        job.rig.base.lap_depth_mm = None;
        let base = &job.rig.base;
        let by_hand = [base.timber_width_mm, base.timber_width_mm + base.timber_depth_mm];
        let bytes = pdf(&sheets(&job, &computed, &Wanted::on(paper))).unwrap();
        let pages = pdf_reader::pages(&pdf_reader::read(&bytes));
        let of_lap: Vec<&PageShown> = pages
            .iter()
            .filter(|page| whole(page).iter().any(|(words, _)| words.starts_with("Half-lap under the mast")))
            .collect();
        assert!(!of_lap.is_empty());
        for page in of_lap {
            let is_cut = |line: &&Stroked| {
                size(line).iter().zip(by_hand).all(|(on_paper, by_hand)| (on_paper - by_hand).abs() < 0.002)
            };
            assert!(page.strokes.iter().any(|line| is_cut(&line)), "{by_hand:?}");
        }
    }
}

/// A tag of the PDF with its words for those who can't see it, and its tags below.
struct Tagged {
    is: String,
    alt: Option<String>,
    below: Vec<Tagged>,
}

impl Tagged {
    fn read(pdf: &lopdf::Document, object: &lopdf::Object) -> Option<Self> {
        let (_, object) = pdf.dereference(object).ok()?;
        let own = object.as_dict().ok()?;
        let is = String::from_utf8_lossy(own.get(b"S").ok()?.as_name().ok()?).into_owned();
        let alt = own.get(b"Alt").ok().map(|alt| lopdf::decode_text_string(alt).unwrap());
        let below = own.get(b"K").map(|below| Self::all(pdf, below)).unwrap_or_default();
        Some(Self { is, alt, below })
    }

    fn all(pdf: &lopdf::Document, objects: &lopdf::Object) -> Vec<Self> {
        let objects = pdf.dereference(objects).map_or(objects, |(_, object)| object);
        match objects.as_array() {
            Ok(several) => several.iter().filter_map(|one| Self::read(pdf, one)).collect(),
            Err(_) => Self::read(pdf, objects).into_iter().collect(),
        }
    }

    fn each<'a>(tags: &'a [Self], is: &str, found: &mut Vec<&'a Self>) {
        for tag in tags {
            if tag.is == is {
                found.push(tag);
            }
            Self::each(&tag.below, is, found);
        }
    }
}

/// As a screen reader finds it (ISO 32000-1, 14.7 and 14.8), by another library's eyes: language, a heading a page, pictures in
/// words, tables whose rows have a cell for every column.
#[test]
fn it_tells_those_who_hear_it_what_is_what() {
    let (job, computed) = job(UnitSystem::Metric);
    let document = sheets(&job, &computed, &Wanted::on(Paper::A4));
    let pdf = pdf_reader::read(&pdf(&document).unwrap());
    let catalog = pdf.catalog().unwrap();
    assert_eq!(lopdf::decode_text_string(catalog.get(b"Lang").unwrap()).unwrap(), "en");
    assert!(claims_pdf_ua(&pdf));
    let (_, marked) = pdf.dereference(catalog.get(b"MarkInfo").unwrap()).unwrap();
    assert!(marked.as_dict().unwrap().get(b"Marked").unwrap().as_bool().unwrap());
    let (_, root) = pdf.dereference(catalog.get(b"StructTreeRoot").unwrap()).unwrap();
    let tags = Tagged::all(&pdf, root.as_dict().unwrap().get(b"K").unwrap());
    let of = |is: &str| {
        let mut found = Vec::new();
        Tagged::each(&tags, is, &mut found);
        found
    };
    assert_eq!(of("Sect").len(), document.pages.len());
    assert!(of("Sect").iter().all(|page| page.below[0].is == "H1"), "each begins with its heading");
    assert_eq!(of("H1").len(), document.pages.len());
    assert!(of("H2").len() >= 5, "{}", of("H2").len());
    let pictures = of("Figure");
    let steps = computed.plan.base.legs.len();
    assert!(pictures.len() > steps, "{} pictures", pictures.len());
    assert!(pictures.iter().all(|picture| picture.alt.as_ref().is_some_and(|alt| alt.len() > 15)));
    assert!(pictures.iter().any(|picture| picture.alt == Some(document.pages[0].description.clone())));
    let mut told = 0;
    for table in of("Table") {
        let mut rows = Vec::new();
        Tagged::each(&table.below, "TR", &mut rows);
        let (heads, cells): (Vec<&&Tagged>, Vec<_>) = rows.iter().partition(|row| row.below[0].is == "TH");
        assert_eq!(heads.len(), 1, "a head over each part of a table");
        assert!(cells.iter().all(|row| row.below.len() == heads[0].below.len()));
        told += cells.len();
    }
    let surveyed = plan::survey(&job.yard, job.units).unwrap();
    let guide = pegging::guide(&surveyed, &plan::FixedPoints::of(&surveyed, &job), &job, &computed);
    assert_eq!(told, computed.plan.pegs.len() + guide.steps.len() + guide.checks.len());
    assert!(of("P").len() > 10);
}

/// Whether it says that it is PDF/UA-1, and has the viewer show its title (ISO 14289-1, 5 and 7.1).
fn claims_pdf_ua(pdf: &lopdf::Document) -> bool {
    let catalog = pdf.catalog().unwrap();
    let (_, metadata) = pdf.dereference(catalog.get(b"Metadata").unwrap()).unwrap();
    let xmp = metadata.as_stream().unwrap().get_plain_content().unwrap();
    let says = String::from_utf8_lossy(&xmp).contains("<pdfuaid:part>1</pdfuaid:part>");
    let preferences = catalog.get(b"ViewerPreferences").ok().map(|it| pdf.dereference(it).unwrap().1);
    let shown = preferences.and_then(|it| it.as_dict().unwrap().get(b"DisplayDocTitle").ok());
    says && shown.is_some_and(|shown| shown.as_bool().unwrap())
}

/// A letter that the fonts lack is named on the paper; Polish, Greek and Cyrillic ones are there.
#[test]
fn letters_that_the_fonts_lack_are_named() {
    let (mut job, computed) = job(UnitSystem::Metric);
    let text = |job: &Job| {
        let bytes = pdf(&sheets(job, &computed, &Wanted::on(Paper::A4))).unwrap();
        let pdf = pdf_reader::read(&bytes);
        let all: Vec<u32> = pdf.get_pages().into_keys().collect();
        // What has a letter that nobody can read out is no PDF/UA, and does not say so.
        assert_eq!(claims_pdf_ua(&pdf), job.name.starts_with('Ł'));
        pdf.extract_text(&all).unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
    };
    job.name = "Łąka, Αυλή, Двір".into();
    let fine = text(&job);
    assert!(fine.contains("Łąka, Αυλή, Двір") && !fine.contains("U+"), "{fine}");
    job.name = "竹竿 🎄".into();
    let named = text(&job);
    assert!(["U+7AF9", "U+7AFF", "U+1F384"].iter().all(|letter| named.contains(letter)), "{named}");
}

/// The words of the day's sheets of a job, in the order in which they stand.
fn day_words(job: &Job, paper: Paper) -> String {
    let computed = judged(job).expect("it can be placed");
    let wanted = Wanted { set: SheetSet::Day, ..Wanted::on(paper) };
    let pages = pdf_reader::pages(&pdf_reader::read(&pdf(&sheets(job, &computed, &wanted)).expect("a PDF")));
    let text: Vec<String> = pages.iter().flat_map(whole).map(|(words, _)| words).collect();
    text.join(" ")
}

/// Where the phone is dead the paper has to do: every further number of every card stands on it, at the crank the mark at which it stops, its
/// turns and the hand's force, and of every guy that is made fast its own length; up and down, on either paper.
#[test]
fn every_number_of_every_card_is_on_paper() {
    for (system, paper, comes_down) in
        [(UnitSystem::Metric, Paper::A4, false), (UnitSystem::Imperial, Paper::Letter, true)]
    {
        let mut job = demo::lantern_green();
        job.units.system = system;
        job.cards.change(|it| it.comes_down = comes_down);
        let text = day_words(&job, paper);
        let computed = judged(&job).expect("it can be placed");
        let report = cards(&job, &deck(&job, &computed).expect("every section is known"));
        let mut kinds = [0; 4];
        for card in &report.cards {
            for more in &card.more {
                let said = format!("{}: {}", more.number, more.is);
                assert!(text.contains(&said), "{}: {said}", card.title);
                let asked =
                    ["the mark at which", "turns of the crank", "hand on the crank", "from eye to collar"];
                for (kind, asked) in kinds.iter_mut().zip(asked) {
                    *kind += usize::from(more.is.contains(asked) && more.number != "not known yet");
                }
            }
        }
        // Each of the demo's two tubes is cranked, the stop mark on the last pull of each.
        assert!(comes_down || kinds.iter().all(|kind| *kind >= 2), "{kinds:?}");
    }
}

/// A note stands on paper once beside the card that it names and once before its part of the day, as on the screen.
#[test]
fn last_time_s_notes_are_on_the_printed_cards() {
    let mut job = demo::lantern_green();
    let before = job.season.lessons.len();
    let note = |id: &str, card: &str, text: &str| SeasonLesson {
        id: id.to_owned(),
        card: card.to_owned(),
        text: text.to_owned(),
        noted_at: "2027-01-09T11:00:00-05:00".parse().expect("a date"),
    };
    let noted = [note("n1", "raise:walk-up", "Sandals slip."), note("n2", "raise", "Begin before noon.")];
    job.season.change(|it| it.lessons.extend(noted));
    assert_eq!(job.season.lessons.len(), before + 2);
    let text = day_words(&job, Paper::A4);
    for noted in ["Noted before: Sandals slip. (2027-01-09)", "Noted before: Begin before noon. (2027-01-09)"]
    {
        assert_eq!(text.matches(noted).count(), 1, "{noted}");
    }
}
