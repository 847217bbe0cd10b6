//! The installed shape of the selected hose, in figures, and its motion to be played.

use eframe::egui::{Color32, Slider, Ui, WidgetInfo};

use super::fact::{fact_in, radius_colour};
use crate::app::actions::{Action, Ask};
use crate::app::canvas::moving::Moving;
use crate::app::panels::{ask_button, soft};
use crate::app::seen::Seen;
use crate::app::theme;
use crate::engine::clearance::{NearObstacle, TubeClearance};
use crate::engine::lay::RunLay;
use crate::engine::motion::{Positions, RunMotion};
use crate::engine::{RoutingSolution, RunSolution};
use crate::model::Bay;
use crate::report::margins::{is_too_short, minimum_in_words};
use crate::report::sheet::{
    bare_gap, lengths_in_words, needed_in_words, spare_in_words, with_position,
};
use crate::units::{EPS_MM, Length, LengthUnit};

/// Facts of the run in place `index`.
pub(super) fn installed(
    ui: &mut Ui,
    bay: &Bay,
    index: usize,
    solved: &RunSolution,
    routing: &RoutingSolution,
) {
    let unit = bay.show_units;
    let limit = Length::from_mm(solved.radius_limit_mm).show(unit);
    let (text, colour) = radius(ui, solved.min_radius_mm, solved, unit);
    fact_in(
        ui,
        ["Tightest bend, as drawn", &format!("centre line, minimum {limit}")],
        &text,
        None,
        colour,
    );
    let drawn = routing.clearance.runs.get(index);
    nearest(ui, "Clearance, as drawn", bay, drawn.and_then(Nearest::of), None);
    let Some(lay) = routing.lay_of(index) else { return };
    tightest(ui, lay, solved, unit);
    nearest(ui, "Clearance, installed", bay, Nearest::of(&lay.clearance), None);
    let colours = theme::palette(ui);
    match routing.motion_of(index) {
        Some((motion, positions)) if motion.rides => moved(ui, bay, solved, motion, positions),
        Some((motion, positions)) if positions.move_anything() => {
            let worst = motion.nearest().filter(|(position, _)| *position > 0);
            let near = worst.map(|(_, near)| Nearest::judged(near));
            let with = worst.map(|(position, _)| with_position(positions, position));
            fact_in(ui, ["In motion", ""], "its ends do not move", None, colours.soft);
            nearest(ui, "Clearance in motion", bay, near, with.as_deref());
        }
        Some(_) => fact_in(ui, ["In motion", ""], "no moving group", None, colours.soft),
        // While something is held it is not calculated.
        None => fact_in(ui, ["In motion", ""], "\u{2026}", None, colours.soft),
    }
}

fn tightest(ui: &mut Ui, lay: &RunLay, solved: &RunSolution, unit: LengthUnit) {
    let bulge = Length::from_mm(lay.installed.bulge.mm).show(unit);
    let off = format!("centre line; up to {bulge} off the drawn route");
    let (text, colour) = if lay.installed.is_whole() {
        radius(ui, lay.installed.min_radius_mm(), solved, unit)
    } else {
        ("not known".to_owned(), theme::palette(ui).warn)
    };
    fact_in(ui, ["Installed radius", &off], &text, None, colour);
}

fn radius(
    ui: &Ui,
    radius_mm: Option<f64>,
    solved: &RunSolution,
    unit: LengthUnit,
) -> (String, Color32) {
    let colours = theme::palette(ui);
    let Some(radius_mm) = radius_mm else { return ("straight".to_owned(), colours.ink) };
    (Length::from_mm(radius_mm).show(unit), radius_colour(colours, Some(radius_mm), solved))
}

/// The tightest clearance, and whether a minimum that has to be kept is not.
#[derive(Clone, Copy)]
struct Nearest {
    near: NearObstacle,
    is_fault: bool,
}

impl Nearest {
    fn of(clearance: &TubeClearance) -> Option<Self> {
        let near = clearance.shown()?;
        Some(Self { near, is_fault: !clearance.too_near.is_empty() })
    }

    /// Of the places that have to keep it.
    fn judged(near: NearObstacle) -> Self {
        Self { near, is_fault: near.spare_mm() < -EPS_MM }
    }
}

fn nearest(ui: &mut Ui, name: &str, bay: &Bay, nearest: Option<Nearest>, position: Option<&str>) {
    let colours = theme::palette(ui);
    let Some((Nearest { near, is_fault }, obstacle)) =
        nearest.and_then(|nearest| Some((nearest, bay.obstacles.get(nearest.near.obstacle)?)))
    else {
        return;
    };
    let unit = bay.show_units;
    let besides =
        position.map_or_else(|| minimum_in_words(near.min_clearance_mm, unit), str::to_owned);
    let of = format!("{}, {besides}", obstacle.shown_name());
    let colour = match near.spare_mm() < -EPS_MM {
        true if is_fault => colours.fail,
        true => colours.warn,
        false => colours.ink,
    };
    fact_in(ui, [name, &of], &bare_gap(near.gap_mm, unit), None, colour);
}

fn moved(ui: &mut Ui, bay: &Bay, solved: &RunSolution, motion: &RunMotion, positions: &Positions) {
    let colours = theme::palette(ui);
    let unit = bay.show_units;
    if let Some((position, place)) = motion.tightest() {
        let (text, colour) = radius(ui, Some(place.radius_mm), solved, unit);
        let with = with_position(positions, position);
        fact_in(ui, ["Tightest bend in motion", &with], &text, None, colour);
    }
    if let Some((position, near)) = motion.nearest().filter(|(position, _)| *position > 0) {
        let with = with_position(positions, position);
        nearest(ui, "Clearance in motion", bay, Some(Nearest::judged(near)), Some(&with));
    }
    if let Some((position, reach)) = motion.least_reach() {
        let with = format!("shortened by pressure, {}", with_position(positions, position));
        let text = spare_in_words(reach.spare_mm, unit);
        let is_short = is_too_short(position, reach.spare_mm, unit);
        let colour = if is_short { colours.fail } else { colours.ink };
        fact_in(ui, ["Hose to spare in motion", &with], &text, None, colour);
    }
}

/// Which other lengths would do.
pub(super) fn advice(ui: &mut Ui, seen: &Seen<'_>, bay: &Bay, positions: Option<&Positions>) {
    let colours = theme::palette(ui);
    let unit = bay.show_units;
    let Some(advice) = seen.advice.lengths() else {
        if seen.advice.is_awaited() {
            // As high as the answer will be: what stands below does not move when it comes.
            fact_in(ui, ["Acceptable cut lengths", " "], "\u{2026}", None, colours.soft);
        }
        return;
    };
    let inch = &advice.inch;
    let radius = |radius: Option<f64>| match radius {
        Some(radius) if radius.is_finite() => Length::from_mm(radius).show(unit),
        Some(_) => "straight".to_owned(),
        None => "not known".to_owned(),
    };
    let effect = format!(
        "1 in shorter: tightest bend {}, 1 in longer: {}",
        radius(inch.less_mm),
        radius(inch.more_mm)
    );
    let lengths = lengths_in_words(advice, unit);
    let colour = if advice.ranges.is_empty() { colours.fail } else { colours.ink };
    fact_in(ui, ["Acceptable cut lengths", &effect], &lengths, None, colour);
    if let Some(needed) = &advice.needed {
        let (value, why) = needed_in_words(needed, positions, unit);
        let colour = if needed.pct.is_none() { colours.fail } else { colours.ink };
        let why = format!("{why}; the usual rule is 5 to 8 %");
        fact_in(ui, ["Slack needed for motion", &why], &value, None, colour);
    }
}

/// The motion to be played and stopped, where anything moves.
pub(super) fn player(
    ui: &mut Ui,
    seen: &Seen<'_>,
    positions: &Positions,
    actions: &mut Vec<Action>,
) {
    let count = positions.all.len();
    if count < 2 {
        return;
    }
    let colours = theme::palette(ui);
    let positioned = seen.work.canvas.moving.and_then(|moving| moving.positioned(count));
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        let plays = seen.work.canvas.moving.is_some_and(|moving| moving.plays);
        if plays {
            let stop =
                ui.button("Stop").on_hover_text("Stop the motion and show the position as drawn");
            if stop.clicked() {
                actions.push(Action::Move(None));
            }
        } else {
            ask_button(ui, seen, Ask::PlayMotion, actions);
        }
        let mut position = positioned.map_or(0, |positioned| positioned.position);
        ui.spacing_mut().slider_width = (ui.available_width() - 8.0).max(40.0);
        let slider = Slider::new(&mut position, 0..=count - 1).show_value(false);
        let slider =
            ui.add(slider).on_hover_text("Go through the positions one by one; left: as drawn");
        slider.widget_info(|| WidgetInfo::slider(true, position as f64, "Position"));
        if slider.changed() {
            actions.push(Action::Move((position > 0).then(|| Moving::at(position))));
        }
    });
    let shown =
        positioned.map_or("As drawn", |positioned| &positions.all[positioned.position].name);
    ui.label(soft(shown, colours));
    ui.add_space(4.0);
}
