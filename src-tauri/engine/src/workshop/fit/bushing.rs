//! Rings that fill the gap: one stays in the outer tube's mouth, one on the inner tube's lower end.

use super::{Bushing, Bushings, FitClass, Stock, TubeDiameters};
use crate::job::Job;
use crate::quantity::UnitSystem;
use crate::quantity::convert::INCH_M;
use crate::round_figures::shop;
use crate::source::SourceKey;
use crate::tube::DiameterRange;
use crate::tube::tolerance::PVC_SCH40;
use crate::workshop::key;

/// Two tubes and how they fit without bushings.
pub struct TubesBetween {
    pub inner: TubeDiameters,
    pub outer: TubeDiameters,
    pub class: FitClass,
}

/// What goes between a tube and the one below.
pub fn between(job: &Job, index: usize, tubes: &TubesBetween, system: UnitSystem) -> Bushings {
    let (Some(inside), Some(bore)) = (tubes.inner.outside, tubes.outer.bore) else {
        return Bushings::NotKnown;
    };
    if tubes.class != FitClass::Loose {
        return Bushings::NotNeeded;
    }
    let (turned_mm, fixed_mm) = (shop::TURNED_PLAY.of(system), shop::FIXED_PLAY.of(system));
    let length_mm = length_mm(tubes.inner.outside_mm, system);
    // The upper one stays in the outer tube and the inner one slides in it; of the lower one it is the other way round.
    let upper = Ring {
        outside_mm: bore.least_mm - fixed_mm,
        bore_mm: inside.largest_mm + turned_mm,
        length_mm,
        made_mm: job.workshop.made_mm(&key("bushing-upper", index)),
    };
    let lower = Ring {
        outside_mm: bore.least_mm - turned_mm,
        bore_mm: inside.largest_mm + fixed_mm,
        length_mm,
        made_mm: job.workshop.made_mm(&key("bushing-lower", index)),
    };
    let wall_mm = upper.wall_mm().min(lower.wall_mm());
    if wall_mm < shop::THINNEST_RING.of(system) {
        return Bushings::TooThin { wall_mm };
    }
    let (slides_in, slides_on) =
        (upper.made_mm.unwrap_or(upper.bore_mm), lower.made_mm.unwrap_or(lower.outside_mm));
    let upper_play =
        DiameterRange { least_mm: slides_in - inside.largest_mm, largest_mm: slides_in - inside.least_mm };
    let lower_play =
        DiameterRange { least_mm: bore.least_mm - slides_on, largest_mm: bore.largest_mm - slides_on };
    Bushings::Turned {
        upper: Box::new(upper.with(key("bushing-upper", index), upper_play, system)),
        lower: Box::new(lower.with(key("bushing-lower", index), lower_play, system)),
    }
}

struct Ring {
    outside_mm: f64,
    bore_mm: f64,
    length_mm: f64,
    made_mm: Option<f64>,
}

impl Ring {
    fn wall_mm(&self) -> f64 {
        0.5 * (self.outside_mm - self.bore_mm)
    }

    fn with(self, part: String, play: DiameterRange, system: UnitSystem) -> Bushing {
        Bushing {
            part,
            outside_mm: self.outside_mm,
            bore_mm: self.bore_mm,
            length_mm: self.length_mm,
            wall_mm: self.wall_mm(),
            stock: stock(self.outside_mm, self.bore_mm, system),
            play,
            made_mm: self.made_mm,
        }
    }
}

/// As long as the inner tube is thick, to the next centimetre or half inch: common practice.
fn length_mm(outside_mm: f64, system: UnitSystem) -> f64 {
    let step_mm = match system {
        UnitSystem::Metric => 10.0,
        UnitSystem::Imperial => 500.0 * INCH_M,
    };
    (outside_mm / step_mm - 1e-9).ceil() * step_mm
}

/// The pipe with the least to turn off that holds a ring, whatever it measures within its standard.
pub fn stock(outside_mm: f64, bore_mm: f64, system: UnitSystem) -> Option<Stock> {
    let to_turn_mm = shop::TO_TURN.of(system);
    let pipe = PVC_SCH40.iter().find(|pipe| {
        pipe.outside.least_mm >= outside_mm + to_turn_mm && pipe.bore().largest_mm <= bore_mm - to_turn_mm
    })?;
    Some(Stock {
        size: pipe.size.to_owned(),
        outside: pipe.outside,
        bore: pipe.bore(),
        source: SourceKey::AstmD1785,
    })
}
