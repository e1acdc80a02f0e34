//! The mast at rest in a gust, twice: under the loads as they are, and under the design loads with the mast's bows.
//!
//! Why twice, and with which factors: [`crate::resistance::factors`].

use super::bow;
use super::search::Windy;
use crate::numerics::real::hypot;
use crate::numerics::vector::*;
use crate::resistance::factors::LOADS;
use crate::structure::{Instability, Model, Outcome, Response, Solver, State};

/// The bows' forces follow the compression that they are made of to this share.
const BOW_NEAR: f64 = 2e-3;
const MOST_ROUNDS: u32 = 6;
/// Within 7.5° of a guy the wind blows along it.
const IN_LINE: f64 = 0.991_444_861;
/// Within 3° of the wind's way the mast has not swung out.
const NO_SWING: f64 = 0.998_629_535;

/// Both states, each the start of the next solution.
pub struct States {
    service: Solver,
    design: Solver,
    /// The last bows' forces, and the foot's push under the loads as they were: the next are about as much greater.
    bows_n: Vec<Vector>,
    push_n: f64,
    /// Every span's bow: 1 with the wind, −1 against it.
    signs: Vec<f64>,
}

/// Where the next solutions of both start.
pub struct Starts {
    service: State,
    design: State,
    bows_n: Vec<Vector>,
    push_n: f64,
}

impl States {
    pub fn new(model: &Model) -> Self {
        let service = Solver::new(model);
        let bows_n = vec![[0.0; 3]; model.nodes.len()];
        Self { design: service.clone(), service, bows_n, push_n: 0.0, signs: Vec::new() }
    }

    pub fn starts(&self) -> Starts {
        let (service, design) = (self.service.state(), self.design.state());
        Starts { service, design, bows_n: self.bows_n.clone(), push_n: self.push_n }
    }

    pub fn exchange(&mut self, starts: &mut Starts) {
        self.service.exchange(&mut starts.service);
        self.design.exchange(&mut starts.design);
        std::mem::swap(&mut self.bows_n, &mut starts.bows_n);
        std::mem::swap(&mut self.push_n, &mut starts.push_n);
    }

    /// As [`Solver::carry_over`].
    pub fn carry_over(&mut self, model: &Model, turn: [f64; 2]) {
        self.service.carry_over(model, turn);
        self.design.carry_over(model, turn);
        let [cosine, sine] = turn;
        for [x, y, _] in &mut self.bows_n {
            (*x, *y) = (cosine * *x - sine * *y, sine * *x + cosine * *y);
        }
    }

    /// Swings the start of the next solution under the design loads over to the wind's other side; false where the wind
    /// does not blow along a guy, or the mast hardly leaves its way.
    pub fn swing_over(&mut self, model: &Model, toward: [f64; 2]) -> bool {
        let [east, north] = toward;
        let along = |[x, y, _]: Vector| (x * east + y * north) / hypot(x, y).max(1e-9);
        let Some(top) = self.design.response().nodes.get(model.node_at(model.height_m)) else { return false };
        let [x, y, _] = top.displacement_m;
        let far = hypot(x, y);
        let cosine = along(top.displacement_m);
        let in_line = model.guys.iter().any(|guy| along(guy.anchor_m) < -IN_LINE);
        if !in_line || far < 1e-3 * model.height_m || cosine > NO_SWING {
            return false;
        }
        // Turned back by twice the angle.
        let sine = (x * north - y * east) / far;
        self.design.carry_over(model, [cosine * cosine - sine * sine, 2.0 * sine * cosine]);
        true
    }

    /// The loads as they are alone.
    pub fn service(&mut self) -> &mut Solver {
        &mut self.service
    }

    /// The last equilibrium under the design loads.
    pub fn design(&self) -> &Response {
        self.design.response()
    }

    /// Bends the spans this way from now on.
    pub fn bend(&mut self, signs: Vec<f64>) {
        self.signs = signs;
    }

    /// How the spans are bent.
    pub fn bent(&self) -> &[f64] {
        &self.signs
    }

    /// Both, with the share of what they do that is held against what parts may carry.
    pub fn at_rest(&self) -> [(&Response, f64); 2] {
        [(self.service.response(), 1.0), (self.design.response(), 1.0 / LOADS)]
    }

    /// Brings both to rest in a gust, by its square.
    ///
    /// # Errors
    /// Where one of them does not stand.
    pub fn settle(&mut self, windy: &mut Windy, gust_squared: f64) -> Result<(), Instability> {
        self.settle_service(windy, gust_squared)?;
        self.settle_design(windy, gust_squared)
    }

    pub fn settle_service(&mut self, windy: &mut Windy, gust_squared: f64) -> Result<(), Instability> {
        windy.loads.set(&mut windy.case, gust_squared);
        stood(self.service.solve(&windy.model, &windy.case))
    }

    /// After [`Self::settle_service`]: it says which way the spans are bent.
    pub fn settle_design(&mut self, windy: &mut Windy, gust_squared: f64) -> Result<(), Instability> {
        let Windy { model, loads, design, bows, .. } = windy;
        let mut ways = bows.lines(model, self.service.response());
        for (way, sign) in ways.iter_mut().zip(&self.signs) {
            *way = scale(*way, *sign);
        }
        let push_n = self.service.response().base.force_n[2];
        if self.push_n > 0.0 && push_n > 0.0 {
            self.bows_n.iter_mut().for_each(|force| *force = scale(*force, push_n / self.push_n));
        }
        self.push_n = push_n;
        for _ in 0..MOST_ROUNDS {
            loads.set_design(design, model, gust_squared);
            design.points.extend(bow::points(&self.bows_n));
            if let Err(fallen) = stood(self.design.solve(model, design)) {
                // Nothing to start from.
                (self.push_n, self.bows_n) = (0.0, vec![[0.0; 3]; model.nodes.len()]);
                return Err(fallen);
            }
            let before =
                std::mem::replace(&mut self.bows_n, bows.forces(model, self.design.response(), &ways));
            let most = |list: &mut dyn Iterator<Item = f64>| list.fold(0.0_f64, f64::max);
            let change = most(&mut before.iter().zip(&self.bows_n).map(|(a, b)| norm(subtract(*a, *b))));
            if change <= BOW_NEAR * most(&mut self.bows_n.iter().map(|force| norm(*force))) {
                break;
            }
        }
        Ok(())
    }
}

fn stood(outcome: Outcome) -> Result<(), Instability> {
    match outcome {
        Outcome::Stands(_) => Ok(()),
        Outcome::Unstable(fallen) => Err(fallen),
    }
}
