//! Picking points of a background by clicks in its view, and what comes of them. Pure.

use glam::DVec2;

use crate::geom::HomographyError;
use crate::model::{Background, Content, Plane, straighten};

/// What points are picked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Task {
    /// From one place to another.
    Move,
    /// Until two points lie level, or upright where they nearly do.
    Level,
    /// So that two points are a known distance apart.
    Scale,
    /// So that four points are the corners of a known rectangle.
    Straighten,
}

impl Task {
    /// How many points it takes.
    pub fn needs(self) -> usize {
        match self {
            Self::Straighten => 4,
            _ => 2,
        }
    }

    /// Its name, as undo says it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Move => "Move background",
            Self::Level => "Level background",
            Self::Scale => "Scale background",
            Self::Straighten => "Straighten photo",
        }
    }

    /// What to do next, with so many points picked.
    pub fn advice(self, picked: usize) -> &'static str {
        match (self, picked) {
            (Self::Move, 0) => "Pull it, or click a point of it",
            (Self::Move, _) => "Click where that point belongs",
            (Self::Level, 0) => "Click the first of two points that should be level or upright",
            (Self::Scale, 0) => "Click the first of two points a known distance apart",
            (Self::Level | Self::Scale, _) => "Click the second point",
            (Self::Straighten, 0) => "Click a corner of a rectangle whose sides you know",
            (Self::Straighten, 1) => "Click the next corner, along its first side",
            (Self::Straighten, 2) => "Click the third corner, along its second side",
            (Self::Straighten, _) => "Click the fourth corner",
        }
    }
}

/// Points being picked.
#[derive(Debug, Clone, PartialEq)]
pub struct Picking {
    /// Id of the background.
    pub id: String,
    /// What for.
    pub task: Task,
    /// The view to click in.
    pub plane: Plane,
    /// What was clicked so far, mm in the plane.
    pub points: Vec<DVec2>,
}

impl Picking {
    /// Whether all points are there.
    pub fn is_complete(&self) -> bool {
        self.points.len() >= self.task.needs()
    }

    /// What to do next.
    pub fn advice(&self) -> &'static str {
        self.task.advice(self.points.len())
    }
}

/// Why points come to nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum PickError {
    /// Two points in one place.
    #[error("both points are in one place")]
    OnePlace,
    /// Corners of no rectangle.
    #[error("{0}")]
    Corners(#[from] HomographyError),
    /// Only photos are straightened.
    #[error("only a photo can be straightened")]
    NotAPhoto,
}

/// The background with `from` brought to `to`.
pub fn moved(background: Background, from: DVec2, to: DVec2) -> Background {
    background.moved(to - from)
}

/// The background turned about `a` so that `b` lies level with it, or above or below it.
///
/// # Errors
/// [`PickError::OnePlace`].
pub fn levelled(background: Background, a: DVec2, b: DVec2) -> Result<Background, PickError> {
    let by_deg = square_with(b - a).ok_or(PickError::OnePlace)?;
    Ok(background.turned(a, by_deg))
}

/// The turn that brings a direction to the nearest axis, degrees.
fn square_with(direction: DVec2) -> Option<f64> {
    if direction == DVec2::ZERO {
        return None;
    }
    let now = direction.to_angle().to_degrees();
    Some((now / 90.0).round() * 90.0 - now)
}

/// The background scaled about `a` so that `b` is `distance_mm` away from it.
///
/// # Errors
/// [`PickError::OnePlace`].
pub fn scaled(
    background: Background,
    [a, b]: [DVec2; 2],
    distance_mm: f64,
) -> Result<Background, PickError> {
    let by = distance_mm / a.distance(b);
    if by.is_finite() { Ok(background.scaled(a, by)) } else { Err(PickError::OnePlace) }
}

/// The photo straightened, so that the corners are those of a rectangle with `sides_mm` (from the
/// first corner to the second, from the second to the third). It keeps its middle and stands
/// square with the view, as near as it was.
///
/// # Errors
/// [`PickError`]: no photo, or corners that a rectangle cannot have.
pub fn straightened(
    background: Background,
    corners: [DVec2; 4],
    sides_mm: DVec2,
) -> Result<Background, PickError> {
    let size_px = background.size_px().ok_or(PickError::NotAPhoto)?;
    let corners = counter_clockwise(corners);
    let to_pixels = background.map()?.inverse().ok_or(HomographyError::OnOneLine)?;
    let pixels = corners.map(|p| to_pixels.apply(p));
    let [Some(a), Some(b), Some(c), Some(d)] = pixels else {
        return Err(HomographyError::NotConvex.into());
    };
    let corners_px = [a, b, c, d];
    straighten(corners_px, sides_mm)?;
    let [p, q, r, s] = corners;
    let along = (q - p) + (r - s);
    let rotation_deg = ((along.to_angle().to_degrees() / 90.0).round() * 90.0).rem_euclid(360.0);
    let content = Content::Straightened { size_px, corners_px, rectangle: sides_mm };
    let flat = Background { content, rotation_deg: 0.0, origin: -sides_mm / 2.0, ..background };
    let middle = (p + q + r + s) / 4.0;
    Ok(flat.turned(DVec2::ZERO, rotation_deg).moved(middle))
}

/// Corners clicked the other way round, named so that they go counter-clockwise and the first side
/// stays the first.
fn counter_clockwise([a, b, c, d]: [DVec2; 4]) -> [DVec2; 4] {
    let area = (c - a).perp_dot(d - b);
    if area >= 0.0 { [a, b, c, d] } else { [b, a, d, c] }
}

/// The middle of some points, for what is said about them.
pub fn middle(points: &[DVec2]) -> DVec2 {
    points.iter().sum::<DVec2>() / points.len().max(1) as f64
}

#[cfg(test)]
mod tests {
    use glam::dvec2;

    use super::*;
    use crate::model::Extra;

    fn photo() -> Background {
        Background {
            id: "u".into(),
            name: String::new(),
            plane: Plane::Plan,
            file: "bay.jpg".into(),
            opacity: 0.5,
            locked: false,
            hidden: false,
            origin: dvec2(-200.0, 150.0),
            rotation_deg: 0.0,
            content: Content::Photo { size_px: dvec2(400.0, 300.0), mm_per_pixel: 1.0 },
            extra: Extra::new(),
        }
    }

    fn seen(background: &Background, px: DVec2) -> DVec2 {
        background.map().unwrap().apply(px).unwrap()
    }

    #[test]
    fn two_points_become_as_far_apart_as_told() {
        let (a, b) = (dvec2(100.0, 100.0), dvec2(300.0, 220.0));
        let points = [a, b].map(|p| seen(&photo(), p));
        let scaled = scaled(photo(), points, 812.8).unwrap();
        let [p, q] = [a, b].map(|p| seen(&scaled, p));
        assert!((p.distance(q) - 812.8).abs() < 1e-9);
        assert!(p.distance(points[0]) < 1e-9, "the first point stays");
        let same = super::scaled(photo(), [a, a], 10.0).unwrap_err();
        assert_eq!(same.to_string(), "both points are in one place");
    }

    #[test]
    fn a_line_is_laid_level_or_stood_upright_whichever_is_nearer() {
        for (to, level) in [(dvec2(100.0, 20.0), true), (dvec2(-20.0, -100.0), false)] {
            let turned = levelled(photo(), DVec2::ZERO, to).unwrap();
            let px = photo().map().unwrap().inverse().unwrap().apply(to).unwrap();
            let now = seen(&turned, px);
            assert!(if level { now.y.abs() } else { now.x.abs() } < 1e-9, "{now}");
            assert!(now.dot(to) > 0.0);
        }
    }

    #[test]
    fn straightening_gives_the_sides_in_whatever_order_the_corners_are_clicked() {
        let corners_px = [(50.0, 250.0), (350.0, 240.0), (300.0, 60.0), (90.0, 70.0)];
        let corners = corners_px.map(|p| seen(&photo(), DVec2::from(p)));
        for start in 0..4 {
            for backwards in [false, true] {
                let order: [DVec2; 4] = std::array::from_fn(|i| {
                    corners[if backwards { start + 4 - i } else { start + i } % 4]
                });
                let flat = straightened(photo(), order, dvec2(600.0, 400.0)).unwrap();
                let px = order.map(|p| photo().map().unwrap().inverse().unwrap().apply(p).unwrap());
                let [a, b, c, d] = px.map(|p| seen(&flat, p));
                for (side, from, to) in [(600.0, a, b), (400.0, b, c), (600.0, c, d), (400.0, d, a)]
                {
                    let off = to - from;
                    assert!((off.length() - side).abs() < 1e-6, "{start} {backwards}: {off}");
                    assert!(off.x.abs().min(off.y.abs()) < 1e-6, "square with the view");
                }
                let now = middle(&[a, b, c, d]);
                assert!(now.distance(middle(&corners)) < 1e-6, "it stays where it was");
                assert!((b - a).dot(order[1] - order[0]) > 0.0, "and the way up");
                let again = straightened(flat, [a, b, c, d], dvec2(600.0, 400.0)).unwrap();
                assert!(seen(&again, px[2]).distance(c) < 1e-6, "twice is once");
            }
        }
    }

    #[test]
    fn corners_of_no_rectangle_say_why() {
        let line = [dvec2(0.0, 0.0), dvec2(10.0, 0.0), dvec2(20.0, 0.0), dvec2(0.0, 10.0)];
        let told = straightened(photo(), line, dvec2(1.0, 1.0)).unwrap_err().to_string();
        assert_eq!(told, "three of the four corners lie on one line");
        let outline = Background { content: Content::Outline { scale: 1.0 }, ..photo() };
        let square = [dvec2(0.0, 0.0), dvec2(9.0, 0.0), dvec2(9.0, 9.0), dvec2(0.0, 9.0)];
        let told = straightened(outline, square, DVec2::ONE).unwrap_err();
        assert_eq!(told, PickError::NotAPhoto);
    }
}
