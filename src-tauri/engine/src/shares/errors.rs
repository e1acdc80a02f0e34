//! Every error that a survey and its setting out may have, each a standard normal number of its own: the yard as it may really be.
//!
//! One walk serves all who ask: it visits the readings in the job's order, and whoever asks says how far off each is ([`NextError`]), in its
//! own standard uncertainties.

use crate::finding::Subject;
use crate::job::{BearingReference, Instruments, Job, Measurement, PointFix, Shape, Side};
use crate::pointer;
use crate::quantity::bearing::wrap_360;
use crate::survey::north::north;

use super::ErrorOf;

/// What of the yard's readings is drawn; all of it where nothing is said.
pub(crate) trait Counted {
    /// Whether what is said of a thing of the yard is.
    fn counts(&self, _: &Subject) -> bool {
        true
    }

    /// Whether a spot height of the job's list is, by its number.
    fn counts_spot(&self, _: usize) -> bool {
        true
    }
}

/// Every reading.
#[cfg(test)]
pub(crate) struct Everything;

#[cfg(test)]
impl Counted for Everything {}

/// Gives the next error in its standard uncertainties; it is told what that is of, where it wants to know.
pub(crate) type NextError<'a> = dyn FnMut(&dyn Fn() -> ErrorOf) -> f64 + 'a;

struct Walk<'a, 'b> {
    instruments: Instruments,
    counted: &'a dyn Counted,
    next: &'a mut NextError<'b>,
}

/// The job as it is set out: what is drawn by chance is pegging out, so what stands already is not pegged again; a wire's height is drawn,
/// so it hangs where it most likely does and not in its 95 % strip.
pub(crate) fn as_set_out(job: &Job) -> Job {
    let mut sharp = job.clone();
    sharp.yard.overhead_lines.iter_mut().for_each(|line| line.height_sigma_m = 0.0);
    sharp.as_built = None;
    sharp
}

/// A job whose readings are off by these numbers, so that everything computed of it is what may really stand there. Wires hang where
/// they most likely do.
pub(crate) fn reread(job: &Job, counted: &dyn Counted, next: &mut NextError) -> Job {
    let mut drawn = job.clone();
    let mut walk = Walk { instruments: job.yard.instruments, counted, next };
    let (correction, _) = north(&job.yard);
    if let BearingReference::Magnetic { declination_deg } = &mut drawn.yard.bearings
        && correction.sigma_deg > 0.0
    {
        let off_deg = correction.sigma_deg * (walk.next)(&|| ErrorOf::North);
        *declination_deg = Some(correction.add_to_reading_deg + off_deg);
    }
    walk.ground(&mut drawn);
    walk.things(&mut drawn);
    drawn
}

impl Walk<'_, '_> {
    fn ground(&mut self, drawn: &mut Job) {
        let yard = &mut drawn.yard;
        for (at, mark) in yard.marks.iter_mut().enumerate() {
            let id = mark.id.clone();
            self.fix(&mut mark.at, &|| ErrorOf::Mark { id: id.clone(), number: at as u32 });
        }
        for (at, measurement) in yard.measurements.iter_mut().enumerate() {
            match measurement {
                Measurement::Tape { struck: true, .. } | Measurement::Bearing { struck: true, .. } => {}
                Measurement::Tape { id, tape_m, .. } => {
                    self.tape(tape_m, &|| ErrorOf::Measurement { id: id.clone(), number: at as u32 });
                }
                Measurement::Bearing { id, bearing_deg, .. } => {
                    self.bearing(bearing_deg, &|| ErrorOf::Measurement { id: id.clone(), number: at as u32 });
                }
            }
        }
        for (at, slope) in yard.slopes.iter_mut().enumerate().filter(|(_, slope)| !slope.struck) {
            let id = slope.id.clone();
            let of = || ErrorOf::Slope { id: id.clone(), number: at as u32 };
            let sigma_deg = slope.sigma_deg.unwrap_or(self.instruments.slope_sigma_deg);
            slope.slope_deg += sigma_deg * (self.next)(&of);
            self.bearing(&mut slope.bearing_deg, &of);
        }
        for (at, spot) in yard.spot_heights.iter_mut().enumerate().filter(|(_, spot)| !spot.struck) {
            if !self.counted.counts_spot(at) {
                continue;
            }
            let id = spot.id.clone();
            let of = || ErrorOf::SpotHeight { id: id.clone(), number: at as u32 };
            self.fix(&mut spot.at, &of);
            let sigma_m = spot.sigma_m.unwrap_or(self.instruments.spot_height_sigma_m);
            spot.height_m += sigma_m * (self.next)(&of);
        }
    }

    fn things(&mut self, drawn: &mut Job) {
        let yard = &mut drawn.yard;
        for (at, obstacle) in yard.obstacles.iter_mut().enumerate() {
            let subject = Subject::Obstacle { id: obstacle.id.clone() };
            if self.counted.counts(&subject) {
                self.shape(&mut obstacle.shape, &subject, at);
            }
        }
        if let Some(boundary) = yard.boundary.as_mut().filter(|_| self.counted.counts(&Subject::Boundary)) {
            self.points(&mut boundary.outline, &Subject::Boundary, pointer!(yard.boundary?.outline));
        }
        for (at, line) in yard.overhead_lines.iter_mut().enumerate() {
            let subject = Subject::OverheadLine { id: line.id.clone() };
            let sigma_m = std::mem::take(&mut line.height_sigma_m);
            if !self.counted.counts(&subject) {
                continue;
            }
            let list = pointer!(yard.overhead_lines[at].supports);
            // One error for the whole line: its height was sighted once.
            let raised_m = match sigma_m > 0.0 {
                true => {
                    let of = || ErrorOf::HeightOf { subject: subject.clone(), pointer: list.clone() };
                    sigma_m * (self.next)(&of)
                }
                false => 0.0,
            };
            for (point, support) in line.supports.iter_mut().enumerate() {
                support.wire_height_m += raised_m;
                self.point(&mut support.at, &subject, &format!("{list}/{point}/at"), point);
            }
        }
        for (at, service) in yard.buried_services.iter_mut().enumerate() {
            let subject = Subject::BuriedService { id: service.id.clone() };
            if self.counted.counts(&subject) {
                self.points(&mut service.line, &subject, &pointer!(yard.buried_services[at].line));
            }
        }
    }

    fn shape(&mut self, shape: &mut Shape, subject: &Subject, at: usize) {
        let shape_at = pointer!(yard.obstacles[at].shape);
        let sigma_m = shape.height_sigma_m();
        if let Some(height_m) = sighted_height(shape).filter(|_| sigma_m > 0.0) {
            let of =
                || ErrorOf::HeightOf { subject: subject.clone(), pointer: format!("{shape_at}/height_m") };
            *height_m = (*height_m + sigma_m * (self.next)(&of)).max(0.0);
        }
        match shape {
            Shape::Tree { at, .. } | Shape::Post { at, .. } => {
                self.point(at, subject, &format!("{shape_at}/at"), 0);
            }
            Shape::Building { outline, .. } | Shape::KeepOff { outline } => {
                self.points(outline, subject, &format!("{shape_at}/outline"));
            }
            Shape::Barrier { line, .. } | Shape::Path { line, .. } => {
                self.points(line, subject, &format!("{shape_at}/line"));
            }
        }
    }

    fn points(&mut self, points: &mut [PointFix], subject: &Subject, list: &str) {
        for (number, point) in points.iter_mut().enumerate() {
            self.point(point, subject, &format!("{list}/{number}"), number);
        }
    }

    fn point(&mut self, fix: &mut PointFix, subject: &Subject, pointer: &str, number: usize) {
        let of = || ErrorOf::Point {
            subject: subject.clone(),
            pointer: pointer.to_owned(),
            number: number as u32 + 1,
        };
        self.fix(fix, &of);
    }

    fn tape(&mut self, tape_m: &mut f64, of: &dyn Fn() -> ErrorOf) {
        let sigma_m = self.instruments.tape_sigma_of_m(*tape_m);
        // A tape is never shorter than nothing.
        *tape_m = (*tape_m + sigma_m * (self.next)(of)).max(0.0);
    }

    fn bearing(&mut self, bearing_deg: &mut f64, of: &dyn Fn() -> ErrorOf) {
        let off_deg = self.instruments.bearing_sigma_deg * (self.next)(of);
        *bearing_deg = wrap_360(*bearing_deg + off_deg);
    }

    fn fix(&mut self, fix: &mut PointFix, of: &dyn Fn() -> ErrorOf) {
        match fix {
            PointFix::Origin => {}
            PointFix::Coordinates { east_m, north_m } => {
                for metres in [east_m, north_m] {
                    *metres += self.instruments.sketched_sigma_m * (self.next)(of);
                }
            }
            PointFix::BearingTape { bearing_deg, tape_m, .. } => {
                self.bearing(bearing_deg, of);
                self.tape(tape_m, of);
            }
            PointFix::TwoTapes { tape_a_m, tape_b_m, .. } => {
                self.tape(tape_a_m, of);
                self.tape(tape_b_m, of);
            }
            PointFix::ThreeTapes { tape_a_m, tape_b_m, tape_c_m, .. } => {
                for tape_m in [tape_a_m, tape_b_m, tape_c_m] {
                    self.tape(tape_m, of);
                }
            }
            PointFix::SlopeTape { bearing_deg, tape_m, vertical_deg, .. } => {
                self.bearing(bearing_deg, of);
                self.tape(tape_m, of);
                *vertical_deg += self.instruments.slope_sigma_deg * (self.next)(of);
            }
            // An angle that is not square turns the offset by moving its foot; a corner's turn is off itself.
            PointFix::Offset { along_m, off_m, side, .. } => {
                let left = if *side == Side::Left { -1.0 } else { 1.0 };
                let skew = self.instruments.square_sigma_deg.to_radians() * (self.next)(of);
                let foot_m = left * *off_m * skew;
                self.tape(along_m, of);
                self.tape(off_m, of);
                *along_m += foot_m;
            }
            PointFix::NextCorner { turn_deg, tape_m, .. } => {
                let read_deg = std::f64::consts::SQRT_2 * self.instruments.bearing_sigma_deg;
                let sigma_deg = if *turn_deg == 90.0 { self.instruments.square_sigma_deg } else { read_deg };
                *turn_deg += sigma_deg * (self.next)(of);
                self.tape(tape_m, of);
            }
        }
    }
}

fn sighted_height(shape: &mut Shape) -> Option<&mut f64> {
    match shape {
        Shape::Tree { height_m, .. }
        | Shape::Building { height_m, .. }
        | Shape::Barrier { height_m, .. }
        | Shape::Post { height_m, .. } => Some(height_m),
        Shape::Path { .. } | Shape::KeepOff { .. } => None,
    }
}
