//! The card of the selected hose: the cut length first, what it is made of, the facts, what to fix.

use eframe::egui::{Align, Align2, Layout, Margin, RichText, ScrollArea, Sense, Ui, pos2, vec2};

use super::fact::{fact, fact_in, radius_colour};
use super::{installed, sheet, soft};
use crate::app::actions::Action;
use crate::app::canvas::thing::Thing;
use crate::app::seen::Seen;
use crate::app::theme::{self, size};
use crate::app::words;
use crate::engine::leak_test::{self, TestState};
use crate::engine::{EndSolution, RunSolution};
use crate::model::{Bay, Run, Side, name_or};
use crate::units::{Angle, Length, LengthUnit};

pub(in crate::app) fn card(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let (Some(document), Some(solved)) = (&seen.work.document, &seen.work.solved) else { return };
    let colours = theme::palette(ui);
    let bay = document.bay();
    let runs = seen.work.runs();
    let selected = seen.work.selected.run.as_deref();
    let found = runs.iter().enumerate().find(|(_, run)| Some(run.id.as_str()) == selected);
    // The scroll bar has the margin to itself.
    let margin = Margin { left: 14, right: 2, top: 12, bottom: 12 };
    sheet(colours).inner_margin(margin).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        // Each thing that is selected is shown from its top.
        let shown = (selected, &seen.work.selected.things);
        let scroll = ScrollArea::vertical().id_salt(shown).auto_shrink([false, false]);
        scroll.show(ui, |ui| {
            ui.set_max_width(ui.available_width() - 12.0);
            // What was pointed at comes first; a hose's own figures come before what it is made of.
            let is_hose = matches!(seen.work.selected.things[..], [] | [Thing::Hose(_)]);
            if !is_hose {
                super::properties(ui, seen, actions);
            }
            let Some((index, run)) = found else {
                if is_hose {
                    super::properties(ui, seen, actions);
                }
                return;
            };
            heading(ui, bay, run);
            match solved.answer.solution.runs.get(index) {
                Some(Ok(run_solved)) => {
                    figures(ui, bay, run, run_solved);
                    installed::installed(ui, bay, index, run_solved, &solved.answer.solution);
                    super::flow::flow(ui, &solved.answer, index);
                    let positions =
                        solved.answer.solution.motion_of(index).map(|(_, positions)| positions);
                    installed::advice(ui, seen, bay, positions);
                    if let Some(positions) = positions {
                        installed::player(ui, seen, positions, actions);
                    }
                }
                Some(Err(missing)) => {
                    ui.colored_label(colours.fail, missing.to_string());
                }
                None => {}
            }
            if is_hose {
                super::properties(ui, seen, actions);
            }
            super::findings::of_run(ui, seen, solved, &run.id, actions);
        });
    });
}

fn port_name<'a>(bay: &'a Bay, id: &'a str) -> &'a str {
    bay.port(id).map_or(id, |port| name_or(&port.name, &port.id))
}

fn heading(ui: &mut Ui, bay: &Bay, run: &Run) {
    let colours = theme::palette(ui);
    ui.label(RichText::new(words::run_name(run)).size(size::HEADING));
    let (from, to) = (port_name(bay, &run.from.port), port_name(bay, &run.to.port));
    ui.label(soft(format!("{from} \u{2192} {to}"), colours));
}

fn figures(ui: &mut Ui, bay: &Bay, run: &Run, solved: &RunSolution) {
    let colours = theme::palette(ui);
    let unit = bay.show_units;
    let (other, step) = match unit {
        LengthUnit::Inch => (LengthUnit::Mm, "1/16 in"),
        LengthUnit::Mm => (LengthUnit::Inch, "1 mm"),
    };
    let cut = Length::from_mm(solved.cut_length_mm);
    let hero = if ui.ctx().content_rect().height() < 860.0 { size::HERO_SMALL } else { size::HERO };
    ui.add_space(2.0);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 14.0;
        ui.with_layout(Layout::left_to_right(Align::Max), |ui| {
            ui.label(RichText::new(cut.bench(unit)).size(hero));
            ui.label(RichText::new(cut.bench(other)).size(size::HEADING).color(colours.soft));
        });
    });
    ui.label(soft(format!("cut length, rounded up to the next {step}"), colours));
    ui.add_space(6.0);
    made_of(ui, solved, unit);
    ui.add_space(8.0);
    facts(ui, bay, run, solved);
}

/// The bar: centre line and slack.
fn made_of(ui: &mut Ui, solved: &RunSolution, unit: LengthUnit) {
    let colours = theme::palette(ui);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 30.0), Sense::hover());
    let share =
        if solved.cut_length_mm > 0.0 { solved.centreline_mm / solved.cut_length_mm } else { 1.0 };
    let bar = rect.with_max_y(rect.min.y + 12.0);
    let split = bar.min.x + bar.width() * share as f32;
    ui.painter().rect_filled(bar.with_max_x(split), 0.0, colours.hose);
    ui.painter().rect_filled(bar.with_min_x(split), 0.0, colours.accent);
    let below = bar.max.y + 4.0;
    let text = |at, align, text: String, colour| {
        ui.painter().text(at, align, text, theme::font(size::SMALL), colour);
    };
    text(
        pos2(rect.min.x, below),
        Align2::LEFT_TOP,
        format!("centre line {}", Length::from_mm(solved.centreline_mm).show(unit)),
        colours.soft,
    );
    text(
        pos2(rect.max.x, below),
        Align2::RIGHT_TOP,
        format!(
            "slack {} %, {}",
            trimmed(solved.slack_pct()),
            Length::from_mm(solved.slack_mm).show(unit)
        ),
        colours.accent_text,
    );
}

fn trimmed(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

fn facts(ui: &mut Ui, bay: &Bay, run: &Run, solved: &RunSolution) {
    let unit = bay.show_units;
    let colours = theme::palette(ui);
    for (side, fitting) in [(Side::A, &solved.from), (Side::B, &solved.to)] {
        let source = fitting.end.set_back_source();
        let name = format!("Set-back {}, {}", side.letter(), bend_word(fitting));
        fact_in(
            ui,
            [&name, port_name(bay, &run.end(side).port)],
            &Length::from_mm(fitting.set_back_mm).show(unit),
            Some((source.mark.word(), &source.to_string())),
            colours.ink,
        );
    }
    fact(ui, "Overall length", &Length::from_mm(solved.overall_mm).show(unit), None);
    fact(ui, "Clock angle, B from A", &elbows(solved), None);
    if let Some(clock) = solved.clock_between_deg {
        super::dial::dial(ui, clock);
    }
    fact_in(
        ui,
        ["Tightest bend, centre line", &minimum(solved, unit)],
        &tightest(solved, unit),
        None,
        radius_colour(colours, solved.min_radius_mm, solved),
    );
    let state = leak_test::tested(bay, run).state;
    let colour = if state == TestState::Failed { colours.fail } else { colours.ink };
    fact_in(ui, ["Test", ""], tested(state), None, colour);
}

fn tested(state: TestState) -> &'static str {
    match state {
        TestState::NotTested => "not done",
        TestState::Passed => "passed",
        TestState::Failed => "FAILED: do not use",
        TestState::Incomplete => "incomplete",
    }
}

fn bend_word(end: &EndSolution) -> String {
    if end.end.is_elbow() {
        format!("{} end", Angle::from_deg(end.end.angle_deg).show())
    } else {
        "straight".to_owned()
    }
}

fn elbows(solved: &RunSolution) -> String {
    match (solved.clock_between_deg, solved.from.end.is_elbow(), solved.to.end.is_elbow()) {
        (Some(clock), ..) => Angle::from_deg(clock).show(),
        (None, true, true) => "not defined: it turns straight back".to_owned(),
        (None, false, false) => "no elbow".to_owned(),
        (None, ..) => "one elbow only".to_owned(),
    }
}

fn minimum(solved: &RunSolution, unit: LengthUnit) -> String {
    format!("minimum {}", Length::from_mm(solved.radius_limit_mm).show(unit))
}

fn tightest(solved: &RunSolution, unit: LengthUnit) -> String {
    let shown = solved.min_radius_mm.map(|radius| Length::from_mm(radius).show(unit));
    shown.unwrap_or_else(|| "straight".to_owned())
}
