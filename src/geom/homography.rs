//! Maps of a plane on to a plane that keep straight lines straight: what a photograph does to a
//! flat thing, and its undoing.
//!
//! A map is found from four point pairs by the projective-basis method: with the points of each
//! side moved and scaled about their middle first (R. Hartley, "In defense of the eight-point
//! algorithm", IEEE PAMI 19(6), 1997), `H = B_to · B_from⁻¹`, where the columns of `B` are three of
//! the points, weighted so that they add up to the fourth.

use glam::{DMat3, DVec2, DVec3, dvec2};

use super::sin_cos_deg;

/// Corners nearer to one line than this share of the figure's size are taken to be on it.
const EPS_SHARE: f64 = 1e-6;

/// Why four point pairs give no map.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum HomographyError {
    /// A coordinate that is not finite.
    #[error("a point is not made of finite numbers")]
    NotFinite,
    /// Three of the points on one line, or two in one place.
    #[error("three of the four corners lie on one line")]
    OnOneLine,
    /// Not the corners of a four-sided figure without dents, in turn.
    #[error("the four corners do not go round a figure without dents")]
    NotConvex,
    /// One side goes round left, the other right: the map would be that of a mirror.
    #[error("the corners go round one way here and the other way there")]
    Mirrored,
}

/// A projective map of the plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Homography {
    /// On (x, y, 1); the last coordinate of the result is positive on the seen side of the horizon.
    matrix: DMat3,
}

impl Homography {
    /// The map that takes each point of `from` to that of `to`: corners of convex figures, in turn.
    ///
    /// # Errors
    /// [`HomographyError`]: points that are no such corners.
    pub fn from_corners(from: [DVec2; 4], to: [DVec2; 4]) -> Result<Self, HomographyError> {
        if !from.iter().chain(&to).all(|p| p.is_finite()) {
            return Err(HomographyError::NotFinite);
        }
        if is_left_turning(from)? != is_left_turning(to)? {
            return Err(HomographyError::Mirrored);
        }
        let (near, home) = (Normal::of(from), Normal::of(to));
        let across =
            basis(to.map(|p| home.apply(p))) * basis(from.map(|p| near.apply(p))).inverse();
        let matrix = home.matrix().inverse() * across * near.matrix();
        // The corners lie on the seen side: all four have one sign, being a convex figure's.
        let middle = matrix * (from.iter().sum::<DVec2>() / 4.0).extend(1.0);
        let matrix = matrix * (1.0 / middle.z);
        if matrix.is_finite() { Ok(Self { matrix }) } else { Err(HomographyError::OnOneLine) }
    }

    /// The map that scales by `scale`, turns by `turn_deg` counter-clockwise and puts the origin at
    /// `origin`.
    pub fn similarity(origin: DVec2, scale: f64, turn_deg: f64) -> Self {
        Self::of_axes(origin, along(turn_deg) * scale, along(turn_deg).perp() * scale)
    }

    /// The same for an image, whose pixels are counted downwards.
    pub fn of_image(origin: DVec2, mm_per_pixel: f64, turn_deg: f64) -> Self {
        let x = along(turn_deg) * mm_per_pixel;
        Self::of_axes(origin, x, -x.perp())
    }

    fn of_axes(origin: DVec2, x: DVec2, y: DVec2) -> Self {
        Self { matrix: DMat3::from_cols(x.extend(0.0), y.extend(0.0), origin.extend(1.0)) }
    }

    /// Where a point goes; none for one on the horizon or beyond it.
    pub fn apply(&self, p: DVec2) -> Option<DVec2> {
        let on = self.matrix * p.extend(1.0);
        let place = dvec2(on.x, on.y) / on.z;
        (on.z > 0.0 && place.is_finite()).then_some(place)
    }

    /// How far on the seen side a point is: 1 at the middle of the corners, 0 on the horizon,
    /// negative beyond.
    pub fn depth(&self, p: DVec2) -> f64 {
        (self.matrix * p.extend(1.0)).z
    }

    /// The way back; none where everything was put on one line.
    pub fn inverse(&self) -> Option<Self> {
        let matrix = self.matrix.inverse();
        matrix.is_finite().then_some(Self { matrix })
    }

    /// This map, then `next`.
    #[must_use]
    pub fn then(&self, next: &Self) -> Self {
        Self { matrix: next.matrix * self.matrix }
    }

    /// Whether straight lines keep their proportions, so that there is no horizon.
    pub fn is_affine(&self) -> bool {
        self.matrix.row(2).truncate() == DVec2::ZERO
    }
}

/// The direction at an angle from X; exact at quarter turns.
fn along(turn_deg: f64) -> DVec2 {
    let (sin, cos) = sin_cos_deg(turn_deg);
    dvec2(cos, sin)
}

/// Moves points about their middle and scales them to a mean distance of √2 from it.
struct Normal {
    middle: DVec2,
    scale: f64,
}

impl Normal {
    fn of(points: [DVec2; 4]) -> Self {
        let middle = points.iter().sum::<DVec2>() / 4.0;
        let mean = points.iter().map(|p| p.distance(middle)).sum::<f64>() / 4.0;
        Self { middle, scale: std::f64::consts::SQRT_2 / mean }
    }

    fn apply(&self, p: DVec2) -> DVec2 {
        (p - self.middle) * self.scale
    }

    fn matrix(&self) -> DMat3 {
        DMat3::from_cols(
            DVec3::X * self.scale,
            DVec3::Y * self.scale,
            (-self.middle * self.scale).extend(1.0),
        )
    }
}

/// The map from the projective basis (three axes and their sum) to four points.
fn basis(points: [DVec2; 4]) -> DMat3 {
    let [a, b, c, d] = points.map(|p| p.extend(1.0));
    let three = DMat3::from_cols(a, b, c);
    let weight = three.inverse() * d;
    DMat3::from_cols(a * weight.x, b * weight.y, c * weight.z)
}

/// Whether the corners of a figure without dents go round counter-clockwise (Y up).
fn is_left_turning(corners: [DVec2; 4]) -> Result<bool, HomographyError> {
    let size = (0..4)
        .flat_map(|i| (0..i).map(move |k| corners[i].distance_squared(corners[k])))
        .fold(0.0, f64::max);
    let turn = |[a, b, c]: [usize; 3]| (corners[b] - corners[a]).perp_dot(corners[c] - corners[b]);
    let turns = [[0, 1, 2], [1, 2, 3], [2, 3, 0], [3, 0, 1]].map(turn);
    if turns.iter().any(|turn| turn.abs() <= EPS_SHARE * size) {
        return Err(HomographyError::OnOneLine);
    }
    match turns.iter().filter(|turn| **turn > 0.0).count() {
        4 => Ok(true),
        0 => Ok(false),
        _ => Err(HomographyError::NotConvex),
    }
}

#[cfg(test)]
mod tests;
