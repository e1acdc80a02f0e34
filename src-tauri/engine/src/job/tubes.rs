//! The job's tubes with their sections, as the mast is made of them.

use super::{Calliper, Rig, Section, Tube, TubeJoint};
use crate::pointer;
use crate::quantity::{FieldError, FieldErrors};
use crate::tube::tolerance::CALLIPER_OFF_MM;
use crate::tube::{DiameterLimits, DiameterRange, MastTube, TubeSection, section, sizes};

impl Rig {
    /// The tubes of the mast, bottom tube first, or all that is wrong with them at once.
    ///
    /// # Errors
    /// Where a section is unknown or an overlap is longer than the tubes that share it.
    pub fn mast_tubes(&self) -> Result<Vec<MastTube<'_>>, FieldErrors> {
        let (mut found, mut errors) = (Vec::new(), Vec::new());
        let mut lower_length_m = None;
        for (i, tube) in self.tubes.iter().enumerate() {
            let (length_m, overlap_m) = (tube.length_m, tube.overlap_m);
            let telescoped = tube.joint == TubeJoint::Telescoped;
            match tube.section.found(&pointer!(rig.tubes[i].section)) {
                Ok(section) => {
                    let (name, limits) = (tube.name.as_str(), tube.limits());
                    found.push(MastTube { name, section, length_m, overlap_m, telescoped, limits });
                }
                Err(error) => errors.push(error),
            }
            if let Some(lower_m) = lower_length_m
                && overlap_m > length_m.min(lower_m)
            {
                let path = pointer!(rig.tubes[i].overlap_m);
                let allowed = "no longer than this tube and than the tube below";
                errors.push(FieldError::new(path, "a longer overlap", allowed));
            }
            lower_length_m = Some(length_m);
        }
        if errors.is_empty() { Ok(found) } else { Err(errors.into()) }
    }
}

impl Tube {
    /// Between what its diameters lie: by the calliper where it was read, else by its standard or by the sizes measured.
    pub fn limits(&self) -> DiameterLimits {
        let by_section = match &self.section {
            Section::Listed { table, size } => DiameterLimits::listed(*table, size.trim()),
            &Section::Measured { outside_mm, wall_mm } => DiameterLimits::measured(outside_mm, wall_mm),
        };
        let off_mm = self.calliper.off_mm.unwrap_or(CALLIPER_OFF_MM);
        DiameterLimits {
            outside: spread(self.calliper.outside(), off_mm).or(by_section.outside),
            bore: spread(self.calliper.bore(), off_mm).or(by_section.bore),
        }
    }
}

impl Calliper {
    /// The two readings of the outside.
    pub fn outside(&self) -> [Option<f64>; 2] {
        [self.outside_mm, self.outside_across_mm]
    }

    /// The two readings of the bore.
    pub fn bore(&self) -> [Option<f64>; 2] {
        [self.bore_mm, self.bore_across_mm]
    }
}

/// From the smaller reading to the larger one, with what the calliper may be off; none where nobody read anything.
fn spread(readings: [Option<f64>; 2], off_mm: f64) -> Option<DiameterRange> {
    let known = || readings.into_iter().flatten();
    let least_mm = known().reduce(f64::min)?;
    let largest_mm = known().reduce(f64::max)?;
    Some(DiameterRange { least_mm: least_mm - off_mm, largest_mm: largest_mm + off_mm })
}

impl Section {
    /// The section that is named or was measured; `path` is its JSON pointer, such as `/rig/tubes/0/section`.
    ///
    /// # Errors
    /// Where the table has no such size, or the measured walls leave no bore.
    pub fn found(&self, path: &str) -> Result<TubeSection, FieldError> {
        match self {
            Section::Listed { table, size } => section::listed(*table, size.trim()).ok_or_else(|| {
                let names: Vec<&str> = sizes(*table).iter().map(|row| row.size).collect();
                let allowed = format!("one of {}", names.join(", "));
                FieldError::new(pointer!(in path, Section::Listed.size), shortened(size), allowed)
            }),
            &Section::Measured { outside_mm, wall_mm } => {
                section::measured(outside_mm, wall_mm).ok_or_else(|| {
                    let allowed = "more than nothing and less than half the outside diameter";
                    FieldError::new(
                        pointer!(in path, Section::Measured.wall_mm),
                        wall_mm.to_string(),
                        allowed,
                    )
                })
            }
        }
    }
}

fn shortened(text: &str) -> String {
    let mut short: String = text.chars().take(40).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    short
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tube::TubeTable;

    #[test]
    fn an_unknown_size_names_the_ones_there_are() {
        let wrong = Section::Listed { table: TubeTable::En39, size: "60".into() };
        let error = wrong.found("/rig/tubes/1/section").unwrap_err();
        assert_eq!(error.path, "/rig/tubes/1/section/size");
        assert_eq!(error.allowed, "one of 48.3x3.2, 48.3x4.0");
    }

    #[test]
    fn measured_walls_must_leave_a_bore() {
        let tube = |wall_mm| Section::Measured { outside_mm: 40.0, wall_mm }.found("");
        assert!(tube(2.0).is_ok());
        for wall_mm in [20.0, 0.0, f64::NAN, 1e308] {
            assert_eq!(tube(wall_mm).unwrap_err().path, "/wall_mm");
        }
    }

    #[test]
    fn everything_wrong_is_named_at_once() {
        let units = crate::quantity::Units { system: Default::default(), inch_fraction: 16 };
        let mut rig = crate::job::blank(units).rig;
        rig.tubes.truncate(2);
        rig.tubes[0].section = Section::Listed { table: TubeTable::Rmc, size: "7".into() };
        (rig.tubes[1].length_m, rig.tubes[1].overlap_m) = (1.0, 1.5);
        let errors = rig.mast_tubes().unwrap_err().errors;
        let paths: Vec<&str> = errors.iter().map(|e| e.path.as_str()).collect();
        assert_eq!(paths, ["/rig/tubes/0/section/size", "/rig/tubes/1/overlap_m"]);
    }
}
