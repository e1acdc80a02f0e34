//! How sure a share is that was counted on a draw.

/// 1.96: the normal distribution's two-sided 95 % point.
const Z_95: f64 = 1.959_963_984_540_054;

/// The 95 % interval of a share of which `caught` of `tried` were seen: Wilson, Probable inference, the law of
/// succession, and statistical inference, J. Amer. Statist. Assoc. 22 (1927) 209 (from memory; the tests hold it
/// against SciPy).
pub fn wilson_95(caught: usize, tried: usize) -> (f64, f64) {
    if tried == 0 {
        return (0.0, 1.0);
    }
    let (n, p, z2) = (tried as f64, caught as f64 / tried as f64, Z_95 * Z_95);
    let middle = p + z2 / (2.0 * n);
    let half = Z_95 * (p * (1.0 - p) / n + z2 / (4.0 * n * n)).sqrt();
    let scale = 1.0 + z2 / n;
    (((middle - half) / scale).max(0.0), ((middle + half) / scale).min(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// SciPy 1.17.1: `binomtest(k, n).proportion_ci(method='wilson')`.
    #[test]
    fn as_scipy_has_it() {
        for (caught, tried, low, high) in [
            (81, 263, 0.255_288_519_878_274_2, 0.366_209_576_982_800_04),
            (0, 20, 0.0, 0.161_125_158_052_819_35),
            (1, 29, 0.006_113_214_292_762_667, 0.171_755_218_793_202_83),
            (40, 40, 0.912_378_398_803_713_3, 1.0),
        ] {
            let (a, b) = wilson_95(caught, tried);
            assert!((a - low).abs() < 1e-9 && (b - high).abs() < 1e-9, "{caught}/{tried}: {a} {b}");
        }
        assert_eq!(wilson_95(0, 0), (0.0, 1.0));
    }
}
