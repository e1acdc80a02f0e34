//! Topper, ring and strands as bought, in words.

use serde::Serialize;

use super::format;
use super::words::circles as say;
use crate::job::Job;
use crate::quantity::sold;
use crate::workshop::circle::bracket::RingBracket;
use crate::workshop::circle::topper::{TopperBuild, TopperTrouble};
use crate::workshop::circle::{Bend, Circles, PipeMissing, PipeWork, RingWork, StrandWork, TopperHoles};

/// One thing to know, large, with what it is.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct BigNumber {
    pub number: String,
    pub is: String,
}

/// A card of the page.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CircleText {
    pub title: String,
    pub numbers: Vec<BigNumber>,
    pub says: Vec<String>,
    /// What is wrong, with the nearest that works.
    pub stops: Vec<String>,
    /// What nobody has said yet.
    pub missing: Vec<String>,
    /// Each hole, piece or strand by its number.
    pub list: Vec<BigNumber>,
    pub caution: String,
}

/// All of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CirclesReport {
    /// Empty where there are strands.
    pub nothing: String,
    pub cards: Vec<CircleText>,
}

/// Puts it into words.
pub fn circles(job: &Job, of: &Circles) -> CirclesReport {
    let Some(ring) = &of.ring else {
        return CirclesReport { nothing: say::NO_STRANDS.to_owned(), cards: Vec::new() };
    };
    let told = Told { job };
    let topper = of.topper.as_ref().map(|topper| told.topper(topper));
    let discs = of.topper.as_ref().map(|_| told.discs(of.discs.as_ref()));
    let cards = topper.into_iter().chain(discs).chain([told.ring(ring)]);
    let cards = cards.chain(of.brackets.iter().map(|bracket| told.bracket(bracket)));
    let cards = cards.chain([told.strands(of.strands.as_ref())]);
    CirclesReport { nothing: String::new(), cards: cards.collect() }
}

/// As thick as a pencil's line.
const PENCIL_MM: f64 = 0.5;

struct Told<'a> {
    job: &'a Job,
}

fn card(title: &str, caution: &str) -> CircleText {
    CircleText {
        title: title.to_owned(),
        numbers: Vec::new(),
        says: Vec::new(),
        stops: Vec::new(),
        missing: Vec::new(),
        list: Vec::new(),
        caution: caution.to_owned(),
    }
}

fn big(number: String, is: &str) -> BigNumber {
    BigNumber { number, is: is.to_owned() }
}

impl Told<'_> {
    /// Laid out with a rule.
    fn small(&self, mm: f64) -> String {
        sold::tape(mm, self.job.units)
    }

    /// The largest drill that is not wider.
    fn drill_at_most(&self, mm: f64) -> String {
        let units = self.job.units;
        let step_mm = sold::drill_mm(1e-3, units.system);
        sold::drill((mm / step_mm + 1e-6).floor() * step_mm, units)
    }

    fn length(&self, m: f64) -> String {
        format::length(m, self.job.units)
    }

    fn topper(&self, of: &TopperHoles) -> CircleText {
        let mut card = card(say::TOPPER, say::DRILL);
        card.numbers = vec![
            big(sold::dividers(of.divider_mm, self.job.units), say::DIVIDERS),
            big(self.small(of.radius_mm), say::RADIUS),
            big(of.count.to_string(), say::HOLES),
            big(say::degrees(of.step_deg), say::STEP),
        ];
        card.says.push(say::step_off(of.steps, of.count == of.steps));
        let (_, rest_mm) = sold::dividers_mm(of.divider_mm, self.job.units.system);
        let adds_up = self.small(rest_mm.abs() * f64::from(of.steps));
        // A pencil line's thickness is no matter.
        if rest_mm.abs() * f64::from(of.steps) > PENCIL_MM {
            card.says.push(say::rest_adds_up(&adds_up, rest_mm > 0.0));
        }
        match of.hole_mm {
            None => card.missing.push(say::ENTER_HOLE.to_owned()),
            Some(hole_mm) => card.numbers.push(big(sold::drill(hole_mm, self.job.units), say::BORE)),
        }
        if let Some(trouble) = &of.trouble {
            let [left, least, radius] =
                [trouble.left_mm, trouble.least_mm, trouble.radius_mm].map(|mm| self.small(mm));
            let hole = self.drill_at_most(trouble.hole_mm);
            card.stops.push(say::holes_too_close(&left, &least, &radius, &hole));
        }
        let angle = |(number, angle): (usize, &f64)| big(say::degrees(*angle), &say::hole(number));
        card.list = (1..).zip(&of.angles_deg).map(angle).collect();
        card
    }

    /// The topper where it is of two discs.
    fn discs(&self, of: Option<&TopperBuild>) -> CircleText {
        let mut card = card(say::DISCS, say::SAW_ROUND);
        let Some(of) = of else {
            card.missing.push(say::ENTER_DISCS.to_owned());
            return card;
        };
        let units = self.job.units;
        let read = |mm: f64| format::length_small(mm, units);
        card.numbers = vec![
            big(sold::tape_at_least(of.disc_mm, units), say::DISC_ACROSS),
            big(read(of.bore_mm), if of.measured { say::DISC_BORE } else { say::DISC_BORE_BY_LIST }),
        ];
        card.numbers.extend(of.apart_mm.map(|mm| big(self.small(mm), say::DISCS_APART)));
        if let Some(bolt) = &of.bolt {
            card.numbers.push(big(sold::drill(bolt.hole_mm, units), say::TOPPER_BOLT_HOLE));
            let from = bolt.from_upper_end_m.map(|m| big(self.length(m), say::TOPPER_BOLT_AT));
            card.numbers.extend(from);
        }
        card.says.push(say::DISCS_HOW.to_owned());
        card.says.push(say::topper_hold(of.held).to_owned());
        if let Some((lean_deg, rim_mm)) = of.lean_deg.zip(of.rim_mm) {
            card.says.push(say::topper_rocks(
                &read(of.play_mm),
                &say::degrees(lean_deg),
                &self.small(rim_mm),
            ));
        }
        card.says.push(say::topper_push(&format::force(of.still_n, units)));
        card.says.extend(of.after_m.map(|after_m| say::topper_after(&self.length(after_m))));
        card.stops = of.trouble.iter().map(|trouble| self.topper_trouble(trouble)).collect();
        card.missing = of.missing.iter().map(|missing| say::enter_topper(*missing).to_owned()).collect();
        card
    }

    fn topper_trouble(&self, of: &TopperTrouble) -> String {
        let units = self.job.units;
        match *of {
            TopperTrouble::DiscTooSmall { disc_mm, least_mm } => {
                say::disc_too_small(&self.small(disc_mm), &sold::tape_at_least(least_mm, units))
            }
            TopperTrouble::BoreMeetsHoles { left_mm, least_mm, radius_mm } => {
                let radius = sold::tape_at_least(radius_mm, units);
                say::bore_meets_holes(&self.small(left_mm.max(0.0)), &self.small(least_mm), &radius)
            }
            TopperTrouble::BeyondTheTube { over_m, most_height_m } => {
                say::beyond_the_tube(&self.length(over_m), &self.length(most_height_m))
            }
        }
    }

    fn ring(&self, of: &RingWork) -> CircleText {
        let mut card = card(say::RING, say::BEND_WITH_CARE);
        card.numbers = vec![
            big(self.length(of.length_m), if of.closed { say::ROUND } else { say::PART_ROUND }),
            big(self.length(of.radius_m), say::RING_RADIUS),
        ];
        match &of.pipe {
            None => card.missing.push(say::ENTER_PIPE.to_owned()),
            Some(pipe) => self.pipe(&mut card, pipe, of.radius_m),
        }
        card
    }

    fn pipe(&self, card: &mut CircleText, of: &PipeWork, radius_m: f64) {
        card.numbers.extend(of.span_m.map(|span_m| big(self.length(span_m), say::SPAN)));
        if let Some(pieces) = &of.pieces {
            card.numbers.push(big(pieces.couplings.to_string(), say::COUPLINGS));
            let piece = |(number, m): (usize, &f64)| big(self.length(*m), &say::ring_piece(number));
            card.list = (1..).zip(&pieces.pieces_m).map(piece).collect();
            card.says.push(say::JOINTS_ON_SUPPORTS.to_owned());
        }
        if let Some((needed, span_m)) = of.supports_needed.zip(of.span_m) {
            card.stops.push(say::span_too_long(&self.length(span_m), needed));
        }
        if let Some(pull_n) = of.tie_pull_n {
            card.says.push(say::ties(&format::force(pull_n, self.job.units)));
        }
        let bore = |bore_mm: f64| big(sold::drill(bore_mm, self.job.units), say::SUPPORT_BORE);
        card.numbers.extend(of.bore_mm.map(bore));
        card.missing.extend(of.missing.iter().map(|missing| say::enter(*missing).to_owned()));
        match &of.stiffness {
            // What is missing of it says so itself.
            None if of.missing.is_empty() => card.missing.push(say::GIVES_NOT_KNOWN.to_owned()),
            None => {}
            Some(stiff) => {
                let [sag, most] = [stiff.sag_mm, stiff.most_mm].map(|mm| self.small(mm));
                card.says.push(say::gives(&sag, &self.length(stiff.apart_m)));
                let bends = !matches!(of.bend, Bend::TooSharp { .. });
                let spring = stiff.spring_n.zip(stiff.spring_nm).filter(|_| bends);
                card.says.extend(spring.map(|(spring_n, spring_nm)| {
                    let spring = format::force(spring_n, self.job.units);
                    say::springs(&spring, &format::torque(spring_nm, self.job.units))
                }));
                if stiff.sag_mm > stiff.most_mm {
                    card.stops.push(say::gives_too_much(&sag, &most, stiff.supports));
                }
            }
        }
        let radius = self.length(radius_m);
        match of.bend {
            Bend::NotKnown if of.missing.contains(&PipeMissing::Outside) => {}
            Bend::NotKnown => card.missing.push(say::BEND_NOT_KNOWN.to_owned()),
            Bend::Bends { least_radius_m, source } => {
                card.says.push(say::bends(&radius, &self.length(least_radius_m), source.source().citation));
            }
            Bend::TooSharp { least_radius_m, source, straight } => {
                let least = self.length(least_radius_m);
                card.stops.push(say::too_sharp(&radius, &least, source.source().citation));
                card.stops.extend(straight.map(|of| {
                    say::straight(of.pieces, &self.length(of.piece_m), &say::degrees(of.turn_deg))
                }));
            }
        }
    }

    fn bracket(&self, of: &RingBracket) -> CircleText {
        let mut card = card(&say::bracket_title(&of.leg), say::BRACKET_CAUTION);
        let units = self.job.units;
        let way = self.length(of.beyond_tip_m.abs());
        card.numbers
            .push(big(way, if of.beyond_tip_m < 0.0 { say::ON_THE_LEG } else { say::BEYOND_THE_TIP }));
        card.numbers.push(big(
            self.length(of.rise_m.abs()),
            if of.rise_m < 0.0 { say::BENT_DOWN } else { say::BENT_UP },
        ));
        match of.bar_mm {
            Some(bar_mm) => {
                let bar = say::flat_bar(&self.small(of.width_mm), &sold::thickness(bar_mm, units));
                card.numbers.push(big(bar, say::BAR));
                card.numbers.push(big(self.small(of.length_mm), say::BAR_LENGTH));
            }
            None if of.least_mm.is_some() => {
                card.says.push(say::too_far_for_a_bar(&self.length(of.beyond_tip_m.abs())));
            }
            None => card.missing.push(say::enter(PipeMissing::Supports).to_owned()),
        }
        let from_end = |mm: [f64; 2]| say::both(&mm.map(|mm| self.small(mm)));
        card.list.push(big(from_end(of.bolts_mm), &say::bracket_bolts(&sold::drill(of.bolt_hole_mm, units))));
        match of.clamp_mm {
            Some(clamp_mm) => card
                .list
                .push(big(from_end(clamp_mm), &say::bracket_clamp(&sold::drill(of.clamp_hole_mm, units)))),
            None => card.missing.push(say::enter(PipeMissing::Outside).to_owned()),
        }
        if let (Some(pull_n), Some(bolt_n), Some(moment_nm)) = (of.pull_n, of.bolt_pull_n, of.moment_nm) {
            let [pull, bolt] = [pull_n, bolt_n].map(|n| format::force(n, units));
            card.says.push(say::bracket_pull(&pull, &format::torque(moment_nm, units), &bolt));
        }
        card
    }

    fn strands(&self, of: Option<&StrandWork>) -> CircleText {
        let mut card = card(say::STRANDS, say::NO_CUTTING);
        let Some(of) = of else {
            card.missing.push(say::ENTER_STRAND.to_owned());
            return card;
        };
        let least = of.spares.iter().map(|it| it.lit_over_m).fold(f64::INFINITY, f64::min);
        let ways = of.spares.iter().map(|it| it.way_m);
        let (short, long) = ways.fold((f64::INFINITY, 0.0_f64), |(a, b), way| (a.min(way), b.max(way)));
        card.numbers = vec![
            big(self.length(long), say::LONGEST_WAY),
            big(self.length(short), say::SHORTEST_WAY),
            big(self.length(least.abs()), if least < 0.0 { say::DARK } else { say::WIND_UP }),
        ];
        if of.short > 0 {
            card.stops.push(say::does_not_reach(of.short));
        } else if of.dark > 0 {
            card.says.push(say::dark(of.dark));
        } else {
            card.says.push(say::ALL_LIT.to_owned());
        }
        let length = |m: Option<f64>| m.map(|m| self.length(m));
        card.says.push(say::fits_by_height(length(of.top_height_m).as_deref()));
        card.says.push(say::fits_by_radius(length(of.ring_radius_m).as_deref()));
        let degrees = |deg: Option<f64>| deg.map(format::angle);
        card.says.push(say::fits_by_lean(
            &format::angle(of.lean_deg),
            degrees(of.all_lit_lean_deg).as_deref(),
            degrees(of.most_lean_deg).as_deref(),
        ));
        let spare = |(number, it): (usize, &crate::workshop::circle::StrandSpare)| {
            let over = self.length(it.lit_over_m.abs());
            let is = say::strand(number, &self.length(it.way_m), it.lit_over_m < 0.0, it.reach_over_m < 0.0);
            BigNumber { number: over, is }
        };
        card.list = (1..).zip(&of.spares).map(spare).collect();
        card
    }
}
