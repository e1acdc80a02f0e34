//! One beam of the mast between two nodes: its energy's first and second derivatives, exact for any turn in
//! space.
//!
//! With the chord vector d = x₂ − x₁, its length l and direction e, and the directions t₁, t₂ of the tube's axis
//! at the two nodes, the local end rotations of a round tube are the vectors θ₁ = e × t₁, θ₂ = e × t₂, and
//!
//! ```text
//! U = ½·EA·L·ε² + (2EI/L)·(θ₁² + θ₁·θ₂ + θ₂²) + ½·(GJ/L)·φ²
//! ε = (l − L)/L + (2θ₁² − θ₁·θ₂ + 2θ₂²)/30
//! ```
//!
//! A beam that is bent out of the mast's line before anything loads it, by the slope b, has d·(1, b) for its chord: where
//! its ends move by u against each other it grows longer by b·u besides, in the first order of b, and its axial force
//! pushes them sideways by b times itself (EN 1993-1-1, 5.3.2 (7)).
//!
//! The bending term is that of the slope-deflection equations, the last part of ε the shortening by bowing,
//! ∫½v′²dx of the cubic between the two end rotations; it brings the P-δ effect inside the beam
//! (przemieniecki1968, §15.2). Separating the rigid turn from the local bending is the corotational idea
//! (crisfield1997, ch. 17). Because θ = e × t enters as a sine, local rotations θ are wrong by θ³/6: a
//! thousandth of a degree at 3°. The products are all of a = e·t and c = t₁·t₂:
//! θ₁² = 1 − a₁², θ₁·θ₂ = c − a₁a₂.

use crate::numerics::vector::*;

/// What a beam is made of and how it stands unloaded.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beam {
    /// From the first node to the second, unloaded.
    pub chord_m: Vector,
    pub length_m: f64,
    /// EA.
    pub axial_n: f64,
    /// EI.
    pub bending_n_m2: f64,
    /// GJ.
    pub torsion_n_m2: f64,
}

/// One end of the beam as it is now.
#[derive(Debug, Clone, Copy)]
pub struct End {
    pub displacement_m: Vector,
    pub turn: Rotation,
    /// Direction of the tube's axis here, carried along by `turn`.
    pub axis: Vector,
}

/// What the beam does to its nodes: derivatives of its energy, that is, the forces and moments that the nodes
/// must put on it.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Forces {
    /// Tension positive.
    pub axial_n: f64,
    /// On the second end; the first end takes the opposite.
    pub force_n: Vector,
    /// On each end.
    pub moment_n_m: [Vector; 2],
    /// Along the chord, on the second end.
    pub torque_n_m: f64,
}

/// Second derivatives by the chord vector d and the spins ω₁, ω₂ of the ends (about fixed axes, symmetric part,
/// which is the Hessian; simo1992).
#[derive(Debug, Clone, Copy)]
pub struct Stiffness {
    pub dd: Matrix,
    pub d1: Matrix,
    pub d2: Matrix,
    pub m11: Matrix,
    pub m12: Matrix,
    pub m22: Matrix,
}

/// Which part of the second derivatives is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BeamPart {
    /// The tangent.
    Whole,
    /// What is left with the axial force taken away (the shape kept).
    Material,
}

/// The shared quantities of forces and stiffness.
pub struct BeamShape {
    l: f64,
    e: Vector,
    t: [Vector; 2],
    theta: [Vector; 2],
    /// Parts of t₁, t₂ square to e.
    p: [Vector; 2],
    a: [f64; 2],
    n: f64,
    bow: Vector,
    t1_t2: Vector,
    /// Derivatives of φ by ω₁ and ω₂.
    twist: [Vector; 2],
    /// The turn from the first end to the second: its upright part and its vector.
    turn: (f64, Vector),
    torque: f64,
    alpha: f64,
    beta: f64,
}

impl Beam {
    #[inline(always)]
    pub fn forces(&self, ends: [&End; 2], bow: Vector) -> (Forces, BeamShape) {
        let change = subtract(ends[1].displacement_m, ends[0].displacement_m);
        let d = add(self.chord_m, change);
        let l = norm(d);
        let e = scale(d, 1.0 / l);
        let t = [ends[0].axis, ends[1].axis];
        let theta = [cross(e, t[0]), cross(e, t[1])];
        let a = [dot(e, t[0]), dot(e, t[1])];
        let p = [add_scaled(t[0], e, -a[0]), add_scaled(t[1], e, -a[1])];
        let bowing =
            (2.0 * (dot(theta[0], theta[0]) + dot(theta[1], theta[1])) - dot(theta[0], theta[1])) / 30.0;
        // l − L without the difference of two nearly equal lengths.
        let stretch =
            (2.0 * dot(self.chord_m, change) + dot(change, change)) / (l + self.length_m) / self.length_m;
        let n = self.axial_n * (stretch + bowing + dot(bow, change) / self.length_m);
        // dU = N·dl + α·d(θ₁² + θ₂²) + β·d(θ₁·θ₂)
        let stiff = 2.0 * self.bending_n_m2 / self.length_m;
        let alpha = stiff + n * self.length_m / 15.0;
        let beta = stiff - n * self.length_m / 30.0;
        let g = [2.0 * alpha * a[0] + beta * a[1], 2.0 * alpha * a[1] + beta * a[0]];
        let t1_t2 = cross(t[0], t[1]);
        // φ = 2·v·e with v the vector part of the turn from the first end to the second.
        let relative = then(back(ends[0].turn), ends[1].turn);
        let v = [relative[1], relative[2], relative[3]];
        let v_e = cross(v, e);
        let twist = [add_scaled(v_e, e, -relative[0]), add_scaled(v_e, e, relative[0])];
        let along = dot(v, e);
        let torque = self.torsion_n_m2 / self.length_m * 2.0 * along;
        let mut force = scale(e, n);
        force = add_scaled(add_scaled(force, p[0], -g[0] / l), p[1], -g[1] / l);
        force = add_scaled(force, add_scaled(v, e, -along), 2.0 * torque / l);
        force = add_scaled(force, bow, n);
        let moment = |i: usize, sign: f64| {
            let bending = add_scaled(scale(theta[i], g[i]), t1_t2, sign * beta);
            add_scaled(bending, twist[i], torque)
        };
        let moment_n_m = [moment(0, 1.0), moment(1, -1.0)];
        let forces = Forces { axial_n: n, force_n: force, moment_n_m, torque_n_m: torque };
        (
            forces,
            BeamShape {
                l,
                e,
                t,
                theta,
                p,
                a,
                n,
                bow,
                t1_t2,
                twist,
                turn: (relative[0], v),
                torque,
                alpha,
                beta,
            },
        )
    }

    /// The second derivatives at the shape found by [`Beam::forces`]. Those that the torque multiplies count too: a tube
    /// that bowed near its buckling load turns its bow round the mast against next to nothing else.
    #[inline(always)]
    pub fn stiffness(&self, shape: &BeamShape, part: BeamPart) -> Stiffness {
        let &BeamShape { l, e, t, theta, p, a, bow, t1_t2, twist, .. } = shape;
        let (n, alpha, beta) = match part {
            BeamPart::Whole => (shape.n, shape.alpha, shape.beta),
            BeamPart::Material => {
                let stiff = 2.0 * self.bending_n_m2 / self.length_m;
                (0.0, stiff, stiff)
            }
        };
        let g = [2.0 * alpha * a[0] + beta * a[1], 2.0 * alpha * a[1] + beta * a[0]];
        let inverse = 1.0 / l;
        let big_l = self.length_m;
        // L·∇ε, then (EA/L)·(L∇ε)(L∇ε)ᵀ
        let h = [big_l / 30.0 * (4.0 * a[0] - a[1]), big_l / 30.0 * (4.0 * a[1] - a[0])];
        let axial = self.axial_n / big_l;
        let vd = add_scaled(add_scaled(add(e, bow), p[0], -h[0] * inverse), p[1], -h[1] * inverse);
        let v1 = add_scaled(scale(theta[0], h[0]), t1_t2, -big_l / 30.0);
        let v2 = add_scaled(scale(theta[1], h[1]), t1_t2, big_l / 30.0);
        let zero = [[0.0; 3]; 3];
        let mut k = Stiffness { dd: zero, d1: zero, d2: zero, m11: zero, m12: zero, m22: zero };

        // Moving the ends: N·∇²l, −2α·∇a∇aᵀ, −β·(∇a₁∇a₂ᵀ + …), −g·∇²a.
        add_outer(&mut k.dd, vd, vd, axial);
        let square = n * inverse + (g[0] * a[0] + g[1] * a[1]) * inverse * inverse;
        add_identity(&mut k.dd, square);
        add_outer(&mut k.dd, e, e, -square);
        let mixed = [
            add_scaled(scale(p[0], 2.0 * alpha), p[1], beta),
            add_scaled(scale(p[1], 2.0 * alpha), p[0], beta),
        ];
        add_outer(&mut k.dd, p[0], mixed[0], -inverse * inverse);
        add_outer(&mut k.dd, p[1], mixed[1], -inverse * inverse);
        let m = add_scaled(scale(p[0], g[0]), p[1], g[1]);
        add_both_outer(&mut k.dd, e, m, inverse * inverse);

        // Moving and turning.
        for (i, to, v) in [(0, &mut k.d1, v1), (1, &mut k.d2, v2)] {
            add_outer(to, vd, v, axial);
            add_outer(to, add_scaled(mixed[i], e, -g[i]), theta[i], inverse);
            add_cross(to, t[i], g[i] * inverse);
        }

        // Turning both ends. Where they are turned against each other, moving the chord twists the beam too.
        let (_, relative) = shape.turn;
        let twist_d = scale(add_scaled(relative, e, -dot(relative, e)), 2.0 * inverse);
        let c = dot(t[0], t[1]);
        let twisting = self.torsion_n_m2 / big_l;
        for (to, twist) in [(&mut k.d1, twist[0]), (&mut k.d2, twist[1])] {
            add_outer(to, twist_d, twist, twisting);
        }
        add_outer(&mut k.dd, twist_d, twist_d, twisting);
        for (i, to, v) in [(0, &mut k.m11, v1), (1, &mut k.m22, v2)] {
            add_outer(to, v, v, axial);
            add_outer(to, theta[i], theta[i], -2.0 * alpha);
            add_both_outer(to, e, t[i], -0.5 * g[i]);
            add_both_outer(to, t[0], t[1], 0.5 * beta);
            add_identity(to, g[i] * a[i] - beta * c);
            add_outer(to, twist[i], twist[i], twisting);
        }
        add_outer(&mut k.m12, v1, v2, axial);
        add_outer(&mut k.m12, theta[0], theta[1], -beta);
        add_outer(&mut k.m12, t[1], t[0], -beta);
        add_identity(&mut k.m12, beta * c);
        add_outer(&mut k.m12, twist[0], twist[1], twisting);
        if shape.torque != 0.0 && part == BeamPart::Whole {
            add_torque(&mut k, shape);
        }
        k
    }
}

/// What the torque multiplies: τ·∇²φ, φ = 2·v·e. With w the spin of one end and q = (r, v) the turn between them,
/// dq = ½·w·q for the second end and −½·q·w for the first.
#[inline(always)]
fn add_torque(k: &mut Stiffness, shape: &BeamShape) {
    let &BeamShape { l, e, turn: (r, v), torque, .. } = shape;
    let along = dot(v, e);
    let square = add_scaled(v, e, -along);
    let by_l = torque / l;
    add_both_outer(&mut k.dd, square, e, -2.0 * by_l / l);
    add_identity(&mut k.dd, -2.0 * by_l / l * along);
    add_outer(&mut k.dd, e, e, 2.0 * by_l / l * along);
    let v_e = cross(v, e);
    for (to, sign) in [(&mut k.d1, -1.0), (&mut k.d2, 1.0)] {
        // (I − e·eᵀ)·(±r·I − [v×])
        add_identity(to, sign * r * by_l);
        add_cross(to, v, -by_l);
        add_outer(to, e, add_scaled(v_e, e, -sign * r), by_l);
    }
    for to in [&mut k.m11, &mut k.m22] {
        add_identity(to, -0.5 * torque * along);
    }
    add_both_outer(&mut k.m12, e, v, 0.5 * torque);
    add_identity(&mut k.m12, -0.5 * torque * along);
    add_cross(&mut k.m12, e, -0.5 * torque * r);
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOW: Vector = [0.011, -0.02, 0.003];

    fn beam() -> Beam {
        let chord_m = [0.1, -0.05, 0.6];
        Beam { chord_m, length_m: norm(chord_m), axial_n: 9e7, bending_n_m2: 2.4e4, torsion_n_m2: 1.9e4 }
    }

    fn ends(beam: &Beam, step: [f64; 12]) -> [End; 2] {
        let axis = scale(beam.chord_m, 1.0 / beam.length_m);
        let starts =
            [([0.02, 0.1, -0.01], [0.05, -0.2, 0.11]), ([0.035, 0.163, -0.018], [0.052, -0.215, 0.111])];
        [0, 1].map(|i| {
            let (displacement, spin) = starts[i];
            let at = |k: usize| [step[6 * i + k], step[6 * i + k + 1], step[6 * i + k + 2]];
            let turn = turn_further(turn_further(NO_TURN, spin), at(3));
            End { displacement_m: add(displacement, at(0)), turn, axis: turned(turn, axis) }
        })
    }

    fn gradient(beam: &Beam, step: [f64; 12]) -> [f64; 12] {
        let ends = ends(beam, step);
        let (f, _) = beam.forces([&ends[0], &ends[1]], BOW);
        let mut g = [0.0; 12];
        for k in 0..3 {
            (g[k], g[6 + k]) = (-f.force_n[k], f.force_n[k]);
            (g[3 + k], g[9 + k]) = (f.moment_n_m[0][k], f.moment_n_m[1][k]);
        }
        g
    }

    /// The energy as the module's head has it.
    fn energy(beam: &Beam, step: [f64; 12]) -> f64 {
        let ends = ends(beam, step);
        let d = add(beam.chord_m, subtract(ends[1].displacement_m, ends[0].displacement_m));
        let e = scale(d, 1.0 / norm(d));
        let (a, b) = (cross(e, ends[0].axis), cross(e, ends[1].axis));
        let (aa, ab, bb) = (dot(a, a), dot(a, b), dot(b, b));
        let by_bow = dot(BOW, subtract(d, beam.chord_m)) / beam.length_m;
        let strain = (norm(d) - beam.length_m) / beam.length_m + (2.0 * aa - ab + 2.0 * bb) / 30.0 + by_bow;
        let relative = then(back(ends[0].turn), ends[1].turn);
        let twist = 2.0 * dot([relative[1], relative[2], relative[3]], e);
        0.5 * beam.axial_n * beam.length_m * strain * strain
            + 2.0 * beam.bending_n_m2 / beam.length_m * (aa + ab + bb)
            + 0.5 * beam.torsion_n_m2 / beam.length_m * twist * twist
    }

    #[test]
    fn forces_are_the_slope_of_the_energy() {
        let beam = beam();
        let g = gradient(&beam, [0.0; 12]);
        let scale = g.iter().fold(0.0_f64, |m, x| m.max(x.abs()));
        for i in 0..12 {
            let mut step = [0.0; 12];
            step[i] = 1e-6;
            let up = energy(&beam, step);
            step[i] = -1e-6;
            let slope = (up - energy(&beam, step)) / 2e-6;
            assert!((slope - g[i]).abs() < 1e-6 * scale, "{i}: {slope} against {}", g[i]);
        }
    }

    #[test]
    fn stiffness_is_the_second_slope() {
        let beam = beam();
        let ends = ends(&beam, [0.0; 12]);
        let (_, shape) = beam.forces([&ends[0], &ends[1]], BOW);
        let k = beam.stiffness(&shape, BeamPart::Whole);
        let entry = |r: usize, c: usize| {
            let (br, bc, i, j) = (r / 3, c / 3, r % 3, c % 3);
            match (br, bc) {
                (0, 0) | (2, 2) => k.dd[i][j],
                (0, 2) | (2, 0) => -k.dd[i][j],
                (0, 1) => -k.d1[i][j],
                (1, 0) => -k.d1[j][i],
                (0, 3) => -k.d2[i][j],
                (3, 0) => -k.d2[j][i],
                (2, 1) => k.d1[i][j],
                (1, 2) => k.d1[j][i],
                (2, 3) => k.d2[i][j],
                (3, 2) => k.d2[j][i],
                (1, 1) => k.m11[i][j],
                (3, 3) => k.m22[i][j],
                (1, 3) => k.m12[i][j],
                _ => k.m12[j][i],
            }
        };
        let energy = |r: usize, c: usize, h: f64| {
            let mut step = [0.0; 12];
            step[c] += h;
            // Slope along r at the displaced place; the Hessian is the symmetric part.
            gradient(&beam, step)[r]
        };
        let moments = gradient(&beam, [0.0; 12]);
        for (r, moment) in moments.into_iter().enumerate() {
            for c in 0..12 {
                let slope = |r, c| (energy(r, c, 1e-6) - energy(r, c, -1e-6)) / 2e-6;
                let expected = 0.5 * (slope(r, c) + slope(c, r));
                let found = entry(r, c);
                let close = 1e-6 * (1e5 + expected.abs().max(moment.abs()));
                assert!((found - expected).abs() < close, "{r},{c}: {found} against {expected}");
            }
        }
    }
}
