//! What a flow takes of all that a fluid may be.

use super::liquid::Liquid;
use super::pipe::{Loss, Pipe};

/// Into so many steps a range of viscosities is cut: friction has a hump where flow becomes turbulent, so
/// that neither the thinnest nor the thickest need take most.
const STEPS: u32 = 32;

/// The least that a flow takes of all that a fluid may be, and what it does where it takes most.
pub(super) fn extremes(
    pipe: &Pipe<'_>,
    [thin, thick]: [Liquid; 2],
    flow_lpm: f64,
) -> Option<(f64, Loss)> {
    let steps = if thin == thick { 0 } else { STEPS };
    let mut most: Option<Loss> = None;
    let mut least_pa = f64::INFINITY;
    for step in 0..=steps {
        let share = if step == 0 { 0.0 } else { f64::from(step) / f64::from(steps) };
        let ratio = thick.viscosity_mm2_s / thin.viscosity_mm2_s;
        let viscosity_mm2_s = thin.viscosity_mm2_s * ratio.powf(share);
        let loss = pipe.loss(Liquid { viscosity_mm2_s, ..thin }, flow_lpm)?;
        least_pa = least_pa.min(loss.total_pa());
        if most.is_none_or(|most| loss.total_pa() > most.total_pa()) {
            most = Some(loss);
        }
    }
    Some((least_pa, most?))
}
