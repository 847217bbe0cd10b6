//! The route of one hose in three views, with what is near it.

use glam::{DVec2, DVec3};

use crate::engine::{Bend, EndSolution, RunSolution};
use crate::model::{Bay, Side};
use crate::units::{Length, LengthUnit};

use super::hose::{HosePicture, is_tight};
use super::labels::{Label, Labels};
use super::layout::{Layout, Panel};
use super::view::View;
use super::ways::ways;
use super::{Anchor, Drawing, Item, Rect, Shade, Stroke, obstacles, text_width_mm};

/// Around the route, share of its greatest extent, and at least this, mm.
const MARGIN: f64 = 0.09;
const LEAST_MARGIN_MM: f64 = 25.0;
/// A flat route is still given this share of its greatest extent, so that words have room.
const LEAST_SHARE: f64 = 0.24;
/// Radius of a port's circle, mm on paper.
const PORT_MM: f64 = 1.1;

/// The route of a hose in plan, side and front view, on paper of at most `room`, mm.
pub(crate) fn route(
    bay: &Bay,
    name: &str,
    run: &RunSolution,
    unit: LengthUnit,
    room: DVec2,
) -> Drawing {
    let (min, max) = extent(run);
    let layout = Layout::of(min, max, room);
    let widest = layout.widest();
    let draw = |panel: &Panel| {
        let bar = (panel.view == widest).then_some(layout.scale);
        let mut items = draw_panel(bay, run, panel, layout.scale, unit);
        items.extend(captions(panel, bar, unit));
        items
    };
    let items = layout.panels.iter().flat_map(draw).collect();
    Drawing {
        title: format!("Route of {name} in plan, side and front view"),
        width_mm: layout.size.x,
        height_mm: layout.size.y,
        items,
    }
}

/// The box around the hose and its seats, with a margin.
fn extent(run: &RunSolution) -> (DVec3, DVec3) {
    let mut points = run.centre_line.sampled(1.0);
    points.extend([&run.from, &run.to].map(|end| end.frame.seat));
    points.extend([&run.from, &run.to].map(|end| end.frame.exit));
    points.extend(run.clamps.iter().map(|clamp| clamp.point));
    let empty = (DVec3::INFINITY, DVec3::NEG_INFINITY);
    let (min, max) = points.iter().fold(empty, |(lo, hi), p| (lo.min(*p), hi.max(*p)));
    let greatest = (max - min).max_element();
    let margin = (MARGIN * greatest).max(LEAST_MARGIN_MM) + run.hose.outside_mm / 2.0;
    field((min, max), margin, LEAST_SHARE)
}

/// A box with a margin; each of its sides is at least a share of the longest of the box alone.
pub(super) fn field((min, max): (DVec3, DVec3), margin: f64, least_share: f64) -> (DVec3, DVec3) {
    let greatest = (max - min).max_element();
    let span = (max - min + 2.0 * margin).max(DVec3::splat(least_share * greatest));
    let middle = min.midpoint(max);
    (middle - span / 2.0, middle + span / 2.0)
}

fn draw_panel(
    bay: &Bay,
    run: &RunSolution,
    panel: &Panel,
    scale: f64,
    unit: LengthUnit,
) -> Vec<Item> {
    let hose = HosePicture { run, panel, scale };
    let mut labels = Labels::new(panel.rect, hose.along(), hose.thickness_mm() / 2.0);
    take_ports(&[run.from.frame.seat, run.to.frame.seat], panel, PORT_MM, &mut labels);

    let mut items: Vec<Item> =
        farthest_first(bay, panel).flat_map(|s| obstacles::draw(s, panel)).collect();
    let mut words = letters(run, panel, &mut labels);
    words.extend(clamp_numbers(&hose, &mut labels));
    words.extend(tight_figures(&hose, unit, &mut labels));
    words.extend(
        bay.obstacles.iter().filter_map(|obstacle| obstacles::name(obstacle, panel, &mut labels)),
    );
    // Below the hose: no word hides any of it.
    items.extend(words.iter().map(Labels::ground));
    items.extend(hose.draw());
    items.extend(seats(run, panel));
    items.extend(words);
    framed(panel, items)
}

/// A panel with what is in it, and its frame.
pub(super) fn framed(panel: &Panel, items: Vec<Item>) -> Vec<Item> {
    let frame = Stroke::obstacle(Shade::Soft, 0.2);
    vec![
        Item::Clipped { within: panel.rect, items },
        Item::shape(panel.rect.outline(), None, Some(frame)),
    ]
}

pub(super) fn farthest_first<'a>(
    bay: &'a Bay,
    panel: &Panel,
) -> impl Iterator<Item = &'a crate::model::Obstacle> {
    let mut obstacles: Vec<_> = bay.obstacles.iter().collect();
    let near = |obstacle: &crate::model::Obstacle| {
        let (min, max) = obstacle.shape.bounds();
        panel.view.nearness(min).max(panel.view.nearness(max))
    };
    obstacles.sort_by(|a, b| near(a).total_cmp(&near(b)));
    obstacles.into_iter()
}

/// Keeps words off the circles about seats.
pub(super) fn take_ports(seats: &[DVec3], panel: &Panel, radius_mm: f64, labels: &mut Labels) {
    for seat in seats {
        let at = panel.on_paper(*seat);
        labels.take(Rect { min: at, max: at }.grown(radius_mm));
    }
}

/// Above its frame the name of the view, which way is which and, where `bar` gives the scale, a bar of a round length: nothing drawn
/// runs through them.
pub(super) fn captions(panel: &Panel, bar: Option<f64>, unit: LengthUnit) -> Vec<Item> {
    const SIZE_MM: f64 = 2.5;
    const BASE_MM: f64 = 0.9;
    let room = panel.rect.size().x;
    let at = panel.rect.min - DVec2::new(0.0, BASE_MM);
    let name = [panel.view.name(), panel.view.word()]
        .into_iter()
        .find(|name| text_width_mm(name, SIZE_MM) + bar.map_or(0.0, |_| BAR_MM) <= room)
        .unwrap_or(panel.view.word());
    let mut items = vec![Item::soft(at, name, SIZE_MM, Anchor::Start)];
    let from = at.x + text_width_mm(name, SIZE_MM) + 2.0;
    let left = panel.rect.max.x - from - bar.map_or(0.0, |_| BAR_MM);
    let (arrows, width) = ways(DVec2::new(from, at.y), left, panel.view, SIZE_MM);
    items.extend(arrows);
    let from = if width > 0.0 { from + width + 2.0 } else { from };
    items.extend(bar.into_iter().flat_map(|scale| {
        let start = DVec2::new(from, at.y);
        scale_bar(start, panel.rect.max.x - from, scale, unit)
    }));
    items
}

/// The seats as circles.
fn seats(run: &RunSolution, panel: &Panel) -> Vec<Item> {
    let seats = [&run.from, &run.to].map(|end| panel.on_paper(end.frame.seat));
    let stroke = Some(Stroke::obstacle(Shade::Ink, 0.4));
    let circle = |at| Item::Circle { at, radius_mm: PORT_MM, fill: Some(Shade::Paper), stroke };
    seats.map(circle).to_vec()
}

/// The letters of the ends beside their seats, away from the hose.
fn letters(run: &RunSolution, panel: &Panel, labels: &mut Labels) -> Vec<Item> {
    let ends = [(Side::A, &run.from), (Side::B, &run.to)];
    let letter = |(side, end): (Side, &EndSolution)| {
        let label = Label { text: side.letter(), size_mm: 3.8, is_bold: true, shade: Shade::Ink };
        labels.beside(panel.on_paper(end.frame.seat), PORT_MM + 0.8, &label)
    };
    ends.map(letter).to_vec()
}

/// The clamps' numbers, where there is more than one.
fn clamp_numbers(hose: &HosePicture<'_>, labels: &mut Labels) -> Vec<Item> {
    let clamps = &hose.run.clamps;
    if clamps.len() < 2 {
        return Vec::new();
    }
    clamps
        .iter()
        .enumerate()
        .map(|(i, clamp)| {
            let text = (i + 1).to_string();
            let label = Label { text: &text, size_mm: 2.4, is_bold: true, shade: Shade::Ink };
            let gap = hose.thickness_mm() / 2.0 + 1.4;
            labels.beside(hose.panel.on_paper(clamp.point), gap, &label)
        })
        .collect()
}

/// What a bend that is too tight comes to, in the view that shows it best.
fn tight_figures(hose: &HosePicture<'_>, unit: LengthUnit, labels: &mut Labels) -> Vec<Item> {
    const SIZE_MM: f64 = 2.6;
    let run = hose.run;
    run.bends()
        .iter()
        .filter(|bend| is_tight(bend, run) && best_view(run, bend) == hose.panel.view)
        .map(|bend| {
            let number = |mm: f64| Length::from_mm(mm).number(unit);
            let whole =
                format!("R {}, minimum {}", number(bend.radius_mm), number(run.radius_limit_mm));
            // The strip says the rest.
            let short = format!("R {}", number(bend.radius_mm));
            let fits = text_width_mm(&whole, SIZE_MM) * 1.1 <= 0.7 * hose.panel.rect.size().x;
            let text = if fits { whole } else { short };
            let label = Label { text: &text, size_mm: SIZE_MM, is_bold: true, shade: Shade::Fail };
            let gap = hose.thickness_mm() / 2.0 + 1.0;
            labels.beside(hose.panel.on_paper(bend.point), gap, &label)
        })
        .collect()
}

/// The view that looks most squarely at the plane of a bend.
fn best_view(run: &RunSolution, bend: &Bend) -> View {
    let half = bend.radius_mm * bend.angle_deg.to_radians() / 2.0 + 1e-3;
    let direction = |s: f64| run.centre_line.direction_at(s);
    let normal = direction(bend.at_mm - half).cross(direction(bend.at_mm + half));
    let facing = |view: View| view.nearness(normal).abs();
    let [plan, side, front] = View::ALL;
    let flat = if facing(side) > facing(plan) { side } else { plan };
    if facing(front) > facing(flat) { front } else { flat }
}

/// Room for a scale bar and its words, mm on paper.
const BAR_MM: f64 = 26.0;

/// A bar of a round length, and the length behind it.
fn scale_bar(start: DVec2, room: f64, scale: f64, unit: LengthUnit) -> [Item; 2] {
    const STEPS_IN: [f64; 9] = [0.25, 0.5, 1.0, 2.0, 4.0, 6.0, 12.0, 24.0, 48.0];
    const STEPS_MM: [f64; 9] = [5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0];
    const WORDS_MM: f64 = 2.4;
    const LONGEST_MM: f64 = 30.0;
    let steps = match unit {
        LengthUnit::Inch => STEPS_IN.map(Length::from_inches),
        LengthUnit::Mm => STEPS_MM.map(Length::from_mm),
    };
    let wide = |step: &&Length| step.mm() * scale + 1.0 + text_width_mm(&step.show(unit), WORDS_MM);
    let fits =
        steps.iter().rev().find(|step| step.mm() * scale <= LONGEST_MM && wide(step) <= room);
    let length = fits.unwrap_or(&steps[0]);
    let end = start + DVec2::new(length.mm() * scale, 0.0);
    let tick = DVec2::new(0.0, 1.4);
    let bar = vec![start - tick, start, end, end - tick];
    let words = end + DVec2::new(1.0, 0.0);
    [
        Item::line(bar, Stroke::obstacle(Shade::Ink, 0.3)),
        Item::text(words, length.show(unit), WORDS_MM, Anchor::Start),
    ]
}
