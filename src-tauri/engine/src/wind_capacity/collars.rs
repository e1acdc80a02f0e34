//! Guy collars and pipe couplings as parts of the limit: while nobody has measured them they are not shown to hold, and withhold it.

use super::parts::{Check, Part, Where, by_pins, part, steel, weak};
use super::section::{WeakSection, with_pin_hole};
use super::standing::Standing;
use super::types::{PartKind, PartName};
use crate::job::{CollarHeld, GuyLevel};
use crate::resistance::{Condition, Resistance, SteelTube, TubeUnshown, collar};
use crate::round_figures::shop;

/// Every level's collar where it is, and the tube where its bolt goes through.
pub(super) fn parts(standing: &Standing) -> Vec<Part> {
    let levels = standing.job.rig.guy_levels.iter();
    levels.flat_map(|level| of_level(standing, level).unwrap_or_default()).collect()
}

/// None where its guys are made fast elsewhere because it came down on another tube.
fn of_level(standing: &Standing, level: &GuyLevel) -> Option<Vec<Part>> {
    let guys: Vec<usize> = standing
        .guys
        .iter()
        .enumerate()
        .filter(|(_, guy)| guy.level.id == level.id && !guy.comes_down())
        .map(|(place, _)| place)
        .collect();
    let height_m = standing.guys.get(*guys.first()?)?.attach_height_m;
    let on = standing.tubes.iter().position(|tube| height_m <= tube.top_m + 1e-6)?;
    let steel = steel(standing, on)?;
    let resistance = held(level, &steel).unwrap_or_else(Resistance::not_shown);
    let name = PartName::CollarOf { guys: level.name.clone() };
    let check = resistance.allowable_n().map(|allowable_n| Check::Collar { guys, allowable_n });
    let mut all = vec![part(PartKind::Collar, &level.id, name, None, check, Some(resistance))];
    if let (CollarHeld::Bolt, Some(bolt_mm)) = (level.collar.held, level.collar.bolt_mm) {
        let hole_mm = bolt_mm + shop::BORED_PLAY.of(standing.job.units.system);
        let tube = standing.job.rig.tubes.get(on).map_or("", |tube| tube.name.as_str());
        let name = PartName::TubeAtCollarBolt { tube: tube.to_owned(), guys: level.name.clone() };
        let which = format!("{} at {}", on + 1, level.id);
        let at = Where { tube: on, from_m: height_m, to_m: height_m };
        let section = with_pin_hole(&steel, hole_mm);
        all.push(weak(PartKind::PinHole, &which, name, at, section, Condition::NetSection));
    }
    Some(all)
}

/// What its bolt or its shoulder carries.
fn held(level: &GuyLevel, tube: &SteelTube) -> Result<Resistance, TubeUnshown> {
    let collar = &level.collar;
    let measured = |size_mm: Option<f64>| size_mm.ok_or(TubeUnshown::CollarUnmeasured);
    match collar.held {
        CollarHeld::Bolt => {
            let allowable_n = collar::by_bolt_n(measured(collar.bolt_mm)?, measured(collar.wall_mm)?, tube);
            Ok(by_pins(allowable_n, Condition::CollarBolt))
        }
        CollarHeld::Shoulder => {
            let allowable_n = collar::by_shoulder_n(measured(collar.shoulder_mm)?, tube.outside_mm);
            Ok(by_pins(allowable_n, Condition::CollarShoulder))
        }
        CollarHeld::Unsaid => Err(TubeUnshown::CollarUnmeasured),
        CollarHeld::Clamped => Err(TubeUnshown::CollarSqueezed),
    }
}

/// The coupling below a tube that is screwed on.
pub(super) fn coupling(standing: &Standing, index: usize, height_m: f64) -> Option<Part> {
    let tube = standing.job.rig.tubes.get(index)?;
    let pipe_mm = steel(standing, index)?.outside_mm;
    let sleeve = tube.calliper.coupling_mm.ok_or(TubeUnshown::CouplingUnmeasured).and_then(|coupling_mm| {
        collar::coupling_sleeve(coupling_mm, pipe_mm).ok_or(TubeUnshown::CouplingTooThin)
    });
    let section = sleeve.map(|sleeve| WeakSection {
        axial_n: sleeve.area_mm2() * sleeve.yield_mpa,
        moment_nm: sleeve.elastic_modulus_mm3() * sleeve.yield_mpa / 1000.0,
    });
    let name = PartName::CouplingBelow { tube: tube.name.clone() };
    let at = Where { tube: index, from_m: height_m, to_m: height_m };
    let which = (index + 1).to_string();
    Some(weak(PartKind::Coupling, &which, name, at, section, Condition::CouplingSleeve))
}
