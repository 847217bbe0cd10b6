//! One view of a hose at true size: its shapes, and what its places are called.

use glam::{DVec2, DVec3};

use super::body::{Part, tube};
use super::places::{self, Hose};
use super::plane::ACCURACY_MM;
use super::{NamedPlace, TemplateView, ends};
use crate::drawing::{Dash, Drawing, Item, Rect, Shade, Stroke, around};

/// Around all of it, so that words find room beside the hose, mm.
const MARGIN_MM: f64 = 14.0;
/// The sides of the hose, mm.
const EDGE_MM: f64 = 0.3;
/// How far a socket and a clamp stand out of the hose; marks, not sizes, mm.
const SOCKET_OUT_MM: f64 = 2.0;
const CLAMP_OUT_MM: f64 = 3.0;

impl Hose<'_> {
    pub(super) fn view(&self, name: String, note: String, shown_mm: f64) -> TemplateView {
        let mut items = self.obstacles();
        items.push(self.centre_line());
        items.extend(self.clamps());
        let mut named = Vec::new();
        for (mark, place) in places::places(self) {
            items.extend(mark);
            named.extend(place);
        }
        let title = format!("{} at full size, {name}", self.run.shown_name());
        let (drawing, corner) = trimmed(title, items);
        let moved = |place: NamedPlace| NamedPlace {
            at: place.at - corner,
            mark: place.mark.map(|end| end - corner),
            ..place
        };
        TemplateView {
            name,
            note,
            shown_mm,
            drawing,
            places: named.into_iter().map(moved).collect(),
            along: self.along().into_iter().map(|p| p - corner).collect(),
            reach_mm: self.half_mm() + SOCKET_OUT_MM,
        }
    }

    /// Half the outside diameter.
    pub(super) fn half_mm(&self) -> f64 {
        self.solution.hose.outside_mm / 2.0
    }

    /// Half the thickness that a clamp is drawn with.
    pub(super) fn half_clamp_mm(&self) -> f64 {
        self.half_mm() + CLAMP_OUT_MM
    }

    /// Hose, sockets, fittings.
    fn obstacles(&self) -> Vec<Item> {
        let (run, length) = (self.solution, self.solution.centreline_mm);
        let edge = Stroke::obstacle(Shade::HoseEdge, EDGE_MM);
        let mut parts = tube(run, [0.0, length], self.half_mm(), Shade::Paper, edge, self.facing);
        // Of one depth all: the insides first, so that no seam shows between two pieces.
        parts = vec![Part::merged(parts)];
        let [a, b] = [&run.from, &run.to].map(|end| end.end.socket_mm.min(length));
        let edge = Stroke::obstacle(Shade::Ink, 0.5);
        for stretch in [[0.0, a], [(length - b).max(0.0), length]] {
            let half = self.half_mm() + SOCKET_OUT_MM;
            parts.extend(tube(run, stretch, half, Shade::Obstacle, edge, self.facing));
        }
        parts.extend(
            [&run.from, &run.to].map(|end| ends::fitting(end, self.half_mm(), self.facing)),
        );
        parts.into_iter().flat_map(Part::items).collect()
    }

    fn centre_line(&self) -> Item {
        let points = self.solution.centre_line.sampled(ACCURACY_MM);
        let points = points.into_iter().map(|p| self.facing.flat(p)).collect();
        Item::line(points, Stroke::dashed(Shade::Accent, 0.25, Dash::DashDot))
    }

    /// A frame around what each clamp grips, and a line across where its mark on the hose is.
    fn clamps(&self) -> Vec<Item> {
        let stroke = Stroke::obstacle(Shade::Ink, 0.5);
        let mut items = Vec::new();
        for clamp in &self.solution.clamps {
            let (at, flat) = (self.facing.flat(clamp.point), self.facing.flat(clamp.along));
            let half = (clamp.half_grip_mm * flat.length()).max(0.5);
            let corners = around(at, flat, half, self.half_clamp_mm()).to_vec();
            items.push(Item::shape(corners, None, Some(stroke)));
            if half > 1.0 {
                items.push(places::across(at, flat, self.half_clamp_mm() + 2.0, 0.25));
            }
        }
        items
    }

    /// Points about a millimetre apart from seat to seat.
    fn along(&self) -> Vec<DVec2> {
        let run = self.solution;
        let line = run.centre_line.sampled(0.5);
        let [a, b] = [&run.from, &run.to].map(ends::axis);
        let whole = a.into_iter().chain(line).chain(b.into_iter().rev());
        let whole: Vec<DVec3> = whole.collect();
        let mut points = Vec::new();
        for pair in whole.windows(2) {
            let count = pair[0].distance(pair[1]).ceil().clamp(1.0, 4000.0);
            let between = (0..=count as u32).map(|k| pair[0].lerp(pair[1], f64::from(k) / count));
            points.extend(between.map(|p| self.facing.flat(p)));
        }
        points
    }
}

/// As large as what is on it, and where its corner was.
fn trimmed(title: String, mut items: Vec<Item>) -> (Drawing, DVec2) {
    let bounds = items.iter().map(Item::bounds).filter(|bounds| bounds.min.cmple(bounds.max).all());
    let corners = bounds.flat_map(|bounds| [bounds.min, bounds.max]);
    let field = Rect::of(corners).grown(MARGIN_MM);
    let size = field.size().max(DVec2::ZERO);
    for item in &mut items {
        item.shift(-field.min);
    }
    (Drawing { title, width_mm: size.x, height_mm: size.y, items }, field.min)
}
