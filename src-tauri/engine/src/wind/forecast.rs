//! The plain route: the gust that a forecast tells, brought to the heights of the mast.
//!
//! Forecasts give gusts for 10 m in open country. Their growth with height is that of ASCE 7-16's Kz, which is 1
//! at 10 m in open country and goes with the square of the gust; the air is the day's own.

use super::asce7::{Edition, Exposure, kz};

/// Which wind the given gust is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Told {
    /// By a forecast or a weather station: at 10 m in open country.
    OpenCountry,
    /// Measured in the yard itself, at this height.
    InTheYard { height_m: f64 },
}

/// A yard on the plain route.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ForecastSite {
    /// What lies upwind. Where in doubt: open country, the stronger wind.
    pub exposure: Exposure,
    pub told: Told,
    pub density_kg_per_m3: f64,
}

impl ForecastSite {
    /// The gust at a height, given the gust as told.
    ///
    /// # References
    /// ASCE 7-16 Table 26.10-1, as the ratio √(Kz/Kz of where the gust was told for).
    pub fn gust_m_per_s(&self, told_m_per_s: f64, height_m: f64) -> f64 {
        let here = kz(Edition::Asce7_16, self.exposure, height_m);
        let told_for = match self.told {
            Told::OpenCountry => kz(Edition::Asce7_16, Exposure::C, 10.0),
            Told::InTheYard { height_m } => kz(Edition::Asce7_16, self.exposure, height_m),
        };
        told_m_per_s * (here / told_for).sqrt()
    }

    /// Pressure of that gust: ½·ρ·v² (Bernoulli).
    pub fn pressure_pa(&self, told_m_per_s: f64, height_m: f64) -> f64 {
        let gust = self.gust_m_per_s(told_m_per_s, height_m);
        0.5 * self.density_kg_per_m3 * gust * gust
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_told_gust_is_met_where_it_was_told_for() {
        let site = ForecastSite { exposure: Exposure::C, told: Told::OpenCountry, density_kg_per_m3: 1.225 };
        assert!((site.gust_m_per_s(20.0, 10.0) - 20.0).abs() < 1e-12);
        // 20 m/s at sea level: 245 Pa.
        assert!((site.pressure_pa(20.0, 10.0) - 245.0).abs() < 1e-9);
        let yard = ForecastSite { told: Told::InTheYard { height_m: 6.0 }, exposure: Exposure::B, ..site };
        assert!((yard.gust_m_per_s(20.0, 6.0) - 20.0).abs() < 1e-12);
        let suburb = ForecastSite { exposure: Exposure::B, ..site };
        assert!(suburb.gust_m_per_s(20.0, 8.0) < site.gust_m_per_s(20.0, 8.0));
    }
}
