//! What is known of the hose: what is nearest to its limit, what to fix, and all else folded away.

use eframe::egui::{Id, Label, Ui};

use super::{fact, flow, installed, make_up};
use crate::app::actions::Action;
use crate::app::panels::{findings, soft};
use crate::app::seen::Seen;
use crate::app::solved::Solved;
use crate::app::theme;
use crate::app::widgets::folded;
use crate::checks::Severity;
use crate::engine::RunSolution;
use crate::model::Run;
use crate::report::flow::drop_in_words;
use crate::report::margins::margins;
use crate::units::{Length, LengthUnit};

/// So many margins are shown, the smallest first.
const MARGINS: usize = 3;
/// A window at least this high has room for more than the margins, points.
const ROOMY: f32 = 1000.0;

pub(super) fn show(
    ui: &mut Ui,
    seen: &Seen<'_>,
    solved: &Solved,
    index: usize,
    run: &Run,
    actions: &mut Vec<Action>,
) {
    let colours = theme::palette(ui);
    match solved.answer.solution.runs.get(index) {
        Some(Ok(of_run)) => {
            nearest_to_limits(ui, solved, index);
            findings::of_run(ui, seen, solved, &run.id, actions);
            ui.add_space(6.0);
            ui.push_id(Id::unique("result"), |ui| {
                groups(ui, seen, solved, index, (run, of_run), actions);
            });
        }
        Some(Err(missing)) => {
            let text = soft(missing.to_string(), colours).color(colours.fail);
            ui.add(Label::new(text).wrap());
            findings::of_run(ui, seen, solved, &run.id, actions);
        }
        None => {}
    }
}

fn nearest_to_limits(ui: &mut Ui, solved: &Solved, index: usize) {
    let colours = theme::palette(ui);
    for margin in margins(&solved.answer, index).into_iter().take(MARGINS) {
        let colour = match margin.past {
            Some(Severity::Fail) => colours.fail,
            Some(_) => colours.warn,
            None => colours.ink,
        };
        fact::fact_in(ui, [margin.name, &margin.limit], &margin.value, None, colour);
    }
}

fn groups(
    ui: &mut Ui,
    seen: &Seen<'_>,
    solved: &Solved,
    index: usize,
    (run, of_run): (&Run, &RunSolution),
    actions: &mut Vec<Action>,
) {
    let answer = &solved.answer;
    let is_roomy = ui.ctx().content_rect().height() >= ROOMY;
    let (bay, unit) = (answer.bay(), answer.bay().show_units);
    folded(ui, "Make-up", &make_up::summary(of_run, unit), is_roomy, |ui| {
        make_up::show(ui, bay, run, of_run);
    });
    let summary = installed_in_short(solved, index, unit);
    folded(ui, "Shape and clearance", &summary, false, |ui| {
        installed::installed(ui, bay, index, of_run, &answer.solution);
        let positions = answer.solution.motion_of(index).map(|(_, positions)| positions);
        installed::advice(ui, seen, bay, positions);
        if let Some(positions) = positions {
            installed::player(ui, seen, positions, actions);
        }
    });
    if run.service.flow_lpm.is_some() {
        let drop = answer.flow(index).and_then(|flow| flow.as_ref().ok());
        let drop = drop.map_or_else(
            || "not known".to_owned(),
            |flow| format!("pressure drop {}", drop_in_words(flow, unit)),
        );
        folded(ui, "Flow", &drop, false, |ui| flow::flow(ui, answer, index));
    }
}

/// How far the hose lies from where it was drawn.
fn installed_in_short(solved: &Solved, index: usize, unit: LengthUnit) -> String {
    let bulge = solved.answer.solution.lay_of(index).map(|lay| lay.installed.bulge.mm);
    bulge.map_or_else(String::new, |mm| {
        format!("up to {} off the drawn route", Length::from_mm(mm).show(unit))
    })
}
