//! How much mixed water a hot boiler gives.

use crate::reckon::Between;

/// How much water of the shower's warmth it gives before it runs cooler; nothing where it is no warmer
/// than that.
///
/// Of water that lies above the cold that comes in, all is used: V (Th − Tc) / (Tm − Tc). Of water that
/// mixes with it, V (Th − Tm) / (Tm − Tc): what is left is then at the shower's warmth.
///
/// # Units
/// L, °C. `mix_c` above `cold_c`, else `None`.
#[must_use]
pub fn mixed_l(volume_l: f64, hot_c: f64, cold_c: f64, mix_c: f64) -> Option<Between> {
    if mix_c <= cold_c {
        return None;
    }
    if hot_c < mix_c {
        return Some(Between::exactly(0.0));
    }
    let by = |warmer_k: f64| volume_l * warmer_k / (mix_c - cold_c);
    Some(Between::of(by(hot_c - mix_c), by(hot_c - cold_c)))
}

/// How warm the boiler is, evened out, once so much mixed water was taken: the heat that went is that of
/// the mixed water above the cold. Never colder than what comes in.
///
/// # Units
/// L, °C.
#[must_use]
pub fn left_c(volume_l: f64, hot_c: f64, cold_c: f64, mix_c: f64, taken_l: f64) -> f64 {
    (hot_c - taken_l * (mix_c - cold_c) / volume_l).max(cold_c)
}
