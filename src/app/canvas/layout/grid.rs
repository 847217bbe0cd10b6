//! The grid and the scale bar, in the unit of the bay.

use glam::{DVec2, dvec2};

use super::super::camera::{Area, Camera};
use crate::units::{Length, LengthUnit};

const MM_PER_INCH: f64 = 25.4;
/// Steps that a rule would have, each with how many of them make a stronger line.
const MM_STEPS: [(f64, u32); 12] = [
    (1.0, 10),
    (2.0, 5),
    (5.0, 2),
    (10.0, 10),
    (20.0, 5),
    (50.0, 2),
    (100.0, 5),
    (200.0, 5),
    (500.0, 2),
    (1000.0, 5),
    (2000.0, 5),
    (5000.0, 2),
];
const INCH_STEPS: [(f64, u32); 12] = [
    (0.0625, 4),
    (0.125, 4),
    (0.25, 4),
    (0.5, 4),
    (1.0, 4),
    (2.0, 6),
    (4.0, 3),
    (6.0, 2),
    (12.0, 2),
    (24.0, 3),
    (72.0, 2),
    (120.0, 2),
];
/// Grid lines stand no closer than this, points.
const LEAST_STEP: f64 = 22.0;

/// Grid lines of a view.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Grid {
    /// Places of upright lines, and whether each is a strong one.
    pub upright: Vec<(f64, bool)>,
    /// Places of level lines.
    pub level: Vec<(f64, bool)>,
    /// Where the origin of the bay is.
    pub origin: DVec2,
}

/// A scale bar.
#[derive(Debug, Clone, PartialEq)]
pub struct ScaleBar {
    /// Its length on the screen.
    pub points: f64,
    /// What that is in the bay.
    pub label: String,
}

fn steps(unit: LengthUnit) -> (&'static [(f64, u32)], f64) {
    match unit {
        LengthUnit::Mm => (&MM_STEPS, 1.0),
        LengthUnit::Inch => (&INCH_STEPS, MM_PER_INCH),
    }
}

fn step_for(camera: Camera, unit: LengthUnit, least: f64) -> Option<(f64, u32)> {
    let (steps, mm) = steps(unit);
    let found = steps.iter().find(|(step, _)| step * mm * camera.points_per_mm >= least);
    found.map(|(step, strong)| (step * mm, *strong))
}

/// The distance of the grid's lines at this scale, mm; none where even the widest stand too close.
pub fn grid_step_mm(points_per_mm: f64, unit: LengthUnit) -> Option<f64> {
    let camera = Camera { points_per_mm, ..Camera::default() };
    step_for(camera, unit, LEAST_STEP).map(|(step, _)| step)
}

pub(super) fn lay_out(area: Area, camera: Camera, unit: LengthUnit) -> Grid {
    let origin = camera.to_screen(area, DVec2::ZERO);
    let Some((step, strong)) = step_for(camera, unit, LEAST_STEP) else {
        return Grid { origin, ..Grid::default() };
    };
    let a = camera.from_screen(area, dvec2(area.min.x, area.max.y));
    let b = camera.from_screen(area, dvec2(area.max.x, area.min.y));
    let lines = |from: f64, to: f64, on_screen: &dyn Fn(f64) -> f64| {
        let (first, last) = ((from / step).ceil(), (to / step).floor());
        let count = (last - first + 1.0).clamp(0.0, 2000.0) as u32;
        (0..count)
            .map(|k| {
                let n = first + f64::from(k);
                (on_screen(n * step), n.rem_euclid(f64::from(strong)) == 0.0)
            })
            .collect()
    };
    Grid {
        origin,
        upright: lines(a.x, b.x, &|x| camera.to_screen(area, DVec2::new(x, 0.0)).x),
        level: lines(a.y, b.y, &|y| camera.to_screen(area, DVec2::new(0.0, y)).y),
    }
}

pub(super) fn scale_bar(camera: Camera, unit: LengthUnit) -> ScaleBar {
    let mm = step_for(camera, unit, 60.0).map_or(10_000.0, |(step, _)| step);
    ScaleBar { points: mm * camera.points_per_mm, label: Length::from_mm(mm).show(unit) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grid_lines_stand_on_whole_steps() {
        let area = Area { min: DVec2::ZERO, max: dvec2(400.0, 300.0) };
        for (unit, mm) in [(LengthUnit::Mm, 1.0), (LengthUnit::Inch, 25.4)] {
            let camera =
                Camera { centre: dvec2(33.0, -12.0), points_per_mm: 0.6, ..Camera::default() };
            let grid = lay_out(area, camera, unit);
            assert!(grid.upright.len() > 2 && grid.level.len() > 2);
            for pair in grid.upright.windows(2) {
                assert!(pair[1].0 - pair[0].0 >= LEAST_STEP - 1e-9);
            }
            for (x, _) in &grid.upright {
                let at = camera.from_screen(area, dvec2(*x, 0.0)).x / mm;
                assert!((at - at.round()).abs() < 1e-9, "{at} {}", unit.sign());
            }
        }
    }

    #[test]
    fn the_scale_bar_is_as_long_as_it_says() {
        let camera = Camera { centre: DVec2::ZERO, points_per_mm: 0.5, ..Camera::default() };
        let bar = scale_bar(camera, LengthUnit::Mm);
        assert_eq!(bar, ScaleBar { points: 100.0, label: "200 mm".into() });
        let bar = scale_bar(camera, LengthUnit::Inch);
        assert_eq!(bar.label, "6 in");
        assert!((bar.points - 6.0 * 25.4 * 0.5).abs() < 1e-9);
    }

    #[test]
    fn no_zoom_draws_a_million_lines() {
        let area = Area { min: DVec2::ZERO, max: dvec2(4000.0, 3000.0) };
        for scale in [0.005, 0.1, 1.0, 50.0] {
            let camera = Camera { centre: DVec2::ZERO, points_per_mm: scale, ..Camera::default() };
            let grid = lay_out(area, camera, LengthUnit::Inch);
            assert!(grid.upright.len() < 200, "{scale}");
        }
    }
}
