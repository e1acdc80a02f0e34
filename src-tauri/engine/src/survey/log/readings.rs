//! Every reading of a job.

use super::ReadingKey;
use crate::finding::Subject;
use crate::job::{
    BuriedService, Job, LightLead, Logged, Mark, Measurement, Obstacle, OverheadLine, PegTape, PointFix,
    Shape, SlopeReading, SpotHeight,
};
use crate::pointer;

/// A reading as the job has it.
#[derive(Debug, Clone, PartialEq)]
pub struct LoggedReading {
    pub key: ReadingKey,
    /// What the thing is called.
    pub name: String,
    /// JSON pointer of the value, or of the group of values, in the job.
    pub path: String,
    pub value: Logged,
    pub struck: bool,
}

/// The readings of a job in the order of the document. What is chosen (where the mast goes, distances to keep)
/// is no reading.
pub fn readings(job: &Job) -> Vec<LoggedReading> {
    let yard = &job.yard;
    let mut all = List::default();
    each(&yard.marks, pointer!(yard.marks), &mut all, mark);
    each(&yard.measurements, pointer!(yard.measurements), &mut all, measurement);
    each(&yard.slopes, pointer!(yard.slopes), &mut all, slope);
    each(&yard.spot_heights, pointer!(yard.spot_heights), &mut all, spot);
    each(&yard.obstacles, pointer!(yard.obstacles), &mut all, obstacle);
    if let Some(boundary) = &yard.boundary {
        let thing = Thing::new(Subject::Boundary, "Boundary", pointer!(yard.boundary));
        all.take(thing.reading("outline", points(&boundary.outline)));
    }
    each(&yard.overhead_lines, pointer!(yard.overhead_lines), &mut all, overhead);
    each(&yard.buried_services, pointer!(yard.buried_services), &mut all, buried);
    each(&job.pegging.tapes, pointer!(pegging.tapes), &mut all, check_tape);
    as_built(job, &mut all);
    lead(&job.lights.lead, &mut all);
    all.0
}

#[derive(Default)]
struct List(Vec<LoggedReading>);

impl List {
    fn take(&mut self, reading: LoggedReading) {
        self.0.push(reading);
    }
}

fn each<T>(things: &[T], list: &str, all: &mut List, of: fn(&T, String, &mut List)) {
    for (index, thing) in things.iter().enumerate() {
        of(thing, format!("{list}/{index}"), all);
    }
}

/// A thing that readings are of.
struct Thing {
    subject: Subject,
    name: String,
    path: String,
    struck: bool,
}

impl Thing {
    fn new(subject: Subject, name: impl Into<String>, path: impl Into<String>) -> Self {
        Self { subject, name: name.into(), path: path.into(), struck: false }
    }

    fn reading(&self, part: &str, value: Logged) -> LoggedReading {
        LoggedReading {
            key: ReadingKey { subject: self.subject.clone(), part: part.to_owned() },
            name: self.name.clone(),
            path: format!("{}/{part}", self.path),
            value,
            struck: self.struck,
        }
    }

    /// A reading whose values are the thing itself.
    fn whole(&self, part: &str, value: Logged) -> LoggedReading {
        LoggedReading { path: self.path.clone(), ..self.reading(part, value) }
    }

    fn length(&self, part: &str, length_m: f64) -> LoggedReading {
        self.sighted(part, length_m, None)
    }

    fn sighted(&self, part: &str, length_m: f64, sigma_m: Option<f64>) -> LoggedReading {
        self.reading(part, Logged::Length { length_m, sigma_m })
    }
}

fn points(fixes: &[PointFix]) -> Logged {
    Logged::Points { at: fixes.to_vec() }
}

fn point(fix: &PointFix) -> Logged {
    Logged::Point { at: fix.clone() }
}

fn mark(mark: &Mark, path: String, all: &mut List) {
    // The origin is where everything is measured from: nobody reads it.
    if mark.at != PointFix::Origin {
        let name = if mark.name.is_empty() { "Mark" } else { &mark.name };
        let subject = Subject::Mark { id: mark.id.clone() };
        all.take(Thing::new(subject, format!("{name} ({})", mark.id), path).reading("at", point(&mark.at)));
    }
}

fn measurement(measurement: &Measurement, path: String, all: &mut List) {
    let (id, name, part, value, struck) = match measurement.clone() {
        Measurement::Tape { id, from, to, tape_m, struck } => {
            (id, format!("{from} to {to}"), "tape", Logged::Tape { from, to, tape_m }, struck)
        }
        Measurement::Bearing { id, from, to, bearing_deg, struck } => {
            (id, format!("{from} to {to}"), "bearing", Logged::Bearing { from, to, bearing_deg }, struck)
        }
    };
    let thing = Thing { struck, ..Thing::new(Subject::Reading { id }, name, path) };
    all.take(thing.whole(part, value));
}

fn slope(slope: &SlopeReading, path: String, all: &mut List) {
    let subject = Subject::Reading { id: slope.id.clone() };
    let thing = Thing { struck: slope.struck, ..Thing::new(subject, "Slope of the ground", path) };
    let &SlopeReading { bearing_deg, slope_deg, sigma_deg, .. } = slope;
    all.take(thing.whole("slope", Logged::Slope { bearing_deg, slope_deg, sigma_deg }));
}

fn spot(spot: &SpotHeight, path: String, all: &mut List) {
    let subject = Subject::Reading { id: spot.id.clone() };
    let thing = Thing { struck: spot.struck, ..Thing::new(subject, "Spot height", path) };
    all.take(thing.reading("at", point(&spot.at)));
    let &SpotHeight { height_m, sigma_m, .. } = spot;
    all.take(thing.reading("height_m", Logged::SpotHeight { height_m, sigma_m }));
}

fn obstacle(obstacle: &Obstacle, path: String, all: &mut List) {
    let (what, place, lengths): (&str, (&str, Logged), Vec<(&str, f64)>) = match &obstacle.shape {
        Shape::Tree { at, trunk_radius_m, crown_radius_m, crown_base_m, height_m, height_sigma_m: _ } => (
            "Tree",
            ("shape/at", point(at)),
            vec![
                ("shape/height_m", *height_m),
                ("shape/crown_base_m", *crown_base_m),
                ("shape/crown_radius_m", *crown_radius_m),
                ("shape/trunk_radius_m", *trunk_radius_m),
            ],
        ),
        Shape::Building { outline, height_m, height_sigma_m: _ } => {
            ("Building", ("shape/outline", points(outline)), vec![("shape/height_m", *height_m)])
        }
        Shape::Barrier { line, thickness_m, height_m, .. } => (
            "Hedge, wall or fence",
            ("shape/line", points(line)),
            vec![("shape/height_m", *height_m), ("shape/thickness_m", *thickness_m)],
        ),
        Shape::Post { at, radius_m, height_m, height_sigma_m: _ } => (
            "Post",
            ("shape/at", point(at)),
            vec![("shape/height_m", *height_m), ("shape/radius_m", *radius_m)],
        ),
        Shape::Path { line, width_m, .. } => {
            ("Path or drive", ("shape/line", points(line)), vec![("shape/width_m", *width_m)])
        }
        Shape::KeepOff { outline } => ("Ground to stay off", ("shape/outline", points(outline)), vec![]),
    };
    let thing = Thing::new(Subject::Obstacle { id: obstacle.id.clone() }, named(&obstacle.name, what), path);
    let (part, value) = place;
    all.take(thing.reading(part, value));
    let sigma_m = Some(obstacle.shape.height_sigma_m()).filter(|sigma_m| *sigma_m > 0.0);
    for (part, length_m) in lengths {
        all.take(thing.sighted(part, length_m, sigma_m.filter(|_| part == "shape/height_m")));
    }
}

fn overhead(line: &OverheadLine, path: String, all: &mut List) {
    let subject = Subject::OverheadLine { id: line.id.clone() };
    let thing = Thing::new(subject, named(&line.name, "Line overhead"), path);
    let at = line.supports.iter().map(|support| support.at.clone()).collect();
    let lengths_m = line.supports.iter().map(|support| support.wire_height_m).collect();
    all.take(thing.reading("supports", Logged::Points { at }));
    all.take(LoggedReading {
        path: pointer!(in thing.path, OverheadLine: supports),
        ..thing.reading("wire_heights", Logged::Lengths { lengths_m })
    });
    all.take(thing.length("sag_m", line.sag_m));
}

fn buried(service: &BuriedService, path: String, all: &mut List) {
    let subject = Subject::BuriedService { id: service.id.clone() };
    let thing = Thing::new(subject, named(&service.name, "Underground"), path);
    all.take(thing.reading("line", points(&service.line)));
}

fn check_tape(tape: &PegTape, path: String, all: &mut List) {
    let PegTape { id, from, to, tape_m } = tape.clone();
    let thing = Thing::new(Subject::Reading { id }, format!("{from} to {to}"), path);
    all.take(thing.whole("tape", Logged::Tape { from, to, tape_m }));
}

/// The outlet of the lights' lead and its bends; empty before anybody has measured one.
fn lead(lead: &LightLead, all: &mut List) {
    let thing = Thing::new(Subject::Job, "Lead of the lights", pointer!(lights.lead));
    if !lead.way.is_empty() {
        all.take(thing.reading("way", points(&lead.way)));
    }
    if let Some(height_m) = lead.outlet_height_m {
        all.take(thing.length("outlet_height_m", height_m));
    }
}

fn as_built(job: &Job, all: &mut List) {
    let Some(built) = &job.as_built else { return };
    let mast = Thing::new(Subject::Mast, "Mast as it stands", pointer!(as_built));
    if let Some(at) = &built.mast {
        all.take(mast.reading("mast", point(at)));
    }
    if let Some(bearing_deg) = built.front_bearing_deg {
        all.take(mast.reading("front_bearing_deg", Logged::Turned { bearing_deg }));
    }
    for (index, anchor) in built.anchors.iter().enumerate() {
        let subject = Subject::Guy { id: anchor.guy.clone() };
        let path = pointer!(as_built?.anchors[index]);
        let thing = Thing::new(subject, format!("Anchor {} as it stands", anchor.guy), path);
        if let Some(at) = &anchor.at {
            all.take(thing.reading("at", point(at)));
        }
        if let Some(height_m) = anchor.eye_height_m {
            all.take(thing.length("eye_height_m", height_m));
        }
    }
    for (index, leg) in built.legs.iter().enumerate() {
        let subject = Subject::Leg { id: leg.leg.clone() };
        let thing =
            Thing::new(subject, format!("Under the {} leg", leg.leg), pointer!(as_built?.legs[index]));
        all.take(thing.length("gap_m", leg.gap_m));
    }
}

fn named(name: &str, otherwise: &str) -> String {
    if name.is_empty() { otherwise.to_owned() } else { name.to_owned() }
}
