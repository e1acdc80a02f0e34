//! Peak velocity pressure by EN 1991-1-4:2005+A1:2010, section 4.
//!
//! v_b is the ten-minute *mean* at 10 m in terrain II; q_p is the pressure of the gusts upon it.

use super::density::EN1991_KG_PER_M3;
use crate::numerics::real::{ln, pow};

/// TerrainCategory category (Table 4.1).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TerrainCategory {
    /// Sea, coast open to the sea.
    Zero,
    /// Lakes, flat ground without obstacles.
    I,
    /// Low grass and single obstacles, 20 of their heights apart.
    II,
    /// Villages, suburbs, woods.
    III,
    /// Town: 15 % of the ground built upon, higher than 15 m on average.
    IV,
}

impl TerrainCategory {
    /// Roughness length z0 (Table 4.1; 0, I and II from memory).
    pub fn roughness_m(self) -> f64 {
        match self {
            TerrainCategory::Zero => 0.003,
            TerrainCategory::I => 0.01,
            TerrainCategory::II => 0.05,
            TerrainCategory::III => 0.3,
            TerrainCategory::IV => 1.0,
        }
    }

    /// Height z_min under which the profile stays as it is there (Table 4.1; 0, I and II from memory).
    pub fn lowest_m(self) -> f64 {
        match self {
            TerrainCategory::Zero | TerrainCategory::I => 1.0,
            TerrainCategory::II => 2.0,
            TerrainCategory::III => 5.0,
            TerrainCategory::IV => 10.0,
        }
    }
}

/// A place by EN 1991-1-4.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct En1991Site {
    pub terrain: TerrainCategory,
    /// Orography factor c_o (4.3.3): 1 but for hills and cliffs.
    pub orography: f64,
    /// Turbulence factor k_l (4.4), recommended 1.
    pub turbulence: f64,
    pub density_kg_per_m3: f64,
}

impl En1991Site {
    /// Flat ground with the standard's recommended air.
    pub fn flat(terrain: TerrainCategory) -> Self {
        En1991Site { terrain, orography: 1.0, turbulence: 1.0, density_kg_per_m3: EN1991_KG_PER_M3 }
    }

    /// The height that the profile is taken at: between z_min and 200 m (4.3.2).
    fn within(&self, height_m: f64) -> f64 {
        height_m.max(self.terrain.lowest_m()).min(200.0)
    }

    /// TerrainCategory factor k_r (eq. 4.5).
    pub fn terrain_factor(&self) -> f64 {
        0.19 * pow(self.terrain.roughness_m() / TerrainCategory::II.roughness_m(), 0.07)
    }

    /// Roughness factor c_r (eq. 4.4).
    pub fn roughness_factor(&self, height_m: f64) -> f64 {
        self.terrain_factor() * ln(self.within(height_m) / self.terrain.roughness_m())
    }

    /// Ten-minute mean wind v_m at a height (eq. 4.3).
    pub fn mean_m_per_s(&self, basic_m_per_s: f64, height_m: f64) -> f64 {
        self.roughness_factor(height_m) * self.orography * basic_m_per_s
    }

    /// Turbulence intensity I_v (eq. 4.7).
    pub fn turbulence_intensity(&self, height_m: f64) -> f64 {
        self.turbulence / (self.orography * ln(self.within(height_m) / self.terrain.roughness_m()))
    }

    /// Peak velocity pressure q_p (eq. 4.8); the 7 is twice a peak factor of 3.5.
    pub fn peak_pressure_pa(&self, basic_m_per_s: f64, height_m: f64) -> f64 {
        let mean = self.mean_m_per_s(basic_m_per_s, height_m);
        (1.0 + 7.0 * self.turbulence_intensity(height_m)) * 0.5 * self.density_kg_per_m3 * mean * mean
    }

    /// Exposure factor c_e = q_p/q_b (eq. 4.9).
    pub fn exposure_factor(&self, height_m: f64) -> f64 {
        let factor = self.roughness_factor(height_m) * self.orography;
        (1.0 + 7.0 * self.turbulence_intensity(height_m)) * factor * factor
    }
}

/// The basic wind v_b whose gusts in terrain II at 10 m reach the given gust: v_b = gust/√c_e.
///
/// Ties the standard's mean to the gust that forecasts tell; EN's peak is the gust of a short second or three.
pub fn basic_from_gust_m_per_s(gust_10m_m_per_s: f64) -> f64 {
    gust_10m_m_per_s / En1991Site::flat(TerrainCategory::II).exposure_factor(10.0).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_gust_comes_back_from_its_own_mean() {
        let site = En1991Site::flat(TerrainCategory::II);
        let basic = basic_from_gust_m_per_s(25.0);
        let peak = (2.0 * site.peak_pressure_pa(basic, 10.0) / site.density_kg_per_m3).sqrt();
        assert!((peak - 25.0).abs() < 1e-9);
        assert!((25.0 / basic - 1.53).abs() < 0.01);
    }
}
