//! The mast at rest in a gust, twice: under the loads as they are, and under the design loads with the mast's bows.
//!
//! Why twice, and with which factors: [`crate::resistance::factors`].

use super::search::Windy;
use crate::numerics::real::hypot;
use crate::numerics::vector::*;
use crate::resistance::factors::LOADS;
use crate::structure::{Instability, LoadCase, Model, Outcome, Reason, Response, SolveEffort, Solver, State};

/// Within 7.5° of a guy the wind blows along it.
const IN_LINE: f64 = 0.991_444_861;
/// Within 3° of the wind's way the mast has not swung out.
const NO_SWING: f64 = 0.998_629_535;

/// Both states, each the start of the next solution.
pub struct States {
    service: Solver,
    design: Solver,
    /// Every span's bow: 1 with the wind, −1 against it.
    signs: Vec<f64>,
    /// The gust's square, and where it blows to, in which the loads as they are were brought to rest, where nothing was
    /// done to them since.
    settled: Option<(f64, [f64; 2])>,
}

/// Where the next solutions of both start.
#[derive(Clone)]
pub struct Starts {
    service: State,
    design: State,
}

impl States {
    pub fn new(model: &Model) -> Self {
        let service = Solver::new(model);
        Self { design: service.clone(), service, signs: Vec::new(), settled: None }
    }

    /// As [`Solver::spent`], of both.
    pub fn spent(&self) -> u64 {
        self.service.spent() + self.design.spent()
    }

    pub fn starts(&self) -> Starts {
        Starts { service: self.service.state(), design: self.design.state() }
    }

    pub fn exchange(&mut self, starts: &mut Starts) {
        self.settled = None;
        self.service.exchange(&mut starts.service);
        self.design.exchange(&mut starts.design);
    }

    /// Where the next solution under the design loads starts.
    pub fn design_start(&self) -> State {
        self.design.state()
    }

    pub fn exchange_design(&mut self, start: &mut State) {
        self.design.exchange(start);
    }

    /// Back to the mast as it was set up.
    pub fn begin(&mut self, model: &Model) {
        self.settled = None;
        self.service.reset(model);
        self.design.reset(model);
    }

    /// Swings the start of the next solution under the design loads over to the wind's other side; false where the wind
    /// does not blow along a guy, or the mast hardly leaves its way.
    pub fn swing_over(&mut self, model: &Model, toward: [f64; 2]) -> bool {
        let [east, north] = toward;
        let along = |[x, y, _]: Vector| (x * east + y * north) / hypot(x, y).max(1e-9);
        let top_m = self.design.moved_m(model.node_at(model.height_m));
        let [x, y, _] = top_m;
        let far = hypot(x, y);
        let cosine = along(top_m);
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
        self.settled = None;
        &mut self.service
    }

    /// The last equilibrium under the design loads.
    pub fn design(&self) -> &Response {
        self.design.response()
    }

    /// How firm the mast stands under the design loads ([`Solver::firmness`]).
    pub fn firmness(&self) -> f64 {
        self.design.firmness()
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
        self.service_to(windy, gust_squared, |solver, Windy { model, case, .. }| {
            stood(solver.solve(model, case))
        })
    }

    /// After [`Self::settle_service`]: it says which way the spans are bent.
    pub fn settle_design(&mut self, windy: &mut Windy, gust_squared: f64) -> Result<(), Instability> {
        self.load_design(windy, gust_squared);
        stood(self.design.solve(&windy.model, &windy.design))
    }

    /// Under the design loads alone, in another shape: on from where it stands; or, `straight`, from where it stands
    /// without a bow, under the loads as they are; or else downhill from there.
    ///
    /// # Errors
    /// Where it finds no rest.
    pub fn reshape(&mut self, windy: &mut Windy, gust_squared: f64, straight: bool) -> Result<(), Reason> {
        self.load_design(windy, gust_squared);
        let start = self.design.state();
        if self.design.go_on(&windy.model, &windy.design).is_ok() {
            return Ok(());
        }
        if straight {
            self.design.exchange(&mut self.service.state());
            if self.design.go_on(&windy.model, &windy.design).is_ok() {
                return Ok(());
            }
        }
        self.design.exchange(&mut { start });
        self.design.swing(&windy.model, &windy.design).map(|_| ())
    }

    /// Both go on from where they stand in a gust nearby, without leaving what is stable ([`Solver::go_on`]).
    ///
    /// # Errors
    /// Where one of them does not come there: the states are then none, take others.
    pub fn go_on(&mut self, windy: &mut Windy, gust_squared: f64) -> Result<(), Reason> {
        self.go(windy, gust_squared, Solver::go_on)
    }

    /// As [`Self::go_on`], wherever it is downhill ([`Solver::swing`]).
    ///
    /// # Errors
    /// Where one of them finds no rest.
    pub fn swing(&mut self, windy: &mut Windy, gust_squared: f64) -> Result<(), Reason> {
        self.go(windy, gust_squared, Solver::swing)
    }

    fn go(&mut self, windy: &mut Windy, gust_squared: f64, way: SolverWay) -> Result<(), Reason> {
        self.service_to(windy, gust_squared, |solver, Windy { model, case, .. }| {
            way(solver, model, case).map(|_| ())
        })?;
        self.load_design(windy, gust_squared);
        way(&mut self.design, &windy.model, &windy.design).map(|_| ())
    }

    /// Brings the loads as they are to rest in a gust, if they are not.
    fn service_to<E>(
        &mut self,
        windy: &mut Windy,
        gust_squared: f64,
        bring: impl Fn(&mut Solver, &Windy) -> Result<(), E>,
    ) -> Result<(), E> {
        windy.loads.set(&mut windy.case, gust_squared);
        let gust = (gust_squared, windy.loads.toward());
        if self.settled == Some(gust) {
            return Ok(());
        }
        self.settled = None;
        bring(&mut self.service, windy)?;
        self.settled = Some(gust);
        Ok(())
    }

    /// Sets the design loads of a gust, and bends the spans the way in which the loads as they are say.
    fn load_design(&self, windy: &mut Windy, gust_squared: f64) {
        let Windy { model, loads, design, bows, .. } = windy;
        loads.set_design(design, model, gust_squared);
        let mut ways = bows.lines(model, self.service.response());
        for (way, sign) in ways.iter_mut().zip(&self.signs) {
            *way = scale(*way, *sign);
        }
        bows.slopes(model, &ways, &mut design.bows);
    }
}

/// A way of a solver to rest.
pub type SolverWay = fn(&mut Solver, &Model, &LoadCase) -> Result<SolveEffort, Reason>;

fn stood(outcome: Outcome) -> Result<(), Instability> {
    match outcome {
        Outcome::Stands(_) => Ok(()),
        Outcome::Unstable(fallen) => Err(fallen),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::structure::{GuyLength, GuyPart, Mast, PointLoad, TubePart};

    /// Blown north of the wind's way, the mast swings over to the same place south of it, as in a mirror along the wind, and
    /// back; not where the wind blows along no guy, nor where it has not left its way.
    #[test]
    fn a_mast_swings_over_to_its_mirror_s_place() {
        let guy = |east_m: f64, north_m: f64| GuyPart {
            attach_height_m: 4.0,
            collar_offset_m: [0.0; 3],
            anchor_m: [east_m, north_m, 0.0],
            stiffness_n: 1e4,
            weight_n_per_m: 0.1,
            length: GuyLength::UpperTension { tension_n: 60.0 },
        };
        let guys = vec![guy(-3.0, 0.0), guy(1.5, 2.6), guy(1.5, -2.6)];
        let tubes = vec![TubePart::of_steel(0.0, 4.0, 0.05, 0.003)];
        let model = Model::build(&Mast { guys, ..Mast::standing_on([0.0; 3], tubes) }).unwrap();
        let top = model.node_at(4.0);
        let blown = |force_n: Vector| {
            let mut case = LoadCase::still_air(&model);
            case.points.push(PointLoad { node: top, force_n, moment_n_m: [0.0; 3] });
            let mut states = States::new(&model);
            assert!(stood(states.design.solve(&model, &case)).is_ok());
            states
        };
        let mut states = blown([100.0, 60.0, 0.0]);
        let [x, y, z] = states.design.moved_m(top);
        assert!(x > 0.01 && y > 0.005, "{x} {y}");
        for mirrored in [[x, -y, z], [x, y, z]] {
            assert!(states.swing_over(&model, [1.0, 0.0]));
            let found = states.design.moved_m(top);
            assert!(norm(subtract(found, mirrored)) < 1e-12, "{found:?} against {mirrored:?}");
        }
        assert!(!states.swing_over(&model, [0.0, 1.0]));
        assert!(!blown([100.0, 1.0, 0.0]).swing_over(&model, [1.0, 0.0]));
    }
}
