//! Several routings of a bay on the same three views. They tell apart without colour: the first is a
//! full line, the others are dashed, each its own way.

use glam::{DVec2, DVec3};

use crate::engine::{RoutingSolution, RunSolution};
use crate::model::Bay;
use crate::units::LengthUnit;

use super::labels::{Label, Labels};
use super::layout::{Layout, Panel};
use super::route::{captions, farthest_first, field, framed, take_ports};
use super::{Dash, Drawing, Item, Shade, Stroke, obstacles};

/// Around everything, share of the greatest extent.
const MARGIN: f64 = 0.05;
/// Radius of a port's circle, mm on paper.
const PORT_MM: f64 = 0.8;
/// Room between points along a hose that words keep off, mm on paper.
const STEP_MM: f64 = 1.5;
/// Size of a hose's number, mm.
const NUMBER_MM: f64 = 2.5;

/// One routing.
pub(crate) struct Routed<'a> {
    /// What its hoses are marked with.
    pub(crate) letter: char,
    /// Its hoses.
    pub(crate) solution: &'a RoutingSolution,
}

/// How the lines of one routing look, by its place.
fn look(place: usize) -> Stroke {
    match place {
        0 => Stroke::obstacle(Shade::Ink, 0.7),
        1 => Stroke::dashed(Shade::Accent, 0.7, Dash::Dashed),
        2 => Stroke::dashed(Shade::Fail, 0.7, Dash::DashDot),
        _ => Stroke::dashed(Shade::Soft, 0.7, Dash::Dotted),
    }
}

/// A line as one routing has it.
pub(crate) fn legend(place: usize) -> Drawing {
    let points = vec![DVec2::new(0.0, 1.5), DVec2::new(14.0, 1.5)];
    let line = ["full line", "dashed line", "line of dashes and dots"].get(place);
    Drawing {
        title: (*line.unwrap_or(&"dotted line")).to_owned(),
        width_mm: 14.0,
        height_mm: 3.0,
        items: vec![Item::line(points, look(place))],
    }
}

/// The routings in plan, side and front view, on paper of at most `room`, mm. Hoses are marked by their
/// place in the routing and its letter, `2B`.
pub(crate) fn routings(bay: &Bay, routed: &[Routed<'_>], unit: LengthUnit, room: DVec2) -> Drawing {
    let (min, max) = extent(routed);
    let layout = Layout::of(min, max, room);
    let widest = layout.widest();
    let draw = |panel: &Panel| {
        let bar = (panel.view == widest).then_some(layout.scale);
        let mut items = draw_panel(bay, routed, panel, layout.scale);
        items.extend(captions(panel, bar, unit));
        items
    };
    let items = layout.panels.iter().flat_map(draw).collect();
    let letters: Vec<String> = routed.iter().map(|one| one.letter.to_string()).collect();
    Drawing {
        title: format!("Routings {} in plan, side and front view", letters.join(", ")),
        width_mm: layout.size.x,
        height_mm: layout.size.y,
        items,
    }
}

fn hoses<'a>(one: &Routed<'a>) -> impl Iterator<Item = (usize, &'a RunSolution)> {
    let runs = one.solution.runs.iter().enumerate();
    runs.filter_map(|(place, run)| Some((place, run.as_deref().ok()?)))
}

/// The box around every hose and seat, with a margin.
fn extent(routed: &[Routed<'_>]) -> (DVec3, DVec3) {
    let empty = (DVec3::INFINITY, DVec3::NEG_INFINITY);
    let all = routed.iter().flat_map(hoses).flat_map(|(_, run)| {
        let mut points = run.centre_line.sampled(1.0);
        points.extend([&run.from, &run.to].map(|end| end.frame.seat));
        points
    });
    let (min, max) = all.fold(empty, |(lo, hi), p| (lo.min(p), hi.max(p)));
    if !min.is_finite() || !max.is_finite() {
        // No hose at all: an empty field.
        return (DVec3::splat(-100.0), DVec3::splat(100.0));
    }
    let greatest = (max - min).max_element();
    let margin = (MARGIN * greatest).max(25.0);
    field((min, max), margin, 0.24)
}

fn draw_panel(bay: &Bay, routed: &[Routed<'_>], panel: &Panel, scale: f64) -> Vec<Item> {
    let lines: Vec<(usize, usize, Vec<DVec2>)> = routed
        .iter()
        .enumerate()
        .flat_map(|(routing, one)| hoses(one).map(move |(hose, run)| (routing, hose, run)))
        .map(|(routing, hose, run)| (routing, hose, on_paper(run, panel, scale)))
        .collect();
    let taken = lines.iter().flat_map(|(_, _, points)| points.iter().copied()).collect();
    let mut labels = Labels::new(panel.rect, taken, 0.5);
    let seats = routed.iter().flat_map(hoses);
    let seats: Vec<DVec3> =
        seats.flat_map(|(_, run)| [run.from.frame.seat, run.to.frame.seat]).collect();
    take_ports(&seats, panel, PORT_MM, &mut labels);

    let mut items: Vec<Item> =
        farthest_first(bay, panel).flat_map(|obstacle| obstacles::draw(obstacle, panel)).collect();
    let numbers = lines.iter().filter_map(|(routing, hose, points)| {
        let text = format!("{}{}", hose + 1, routed[*routing].letter);
        let shade = look(*routing).shade;
        let label = Label { text: &text, size_mm: NUMBER_MM, is_bold: true, shade };
        // Near its middle, where it is told apart from the others.
        let at = |tenth: usize| points.get(points.len() * tenth / 10).copied();
        labels.beside_one_of([5, 6, 4, 7, 3, 8, 2].into_iter().filter_map(at), 0.9, &label)
    });
    let mut words: Vec<Item> = numbers.collect();
    words.extend(
        bay.obstacles.iter().filter_map(|obstacle| obstacles::name(obstacle, panel, &mut labels)),
    );
    // Below the hoses: no word hides any of them.
    items.extend(words.iter().map(Labels::ground));
    // The first on top: it is the one that is read as the drawing.
    for (routing, _, points) in lines.iter().rev() {
        items.push(Item::line(points.clone(), look(*routing)));
    }
    items.extend(seats.into_iter().map(|seat| Item::Circle {
        at: panel.on_paper(seat),
        radius_mm: PORT_MM,
        fill: Some(Shade::Paper),
        stroke: Some(Stroke::obstacle(Shade::Ink, 0.25)),
    }));
    items.extend(words);
    framed(panel, items)
}

/// From seat to seat, so that the fittings are part of the line.
fn on_paper(run: &RunSolution, panel: &Panel, scale: f64) -> Vec<DVec2> {
    let length = run.centreline_mm;
    let count = (length * scale / STEP_MM).ceil().clamp(8.0, 2000.0);
    let along = (0..=count as u32).map(|k| run.centre_line.point_at(length * f64::from(k) / count));
    let seats = [run.from.frame.seat, run.to.frame.seat];
    let points = std::iter::once(seats[0]).chain(along).chain(std::iter::once(seats[1]));
    points.map(|p| panel.on_paper(p)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_of_the_first_four_look_alike_without_colour() {
        let dashes: Vec<Dash> = (0..4).map(|place| look(place).dash).collect();
        for (k, dash) in dashes.iter().enumerate() {
            assert!(!dashes[..k].contains(dash));
        }
    }

    #[test]
    fn a_bay_without_hoses_is_an_empty_field() {
        let drawing = routings(&Bay::default(), &[], LengthUnit::Mm, DVec2::splat(100.0));
        assert!(drawing.width_mm.is_finite() && drawing.width_mm > 0.0);
        assert_eq!(legend(1).items.len(), 1);
    }
}
