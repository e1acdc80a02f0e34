//! Recordings that nobody made: a rope that swings, dies away, and noise of a stated strength.

use crate::numerics::random::Random;
use crate::numerics::real::{cos, exp, pow, sin};
use crate::survey::hold::Sample;

/// Power of the noise is counted between these (the band).
const NOISE_BAND_HZ: (f64, f64) = (0.5, 25.0);
const TURN: f64 = 2.0 * core::f64::consts::PI;

/// What is in a recording.
pub struct Swing {
    pub hz: f64,
    /// Swings until it has died to 1/e.
    pub dies_in: f64,
    /// How strong each multiple from the second on is beside the lowest, as a phone feels it.
    pub multiples: [f64; 3],
    /// Signal over noise power between 0.5 and 25 Hz; none: no signal at all.
    pub snr_db: Option<f64>,
    /// Noise that grows towards low frequencies as wind does, in place of even noise.
    pub wind: bool,
}

/// One that a person may make: pushed a few times in its own time, felt near its lower end.
pub fn likely(random: &mut Random, snr_db: f64) -> Swing {
    let part = |random: &mut Random| 0.6 * random.even();
    Swing {
        hz: 0.9 * pow(10.0, random.even()),
        dies_in: 15.0 + 60.0 * random.even(),
        multiples: [part(random), part(random), part(random)],
        snr_db: Some(snr_db),
        wind: false,
    }
}

/// Ten seconds at 60 samples a second on three axes, gravity and a slow turn of the phone beside it; times as a browser
/// gives them, up to 2 ms late.
pub fn recording(swing: &Swing, random: &mut Random) -> Vec<Sample> {
    let (rate_hz, count) = (60.0, 600);
    let direction = unit([random.normal(), random.normal(), random.normal()]);
    let starts = [random.even(), random.even(), random.even(), random.even()];
    let signal: Vec<f64> = (0..count).map(|i| swing.at(i as f64 / rate_hz, &starts)).collect();
    let power = signal.iter().map(|x| x * x).sum::<f64>() / f64::from(count);
    let noise = noise(swing, random, count as usize);
    let in_band: f64 = noise.iter().map(|axis| in_band_power(axis, rate_hz)).sum();
    let loud = swing.snr_db.map_or(0.0, |db| (pow(10.0, db / 10.0) * in_band / power).sqrt());
    (0..count as usize)
        .map(|i| {
            let time_s = i as f64 / rate_hz;
            let gravity = [0.3 + 0.02 * time_s, 9.7, 1.0 - 0.01 * time_s];
            let axis = |k: usize| gravity[k] + loud * signal[i] * direction[k] + noise[k][i];
            Sample {
                time_ms: 1000.0 * time_s + 2.0 * random.even(),
                acceleration: [axis(0), axis(1), axis(2)],
            }
        })
        .collect()
}

impl Swing {
    fn at(&self, time_s: f64, starts: &[f64; 4]) -> f64 {
        let loud = |n: usize| if n == 1 { 1.0 } else { self.multiples[n - 2] };
        // A rope's higher notes die as many times sooner as they are higher (as many swings each).
        let dies = |n: usize| exp(-time_s * n as f64 * self.hz / self.dies_in);
        let note = |n: usize| sin(TURN * (n as f64 * self.hz * time_s + starts[n - 1]));
        (1..=4).filter(|n| *n as f64 * self.hz < 25.0).map(|n| loud(n) * dies(n) * note(n)).sum()
    }
}

fn noise(swing: &Swing, random: &mut Random, count: usize) -> [Vec<f64>; 3] {
    [0, 1, 2].map(|_| {
        let mut slow = 0.0;
        (0..count)
            .map(|_| {
                let white = 0.1 * random.normal();
                if !swing.wind {
                    return white;
                }
                // Corner at 0.5 Hz: above it the power falls with the square of the frequency, as gusts do.
                slow += TURN * 0.5 / 60.0 * (random.normal() - slow);
                slow + 0.2 * white
            })
            .collect()
    })
}

/// Power between the edges of the band: all of it but what a plain Fourier series finds below and above. No FFT.
fn in_band_power(trace: &[f64], rate_hz: f64) -> f64 {
    let n = trace.len();
    let mean = trace.iter().sum::<f64>() / n as f64;
    let cosines: Vec<f64> = (0..n).map(|i| cos(TURN * i as f64 / n as f64)).collect();
    let power = |k: usize| {
        let (mut c, mut s) = (0.0, 0.0);
        for (i, x) in trace.iter().enumerate() {
            c += (x - mean) * cosines[(k * i) % n];
            // A quarter turn on; n is a multiple of four.
            s += (x - mean) * cosines[(k * i + 3 * n / 4) % n];
        }
        2.0 * (c * c + s * s) / (n * n) as f64
    };
    let bin = |hz: f64| (hz * n as f64 / rate_hz) as usize;
    let all = trace.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / n as f64;
    let outside = (1..bin(NOISE_BAND_HZ.0)).chain(bin(NOISE_BAND_HZ.1) + 1..n / 2);
    all - outside.map(power).sum::<f64>()
}

fn unit(v: [f64; 3]) -> [f64; 3] {
    let length = v.iter().map(|x| x * x).sum::<f64>().sqrt();
    v.map(|x| x / length)
}
