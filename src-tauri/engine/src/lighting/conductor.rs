//! What a wire of a cord resists.

use crate::job::CordConductor;
use crate::quantity::convert::FOOT_M;
use crate::source::SourceKey;

/// From 20 °C to 75 °C: IEC 60228 as a cable maker's page has it, 1/0.820; 1 + 0.003 93 · 55 of annealed copper is 1.216.
const WARM: f64 = 1.0 / 0.820;

/// Ohms a metre of one wire at 75 °C, copper, as fine-stranded as cords are; none where nobody has read what it is.
///
/// # References
/// AWG: NEC chapter 9, table 8, stranded column, ohms per 1,000 ft at 75 °C. Square millimetres: IEC 60228, class 5, the most at
/// 20 °C, brought to 75 °C.
pub fn ohm_per_m(conductor: CordConductor) -> Option<(f64, SourceKey)> {
    // The table's ohms for 1,000 feet, in thousandths.
    let awg = |milliohm_per_kft: f64| Some((milliohm_per_kft / (1e6 * FOOT_M), SourceKey::NecTable8));
    let metric = |ohm_per_km: f64| Some((ohm_per_km * WARM / 1000.0, SourceKey::Iec60228));
    match conductor {
        CordConductor::Unsaid => None,
        CordConductor::Awg18 => awg(7950.0),
        CordConductor::Awg16 => awg(4990.0),
        CordConductor::Awg14 => awg(3140.0),
        CordConductor::Awg12 => awg(1980.0),
        CordConductor::Awg10 => awg(1240.0),
        CordConductor::Mm2_0_75 => metric(26.0),
        CordConductor::Mm2_1 => metric(19.5),
        CordConductor::Mm2_1_5 => metric(13.3),
        CordConductor::Mm2_2_5 => metric(7.98),
    }
}
