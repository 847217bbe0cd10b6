//! A hose at true size: its two edges, its centre line, and where everything begins and ends.

use glam::{DVec2, DVec3};

use super::plane::{ACCURACY_MM, Facing};
use crate::engine::{Bend, RunSolution};
use crate::export::drawing::{Dash, Drawing, Item, Label, Labels, Rect, Shade, Stroke, around};
use crate::units::{EPS_MM, Length, LengthUnit};

/// How far from the hose words may come to stand, mm.
const ROOM_MM: f64 = 80.0;
/// Around all of it, mm.
const MARGIN_MM: f64 = 3.0;
/// Its edge, mm.
const EDGE_MM: f64 = 0.3;
const WORD_MM: f64 = 3.0;

/// Something to be seen at one place of the hose.
struct Place {
    at_mm: f64,
    words: String,
    is_cut: bool,
}

pub(super) fn picture(name: &str, run: &RunSolution, facing: &Facing, unit: LengthUnit) -> Drawing {
    let line: Vec<DVec2> =
        run.centre_line.sampled(ACCURACY_MM).into_iter().map(|p| facing.flat(p)).collect();
    let field = Rect::of(line.iter().copied()).grown(ROOM_MM + run.hose.outside_mm / 2.0);
    let size = if line.is_empty() { DVec2::ZERO } else { field.size() };
    let hose = Hose { run, facing, corner: field.min };
    let mut labels =
        Labels::new(Rect { min: DVec2::ZERO, max: size }, hose.along(), run.hose.outside_mm / 2.0);
    let mut items = hose.body();
    items.push(hose.centre_line(&line));
    items.extend(hose.clamps(&mut labels));
    items.extend(hose.places(unit).iter().flat_map(|place| hose.mark(place, &mut labels)));
    trimmed(format!("{name} at full size, {}", facing.name), items)
}

/// As large as what is on it.
fn trimmed(title: String, mut items: Vec<Item>) -> Drawing {
    let corners = items.iter().map(Item::bounds).flat_map(|bounds| [bounds.min, bounds.max]);
    let field = Rect::of(corners).grown(MARGIN_MM);
    let size = field.size().max(DVec2::ZERO);
    for item in &mut items {
        item.shift(-field.min);
    }
    Drawing { title, width_mm: size.x, height_mm: size.y, items }
}

struct Hose<'a> {
    run: &'a RunSolution,
    facing: &'a Facing,
    corner: DVec2,
}

impl Hose<'_> {
    fn on_paper(&self, p: DVec3) -> DVec2 {
        self.facing.flat(p) - self.corner
    }

    /// Points about a millimetre apart, for the words to keep off.
    fn along(&self) -> Vec<DVec2> {
        let length = self.run.centreline_mm;
        let count = length.ceil().clamp(1.0, 4000.0);
        (0..=count as u32)
            .map(|k| length * f64::from(k) / count)
            .map(|s| self.on_paper(self.run.centre_line.point_at(s)))
            .collect()
    }

    /// Both edges, piece by piece, what is nearer to the eye over what is farther.
    fn body(&self) -> Vec<Item> {
        let outside = self.run.hose.outside_mm;
        let mut parts: Vec<(f64, [Item; 2])> = Vec::new();
        for (_, piece) in self.run.centre_line.pieces() {
            let length = piece.length();
            let steps = (length * (piece.curvature() / (8.0 * ACCURACY_MM)).sqrt()).ceil();
            let steps = steps.clamp(1.0, 2000.0);
            let points: Vec<DVec3> =
                (0..=steps as u32).map(|k| piece.point_at(length * f64::from(k) / steps)).collect();
            let near =
                points.iter().map(|p| self.facing.nearness(*p)).sum::<f64>() / points.len() as f64;
            let flat: Vec<DVec2> = points.iter().map(|p| self.on_paper(*p)).collect();
            let stroke = Stroke::solid;
            let edge = Item::line(flat.clone(), stroke(Shade::HoseEdge, outside));
            let inner = (outside - 2.0 * EDGE_MM).max(0.0);
            parts.push((near, [edge, Item::line(flat, stroke(Shade::Paper, inner))]));
        }
        // All edges of one depth before their insides, so that no seam shows between two pieces.
        if self.facing.is_flat {
            let (edges, insides): (Vec<Item>, Vec<Item>) =
                parts.into_iter().map(|(_, [edge, inner])| (edge, inner)).unzip();
            return edges.into_iter().chain(insides).collect();
        }
        parts.sort_by(|a, b| a.0.total_cmp(&b.0));
        parts.into_iter().flat_map(|(_, items)| items).collect()
    }

    fn centre_line(&self, line: &[DVec2]) -> Item {
        let points = line.iter().map(|p| *p - self.corner).collect();
        Item::line(points, Stroke::dashed(Shade::Accent, 0.25, Dash::DashDot))
    }

    /// Cut ends, socket ends and bend starts, in order of need.
    fn places(&self, unit: LengthUnit) -> Vec<Place> {
        let run = self.run;
        let place = |at_mm, words: &str, is_cut| Place { at_mm, words: words.to_owned(), is_cut };
        let length = run.centreline_mm;
        let mut places = vec![
            place(0.0, "A, cut end", true),
            place(length, "B, cut end", true),
            place(run.from.end.socket_mm, "socket A ends", false),
            place(length - run.to.end.socket_mm, "socket B ends", false),
        ];
        for (i, bend) in run.bends().iter().enumerate().filter(|(_, bend)| bend.angle_deg >= 0.5) {
            let half = bend.radius_mm * bend.angle_deg.to_radians() / 2.0;
            let words = format!("bend {} starts, {}", i + 1, radius(bend, run, unit));
            places.push(place(bend.at_mm - half, &words, false));
            places.push(place(bend.at_mm + half, &format!("bend {} ends", i + 1), false));
        }
        places.retain(|place| (-EPS_MM..=length + EPS_MM).contains(&place.at_mm));
        places
    }

    /// A line across the hose, and its words beside it.
    fn mark(&self, place: &Place, labels: &mut Labels) -> Vec<Item> {
        let (out, width_mm) = if place.is_cut { (5.0, 0.6) } else { (2.0, 0.25) };
        let at = self.on_paper(self.run.centre_line.point_at(place.at_mm));
        let reach = self.run.hose.outside_mm / 2.0 + out;
        let direction = self.run.centre_line.direction_at(place.at_mm);
        let along = self.facing.flat(direction);
        let is_end_on = along.length() < 0.05;
        // Seen end on, the hose has no across, and all of it lies in one spot: the cut ends alone.
        if is_end_on && !place.is_cut {
            return Vec::new();
        }
        let stroke = Stroke::solid(Shade::Ink, width_mm);
        let size_mm = if place.is_cut { 4.2 } else { WORD_MM };
        let label = Label { text: &place.words, size_mm, is_bold: place.is_cut, shade: Shade::Ink };
        let words = labels.beside(at, reach + 0.8, &label);
        if is_end_on {
            return vec![
                Item::Circle { at, radius_mm: reach, fill: None, stroke: Some(stroke) },
                words,
            ];
        }
        let across = along.normalize_or(DVec2::X).perp() * reach;
        vec![Item::line(vec![at - across, at + across], stroke), words]
    }

    /// A frame around what each clamp grips.
    fn clamps(&self, labels: &mut Labels) -> Vec<Item> {
        let out = self.run.hose.outside_mm / 2.0 + 3.0;
        let stroke = Stroke::solid(Shade::Ink, 0.5);
        let count = self.run.clamps.len();
        let mut items = Vec::new();
        for (i, clamp) in self.run.clamps.iter().enumerate() {
            let at = self.on_paper(clamp.point);
            let flat = self.facing.flat(clamp.along);
            let half = (clamp.half_width_mm * flat.length()).max(0.5);
            let corners = around(at, flat, half, out).to_vec();
            items.push(Item::shape(corners, None, Some(stroke)));
            let words = if count > 1 { format!("clamp {}", i + 1) } else { "clamp".to_owned() };
            let label = Label { text: &words, size_mm: WORD_MM, is_bold: true, shade: Shade::Ink };
            items.push(labels.beside(at, out + 0.8, &label));
        }
        items
    }
}

/// The radius, and what the hose needs where it is too tight.
fn radius(bend: &Bend, run: &RunSolution, unit: LengthUnit) -> String {
    let show = |mm: f64| Length::from_mm(mm).show(unit);
    if bend.radius_mm < run.radius_limit_mm - EPS_MM {
        format!("R {}, needs {}", show(bend.radius_mm), show(run.radius_limit_mm))
    } else {
        format!("R {}", show(bend.radius_mm))
    }
}
