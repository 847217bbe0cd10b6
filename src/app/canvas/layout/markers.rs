//! Marks of findings, beside each other.

use glam::DVec2;

use super::{Area, MARKER_RADIUS, Marker, Placing, ViewLayout};
use crate::app::canvas::scene::FindingMark;

/// Of the findings of one neighbourhood the worst is marked alone; the others wait to be pointed at. Each is
/// marked at its place, or just beside it where something there can be taken hold of.
pub(super) fn markers(findings: &[FindingMark], place: &Placing, grips: &Grips) -> Vec<Marker> {
    let mut order: Vec<&FindingMark> = findings.iter().collect();
    order.sort_by_key(|f| (f.is_quiet, f.severity, f.index));
    let mut standing = Standing::over(place.area);
    let mut markers: Vec<Marker> = Vec::with_capacity(order.len());
    // One that is hidden beside another, and that other.
    let mut with_another = Vec::new();
    for mark in order {
        let at = place.point(mark.point);
        let beside = standing.taken_by(at);
        if let Some(worse) = beside.and_then(|worse| markers.get_mut(worse)) {
            worse.beside += 1;
        }
        with_another.extend(beside.map(|worse| (markers.len(), worse)));
        let is_hidden = mark.is_quiet || beside.is_some();
        if !is_hidden {
            standing.take(at, markers.len());
        }
        let (finding, severity) = (mark.index, mark.severity);
        markers.push(Marker { finding, severity, place: at, at, is_hidden, beside: 0 });
    }
    step_aside(&mut markers, grips, place.area);
    for (one, worse) in with_another {
        markers[one].at = markers[worse].at;
    }
    markers
}

/// Puts marks that would cover a grip beside it, where no other mark stands.
fn step_aside(markers: &mut [Marker], grips: &Grips, area: Area) {
    let covers = |marker: &Marker| area.contains(marker.at) && grips.are_met(marker.at);
    // Of thousands of marks few are seen.
    let seen = (0..markers.len()).filter(|k| !markers[*k].is_hidden);
    let (aside, stand): (Vec<usize>, Vec<usize>) = seen.partition(|k| covers(&markers[*k]));
    let mut stand: Vec<DVec2> = stand.into_iter().map(|k| markers[k].at).collect();
    for k in aside {
        let place = markers[k].place;
        let places = ASIDE.iter().flat_map(|far| WAYS.iter().map(move |way| place + *far * *way));
        let is_free = |at: &DVec2| {
            area.grown(-MARKER_RADIUS).contains(*at)
                && !grips.are_met(*at)
                && stand.iter().all(|other| other.distance(*at) > 2.0 * MARKER_RADIUS)
        };
        if let Some(at) = places.into_iter().find(is_free) {
            markers[k].at = at;
            stand.push(at);
        }
    }
}

/// How far a mark stands beside its place, points, and which way: upwards first, as a flag does.
const ASIDE: [f64; 4] = [16.0, 22.0, 30.0, 48.0];
const DIAGONAL: f64 = std::f64::consts::FRAC_1_SQRT_2;
const WAYS: [DVec2; 8] = [
    DVec2::new(DIAGONAL, -DIAGONAL),
    DVec2::new(-DIAGONAL, -DIAGONAL),
    DVec2::new(0.0, -1.0),
    DVec2::new(1.0, 0.0),
    DVec2::new(-1.0, 0.0),
    DVec2::new(DIAGONAL, DIAGONAL),
    DVec2::new(-DIAGONAL, DIAGONAL),
    DVec2::new(0.0, 1.0),
];

/// What can be taken hold of, from left to right.
pub(super) struct Grips {
    grips: Vec<(DVec2, f64)>,
    largest: f64,
}

impl Grips {
    /// Ports, corners and clamps.
    pub(super) fn of(layout: &ViewLayout) -> Self {
        let ports = layout.ports.iter().map(|port| (port.at, port.radius));
        let vias = layout.vias.iter().map(|via| (via.at, via.radius()));
        let mut grips: Vec<(DVec2, f64)> = ports.chain(vias).collect();
        grips.sort_by(|a, b| a.0.x.total_cmp(&b.0.x));
        let largest = grips.iter().map(|grip| grip.1).fold(0.0, f64::max);
        Self { grips, largest }
    }

    /// Whether a mark here would cover one of them.
    fn are_met(&self, at: DVec2) -> bool {
        let reach = self.largest + MARKER_RADIUS;
        let first = self.grips.partition_point(|grip| grip.0.x < at.x - reach);
        let near = self.grips[first..].iter().take_while(|grip| grip.0.x <= at.x + reach);
        near.into_iter().any(|(grip, radius)| grip.distance(at) < radius + MARKER_RADIUS)
    }
}

/// A neighbourhood, points.
pub(super) const STEP: f64 = 20.0;

/// Marks by the cell they stand in: there may be thousands. What stands outside the view is not seen,
/// and takes no place.
struct Standing {
    origin: DVec2,
    columns: usize,
    rows: usize,
    /// For each cell one past the place of the mark that came last into it; 0 for none.
    last: Vec<u32>,
    /// The marks, each with the one before it in its cell, told as above, and its place among all.
    marks: Vec<(DVec2, u32, usize)>,
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

    /// The mark whose neighbourhood this is.
    fn taken_by(&self, at: DVec2) -> Option<usize> {
        let (x, y) = self.cell(at)?;
        let rows = y.saturating_sub(1)..=(y + 1).min(self.rows - 1);
        let columns = x.saturating_sub(1)..=(x + 1).min(self.columns - 1);
        rows.flat_map(|row| {
            let first = row * self.columns;
            &self.last[first + columns.start()..=first + columns.end()]
        })
        .find_map(|last| self.near(*last, at))
    }

    /// Of the marks of a cell one that is near.
    fn near(&self, last: u32, at: DVec2) -> Option<usize> {
        let mut next = last;
        while let Some((other, before, place)) =
            next.checked_sub(1).and_then(|k| self.marks.get(k as usize))
        {
            if other.distance_squared(at) < STEP * STEP {
                return Some(*place);
            }
            next = *before;
        }
        None
    }

    fn take(&mut self, at: DVec2, place: usize) {
        if let Some((x, y)) = self.cell(at) {
            let last = &mut self.last[y * self.columns + x];
            self.marks.push((at, *last, place));
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
            is_quiet: false,
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

    fn none() -> Grips {
        Grips { grips: Vec::new(), largest: 0.0 }
    }

    #[test]
    fn a_mark_never_covers_what_can_be_taken_hold_of() {
        let place = place();
        let point = |k: usize| DVec3::new(30.0 * (k % 9) as f64, 25.0 * (k / 9) as f64, 0.0);
        let mut grips: Vec<(DVec2, f64)> =
            (0..60).step_by(2).map(|k| (place.point(point(k)), 4.0 + (k % 7) as f64)).collect();
        grips.sort_by(|a, b| a.0.x.total_cmp(&b.0.x));
        let grips = Grips { grips, largest: 10.0 };
        let marks = markers(&found(60, point), &place, &grips);
        let seen = marks.iter().filter(|mark| !mark.is_hidden && place.area.contains(mark.place));
        let (mut at_place, mut beside) = (0, 0);
        for mark in seen {
            for (at, radius) in &grips.grips {
                let gap = mark.at.distance(*at) - radius - MARKER_RADIUS;
                assert!(gap >= -1e-9, "{mark:?} covers {at}");
            }
            assert!(mark.at.distance(mark.place) <= 48.0 + 1e-9);
            if mark.at == mark.place { at_place += 1 } else { beside += 1 }
        }
        assert!(at_place > 5 && beside > 5, "{at_place} {beside}");
    }

    #[test]
    fn of_one_place_the_worst_stands_alone_and_says_how_many_there_are() {
        let mut found = found(40, |_| DVec3::ZERO);
        found[7].severity = Severity::Note;
        found[7].is_quiet = true;
        found[3].severity = Severity::Warn;
        let marks = markers(&found, &place(), &none());
        let seen: Vec<_> = marks.iter().filter(|mark| !mark.is_hidden).collect();
        assert_eq!(seen.iter().map(|m| (m.finding, m.beside)).collect::<Vec<_>>(), [(0, 39)]);
        let looked_at: Vec<usize> =
            marks.iter().filter(|m| m.is_shown(Some(7))).map(|m| m.finding).collect();
        assert_eq!(looked_at, [0, 7]);
    }

    #[test]
    fn no_two_marks_that_are_seen_lie_on_each_other() {
        let scatter = |k: usize| DVec3::new((k * 37 % 211) as f64, (k * 53 % 173) as f64, 0.0);
        let place = place();
        let marks = markers(&found(2000, scatter), &place, &none());
        let inside = |mark: &&Marker| place.area.grown(-1.0).contains(mark.at) && !mark.is_hidden;
        let seen: Vec<_> = marks.iter().filter(inside).collect();
        assert!(seen.len() > 20, "{}", seen.len());
        for (k, a) in seen.iter().enumerate() {
            for b in &seen[..k] {
                assert!(a.at.distance(b.at) >= STEP - 1e-9, "{a:?} {b:?}");
            }
        }
    }
}
