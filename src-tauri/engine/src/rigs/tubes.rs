//! Sets of tubes that slide in each other and reach a height.

use crate::job::{Section, Tube, TubeJoint};
use crate::numerics::real::tan_deg;
use crate::quantity::UnitSystem;
use crate::round_figures::shop;
use crate::tube::{
    DiameterLimits, LEAST_OVERLAP_DIAMETERS, MastTube, PLAY_DEG, TubeSection, TubeSize, TubeTable, section,
    sizes, telescope,
};

use super::RigWishes;

/// Lengths that somebody saws to: 5 cm, 2 in. Common practice.
pub(super) fn step_m(system: UnitSystem) -> f64 {
    match system {
        UnitSystem::Metric => 0.05,
        UnitSystem::Imperial => 2.0 * 0.0254,
    }
}

/// The next whole step, up.
pub(super) fn up(value_m: f64, system: UnitSystem) -> f64 {
    let step_m = step_m(system);
    // What is a whole step but for its last bit stays.
    (value_m / step_m - 1e-9).ceil() * step_m
}

/// Whole steps, down.
pub(super) fn down(value_m: f64, system: UnitSystem) -> f64 {
    let step_m = step_m(system);
    (value_m / step_m + 1e-9).floor() * step_m
}

/// Thicker tubes are no work for hands and ladders' height; thinner ones no mast. Common practice.
const OUTSIDE_MM: std::ops::RangeInclusive<f64> = 25.0..=92.0;
/// Two or three; more are for nobody's hands. Common practice.
const MOST_TUBES: usize = 3;
/// Of a tube in the one below: no more than this part of it. Common practice.
const MOST_OVERLAP: f64 = 0.35;

/// Tubes of one length from one table, the lowest first.
#[derive(Debug, Clone, PartialEq)]
pub struct TubeSet {
    pub table: TubeTable,
    pub sizes: Vec<&'static str>,
    pub sections: Vec<TubeSection>,
    /// Of every one but the lowest, in the tube below.
    pub overlaps_m: Vec<f64>,
    pub piece_m: f64,
}

impl TubeSet {
    pub fn raised_m(&self) -> f64 {
        self.piece_m * self.sections.len() as f64 - self.overlaps_m.iter().sum::<f64>()
    }

    pub fn mass_kg(&self) -> f64 {
        self.sections.iter().map(|section| section.mass_kg_per_m * self.piece_m).sum()
    }

    pub fn heaviest_kg(&self) -> f64 {
        self.sections.iter().map(|section| section.mass_kg_per_m * self.piece_m).fold(0.0, f64::max)
    }

    pub fn thinnest_mm4(&self) -> f64 {
        self.sections.iter().map(TubeSection::second_moment_mm4).fold(f64::INFINITY, f64::min)
    }

    /// How high each tube's top is above the foot.
    pub fn tops_m(&self) -> Vec<f64> {
        let mut top_m = 0.0;
        let overlaps_m = std::iter::once(0.0).chain(self.overlaps_m.iter().copied());
        overlaps_m
            .map(|overlap_m| {
                top_m += self.piece_m - overlap_m;
                top_m
            })
            .collect()
    }

    /// As the job has them, drilled for its pin where one is entered.
    pub fn tubes(&self, pin_mm: Option<f64>, system: UnitSystem) -> Vec<Tube> {
        let last = self.sections.len() - 1;
        let name = |i: usize| match i {
            0 => "Lower tube",
            i if i == last => "Upper tube",
            _ => "Middle tube",
        };
        let overlaps_m = std::iter::once(0.0).chain(self.overlaps_m.iter().copied());
        let each = self.sizes.iter().zip(overlaps_m).enumerate();
        each.map(|(i, (size, overlap_m))| Tube {
            name: name(i).to_owned(),
            section: Section::Listed { table: self.table, size: (*size).to_owned() },
            length_m: self.piece_m,
            overlap_m,
            joint: TubeJoint::Telescoped,
            // The lowest hangs on no pin.
            pin_hole_mm: pin_mm.filter(|_| i > 0).map(|pin_mm| pin_mm + shop::BORED_PLAY.of(system)),
            yield_mpa: None,
            calliper: crate::job::Calliper::default(),
        })
        .collect()
    }
}

/// Every set of two or three tubes of equal length that reaches the height, whatever it weighs.
pub fn sets(wishes: &RigWishes, system: UnitSystem) -> Vec<TubeSet> {
    let whole = chains(wishes, system).into_iter().filter_map(|chain| {
        let overlaps_m = chain.overlaps_m.iter().sum::<f64>();
        let piece_m = up((wishes.light_height_m + overlaps_m) / chain.sections.len() as f64, system);
        let set = TubeSet { piece_m, ..chain };
        let short_enough = piece_m <= wishes.longest_piece_m + 1e-9;
        let most_m = set.overlaps_m.iter().copied().fold(0.0, f64::max);
        (short_enough && most_m <= MOST_OVERLAP * piece_m).then_some(set)
    });
    whole.collect()
}

/// How high the longest pieces reach at most, whatever holds them.
pub fn highest_m(wishes: &RigWishes, system: UnitSystem) -> f64 {
    let reach_m = |chain: &TubeSet| {
        let n = chain.sections.len() as f64;
        down(n * wishes.longest_piece_m - chain.overlaps_m.iter().sum::<f64>(), system)
    };
    chains(wishes, system).iter().map(reach_m).fold(0.0, f64::max)
}

/// Two and three tubes that follow each other in a table, with what each has to have inside the one below; not cut yet.
fn chains(wishes: &RigWishes, system: UnitSystem) -> Vec<TubeSet> {
    let tables = if wishes.tables.is_empty() { TubeTable::ALL.to_vec() } else { wishes.tables.clone() };
    let mut found = Vec::new();
    for table in tables {
        for lowest in sizes(table).iter().filter(|row| OUTSIDE_MM.contains(&row.outside_mm)) {
            let mut lower = lowest;
            let mut chain = TubeSet {
                table,
                sizes: vec![lowest.size],
                sections: section::listed(table, lowest.size).into_iter().collect(),
                overlaps_m: Vec::new(),
                piece_m: wishes.longest_piece_m,
            };
            while chain.sections.len() < MOST_TUBES {
                let Some((upper, section, overlap_m)) = next_in(table, lower, system) else { break };
                chain.sizes.push(upper.size);
                chain.sections.push(section);
                chain.overlaps_m.push(overlap_m);
                lower = upper;
                found.push(chain.clone());
            }
        }
    }
    found
}

/// The thickest tube of the table that slides in another one with nothing to be said against its play, and how much of it is inside
/// there.
fn next_in(
    table: TubeTable,
    lower: &TubeSize,
    system: UnitSystem,
) -> Option<(&'static TubeSize, TubeSection, f64)> {
    let bore_mm = section::listed(table, lower.size)?.inside_mm();
    // Of two as thick the first one of the table.
    let thinner = sizes(table).iter().rev().filter(|row| row.outside_mm < bore_mm);
    thinner
        .filter(|row| OUTSIDE_MM.contains(&row.outside_mm))
        .filter_map(|row| {
            let section = section::listed(table, row.size)?;
            let play_m = (bore_mm - section.outside_mm) / 1000.0;
            let least_m =
                (LEAST_OVERLAP_DIAMETERS * section.outside_mm / 1000.0).max(play_m / tan_deg(PLAY_DEG));
            let overlap_m = up(least_m, system);
            nothing_against(table, [lower, row], overlap_m, system).then_some((row, section, overlap_m))
        })
        .max_by(|a, b| a.1.outside_mm.total_cmp(&b.1.outside_mm))
}

/// By the rules of the plan: whether it goes in, its play, its overlap. How long the tubes are does not matter to them.
fn nothing_against(table: TubeTable, pair: [&TubeSize; 2], overlap_m: f64, system: UnitSystem) -> bool {
    let tube = |row: &TubeSize, overlap_m: f64| {
        Some(MastTube {
            name: "",
            section: section::listed(table, row.size)?,
            length_m: 1.0,
            overlap_m,
            telescoped: true,
            limits: DiameterLimits::listed(table, row.size),
        })
    };
    let [lower, upper] = pair;
    let tubes: Vec<MastTube> = [tube(lower, 0.0), tube(upper, overlap_m)].into_iter().flatten().collect();
    telescope(&tubes, system).findings.is_empty()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RMC 1-1/2 in RMC 2 (ANSI C80.1: 2.375 in outside and 2.083 in bore, 1.900 in outside): play 4.65 mm, so the lean of 0.6° asks for
    /// 4.65 / tan 0.6° = 0.444 m inside, more than two diameters (97 mm); in steps 0.45 m. Two pieces for 5 m: (5 + 0.45) / 2 = 2.725, so
    /// 2.75 m each, and 5.05 m in all. 3.32 and 2.49 lb a foot (the table's): (3.32 + 2.49) × 1.48816 kg/m × 2.75 m = 23.78 kg.
    #[test]
    fn two_conduits_by_hand() {
        let wishes = RigWishes {
            light_height_m: 5.0,
            longest_piece_m: 3.0,
            strand_count: None,
            strand_length_m: None,
            tables: vec![TubeTable::Rmc],
        };
        let sets = sets(&wishes, UnitSystem::Metric);
        let set = sets.iter().find(|set| set.sizes == ["2", "1-1/2"]).expect("they go into each other");
        assert!((set.overlaps_m[0] - 0.45).abs() < 1e-9 && (set.piece_m - 2.75).abs() < 1e-9, "{set:?}");
        assert!((set.raised_m() - 5.05).abs() < 1e-9);
        assert!((set.mass_kg() - 23.78).abs() < 0.01, "{}", set.mass_kg());
    }
}
