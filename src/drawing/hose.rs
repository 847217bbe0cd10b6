//! A hose looks like a hose: true thickness, a lay line, dark sockets, the end fitting to its seat.

use glam::{DVec2, DVec3};

use crate::engine::{Bend, EndSolution, RunSolution};
use crate::geom::{CentreLine, EndFrame};
use crate::units::EPS_MM;

use super::layout::Panel;
use super::{Dash, Item, Shade, Stroke};

/// How far an arc may stray from its chords, mm on paper.
const ACCURACY_MM: f64 = 0.03;
/// A thinner hose cannot be seen, mm on paper.
const LEAST_MM: f64 = 0.6;
/// Its edge, mm on paper.
const EDGE_MM: f64 = 0.22;
/// A hose has to be this thick on paper to carry its lay line, mm.
const LAY_LINE_FROM_MM: f64 = 1.2;

/// A hose in one panel.
pub(super) struct HosePicture<'a> {
    pub(super) run: &'a RunSolution,
    pub(super) panel: &'a Panel,
    pub(super) scale: f64,
}

/// What is drawn, with how near the eye it is.
type Part = (f64, Vec<Item>);

impl HosePicture<'_> {
    /// Its thickness on paper.
    pub(super) fn thickness_mm(&self) -> f64 {
        (self.run.hose.outside_mm * self.scale).max(LEAST_MM)
    }

    /// The shapes, farthest first, so that what crosses above lies above.
    pub(super) fn draw(&self) -> Vec<Item> {
        let mut parts = self.hose();
        parts.push(self.fitting(&self.run.from));
        parts.push(self.fitting(&self.run.to));
        parts.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut items: Vec<Item> = parts.into_iter().flat_map(|(_, items)| items).collect();
        items.extend(self.lay_line());
        items.extend(
            self.run.bends().iter().filter(|b| is_tight(b, self.run)).map(|b| self.tight(b)),
        );
        items.extend(self.clamps());
        items
    }

    /// Points of the centre line in the panel, about a millimetre apart.
    pub(super) fn along(&self) -> Vec<DVec2> {
        let length = self.run.centreline_mm;
        let count = (length * self.scale).ceil().clamp(1.0, 2000.0);
        (0..=count as u32)
            .map(|k| length * f64::from(k) / count)
            .map(|s| self.panel.on_paper(self.run.centre_line.point_at(s)))
            .collect()
    }

    fn hose(&self) -> Vec<Part> {
        let (a, b) = (self.run.from.end.socket_mm, self.run.to.end.socket_mm);
        let length = self.run.centreline_mm;
        let mouth_a = a.min(length);
        let mouth_b = (length - b).max(mouth_a);
        let mut parts = Vec::new();
        for (from, to, is_socket) in
            [(0.0, mouth_a, true), (mouth_a, mouth_b, false), (mouth_b, length, true)]
        {
            for points in self.pieces(from, to) {
                let near = points.iter().map(|p| self.panel.view.nearness(*p)).sum::<f64>()
                    / points.len() as f64;
                let flat: Vec<DVec2> = points.iter().map(|p| self.panel.on_paper(*p)).collect();
                parts.push((near, if is_socket { self.socket(flat) } else { self.group(flat) }));
            }
        }
        parts
    }

    fn socket(&self, points: Vec<DVec2>) -> Vec<Item> {
        vec![Item::line(points, Stroke::obstacle(Shade::Socket, 1.25 * self.thickness_mm()))]
    }

    fn group(&self, points: Vec<DVec2>) -> Vec<Item> {
        let thickness = self.thickness_mm();
        let edge = Item::line(points.clone(), Stroke::obstacle(Shade::HoseEdge, thickness));
        let inner = thickness - 2.0 * EDGE_MM;
        if inner <= EDGE_MM {
            return vec![edge];
        }
        // A hair longer, so that no seam shows between two pieces.
        let points = lengthened(points, 0.05);
        vec![edge, Item::line(points, Stroke::obstacle(Shade::Hose, inner))]
    }

    /// The stretch of the centre line between two places, piece by piece.
    fn pieces(&self, from: f64, to: f64) -> Vec<Vec<DVec3>> {
        let accuracy = ACCURACY_MM / self.scale;
        self.run
            .centre_line
            .pieces()
            .filter_map(|(start, piece)| {
                let (begin, end) = (from.max(start), to.min(start + piece.length()));
                (end - begin > EPS_MM).then(|| {
                    let curvature = piece.curvature();
                    let chord = if curvature > 0.0 {
                        (8.0 * accuracy / curvature).sqrt()
                    } else {
                        f64::INFINITY
                    };
                    let steps = ((end - begin) / chord).ceil().clamp(1.0, 500.0);
                    (0..=steps as u32)
                        .map(|k| begin - start + (end - begin) * f64::from(k) / steps)
                        .map(|s| piece.point_at(s))
                        .collect()
                })
            })
            .collect()
    }

    /// From the seat to where the hose begins: straight, or round its knee.
    fn fitting(&self, end: &EndSolution) -> Part {
        let points = knee(&end.frame, end.end.along_mm, end.end.across_mm, end.end.angle_deg);
        let near = self.panel.view.nearness(mean(&points));
        let flat: Vec<DVec2> = points.iter().map(|p| self.panel.on_paper(*p)).collect();
        let width = 0.75 * self.thickness_mm();
        let inner = Stroke::obstacle(Shade::Paper, (width - 2.0 * EDGE_MM).max(0.0));
        (
            near,
            vec![
                Item::line(flat.clone(), Stroke::obstacle(Shade::Socket, width)),
                Item::line(flat, inner),
            ],
        )
    }

    fn lay_line(&self) -> Option<Item> {
        (self.thickness_mm() >= LAY_LINE_FROM_MM).then(|| {
            let points = self.sampled(&self.run.centre_line);
            Item::line(points, Stroke::dashed(Shade::HoseEdge, 0.15, Dash::DashDot))
        })
    }

    fn sampled(&self, line: &CentreLine) -> Vec<DVec2> {
        let points = line.sampled(ACCURACY_MM / self.scale);
        points.into_iter().map(|p| self.panel.on_paper(p)).collect()
    }

    /// Strokes across a bend that is too tight; a ring where it has no radius at all.
    fn tight(&self, bend: &Bend) -> Item {
        const APART_MM: f64 = 0.9;
        let stroke = Stroke::obstacle(Shade::Fail, 0.35);
        let half = bend.radius_mm * bend.angle_deg.to_radians() / 2.0;
        if half <= 0.0 {
            let at = self.panel.on_paper(bend.point);
            let radius_mm = self.thickness_mm();
            return Item::Circle { at, radius_mm, fill: None, stroke: Some(stroke) };
        }
        let count = (2.0 * half * self.scale / APART_MM).ceil().clamp(2.0, 200.0);
        let lines = (0..=count as u32)
            .map(|k| bend.at_mm - half + 2.0 * half * f64::from(k) / count)
            .map(|s| self.across(s, self.thickness_mm() / 2.0))
            .collect();
        Item::Path { lines, is_closed: false, fill: None, stroke: Some(stroke) }
    }

    /// A line square across the hose at one place.
    fn across(&self, at_mm: f64, reach: f64) -> Vec<DVec2> {
        let line = &self.run.centre_line;
        let at = self.panel.on_paper(line.point_at(at_mm));
        let along = self.panel.direction_on_paper(line.direction_at(at_mm));
        let across = along.normalize_or(DVec2::X).perp() * reach;
        vec![at - across, at + across]
    }

    fn clamps(&self) -> Vec<Item> {
        /// How far a clamp stands out of the hose, and the least width it is drawn, mm on paper.
        const OUT_MM: f64 = 0.9;
        const LEAST_HALF_MM: f64 = 0.5;
        self.run
            .clamps
            .iter()
            .map(|clamp| {
                let at = self.panel.on_paper(clamp.point);
                let flat = self.panel.direction_on_paper(clamp.along);
                // Seen end on, a clamp is as wide as the hose.
                let half_thickness = self.thickness_mm() / 2.0;
                let half = (clamp.half_grip_mm * self.scale * flat.length())
                    .max(half_thickness * (1.0 - flat.length()))
                    .max(LEAST_HALF_MM);
                let corners = around(at, flat, half, half_thickness + OUT_MM);
                Item::shape(corners.to_vec(), None, Some(Stroke::obstacle(Shade::Ink, 0.4)))
            })
            .collect()
    }
}

/// Whether a bend is tighter than the hose bears.
pub(super) fn is_tight(bend: &Bend, run: &RunSolution) -> bool {
    bend.radius_mm < run.radius_limit_mm - EPS_MM
}

/// The corners of a rectangle about `at`, turned along `along` (of any length).
pub(crate) fn around(at: DVec2, along: DVec2, half_along: f64, half_across: f64) -> [DVec2; 4] {
    let along = along.normalize_or(DVec2::X);
    let across = along.perp() * half_across;
    let along = along * half_along;
    [at - along - across, at + along - across, at + along + across, at - along + across]
}

/// The axis of an end fitting from its seat to the hose exit: along the port, a knee, along the
/// hose. Where the two do not meet ahead of both, straight across.
pub(crate) fn knee(frame: &EndFrame, along: f64, across: f64, angle_deg: f64) -> Vec<DVec3> {
    let (sin, cos) = crate::geom::sin_cos_deg(angle_deg);
    if sin > 1e-6 {
        let from_exit = across / sin;
        let from_seat = along - from_exit * cos;
        if from_exit > 0.0 && from_seat > 0.0 {
            return vec![frame.seat, frame.seat + from_seat * frame.toward, frame.exit];
        }
    }
    vec![frame.seat, frame.exit]
}

fn mean(points: &[DVec3]) -> DVec3 {
    points.iter().sum::<DVec3>() / points.len().max(1) as f64
}

fn lengthened(mut points: Vec<DVec2>, by: f64) -> Vec<DVec2> {
    if let [first, second, ..] = points[..] {
        points[0] = first + (first - second).normalize_or_zero() * by;
    }
    if let [.., before, last] = points[..]
        && let Some(end) = points.last_mut()
    {
        *end = last + (last - before).normalize_or_zero() * by;
    }
    points
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::end_frame;

    #[test]
    fn the_knee_lies_on_both_axes() {
        let frame = end_frame(DVec3::ZERO, DVec3::X, 90.0, 30.0, 21.0, 25.0);
        let points = knee(&frame, 21.0, 25.0, 90.0);
        assert!((points[1] - DVec3::new(21.0, 0.0, 0.0)).length() < 1e-9);
        assert!((points[2] - points[1]).normalize().dot(frame.direction) > 1.0 - 1e-12);
        assert_eq!(knee(&frame, 21.0, 0.0, 0.0).len(), 2);
    }
}
