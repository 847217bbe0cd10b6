//! Circular fillets at the corners of a polyline, and what becomes of them where they do not fit
//! (contract §3).

use super::{Polyline, turning_angle};

/// Below this a corner counts as lying on the line: no bend. At a radius of 1 m its fillet would
/// differ from the corner by far less than an atom.
pub const STRAIGHT_RAD: f64 = 1e-9;

/// The fillet at one corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fillet {
    /// Turning angle, rad, in [0, π].
    pub angle: f64,
    /// Radius asked for.
    pub wanted: f64,
    /// Radius that fits, at most `wanted`; 0 where there is no room or the line turns straight
    /// back.
    pub radius: f64,
    /// Tangent length `radius · tan(angle/2)`.
    pub tangent: f64,
    /// Share of the wanted radius that fits, in [0, 1].
    pub scale: f64,
}

impl Fillet {
    /// Whether the line turns here at all.
    pub fn bends(&self) -> bool {
        self.angle >= STRAIGHT_RAD
    }

    /// Whether the line turns straight back: no circle can round it.
    pub fn reverses(&self) -> bool {
        self.angle > std::f64::consts::PI - STRAIGHT_RAD
    }
}

/// Length of a stretch that has to stay straight, beside its two tangents.
pub type Held = f64;

/// The fillets at the inner points of `line`: `wanted[i]` is the radius asked for at point `i`
/// (those of the first and last point are not read), `held[i]` the straight length that stretch `i`
/// (from point `i` to `i + 1`) keeps.
///
/// Where the tangents of a stretch need more than its length less `held`, both are scaled by
/// room/needed; each corner takes the smaller scale of its two stretches. Equality fits.
/// A line that turns straight back needs a tangent without end: its radius is 0, and so is that of
/// a corner beside it.
///
/// Returns one fillet for each point; the first and the last do not turn.
pub fn fit_fillets(line: &Polyline, wanted: &[f64], held: &[Held]) -> Vec<Fillet> {
    let count = line.points.len();
    let mut fillets: Vec<Fillet> = (0..count).map(|i| full_fillet(line, wanted, i)).collect();
    for (i, stretch) in line.stretches.iter().enumerate() {
        let scale =
            stretch_scale(stretch.length - held[i], fillets[i].tangent + fillets[i + 1].tangent);
        fillets[i].scale = fillets[i].scale.min(scale);
        fillets[i + 1].scale = fillets[i + 1].scale.min(scale);
    }
    for fillet in &mut fillets {
        fillet.radius = fillet.wanted * fillet.scale;
        fillet.tangent = if fillet.scale == 0.0 { 0.0 } else { fillet.tangent * fillet.scale };
    }
    fillets
}

/// Share of the tangents that fits into `room`, in [0, 1].
pub fn stretch_scale(room: f64, needed: f64) -> f64 {
    if needed <= room || needed <= 0.0 { 1.0 } else { (room / needed).max(0.0) }
}

/// Turning angle and tangent length at the wanted radius; the tangent is infinite where the line
/// turns straight back.
pub fn full_fillet(line: &Polyline, wanted: &[f64], point: usize) -> Fillet {
    let inner = point > 0 && point + 1 < line.points.len();
    let angle = if inner {
        turning_angle(line.stretches[point - 1].direction, line.stretches[point].direction)
    } else {
        0.0
    };
    let wanted = if inner { wanted[point] } else { 0.0 };
    let mut fillet = Fillet { angle, wanted, radius: wanted, tangent: 0.0, scale: 1.0 };
    if fillet.reverses() {
        fillet.tangent = f64::INFINITY;
    } else if fillet.bends() {
        fillet.tangent = wanted * (angle / 2.0).tan();
    }
    fillet
}
