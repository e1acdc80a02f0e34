//! Wind: what a forecast's gust does to tubes, ropes and strands.
//!
//! A *gust* is the strongest three seconds; a *mean* is taken over ten minutes (one or two in some countries).
//! The two differ by half and more, and force goes with the square: every name in here says which one it means.
//! Speeds are in m/s, heights in metres above the ground at the mast, pressures in pascal.
//!
//! # Examples
//! How hard does a forecast gust of 15 m/s pull at the top of a cone of eight strands?
//! ```
//! use mastwright_engine::wind::asce7::Exposure;
//! use mastwright_engine::wind::forecast::{ForecastSite, Told};
//! use mastwright_engine::wind::{Cone, Route, Stream, density, drag};
//!
//! let route = Route::Forecast(ForecastSite {
//!     exposure: Exposure::C,
//!     told: Told::OpenCountry,
//!     density_kg_per_m3: density::density_kg_per_m3(250.0, 5.0),
//! });
//! let pressure = |height_m: f64| route.pressure_pa(15.0, height_m);
//! let ring: Vec<[f64; 3]> = (0..8)
//!     .map(|i| (f64::from(i) * 45.0).to_radians())
//!     .map(|turn| [3.0 * turn.sin(), 3.0 * turn.cos(), 0.0])
//!     .collect();
//! let cone = Cone { top: [0.0, 0.0, 6.0], ring: &ring, diameter_m: 0.003, coefficient: drag::SUBCRITICAL };
//! // A west wind, moments about the foot.
//! let load = cone.load(&Stream::from_bearing(270.0, 0.0, &pressure), [0.0; 3]);
//! assert!(load.at_upper_n[0] > 5.0 && load.at_upper_n[0] < 15.0);
//! assert!(load.overturning_nm() > 0.0);
//! ```

pub mod asce7;
pub mod beaufort;
pub mod body;
pub mod density;
pub mod drag;
pub mod en1991;
pub mod forecast;
pub mod gust;
pub mod ice;
pub mod member;
pub mod pressure;

pub use body::Body;
pub use member::{Cone, Member, MemberLoad, Stream};
pub use pressure::Route;
