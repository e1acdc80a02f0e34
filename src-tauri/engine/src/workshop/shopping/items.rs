//! Everything that is bought and not cut, with how much of it and what for.

use serde::Serialize;

use super::cut_list::{CutLot, LotPlan};
use super::pieces::Material;
use crate::job::{AnchorKind, Job, RingStuff, TopperHeld, TubeJoint};
use crate::plan::{Computed, Support};
use crate::resistance::rope::{RopeEnd, clips_needed};
use crate::workshop::circle::{Bend, circles, ring, ring_bend};
use crate::workshop::fit::{Bushing, Bushings};
use crate::workshop::joints::{BOLT_MORE_MM, BaseJoints, MastSeat};
use crate::workshop::{BenchWork, key};

/// A part of the shop, in the order in which one walks it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Aisle {
    Timber,
    TubeAndPipe,
    Fasteners,
    Rope,
    Ground,
    Lights,
    Paint,
    Safety,
}

/// What is bought.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Ware {
    /// A length of a material, which is cut.
    Stock {
        of: Material,
        length_m: f64,
    },
    /// A material of which nobody can say yet in which lengths it is bought.
    Pieces {
        of: Material,
    },
    /// None where no bolt has room beside the mast's foot.
    JointBolt {
        bolt_mm: Option<f64>,
        least_length_mm: f64,
    },
    /// Holds a foot to its timber.
    FootStrap {
        length_mm: f64,
    },
    /// Stands up into the lower tube.
    SeatPeg {
        peg_mm: f64,
    },
    Winch,
    LiftingStrap {
        thickness_mm: Option<f64>,
        length_m: Option<f64>,
    },
    StrapHook,
    /// To turn both rings of a joint from: a listed pipe, or round bar where none holds them.
    RingStock {
        size: Option<String>,
        length_mm: f64,
    },
    /// Pipe that stands between the rings.
    StopSleeve {
        length_mm: f64,
    },
    SeatPlate {
        side_mm: f64,
        thickness_mm: Option<f64>,
    },
    /// Between winch and tube.
    WinchPlateSteel {
        width_mm: f64,
        height_mm: f64,
        thickness_mm: Option<f64>,
    },
    /// Two of them hold that plate round the lower tube.
    TubeClamp {
        tube_mm: f64,
    },
    /// Of a level of guys, by its name.
    GuyCollarWare {
        guys: String,
        bore_mm: f64,
    },
    CollarBolt {
        bolt_mm: f64,
        least_length_mm: Option<f64>,
    },
    /// Flat bar for a bracket of the ring.
    BracketBar {
        width_mm: f64,
        thickness_mm: Option<f64>,
        length_mm: f64,
    },
    /// Over the ring's pipe.
    PipeClamp {
        outside_mm: Option<f64>,
    },
    /// Through both tubes of a joint, by the upper one's name.
    Pin {
        tube: String,
        hole_mm: f64,
        least_length_mm: f64,
    },
    PipeCoupling {
        tube: String,
    },
    /// None where nobody has measured the pipe.
    RingCoupling {
        outside_mm: Option<f64>,
    },
    /// At the lower tube's mouth.
    RodGuide {
        tube_mm: f64,
    },
    /// Joins two straight sides of the ring.
    RingCorner {
        turn_deg: f64,
    },
    /// Under the topper's lower disc, straight through the top tube.
    TopperBolt {
        bolt_mm: f64,
        least_length_mm: f64,
    },
    /// Squeezed onto the top tube under the lower disc.
    TopperSleeve {
        tube_mm: f64,
    },
    /// The topper, of which nobody has said how it is made.
    TopperUnknown,
    RingTie,
    RopeClip {
        diameter_mm: f64,
    },
    Sleeve {
        diameter_mm: f64,
    },
    Thimble {
        diameter_mm: f64,
    },
    Board {
        side_mm: f64,
    },
    Anchor {
        level: String,
        anchor: AnchorKind,
    },
    Strand {
        lit_m: f64,
    },
    StrandUnknown,
    ColdZinc,
    WoodPreservative,
    ThreadSealant,
    PvcCement,
    BrightTape,
    MarkingPaint,
    Glasses,
    Gloves,
    DustMask,
}

/// How much of it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Amount {
    Count { count: u32 },
    Length { length_m: f64 },
    NotKnown,
}

/// What it is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Why {
    CutFrom,
    HoldsTheLap,
    UnderTheMast,
    KeepsTheFootThere,
    HoldsTheFoot,
    LiftsTheTubes,
    FillsTheGap,
    StopsTheTube,
    CarriesTheTube,
    JoinsTubes,
    JoinsTheRing,
    GuidesTheRod,
    HoldsTheTopper,
    CarriesTheStrands,
    HoldsTheRingDown,
    CarriesTheWinch,
    CarriesTheGuys,
    TiesTheRingToTheBase,
    MakesTheRopeFast,
    KeepsTheRopeRound,
    UnderTheJoint,
    UnderTheFeet,
    HoldsTheGuys,
    TheCone,
    CoversBareSteel,
    CoversSawnEnds,
    SealsThreads,
    GluesTheRing,
    MakesRopesSeen,
    MarksTheGround,
    Eyes,
    Hands,
    Lungs,
}

/// What nobody has said yet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ItemMissing {
    /// The lot has no cutting plan: its page says why.
    CuttingPlan,
    BoltSize,
    PinStrength,
    PlateThickness,
    AnchorKind,
    StrandLength,
    RingSupports,
    /// The ring's pipe, or how many supports it has.
    RingPipe,
    CollarHold,
    /// How straight sides are joined.
    RingCorners,
    /// Discs, or what holds them: their page says what.
    Topper,
    TopperHold,
    /// Winch, rod, strap: its page says what.
    Lift,
}

/// One line of the list.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Item {
    /// What it is ticked off as.
    pub part: String,
    pub aisle: Aisle,
    pub ware: Ware,
    pub amount: Amount,
    pub why: Why,
    pub missing: Vec<ItemMissing>,
    pub done: bool,
}

/// A pin reaches out on either side of the tube for a clip: common practice (no source).
const PIN_OUT_MM: f64 = 15.0;

pub(super) fn items(job: &Job, computed: &Computed, bench: &BenchWork, lots: &[CutLot]) -> Vec<Item> {
    let mut items = Items { job, all: Vec::new() };
    of_lots(&mut items, lots);
    of_base(&mut items, computed, &bench.base);
    of_tubes(&mut items, bench);
    of_lift(&mut items, bench);
    of_guys(&mut items, computed);
    of_collars(&mut items, bench);
    of_ring_and_strands(&mut items, computed);
    of_topper(&mut items, computed, bench);
    of_paint(&mut items, lots);
    items.all.sort_by_key(|item| item.aisle);
    items.all
}

struct Items<'a> {
    job: &'a Job,
    all: Vec<Item>,
}

impl Items<'_> {
    fn put(&mut self, name: &str, aisle: Aisle, ware: Ware, amount: Amount, why: Why) -> &mut Item {
        let part = format!("buy:{name}");
        let done = self.job.workshop.is_done(&part);
        self.all.push(Item { part, aisle, ware, amount, why, missing: Vec::new(), done });
        let last = self.all.len() - 1;
        &mut self.all[last]
    }

    fn some(&mut self, name: &str, aisle: Aisle, ware: Ware, count: u32, why: Why) -> Option<&mut Item> {
        (count > 0).then(|| self.put(name, aisle, ware, Amount::Count { count }, why))
    }
}

fn aisle_of(material: &Material) -> Aisle {
    match material {
        Material::Timber { .. } | Material::Block { .. } | Material::DiscBoard { .. } => Aisle::Timber,
        Material::Tube { .. }
        | Material::Ring { .. }
        | Material::Rod { .. }
        | Material::SpacerPipe { .. } => Aisle::TubeAndPipe,
        Material::Stake { .. } => Aisle::Ground,
        Material::Rope { .. } => Aisle::Rope,
    }
}

fn of_lots(items: &mut Items, lots: &[CutLot]) {
    for lot in lots {
        let (of, aisle) = (&lot.lot.of, aisle_of(&lot.lot.of));
        let LotPlan::Planned { stocks, plan, .. } = &lot.plan else {
            let known = lot.lot.pieces.iter().map(|piece| piece.length_m.map(|m| m * f64::from(piece.count)));
            // So much at the least, whatever lengths it is sold in.
            let amount = known.sum::<Option<f64>>();
            let amount = amount.map_or(Amount::NotKnown, |length_m| Amount::Length { length_m });
            let ware = Ware::Pieces { of: of.clone() };
            items.put(&lot.lot.material, aisle, ware, amount, Why::CutFrom).missing =
                vec![ItemMissing::CuttingPlan];
            continue;
        };
        for (&(length_m, _), &count) in stocks.iter().zip(&plan.buy) {
            let name = format!("{} {length_m}", lot.lot.material);
            items.some(&name, aisle, Ware::Stock { of: of.clone(), length_m }, count, Why::CutFrom);
        }
    }
}

fn of_base(items: &mut Items, computed: &Computed, joints: &BaseJoints) {
    let base = &items.job.rig.base;
    let bolts = joints.bolts;
    let least_length_mm = bolts.map_or(base.timber_depth_mm + BOLT_MORE_MM, |bolts| bolts.least_length_mm);
    let bolt = Ware::JointBolt { bolt_mm: bolts.map(|bolts| bolts.bolt_mm), least_length_mm };
    let count = bolts.map_or(1, |bolts| bolts.count);
    let item = items.some("joint bolt", Aisle::Fasteners, bolt, count, Why::HoldsTheLap);
    if let (Some(item), None) = (item, bolts) {
        item.missing = vec![ItemMissing::BoltSize];
    }
    if let MastSeat::Plate { peg_mm: Some(peg_mm), .. } | MastSeat::OnWood { peg_mm: Some(peg_mm) } =
        joints.seat
    {
        let peg = Ware::SeatPeg { peg_mm };
        items.some("seat peg", Aisle::Fasteners, peg, 1, Why::KeepsTheFootThere);
    }
    for (foot, length_mm) in joints.feet.iter().filter_map(|foot| Some((foot, foot.strap_mm?))) {
        let strap = Ware::FootStrap { length_mm };
        items.some(&format!("straps {}", foot.leg), Aisle::Fasteners, strap, 2, Why::HoldsTheFoot);
    }
    if let Some(side_mm) = base.seat_plate_mm {
        let plate = Ware::SeatPlate { side_mm, thickness_mm: base.seat_plate_thickness_mm };
        let item = items.some("seat plate", Aisle::Fasteners, plate, 1, Why::UnderTheMast);
        if let (Some(item), None) = (item, base.seat_plate_thickness_mm) {
            item.missing = vec![ItemMissing::PlateThickness];
        }
    }
    if let Some(side_mm) = base.joint_pad_mm {
        items.some("joint board", Aisle::Timber, Ware::Board { side_mm }, 1, Why::UnderTheJoint);
    }
    let feet = computed.plan.base.legs.iter().filter(|leg| leg.support == Support::Foot).count() as u32;
    if let Some(side_mm) = base.pad_mm {
        items.some("foot boards", Aisle::Timber, Ware::Board { side_mm }, feet, Why::UnderTheFeet);
    }
}

fn of_tubes(items: &mut Items, bench: &BenchWork) {
    let tubes = &items.job.rig.tubes;
    // As thick as it may be: by calliper where somebody read it.
    let widest_mm = |index: usize| {
        bench.diameters.get(index).map_or(0.0, |it| it.outside.map_or(it.outside_mm, |span| span.largest_mm))
    };
    for (index, tube) in tubes.iter().enumerate().skip(1) {
        let name = tube.name.clone();
        if tube.joint == TubeJoint::Threaded {
            let ware = Ware::PipeCoupling { tube: name };
            items.some(&key("coupling", index), Aisle::TubeAndPipe, ware, 1, Why::JoinsTubes);
        } else if let Some(hole_mm) = tube.pin_hole_mm {
            let ware =
                Ware::Pin { tube: name, hole_mm, least_length_mm: widest_mm(index - 1) + 2.0 * PIN_OUT_MM };
            let pin = items.some(&key("pin", index), Aisle::Fasteners, ware, 1, Why::CarriesTheTube);
            if let Some(pin) = pin {
                pin.missing = vec![ItemMissing::PinStrength];
            }
        }
    }
}

/// What cranks the tubes up, and what goes between them.
fn of_lift(items: &mut Items, bench: &BenchWork) {
    let BenchWork { fit, stages, lift, .. } = bench;
    if stages.stages.is_empty() {
        return;
    }
    let own = &items.job.workshop.lift;
    let missing = |known: bool| if known { Vec::new() } else { vec![ItemMissing::Lift] };
    let mut one = |name: &str, aisle, ware, known: bool| {
        let item = items.some(name, aisle, ware, 1, Why::LiftsTheTubes);
        item.into_iter().for_each(|item| item.missing = missing(known));
    };
    one("winch", Aisle::Fasteners, Ware::Winch, own.drum_mm.is_some() && own.gear.is_some());
    let of_strap = Ware::LiftingStrap {
        thickness_mm: own.strap_thickness_mm,
        length_m: lift.strap.as_ref().map(|strap| strap.length_m),
    };
    one("lifting strap", Aisle::Rope, of_strap, lift.strap.is_some() && own.strap_working_n.is_some());
    one("strap hook", Aisle::Rope, Ware::StrapHook, own.hook_working_n.is_some());
    let tube_mm = stages.tubes.first().map_or(0.0, |tube| tube.outside_mm);
    let guide = Ware::RodGuide { tube_mm };
    items.some("rod guide", Aisle::Fasteners, guide, 1, Why::GuidesTheRod);
    of_plate(items, bench);
    for joint in &fit.joints {
        let Bushings::Turned { upper, lower } = &joint.bushings else { continue };
        let size = |ring: &Bushing| ring.stock.as_ref().map(|stock| stock.size.clone());
        for (which, ring) in [("upper", upper), ("lower", lower)] {
            // So much is held in the chuck.
            let ware = Ware::RingStock { size: size(ring), length_mm: 2.0 * ring.length_mm };
            let name = format!("ring stock {which} {}", joint.tube);
            items.some(&name, Aisle::TubeAndPipe, ware, 1, Why::FillsTheGap);
        }
    }
    for stage in &stages.stages {
        if let Some(length_mm) = stage.stop_sleeve_mm {
            let name = format!("stop sleeve {}", stage.tube);
            items.some(&name, Aisle::TubeAndPipe, Ware::StopSleeve { length_mm }, 1, Why::StopsTheTube);
        }
    }
}

/// The winch's plate with its two clamps; without its holes nobody knows it.
fn of_plate(items: &mut Items, bench: &BenchWork) {
    let Some(plate) = &bench.lift.plate else { return };
    let thickness_mm = plate.thickness_mm.or(plate.least_mm);
    let (width_mm, height_mm) = (plate.width_mm, plate.height_mm);
    let steel = Ware::WinchPlateSteel { width_mm, height_mm, thickness_mm };
    let item = items.some("winch plate", Aisle::Fasteners, steel, 1, Why::CarriesTheWinch);
    if let (Some(item), None) = (item, thickness_mm) {
        item.missing = vec![ItemMissing::Lift];
    }
    let tube_mm = bench.stages.tubes.first().map_or(0.0, |tube| tube.outside_mm);
    let clamp = Ware::TubeClamp { tube_mm };
    items.some("winch clamps", Aisle::Fasteners, clamp, 2, Why::CarriesTheWinch);
}

fn of_guys(items: &mut Items, computed: &Computed) {
    for level in &items.job.rig.guy_levels {
        let (id, diameter_mm) = (&level.id, level.rope.diameter_mm);
        let guys = computed.plan.guys.iter().filter(|guy| guy.level_id == *id);
        // Guys that share an anchor have it once: by the first of them.
        let shares = |guy: &&crate::plan::GuyResult| guy.shared_with.iter().all(|other| guy.id < *other);
        let in_ground = guys.clone().filter(|guy| guy.made_fast.is_none());
        let (ropes, anchors) = (guys.count() as u32, in_ground.filter(shares).count() as u32);
        let mut fittings = |name: &str, ware: Ware, each: u32, why: Why| {
            items.some(&format!("{name} {id}"), Aisle::Rope, ware, each * 2 * ropes, why);
        };
        match level.rope.strength.end {
            RopeEnd::Clips => {
                let clip = Ware::RopeClip { diameter_mm };
                fittings("clips", clip, clips_needed(diameter_mm), Why::MakesTheRopeFast);
                fittings("thimbles", Ware::Thimble { diameter_mm }, 1, Why::KeepsTheRopeRound);
            }
            RopeEnd::Sleeve => {
                fittings("sleeves", Ware::Sleeve { diameter_mm }, 1, Why::MakesTheRopeFast);
                fittings("thimbles", Ware::Thimble { diameter_mm }, 1, Why::KeepsTheRopeRound);
            }
            RopeEnd::EyeSplice | RopeEnd::ThimbleSplice => {
                fittings("thimbles", Ware::Thimble { diameter_mm }, 1, Why::KeepsTheRopeRound);
            }
            RopeEnd::Knot | RopeEnd::FigureEightLoop | RopeEnd::ReefKnot | RopeEnd::WedgeSocket => {}
        }
        let ware = Ware::Anchor { level: level.name.clone(), anchor: level.anchor };
        let anchor = items.some(&format!("anchors {id}"), Aisle::Ground, ware, anchors, Why::HoldsTheGuys);
        if let (Some(anchor), AnchorKind::Unknown) = (anchor, level.anchor) {
            anchor.missing = vec![ItemMissing::AnchorKind];
        }
    }
}

fn of_ring_and_strands(items: &mut Items, computed: &Computed) {
    let Some(strands) = &items.job.rig.strands else { return };
    let count = u32::from(strands.count);
    match items.job.workshop.strand.and_then(|strand| strand.lit_m) {
        Some(lit_m) => {
            let ware = Ware::Strand { lit_m };
            items.some("strands", Aisle::Lights, ware, count, Why::TheCone);
        }
        None => {
            let item = items.some("strands", Aisle::Lights, Ware::StrandUnknown, count, Why::TheCone);
            item.into_iter().for_each(|item| item.missing = vec![ItemMissing::StrandLength]);
        }
    }
    let Some(pipe) = items.job.workshop.ring else { return };
    of_brackets(items, computed);
    let Some(plan) = &computed.plan.ring else { return };
    let bend = ring_bend(&pipe, strands, plan);
    let closed = strands.sweep_deg >= 360.0;
    let length_m = super::ring_length_m(items.job, computed).unwrap_or(0.0);
    let Some(supports) = pipe.supports.map(u32::from) else {
        let (ware, why) = (Ware::RingTie, Why::HoldsTheRingDown);
        items.put("ring ties", Aisle::Fasteners, ware, Amount::NotKnown, why).missing =
            vec![ItemMissing::RingSupports];
        return;
    };
    if let Bend::TooSharp { straight, .. } = bend {
        if let Some(straight) = straight {
            let corners = if closed { straight.pieces } else { straight.pieces - 1 };
            let ware = Ware::RingCorner { turn_deg: straight.turn_deg };
            let corner = items.some("ring corners", Aisle::TubeAndPipe, ware, corners, Why::JoinsTheRing);
            corner.into_iter().for_each(|item| item.missing = vec![ItemMissing::RingCorners]);
        }
    } else if let Some(Ok(pieces)) =
        pipe.pipe_m.map(|pipe_m| ring::pieces(length_m, closed, supports, pipe_m))
    {
        let ware = Ware::RingCoupling { outside_mm: pipe.outside_mm };
        items.some("ring couplings", Aisle::TubeAndPipe, ware, pieces.couplings, Why::JoinsTheRing);
        if pipe.stuff == RingStuff::Pvc && pieces.couplings > 0 {
            items.some("pvc cement", Aisle::Paint, Ware::PvcCement, 1, Why::GluesTheRing);
        }
    }
    items.some("ring ties", Aisle::Fasteners, Ware::RingTie, supports, Why::HoldsTheRingDown);
}

/// What holds the discs; they themselves are on the cut list.
fn of_topper(items: &mut Items, computed: &Computed, bench: &BenchWork) {
    let of = circles(items.job, computed);
    if of.topper.is_none() {
        return;
    }
    let Some(discs) = of.discs else {
        let (ware, why) = (Ware::TopperUnknown, Why::CarriesTheStrands);
        let item = items.some("topper", Aisle::Timber, ware, 1, why);
        return item.into_iter().for_each(|item| item.missing = vec![ItemMissing::Topper]);
    };
    let tube_mm = bench.diameters.last().map_or(0.0, |tube| tube.outside_mm);
    let (ware, missing) = match (discs.held, discs.bolt) {
        (TopperHeld::Bolt, Some(bolt)) => {
            (Ware::TopperBolt { bolt_mm: bolt.bolt_mm, least_length_mm: bolt.least_length_mm }, Vec::new())
        }
        (TopperHeld::Sleeve, _) => (Ware::TopperSleeve { tube_mm }, vec![ItemMissing::TopperHold]),
        _ => return,
    };
    let item = items.some("topper hold", Aisle::Fasteners, ware, 1, Why::HoldsTheTopper);
    item.into_iter().for_each(|item| item.missing = missing.clone());
}

/// What keeps each level of guys up; its page says what is missing.
fn of_collars(items: &mut Items, bench: &BenchWork) {
    for collar in &bench.collars.levels {
        let ware = Ware::GuyCollarWare { guys: collar.name.clone(), bore_mm: collar.bore_mm };
        let name = format!("guy collar {}", collar.level);
        let item = items.some(&name, Aisle::Fasteners, ware, 1, Why::CarriesTheGuys);
        if let (Some(item), None) = (item, collar.carries_n) {
            item.missing = vec![ItemMissing::CollarHold];
        }
        if let Some(bolt_mm) = collar.bolt_mm {
            let bolt = Ware::CollarBolt { bolt_mm, least_length_mm: collar.bolt_length_mm };
            let name = format!("collar bolt {}", collar.level);
            let item = items.some(&name, Aisle::Fasteners, bolt, 1, Why::CarriesTheGuys);
            if let (Some(item), None) = (item, collar.bolt_length_mm) {
                item.missing = vec![ItemMissing::CollarHold];
            }
        }
    }
}

/// The bars and clamps from the base's legs to the ring.
fn of_brackets(items: &mut Items, computed: &Computed) {
    let brackets = circles(items.job, computed).brackets;
    let outside_mm = items.job.workshop.ring.and_then(|pipe| pipe.outside_mm);
    for of in brackets.iter().filter(|of| of.bar_mm.is_some() || of.least_mm.is_none()) {
        let (width_mm, thickness_mm, length_mm) = (of.width_mm, of.bar_mm, of.length_mm);
        let ware = Ware::BracketBar { width_mm, thickness_mm, length_mm };
        let why = Why::TiesTheRingToTheBase;
        let item = items.some(&format!("ring bracket {}", of.leg), Aisle::Fasteners, ware, 1, why);
        if let (Some(item), None) = (item, thickness_mm) {
            item.missing = vec![ItemMissing::RingPipe];
        }
        let clamp = Ware::PipeClamp { outside_mm };
        let item = items.some(&format!("ring clamp {}", of.leg), Aisle::Fasteners, clamp, 1, why);
        if let (Some(item), None) = (item, outside_mm) {
            item.missing = vec![ItemMissing::RingPipe];
        }
    }
}

fn of_paint(items: &mut Items, lots: &[CutLot]) {
    let has = |is: fn(&Material) -> bool| lots.iter().any(|lot| is(&lot.lot.of));
    let tubes = has(|of| matches!(of, Material::Tube { .. }));
    let one = [
        (tubes, "cold zinc", Aisle::Paint, Ware::ColdZinc, Why::CoversBareSteel),
        (
            has(|of| matches!(of, Material::Timber { .. })),
            "wood preservative",
            Aisle::Paint,
            Ware::WoodPreservative,
            Why::CoversSawnEnds,
        ),
        (
            items.job.rig.tubes.iter().any(|tube| tube.joint == TubeJoint::Threaded),
            "thread sealant",
            Aisle::Paint,
            Ware::ThreadSealant,
            Why::SealsThreads,
        ),
        (
            has(|of| matches!(of, Material::Rope { .. })),
            "bright tape",
            Aisle::Safety,
            Ware::BrightTape,
            Why::MakesRopesSeen,
        ),
        (true, "marking paint", Aisle::Ground, Ware::MarkingPaint, Why::MarksTheGround),
        (true, "glasses", Aisle::Safety, Ware::Glasses, Why::Eyes),
        (true, "gloves", Aisle::Safety, Ware::Gloves, Why::Hands),
        (true, "dust mask", Aisle::Safety, Ware::DustMask, Why::Lungs),
    ];
    for (wanted, name, aisle, ware, why) in one {
        items.some(name, aisle, ware, u32::from(wanted), why);
    }
}
