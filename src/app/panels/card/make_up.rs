//! What the length is made of: centre line, slack, end fittings.

use eframe::egui::{Align2, Sense, Ui, pos2, vec2};

use super::fact::{fact, fact_in};
use super::{dial, port_name};
use crate::app::theme::{self, size};
use crate::engine::leak_test::{self, TestState};
use crate::engine::{EndSolution, RunSolution};
use crate::model::{Bay, Run, Side};
use crate::units::{Angle, Length, LengthUnit, Measure};

/// In a few words.
pub(super) fn summary(solved: &RunSolution, unit: LengthUnit) -> String {
    let show = |mm: f64| Length::from_mm(mm).show(unit);
    format!(
        "overall {}, slack {}",
        show(solved.overall_mm),
        Measure::Percent.show(solved.slack_pct())
    )
}

pub(super) fn show(ui: &mut Ui, bay: &Bay, run: &Run, solved: &RunSolution) {
    ui.add_space(4.0);
    made_of(ui, solved, bay.show_units);
    ui.add_space(6.0);
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
            "slack {}, {}",
            Measure::Percent.show(solved.slack_pct()),
            Length::from_mm(solved.slack_mm).show(unit)
        ),
        colours.accent_text,
    );
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
            Some((&source.word(), &source.to_string())),
            colours.ink,
        );
    }
    fact(ui, "Overall length", &Length::from_mm(solved.overall_mm).show(unit), None);
    fact(ui, "Clock angle, B from A", &elbows(solved), None);
    if let Some(clock) = solved.clock_between_deg {
        dial::dial(ui, clock);
    }
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
