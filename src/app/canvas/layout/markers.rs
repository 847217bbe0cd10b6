//! Marks of findings, beside each other.

use glam::DVec2;

use super::{Area, Marker, Placing};
use crate::app::canvas::scene::FindingMark;

/// Findings of one place stand beside each other, worst first; past [`BESIDE`] of them they lie on one
/// another, for a row of marks would lead away from the place.
pub(super) fn markers(findings: &[FindingMark], place: &Placing) -> Vec<Marker> {
    let mut order: Vec<&FindingMark> = findings.iter().collect();
    order.sort_by_key(|f| (f.severity, f.index));
    let mut standing = Standing::over(place.area);
    order
        .into_iter()
        .map(|mark| {
            let mut at = place.point(mark.point);
            let mut steps = 0;
            while steps < BESIDE && standing.is_taken(at) {
                at.x += STEP;
                steps += 1;
            }
            let is_covered = steps == BESIDE && standing.is_taken(at);
            if !is_covered {
                standing.take(at);
            }
            let moved_by = f64::from(steps) * STEP;
            Marker { finding: mark.index, severity: mark.severity, at, moved_by, is_covered }
        })
        .collect()
}

/// From mark to mark, points.
const STEP: f64 = 15.0;
/// As many marks stand beside the first of a place.
const BESIDE: u32 = 12;

/// Marks by the cell they stand in: there may be thousands. What stands outside the view is not seen,
/// and takes no place.
struct Standing {
    origin: DVec2,
    columns: usize,
    rows: usize,
    /// For each cell one past the place of the mark that came last into it; 0 for none.
    last: Vec<u32>,
    /// The marks, each with the one before it in its cell, told as above.
    marks: Vec<(DVec2, u32)>,
}

impl Standing {
    fn over(area: Area) -> Self {
        let size = ((area.max - area.min) / STEP).ceil().clamp(DVec2::ONE, DVec2::splat(1e3));
        let (columns, rows) = (size.x as usize, size.y as usize);
        Self { origin: area.min, columns, rows, last: vec![0; columns * rows], marks: Vec::new() }
    }

    /// Column and row of a place; they may lie outside.
    fn cell(&self, at: DVec2) -> Option<(usize, usize)> {
        let cell = ((at - self.origin) / STEP).floor();
        let is_inside = cell.cmpge(DVec2::ZERO).all()
            && cell.x < self.columns as f64
            && cell.y < self.rows as f64;
        is_inside.then_some((cell.x as usize, cell.y as usize))
    }

    fn is_taken(&self, at: DVec2) -> bool {
        let Some((x, y)) = self.cell(at) else { return false };
        let rows = y.saturating_sub(1)..=(y + 1).min(self.rows - 1);
        let columns = x.saturating_sub(1)..=(x + 1).min(self.columns - 1);
        rows.flat_map(|row| {
            let first = row * self.columns;
            &self.last[first + columns.start()..=first + columns.end()]
        })
        .any(|last| self.is_near(*last, at))
    }

    /// Whether one of the marks of a cell is too near to this place.
    fn is_near(&self, last: u32, at: DVec2) -> bool {
        let mut next = last;
        while let Some((other, before)) =
            next.checked_sub(1).and_then(|k| self.marks.get(k as usize))
        {
            if other.distance_squared(at) < (STEP - 1.0) * (STEP - 1.0) {
                return true;
            }
            next = *before;
        }
        false
    }

    fn take(&mut self, at: DVec2) {
        if let Some((x, y)) = self.cell(at) {
            let last = &mut self.last[y * self.columns + x];
            self.marks.push((at, *last));
            *last = self.marks.len() as u32;
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::app::canvas::camera::{Camera, View};
    use crate::checks::{Finding, Severity, Unit};
    use glam::DVec3;

    fn place() -> Placing {
        let area = Area { min: DVec2::ZERO, max: DVec2::new(600.0, 400.0) };
        Placing { view: View::Plan, area, camera: Camera::default() }
    }

    fn found(count: usize, point: impl Fn(usize) -> DVec3) -> Vec<FindingMark> {
        let mark = |index| FindingMark {
            index,
            severity: Severity::Fail,
            point: point(index),
            of: Arc::new(Finding {
                rule: "taut",
                severity: Severity::Fail,
                run: None,
                other: None,
                at_mm: None,
                point: None,
                value: None,
                limit: None,
                unit: Unit::Mm,
                message: String::new(),
                hint: String::new(),
                source: String::new(),
            }),
        };
        (0..count).map(mark).collect()
    }

    #[test]
    fn marks_of_one_place_stand_beside_each_other_and_no_row_has_no_end() {
        let place = place();
        let marks = markers(&found(40, |_| DVec3::ZERO), &place);
        let seen: Vec<_> = marks.iter().filter(|mark| !mark.is_covered).collect();
        assert_eq!(seen.len(), BESIDE as usize + 1);
        for (k, mark) in seen.iter().enumerate() {
            assert_eq!(mark.finding, k, "the first found is nearest");
            let from = place.point(DVec3::ZERO);
            assert!(mark.at.distance(from + DVec2::new(STEP * k as f64, 0.0)) < 1e-9);
        }
    }

    #[test]
    fn no_two_marks_that_are_seen_lie_on_each_other() {
        let scatter = |k: usize| DVec3::new((k * 37 % 211) as f64, (k * 53 % 173) as f64, 0.0);
        let place = place();
        let marks = markers(&found(2000, scatter), &place);
        let inside = |mark: &&Marker| place.area.grown(-1.0).contains(mark.at) && !mark.is_covered;
        let seen: Vec<_> = marks.iter().filter(inside).collect();
        assert!(seen.len() > 20, "{}", seen.len());
        for (k, a) in seen.iter().enumerate() {
            for b in &seen[..k] {
                assert!(a.at.distance(b.at) >= STEP - 1.0 - 1e-9, "{a:?} {b:?}");
            }
        }
    }
}
