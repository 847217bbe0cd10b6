//! Circular fillets at the corners of a polyline, and what becomes of them where they do not fit
//! (contract §3).

use glam::DVec3;

use super::angle::SERIES_BELOW;
use super::{Polyline, half_angle_excess};

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
    /// `tan(angle/2)`; infinite where the line turns straight back.
    pub tan_half: f64,
}

impl Default for Fillet {
    /// A point where nothing turns.
    fn default() -> Self {
        Self { angle: 0.0, wanted: 0.0, radius: 0.0, tangent: 0.0, scale: 1.0, tan_half: 0.0 }
    }
}

impl Fillet {
    /// The fillet of `wanted` radius between unit vectors `u` and `v`, before it is fitted. The
    /// tangent is infinite where `v` goes straight back.
    pub fn wanted_between(u: DVec3, v: DVec3, wanted: f64) -> Self {
        let (sin, cos) = (u.cross(v).length(), u.dot(v));
        let angle = sin.atan2(cos);
        let mut fillet = Self { angle, wanted, radius: wanted, ..Self::default() };
        if fillet.reverses() {
            fillet.tan_half = f64::INFINITY;
            fillet.tangent = f64::INFINITY;
        } else if fillet.bends() {
            // The half-angle identities, each where it loses no digits.
            fillet.tan_half = if cos >= 0.0 { sin / (1.0 + cos) } else { (1.0 - cos) / sin };
            fillet.tangent = wanted * fillet.tan_half;
        }
        fillet
    }

    /// What the rounded corner is shorter than the sharp one: `radius · (2 tan(θ/2) − θ)`.
    pub fn saving(&self) -> f64 {
        if !self.bends() || self.radius == 0.0 {
            0.0
        } else if self.angle > SERIES_BELOW {
            self.radius * (2.0 * self.tan_half - self.angle)
        } else {
            self.radius * half_angle_excess(self.angle)
        }
    }

    /// The middle of the arc, for a corner at `corner` between unit vectors `u` and `v`; the corner
    /// itself where the radius is 0.
    pub fn middle(&self, corner: DVec3, u: DVec3, v: DVec3) -> DVec3 {
        // On the bisector, r (1/cos(θ/2) − 1) from the corner; 1/cos² = 1 + tan².
        if self.radius == 0.0 || !self.bends() {
            return corner;
        }
        let away = self.radius * self.tan_half * self.tan_half
            / (1.0 + (1.0 + self.tan_half * self.tan_half).sqrt());
        corner + (v - u).normalize_or_zero() * away
    }

    /// Whether the line turns here at all.
    pub fn bends(&self) -> bool {
        self.angle >= STRAIGHT_RAD
    }

    /// Whether the line turns straight back: no circle can round it.
    fn reverses(&self) -> bool {
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
    let mut fillets = Vec::with_capacity(line.points.len());
    fit_fillets_into(&mut fillets, line, wanted, held);
    fillets
}

/// [`fit_fillets`] into a list that is used again and again; what was in it is gone.
pub fn fit_fillets_into(fillets: &mut Vec<Fillet>, line: &Polyline, wanted: &[f64], held: &[Held]) {
    fillets.clear();
    fillets.push(Fillet::default());
    fillets.extend(line.stretches.windows(2).zip(&wanted[1..]).map(|(pair, wanted)| {
        Fillet::wanted_between(pair[0].direction, pair[1].direction, *wanted)
    }));
    if fillets.len() < line.points.len() {
        fillets.push(Fillet::default());
    }
    for (i, stretch) in line.stretches.iter().enumerate() {
        let scale =
            stretch_scale(stretch.length - held[i], fillets[i].tangent + fillets[i + 1].tangent);
        fillets[i].scale = fillets[i].scale.min(scale);
        fillets[i + 1].scale = fillets[i + 1].scale.min(scale);
    }
    for fillet in fillets {
        fillet.radius = fillet.wanted * fillet.scale;
        fillet.tangent = if fillet.scale == 0.0 { 0.0 } else { fillet.tangent * fillet.scale };
    }
}

/// Share of the tangents that fits into `room`, in [0, 1].
pub fn stretch_scale(room: f64, needed: f64) -> f64 {
    if needed <= room || needed <= 0.0 { 1.0 } else { (room / needed).max(0.0) }
}
